"""Several laid-out parts onto one page: the engine's finished objects, joined before they are written.

Nothing is drawn anew. A page's content becomes the contents of its parts, each moved to its place; the tags, links,
bookmarks and destinations that pointed to a part point to the page and move along.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pydyf

from explainer.render.press.sheet import Placement

_POINTS_PER_MM = 72 / 25.4


class _Move:
    """What happens to one part: the page it joins, shift [pt], where its marked content counts from."""

    def __init__(self, part: Any, page: Any, placement: Placement, first_mark: int) -> None:
        self.part, self.page, self.first_mark = part, page, first_mark
        self.right = placement.left_mm * _POINTS_PER_MM
        self.up = page["MediaBox"][3] - placement.top_mm * _POINTS_PER_MM - part["MediaBox"][3]

    def matrix(self) -> bytes:
        """The move as an operation of the page's content."""
        return f"1 0 0 1 {self.right:.4f} {self.up:.4f} cm".encode()

    def point(self, x: float, y: float) -> tuple[float, float]:
        """A point of the part, on the page."""
        return round(x + self.right, 3), round(y + self.up, 3)

    def box(self, box: Sequence[float]) -> list[float]:
        """A rectangle of the part, on the page."""
        return [*self.point(box[0], box[1]), *self.point(box[2], box[3])]


def impose(pdf: Any, placements: Sequence[Placement]) -> None:
    """Join the parts into the pages.

    The document holds the parts first and then one page for each page of paper (with its foot), in order.
    """
    numbers = pdf.pages["Kids"][::3]
    parts = [pdf.objects[number] for number in numbers[: len(placements)]]
    pages = [pdf.objects[number] for number in numbers[len(placements) :]]
    marks = _MarkLists(pdf)
    moves: dict[bytes, _Move] = {}
    for part, placement in zip(parts, placements, strict=True):
        page = pages[placement.page]
        moves[part.reference] = _Move(part, page, placement, len(marks.of(page)))
        marks.of(page).extend(marks.of(part))
    for page in pages:
        _join(pdf, page, [move for move in moves.values() if move.page is page])
    _move_tags(pdf, moves)
    _move_destinations(pdf, moves)
    marks.drop(parts)
    pdf.pages["Kids"][:] = [item for page in pages for item in (page.number, 0, "R")]
    pdf.pages["Count"] = len(pages)
    for part in parts:
        part.clear()


class _MarkLists:
    """The parent tree: for each page the list of tags that its marked contents belong to, in order."""

    def __init__(self, pdf: Any) -> None:
        root = pdf.objects[int(pdf.catalog["StructTreeRoot"].split()[0])]
        self._flat = pdf.objects[int(root["ParentTree"].split()[0])]["Nums"]

    def of(self, page: Any) -> Any:
        """The page's own list."""
        return self._flat[self._flat.index(page["StructParents"]) + 1]

    def drop(self, pages: Sequence[Any]) -> None:
        """Take the lists of these pages out. Keys and lists alternate, and only keys are plain numbers."""
        gone = {page["StructParents"] for page in pages}
        kept = [
            item
            for key, value in zip(self._flat[::2], self._flat[1::2], strict=True)
            if key not in gone
            for item in (key, value)
        ]
        self._flat[:] = kept


def _join(pdf: Any, page: Any, moves: Sequence[_Move]) -> None:
    """Draw the moved parts on the page, over its own content, and take over their annotations."""
    stream = pdf.objects[int(page["Contents"].split()[0])]
    own = list(stream.stream)
    stream.stream[:] = [b"q", *own, b"Q"]
    for move in moves:
        contents = pdf.objects[int(move.part["Contents"].split()[0])].stream
        for item in contents:
            if isinstance(item, dict) and "MCID" in item:
                item["MCID"] += move.first_mark
        stream.stream.extend([b"q", move.matrix(), *contents, b"Q"])
        contents.clear()
        for reference in move.part.get("Annots", ()):
            annotation = pdf.objects[int(reference.split()[0])]
            annotation["Rect"] = pydyf.Array(move.box(annotation["Rect"]))
            page.setdefault("Annots", pydyf.Array()).append(reference)


def _move_tags(pdf: Any, moves: dict[bytes, _Move]) -> None:
    """Let each tag and each reference to an annotation point to the page, its contents counted anew."""
    for item in pdf.objects:
        move = moves.get(item["Pg"]) if isinstance(item, dict) and "Pg" in item else None
        if move is None:
            continue
        item["Pg"] = move.page.reference
        if "K" in item:
            item["K"][:] = [kid + move.first_mark if isinstance(kid, int) else kid for kid in item["K"]]
        if "BBox" in item.get("A", ()):
            item["A"]["BBox"][:] = move.box(item["A"]["BBox"])


def _move_destinations(pdf: Any, moves: dict[bytes, _Move]) -> None:
    """Let bookmarks and named destinations lead to the page."""
    names = pdf.catalog.get("Names", {}).get("Dests", {}).get("Names", [])
    found = [item for item in names if isinstance(item, list)]
    found += [item["Dest"] for item in pdf.objects if isinstance(item, dict) and isinstance(item.get("Dest"), list)]
    for target in found:
        move = moves.get(target[0])
        if move is not None:
            target[0] = move.page.reference
            target[2:4] = move.point(target[2], target[3])
