"""Where everything goes: wide parts, pairs and columns of running text, one after the other down the pages.

The engine lays out one column quickly and several columns slowly, because it balances by trial. So running text is laid
out as a row of narrow pages, each as wide as a column and as high as the room it will stand in; `impose` then puts them
side by side. Columns that end above a wide part are balanced here, by one more layout of that run alone.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal, NamedTuple

from explainer.render.sheet import Placement, Sheet, part_css

BESIDE = "<!--beside-->"  # between the halves of a pair
END = "part-end"
_END_MARK = f'<div id="{END}"></div>'
_LEAST_ROOM_MM = 45.0  # with less room than this, a part begins on the next page
_SLACK_MM = 10.0  # columns cannot be cut to equal length: lines and figures stay whole
_TRIES = 3
_WIDTH = re.compile(r'<(?:figure|div)\b[^>]*\bstyle="[^"]*\bwidth:\s*([\d.]+)mm')
_TOLERANCE_MM = 1.5  # a figure may stand this far into the gap between columns
_MM_PER_PX = 25.4 / 96

Render = Callable[[str, str], list[Any]]  # html of a part and its page rules, to the engine's pages
Kind = Literal["wide", "pair", "columns"]


class Part(NamedTuple):
    """A piece of the document that is set over the full width, in columns, or as a pair: one half beside the other."""

    kind: Kind
    html: str


@dataclass
class Layout:
    """Fills sheets from the top. `pages` are the engine's pages of all parts so far, `placements` their places.

    With `short_columns` running text may begin below something else; a figure may prove too tall for that.
    """

    on: Sheet
    direction: str
    render: Render
    short_columns: bool = True
    pages: list[Any] = field(default_factory=list)
    placements: list[Placement] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._page = 0
        self._used_mm = [0.0] * self.on.columns  # in each column of the page

    def add_all(self, parts: Sequence[Part]) -> None:
        """Place the parts in order. Only the last may leave its columns unequal."""
        runs = _runs(parts, self.on.set_column_mm)
        for number, part in enumerate(runs):
            self._find_room(part.kind)
            if part.kind == "wide":
                self._add_wide(part.html)
            elif part.kind == "columns" or not self._add_pair(*part.html.split(BESIDE)):
                self._add_columns(part.html, balanced=number < len(runs) - 1)

    @property
    def page_count(self) -> int:
        """How many sheets are used."""
        return max(placement.page for placement in self.placements) + 1

    def _find_room(self, kind: Kind) -> None:
        least_mm = _LEAST_ROOM_MM if kind != "columns" or self.short_columns else self.on.set_height_mm
        if self.on.set_height_mm - max(self._used_mm) < least_mm:
            self._turn_over()

    def _turn_over(self) -> None:
        self._page, self._used_mm = self._page + 1, [0.0] * self.on.columns

    def _rooms_mm(self) -> dict[int, float]:
        return {column: self.on.set_height_mm - used_mm for column, used_mm in enumerate(self._used_mm)}

    def _set(self, html: str, width_mm: float, heights_mm: dict[int, float]) -> list[Any]:
        return self.render(html + _END_MARK, part_css(width_mm, self.on.set_height_mm, heights_mm))

    def _place(self, page: Any, turn: int, column: int) -> None:
        """Put a laid-out page into a column, so many sheets further on; what is there stays above it."""
        top_mm = self._used_mm[column] if turn == 0 else 0.0
        self.pages.append(page)
        self.placements.append(self.on.place(self._page + turn, column, top_mm, self.direction))

    def _add_wide(self, html: str) -> None:
        """Set over the full width; begun on the next page if it fits whole there, and little of this one is left."""
        width_mm, top_mm = self.on.set_width_mm, max(self._used_mm)
        pages = self._set(html, width_mm, {0: self.on.set_height_mm - top_mm})
        if len(pages) > 1 and self.on.set_height_mm * 0.75 < top_mm:
            whole = self._set(html, width_mm, {})
            if len(whole) == 1:
                self._turn_over()
                pages, top_mm = whole, 0.0
        self._used_mm = [top_mm] * self.on.columns
        # it begins at the left margin: in the first column in reading order, or in the last
        at_left = 0 if self.direction == "ltr" else self.on.columns - 1
        for turn, page in enumerate(pages):
            self._place(page, turn, at_left)
        end_mm = _end_mm(pages) + (top_mm if len(pages) == 1 else 0.0)
        self._page, self._used_mm = self._page + len(pages) - 1, [end_mm] * self.on.columns

    def _add_pair(self, first: str, second: str = "") -> bool:
        """Set two halves side by side, each in a column of its own; False if there is no room for that."""
        room_mm = {0: self._rooms_mm()[0]}
        halves = [self._set(half, self.on.set_column_mm, room_mm) for half in (first, second) if half.strip()]
        if len(halves) > self.on.columns or any(len(pages) > 1 for pages in halves):
            return False
        for column, pages in enumerate(halves):
            self._place(pages[0], 0, column)
            self._used_mm[column] += _end_mm(pages)
        return True

    def _add_columns(self, html: str, *, balanced: bool) -> None:
        rooms_mm, count = self._rooms_mm(), self.on.columns
        pages = self._set(html, self.on.set_column_mm, rooms_mm)
        end_mm = self.on.set_height_mm
        if balanced:
            pages, end_mm = self._balanced(html, pages, rooms_mm)
        for number, page in enumerate(pages):
            self._place(page, *divmod(number, count))
        turns = (len(pages) - 1) // count
        above_mm = max(self._used_mm) if turns == 0 else 0.0
        self._page, self._used_mm = self._page + turns, [min(end_mm + above_mm, self.on.set_height_mm)] * count

    def _balanced(self, html: str, pages: list[Any], rooms_mm: dict[int, float]) -> tuple[list[Any], float]:
        """The run again, with its last sheet's columns cut to equal height; as it was if that does not work out."""
        count = self.on.columns
        last = (len(pages) - 1) // count * count
        room_mm = min(rooms_mm.get(column, self.on.set_height_mm) for column in range(last, last + count))
        full_columns = len(pages) - 1 - last
        height_mm = (full_columns * room_mm + _end_mm(pages)) / count
        for _ in range(_TRIES if count > 1 else 0):
            height_mm += _SLACK_MM
            if height_mm >= room_mm:
                break
            cut = dict.fromkeys(range(last, last + count), height_mm)
            tried = self._set(html, self.on.set_column_mm, rooms_mm | cut)
            spilt = len(tried) - last - count
            if spilt <= 0:
                return tried, height_mm
            height_mm += ((spilt - 1) * height_mm + _end_mm(tried)) / count
        return pages, room_mm if full_columns else _end_mm(pages)


def _runs(parts: Sequence[Part], column_mm: float) -> list[Part]:
    """The parts joined where neighbours are set alike. A part whose figures are wider than a column is set wide."""
    runs: list[Part] = []
    for part in parts:
        widest_mm = max((float(width) for width in _WIDTH.findall(part.html)), default=0.0)
        kind: Kind = "wide" if widest_mm > column_mm + _TOLERANCE_MM else part.kind
        if runs and runs[-1].kind == kind != "pair":
            runs[-1] = Part(kind, runs[-1].html + part.html)
        else:
            runs.append(Part(kind, part.html))
    return runs


def _end_mm(pages: Sequence[Any]) -> float:
    """How far down its last page a part reaches."""
    return float(pages[-1].anchors[END][1]) * _MM_PER_PX
