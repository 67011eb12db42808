"""Where a set block stands on paper, and the engine's page rules for the sheets themselves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple


class Placement(NamedTuple):
    """Where a set block goes: the page, counted from 0, and its top left corner there [mm]."""

    page: int
    left_mm: float
    top_mm: float


class Paper(NamedTuple):
    """A sheet: its size, its side margins, and how high the foot of the first page and of the others begins [mm]."""

    width_mm: float
    height_mm: float
    side_mm: float
    first_foot_mm: float
    foot_mm: float


def sheets_html(feet: Sequence[str]) -> str:
    """A sheet for each foot. A running element stands outside the reading order."""
    return "".join(f'<div class="leaf"><div class="foot">{foot}</div></div>' for foot in feet)


def sheets_css(paper: Paper) -> str:
    """The page rules of the sheets: empty but for the foot, which begins so far above the lower edge."""
    return (
        f"@page {{ size: {paper.width_mm}mm {paper.height_mm}mm; margin: 0 {paper.side_mm}mm {paper.foot_mm}mm;"
        " @bottom-center { content: element(foot); width: 100%; vertical-align: top } }"
        f" @page :first {{ margin-bottom: {paper.first_foot_mm}mm }}"
        " .foot { position: running(foot) } .leaf { break-after: page } .leaf:last-child { break-after: auto }"
    )
