"""The sheet of paper and its grid: margins and columns of each edition, and the engine's page rules that follow."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple, TypedDict

from explainer.errors import RenderError


class _Grid(TypedDict):
    """The part of a sheet that the edition decides."""

    side_mm: float
    top_mm: float
    bottom_mm: float
    columns: int
    gap_mm: float
    scale: float


PAPERS_MM = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
_EDITIONS: dict[str, _Grid] = {
    "standard": {"side_mm": 13, "top_mm": 9, "bottom_mm": 14, "columns": 2, "gap_mm": 6, "scale": 1.0},
    "large-print": {"side_mm": 16, "top_mm": 14, "bottom_mm": 21, "columns": 1, "gap_mm": 0, "scale": 1.5},
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One page's geometry: paper, margins and columns [mm], and how much larger than set it is printed.

    Parts are laid out at the sizes of the style sheets. Large print is the same setting, magnified as a whole: words,
    figures and their labels keep their proportions. Lengths named `set_` are those of the setting, before that.
    """

    width_mm: float
    height_mm: float
    side_mm: float
    top_mm: float
    bottom_mm: float
    columns: int
    gap_mm: float
    scale: float

    @property
    def set_width_mm(self) -> float:
        """Between the side margins."""
        return (self.width_mm - 2 * self.side_mm) / self.scale

    @property
    def set_height_mm(self) -> float:
        """Between the top and bottom margins; the page foot stands below."""
        return (self.height_mm - self.top_mm - self.bottom_mm) / self.scale

    @property
    def set_column_mm(self) -> float:
        """One column's width."""
        return (self.set_width_mm - (self.columns - 1) * self.gap_mm) / self.columns

    def place(self, page: int, column: int, set_top_mm: float, direction: str) -> Placement:
        """The place on a page of what is set so far down in a column; columns count from 0 in reading order."""
        across = self.columns - 1 - column if direction == "rtl" else column
        left_mm = self.side_mm + across * (self.set_column_mm + self.gap_mm) * self.scale
        return Placement(page, left_mm, self.top_mm + set_top_mm * self.scale, self.scale)


class Placement(NamedTuple):
    """Where a laid-out part goes: the page, counted from 0, its top left corner there [mm], its magnification."""

    page: int
    left_mm: float
    top_mm: float
    scale: float


def sheet(paper: str, edition: str) -> Sheet:
    """The geometry of an edition on a paper."""
    if paper not in PAPERS_MM:
        raise RenderError(f"the paper is one of {', '.join(PAPERS_MM)}, not {paper!r}")
    if edition not in _EDITIONS:
        raise RenderError(f"the edition is one of {', '.join(_EDITIONS)}, not {edition!r}")
    width, height = PAPERS_MM[paper]
    return Sheet(width_mm=width, height_mm=height, **_EDITIONS[edition])


def foot_css(on: Sheet) -> str:
    """The page rules of the foot: whole sheets that are otherwise empty."""
    return (
        f"@page {{ size: {on.width_mm}mm {on.height_mm}mm; margin: {on.top_mm}mm {on.side_mm}mm {on.bottom_mm}mm;"
        "@bottom-center { content: element(foot); width: 100%; vertical-align: top; padding-top: 3mm } }"
        ".leaf { break-after: page } .leaf:last-child { break-after: auto }"
    )
