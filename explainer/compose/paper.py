"""The paper: its size, its fold and the part of it that blocks stand on. Lengths in mm, from the upper edge."""

from __future__ import annotations

from dataclasses import dataclass

LIVE_MM = 180.0
"""Between the side margins, on every paper."""

GUTTER_MM = 6.0
COLUMN_MM = (LIVE_MM - GUTTER_MM) / 2
FOLD_FREE_MM = 4.0
"""Above and below the fold no box and no picture stands."""

_HEAD_MM = 11.0
_FOOT_MM = {True: 18.5, False: 14.5}  # the first page's foot has two lines
_LARGE_FOOT_MM = {True: 34.0, False: 18.0}


@dataclass(frozen=True, slots=True)
class Paper:
    """One sheet. `folds` when it is folded once across, as a leaflet in the parcel is; `large` for large print."""

    width_mm: float
    height_mm: float
    folds: bool = True
    large: bool = False

    @property
    def side_mm(self) -> float:
        """The margin on either side."""
        return (self.width_mm - LIVE_MM) / 2

    @property
    def top_mm(self) -> float:
        """Where the first block begins."""
        return _HEAD_MM

    @property
    def fold_mm(self) -> float:
        """Where the sheet is folded."""
        return self.height_mm / 2

    def foot_mm(self, page: int) -> float:
        """How far above the lower edge the foot of a page begins; pages count from 1."""
        return _LARGE_FOOT_MM[page == 1] if self.large else _FOOT_MM[page == 1]

    def bottom_mm(self, page: int) -> float:
        """Where the last block of a page ends at the latest."""
        return self.height_mm - self.foot_mm(page) - 1.5


PAPERS = {"A4": Paper(210.0, 297.0), "Letter": Paper(215.9, 279.4)}
