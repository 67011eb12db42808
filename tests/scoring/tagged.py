"""The tags of a PDF with the text that hangs on them, as somebody hears it who has it read aloud."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import Any

import pikepdf
from render.glyphs import Glyph


@dataclass
class Node:
    """One tag: its kind, what hangs below it in order, and its attributes."""

    kind: str
    tag: Any
    kids: list[Node | list[Glyph]] = field(default_factory=list)

    @cached_property
    def letters(self) -> list[Glyph]:
        """All letters below, in reading order."""
        return [glyph for kid in self.kids for glyph in (kid.letters if isinstance(kid, Node) else kid)]

    @cached_property
    def text(self) -> str:
        """The words below as a reading program says them; a blank where the line or the place changes."""
        runs = list(self.runs())
        if all(said is None for said, _ in runs):
            return joined(self.letters)
        blanks = [" " if _apart(before, after) else "" for (_, before), (_, after) in pairwise(runs)]
        words = [drawn(letters) if said is None else said for said, letters in runs]
        return " ".join("".join(map("".join, zip(["", *blanks], words, strict=True))).split())

    @property
    def said(self) -> str | None:
        """The words that the tag gives for what is drawn, in the order of reading; none where that order is drawn."""
        return str(self.tag.ActualText) if self.tag is not None and "/ActualText" in self.tag else None

    def runs(self) -> Iterator[tuple[str | None, list[Glyph]]]:
        """Each run of letters below with the words that are given for it."""
        for kid in self.kids:
            if isinstance(kid, Node):
                yield from kid.runs()
            elif kid:
                yield self.said, kid

    @property
    def alt(self) -> str:
        return str(self.tag.Alt) if self.tag is not None and "/Alt" in self.tag else ""

    @property
    def lang(self) -> str:
        return str(self.tag.Lang) if self.tag is not None and "/Lang" in self.tag else ""

    def attribute(self, name: str) -> Any:
        """An attribute of the tag, or None."""
        given = self.tag.get("/A") if self.tag is not None else None
        each = given if isinstance(given, pikepdf.Array) else [given]
        return next((one[name] for one in each if isinstance(one, pikepdf.Dictionary) and name in one), None)

    def walk(self) -> Iterator[Node]:
        """This tag and all below it, in order."""
        yield self
        for kid in self.kids:
            if isinstance(kid, Node):
                yield from kid.walk()

    def all(self, *kinds: str) -> list[Node]:
        """Every tag of these kinds at or below this one, in reading order."""
        return [node for node in self.walk() if node.kind in kinds]


def joined(letters: list[Glyph]) -> str:
    """Letters to words: a blank at every jump that is wider than a fifth of the size."""
    parts: list[str] = []
    before: Glyph | None = None
    for glyph in letters:
        if before is not None:
            gap = glyph.x - before.x - before.advance
            same_line = glyph.page == before.page and abs(glyph.y - before.y) < 0.3 * before.size
            if not same_line or gap > 0.2 * before.size or gap < -0.6 * before.size:
                parts.append(" ")
        parts.append(glyph.text)
        before = glyph
    return " ".join("".join(parts).split())


def drawn(letters: list[Glyph]) -> str:
    """The letters in the order of drawing."""
    return "".join(glyph.text for glyph in letters)


def _apart(before: list[Glyph], after: list[Glyph]) -> bool:
    """Whether two runs stand on different lines, or with a gap between them, whichever of them is on the left."""
    one, other = before[0], after[0]
    if one.page != other.page or abs(one.y - other.y) >= 0.3 * one.size:
        return True
    left = max(min(glyph.x for glyph in run) for run in (before, after))
    right = min(max(glyph.x + glyph.advance for glyph in run) for run in (before, after))
    return left - right > 0.2 * one.size


def tagged(pdf: Any, letters: list[Glyph]) -> Node:
    """The tag tree of an opened PDF with its letters."""
    pages = {page.objgen: number for number, page in enumerate(pdf.pages)}
    by_mark: dict[tuple[int, int], list[Glyph]] = defaultdict(list)
    for glyph in letters:
        if glyph.mark is not None and not glyph.artifact:
            by_mark[glyph.page, glyph.mark].append(glyph)
    root = Node("/Root", None)
    if "/StructTreeRoot" in pdf.Root:
        _grow(root, pdf.Root.StructTreeRoot.K, None, pages, by_mark)
    return root


def _grow(node: Node, kids: Any, page: Any, pages: Any, by_mark: Any) -> None:
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if not isinstance(kid, pikepdf.Dictionary):
            node.kids.append(by_mark.get((pages.get(page), int(kid)), []))
        elif "/S" in kid:
            below = Node(str(kid.S), kid)
            node.kids.append(below)
            if "/K" in kid:
                _grow(below, kid.K, kid.Pg.objgen if "/Pg" in kid else page, pages, by_mark)
        elif "/MCID" in kid:
            on = kid.Pg.objgen if "/Pg" in kid else page
            node.kids.append(by_mark.get((pages.get(on), int(kid.MCID)), []))
