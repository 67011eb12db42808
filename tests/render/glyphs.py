"""Every letter on the pages of a PDF, with its place and size as printed: read from the drawing itself.

A small interpreter of the content streams, so that the checks do not rest on what a text extractor makes of the page.
"""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import Any

import pikepdf
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]
from render.structure import operations

Matrix = tuple[float, float, float, float, float, float]
_ONE: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


@dataclass(frozen=True)
class Glyph:
    """A letter: page from 0, left end and baseline from the page's lower left corner [pt], advance and size [pt].

    `mark` is the number of the marked content it belongs to, `step` the place of its drawing operation on the page.
    """

    page: int
    text: str
    x: float
    y: float
    advance: float
    size: float
    font: str
    colour: tuple[float, ...]
    artifact: bool
    mark: int | None = None
    step: int = 0

    @property
    def bold(self) -> bool:
        return self.font.endswith("Bold")


class _Font:
    """One font of the PDF: what each code stands for and how wide it is."""

    def __init__(self, font: Any) -> None:
        self.name = str(font.BaseFont).split("+")[-1]
        self.texts = dict(_mappings(font.ToUnicode.read_bytes().decode("ascii")))
        self.widths: dict[int, float] = {}
        descendant = font.DescendantFonts[0]
        flat = list(descendant.get("/W", []))
        while flat:
            first, widths = int(flat.pop(0)), flat.pop(0)
            for step, width in enumerate(widths):
                self.widths[first + step] = float(width)
        self.file = descendant.FontDescriptor.FontFile2.read_bytes()

    def x_height(self) -> float:
        """The height of the letter x as a part of the size, measured in the embedded outline."""
        code = next(code for code, text in self.texts.items() if text == "x")
        opened = TTFont(io.BytesIO(self.file))
        glyph = opened["glyf"][opened.getGlyphOrder()[code]]
        return float(glyph.yMax) / float(opened["head"].unitsPerEm)


def _mappings(cmap: str) -> Iterator[tuple[int, str]]:
    for code, text in re.findall(r"<([0-9a-fA-F]{4})> <([0-9a-fA-F]*)>", cmap):
        yield int(code, 16), bytes.fromhex(text).decode("utf-16-be")


def fonts(data: bytes) -> dict[str, _Font]:
    """The fonts of a PDF by name."""
    found = {}
    with pikepdf.open(io.BytesIO(data)) as pdf:
        for page in pdf.pages:
            for font in page.Resources.get("/Font", {}).values():
                made = _Font(font)
                found[made.name] = made
    return found


def glyphs(data: bytes) -> list[Glyph]:
    """Every letter that the pages draw, in the order of drawing."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        cache: dict[str, _Font] = {}
        return [glyph for number, page in enumerate(pdf.pages) for glyph in _Reader(number, page, cache).read()]


class _Reader:
    """Follows one page's drawing operations and hands out the letters."""

    def __init__(self, number: int, page: Any, cache: dict[str, _Font]) -> None:
        self.number, self.page, self.cache = number, page, cache
        self.ctm: Matrix = _ONE
        self.text: Matrix = _ONE
        self.font: Any = None
        self.size = 0.0
        self.colour: tuple[float, ...] = (0.0, 0.0, 0.0)
        self.stack: list[tuple[Any, ...]] = []
        self.marks: list[tuple[str, int | None]] = []
        self.step = 0

    def read(self) -> Iterator[Glyph]:
        steps: dict[str, Callable[[Any], object]] = {
            "q": lambda _: self.stack.append((self.ctm, self.font, self.size, self.colour)),
            "Q": lambda _: self._restore(),
            "cm": lambda given: setattr(self, "ctm", _times(_matrix(given), self.ctm)),
            "BMC": lambda given: self.marks.append((str(given[0]), None)),
            "BDC": lambda given: self.marks.append((str(given[0]), _number(given[1]))),
            "EMC": lambda _: self.marks.pop(),
            "rg": lambda given: setattr(self, "colour", tuple(float(part) for part in given)),
            "Tf": self._choose,
            "Tm": lambda given: setattr(self, "text", _matrix(given)),
        }
        for number, (operands, name) in enumerate(operations(self.page)):
            self.step = number
            if name in steps:
                steps[name](operands)
            elif name == "TJ":
                yield from self._show(operands[0])

    def _restore(self) -> None:
        self.ctm, self.font, self.size, self.colour = self.stack.pop()

    def _choose(self, given: Any) -> None:
        key = str(given[0])
        if key not in self.cache:
            self.cache[key] = _Font(self.page.Resources.Font[key])
        self.font, self.size = self.cache[key], float(given[1])

    def _show(self, pieces: Any) -> Iterator[Glyph]:
        for piece in pieces:
            if not isinstance(piece, pikepdf.String):
                self._go(-float(piece) / 1000 * self.size)
                continue
            for code in _codes(bytes(piece)):
                place = _times(self.text, self.ctm)
                advance = self.font.widths[code] / 1000 * self.size
                yield Glyph(
                    self.number,
                    self.font.texts.get(code, ""),
                    place[4],
                    place[5],
                    advance * place[0],
                    self.size * abs(place[3]),
                    self.font.name,
                    self.colour,
                    any(kind == "/Artifact" for kind, _ in self.marks),
                    next((number for _, number in reversed(self.marks) if number is not None), None),
                    self.step,
                )
                self._go(advance)

    def _go(self, advance: float) -> None:
        self.text = _times((1, 0, 0, 1, advance, 0), self.text)


def _number(properties: Any) -> int | None:
    """The number of a marked content, if it has one."""
    return int(properties.MCID) if isinstance(properties, pikepdf.Dictionary) and "/MCID" in properties else None


def _codes(string: bytes) -> Iterator[int]:
    return (int.from_bytes(string[place : place + 2], "big") for place in range(0, len(string), 2))


def _matrix(operands: Any) -> Matrix:
    a, b, c, d, e, f = (float(part) for part in operands)
    return a, b, c, d, e, f


def _times(left: Matrix, right: Matrix) -> Matrix:
    a, b, c, d, e, f = left
    g, h, i, j, k, m = right
    return a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m


@dataclass(frozen=True)
class Line:
    """The letters on one baseline of one column, from left to right."""

    glyphs: tuple[Glyph, ...]

    @property
    def text(self) -> str:
        return "".join(glyph.text for glyph in self.glyphs).strip()

    @property
    def left(self) -> float:
        return self.glyphs[0].x

    @property
    def right(self) -> float:
        return max(glyph.x + glyph.advance for glyph in self.glyphs if glyph.text.strip())

    @property
    def y(self) -> float:
        return self.glyphs[0].y

    @property
    def size(self) -> float:
        return max(glyph.size for glyph in self.glyphs)


def lines(found: list[Glyph], *, gutter: float | None = None) -> list[Line]:
    """Letters gathered into lines; with a gutter [pt from the left] into those left and right of it."""

    def key(glyph: Glyph) -> tuple[int, bool, float]:
        return glyph.page, gutter is not None and glyph.x >= gutter, -round(glyph.y, 1)

    ordered = sorted((glyph for glyph in found if glyph.text), key=lambda glyph: (*key(glyph), glyph.x))
    made = [Line(tuple(group)) for _, group in groupby(ordered, key)]
    return [line for line in made if line.text]
