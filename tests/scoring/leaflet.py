"""A leaflet that was made, and everything the sheet asks about it: text, letters, tags, source, claims."""

from __future__ import annotations

import hashlib
import io
import pickle
import subprocess
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any, NamedTuple

import pikepdf
from render.glyphs import Glyph, Line, glyphs, lines
from render.shapes import Shape, shapes
from scoring.source import Source
from scoring.tagged import Node, drawn, tagged

from explainer.compose.document import Document
from explainer.compose.explained import explained
from explainer.compose.plan import compose
from explainer.errors import ExplainerError
from explainer.optics.claims import Explanation
from explainer.orders import Order, read_order
from explainer.render import leaflet as maker
from explainer.render.language import Language, language

GALLERY = Path(__file__).parents[1] / "gallery"
MM = 72 / 25.4


class Case(NamedTuple):
    """One leaflet of the gallery: which order, which edition, paper and language."""

    order: Path
    edition: str = "standard"
    paper: str = "A4"
    language: str = "en-GB"

    @property
    def name(self) -> str:
        return f"{self.order.stem} {self.edition} {self.paper} {self.language}"


def gallery() -> list[Path]:
    """All orders of the gallery."""
    return sorted(path for path in GALLERY.rglob("*.toml") if path.name != "workshop.toml")


@dataclass
class Made:
    """A finished leaflet. `html` is the page as handed to the engine; the PDF is what is measured."""

    case: Case
    pdf: bytes
    html: str
    said: tuple[str, ...]
    seconds: float = 0.0
    folder: Path | None = None

    @cached_property
    def contrast(self) -> tuple[float, Glyph]:
        """The least contrast of a letter with what lies under it, and the letter."""
        from scoring.colour import contrasts

        return min(contrasts(self), key=lambda pair: pair[0])

    def beside(self, **changes: str) -> Made | None:
        """The leaflet of the same order in another edition, paper or language."""
        other = make(self.case._replace(**changes), self.folder)
        return other if isinstance(other, Made) else None

    @cached_property
    def order(self) -> Order:
        return read_order(self.case.order, language=self.case.language)

    @cached_property
    def explanation(self) -> Explanation:
        return explained(self.order)

    @cached_property
    def document(self) -> Document:
        return compose(self.order.spectacles, self.explanation)

    @cached_property
    def spoken(self) -> Language:
        return language(self.case.language)

    @property
    def speech(self) -> str:
        """The language without its country."""
        return self.case.language.partition("-")[0]

    @cached_property
    def source(self) -> Source:
        return Source(self.html)

    @cached_property
    def glyphs(self) -> list[Glyph]:
        return glyphs(self.pdf)

    @cached_property
    def gutter(self) -> float | None:
        """The middle of the page between two columns [pt]; none in large print."""
        width = {"A4": 210 * MM, "Letter": 215.9 * MM}[self.case.paper]
        return width / 2 if self.case.edition == "standard" else None

    @cached_property
    def lines(self) -> list[Line]:
        """All lines outside the page feet, by column."""
        return lines([glyph for glyph in self.glyphs if not glyph.artifact], gutter=self.gutter)

    @cached_property
    def opened(self) -> Any:
        return pikepdf.open(io.BytesIO(self.pdf))

    @cached_property
    def shapes(self) -> list[Shape]:
        return shapes(self.opened)

    @cached_property
    def tags(self) -> Node:
        return tagged(self.opened, self.glyphs)

    @cached_property
    def tag_text(self) -> str:
        """All text in the order in which it is read aloud."""
        return " ".join(self.tags.text.split())

    @cached_property
    def spaceless(self) -> tuple[str, list[Glyph]]:
        """All signs as read aloud, without blanks and list marks, and the letter that each belongs to."""
        pairs = [pair for said, letters in self.tags.runs() for pair in _owned(said, letters)]
        pairs = [(sign, glyph) for sign, glyph in pairs if not sign.isspace() and sign != "•"]
        return "".join(sign for sign, _ in pairs), [glyph for _, glyph in pairs]

    @cached_property
    def text(self) -> str:
        """The words as a text extractor finds them."""
        with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
            file.write(self.pdf)
            file.flush()
            told = subprocess.run(["pdftotext", "-raw", file.name, "-"], capture_output=True, text=True, check=True)
        return told.stdout

    @property
    def pages(self) -> int:
        return len(self.opened.pages)

    def changed(self, **parts: Any) -> Made:
        """The same with other bytes or another source, nothing measured yet: for tests of the checks."""
        given = {
            "case": self.case,
            "pdf": self.pdf,
            "html": self.html,
            "said": self.said,
            "folder": self.folder,
        } | parts
        return Made(**given)


def _owned(said: str | None, letters: list[Glyph]) -> Iterator[tuple[str, Glyph]]:
    """Each sign with the letter that draws it; where words are given, with one about where it is drawn."""
    if said is None or said == drawn(letters):
        yield from ((sign, glyph) for glyph in letters for sign in glyph.text)
        return
    for number, sign in enumerate(said):
        yield sign, letters[-1 - number * len(letters) // len(said)]


class NotMade(NamedTuple):
    """An order that `check` accepts and for which no leaflet came out."""

    case: Case
    reason: str


def make(case: Case, folder: Path | None = None) -> Made | NotMade:
    """The leaflet of a case, once for each folder."""
    kept = folder / f"{hashlib.sha256(case.name.encode()).hexdigest()[:20]}.made" if folder else None
    if kept and kept.is_file():
        found: Made | NotMade = pickle.loads(kept.read_bytes())
        if isinstance(found, Made):
            found.folder = folder
        return found
    made = _make(case)
    if kept:
        aside = kept.with_suffix(f".{time.monotonic_ns()}")
        aside.write_bytes(pickle.dumps(made))
        aside.replace(kept)
    if isinstance(made, Made):
        made.folder = folder
    return made


def _make(case: Case) -> Made | NotMade:
    start = time.perf_counter()
    try:
        order = read_order(case.order, language=case.language)
        leaflet = maker.make_leaflet(order, edition=case.edition, paper=case.paper)  # type: ignore[arg-type]
    except ExplainerError as error:
        return NotMade(case, f"{type(error).__name__}: {error}")
    return Made(case, leaflet.pdf, leaflet.html, tuple(leaflet.said), time.perf_counter() - start)
