"""The page measures: how the paper is used, and every place where something is torn, cut off or too small."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass

from render.measure import MM
from scoring import colour, columns, faces
from scoring.leaflet import Made


@dataclass(frozen=True)
class PageMeasures:
    """One leaflet's pages in numbers; lists say where."""

    pages: int
    smallest_pt: float
    smallest_x_mm: float
    contrast: float
    empty: float  # of all columns of all pages
    emptiest: float  # the column that ends earliest, those of the last page apart
    where_emptiest: str
    outside: list[str]
    overprinted: list[str]
    orphans: list[str]
    torn: list[str]
    loose_labels: list[str]

    def as_dict(self) -> dict[str, object]:
        return asdict(self)


def measures(made: Made) -> PageMeasures:
    """All page measures of a finished leaflet."""
    low = min(
        (glyph for glyph in made.glyphs if glyph.text.strip()),
        key=lambda glyph: faces.x_height(glyph.font) * glyph.size,
    )
    shares = columns.empty_shares(made)
    inner = {place: share for place, share in shares.items() if place[0] < made.pages - 1} or shares
    emptiest = max(inner, key=lambda place: inner[place])
    return PageMeasures(
        pages=made.pages,
        smallest_pt=round(low.size, 2),
        smallest_x_mm=round(faces.x_height(low.font) * low.size / MM, 2),
        contrast=round(colour.text_contrast(made)[0], 2),
        empty=round(sum(shares.values()) / len(shares), 3),
        emptiest=round(inner[emptiest], 3),
        where_emptiest=f"page {emptiest[0] + 1}, column {emptiest[1] + 1}",
        outside=sorted(set(columns.outside(made))),
        overprinted=sorted(set(columns.overprinted(made))),
        orphans=list(columns.orphan_headings(made)),
        torn=list(columns.split_cautions(made)),
        loose_labels=list(loose_labels(made)),
    )


def loose_labels(made: Made) -> Iterator[str]:
    """Labels of figures that stand outside their figure."""
    pages = {page.objgen: number for number, page in enumerate(made.opened.pages)}
    for node in made.tags.all("/Figure"):
        box = node.attribute("/BBox")
        if box is None or not node.letters:
            continue
        left, low, right, high = (float(side) for side in box)
        page = pages.get(node.tag.Pg.objgen) if "/Pg" in node.tag else node.letters[0].page
        for glyph in node.letters:
            if glyph.page != page or not (left - 2 <= glyph.x <= right + 2 and low - 4 <= glyph.y <= high + 4):
                yield f"page {glyph.page + 1}: a label of {node.alt[:30]!r} stands outside it"
                break
