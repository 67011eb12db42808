"""Every letter on the pages of a PDF, with its place and size as printed: read from the drawing itself.

A small interpreter of the content streams, so that the checks do not rest on what a text extractor makes of the page.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import Any

import pikepdf
from fontTools.ttLib import TTFont

Matrix = tuple[float, float, float, float, float, float]
_ONE: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


@dataclass(frozen=True)
class Glyph:
    """A letter: page from 0, left end and baseline from the page's lower left corner [pt], advance and size [pt]."""

    page: int
    text: str
    x: float
    y: float
    advance: float
    size: float
    font: str
    colour: tuple[float, ...]
    artifact: bool

    @property
    def bold(self) -> bool:
        return self.font.endswith("Bold")


@dataclass
class _State:
    ctm: Matrix = _ONE
    font: Any = None
    size: float = 0.0
    colour: tuple[float, ...] = (0.0, 0.0, 0.0)


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
        return [glyph for number, page in enumerate(pdf.pages) for glyph in _page(number, page, cache)]


def _page(number: int, page: Any, cache: dict[str, _Font]) -> Iterator[Glyph]:
    state, stack = _State(), []
    text: Matrix = _ONE
    marks: list[str] = []
    for operands, operator in pikepdf.parse_content_stream(page):
        name = str(operator)
        if name == "q":
            stack.append(_State(state.ctm, state.font, state.size, state.colour))
        elif name == "Q":
            state = stack.pop()
        elif name == "cm":
            state.ctm = _times(_matrix(operands), state.ctm)
        elif name in ("BMC", "BDC"):
            marks.append(str(operands[0]))
        elif name == "EMC":
            marks.pop()
        elif name == "rg":
            state.colour = tuple(float(part) for part in operands)
        elif name == "Tf":
            key = str(operands[0])
            if key not in cache:
                cache[key] = _Font(page.Resources.Font[key])
            state.font, state.size = cache[key], float(operands[1])
        elif name == "Tm":
            text = _matrix(operands)
        elif name in ("TJ", "Tj"):
            pieces = operands[0] if name == "TJ" else [operands[0]]
            for piece in pieces:
                if isinstance(piece, pikepdf.String):
                    for code in _codes(bytes(piece)):
                        place = _times(text, state.ctm)
                        scale = place[0]
                        advance = state.font.widths[code] / 1000 * state.size
                        yield Glyph(
                            number, state.font.texts.get(code, ""), place[4], place[5], advance * scale,
                            state.size * abs(place[3]), state.font.name, state.colour, "/Artifact" in marks,
                        )
                        text = _times((1, 0, 0, 1, advance, 0), text)
                else:
                    text = _times((1, 0, 0, 1, -float(piece) / 1000 * state.size, 0), text)


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
