"""Where everything goes: wide parts and columns of running text, one after the other down the pages.

The engine lays out one column quickly and several columns slowly, because it balances by trial. So running text is laid
out as a row of narrow pages, each as wide as a column and as high as the room it will stand in; `impose` then puts them
side by side. Columns that end above a wide part are balanced here, by one more layout of that run alone.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal, NamedTuple

from explainer.render.sheet import Placement, Sheet, part_css

END = "part-end"
_END_MARK = f'<div id="{END}"></div>'
_LEAST_ROOM_MM = 50.0  # with less room than this, a part begins on the next page
_SLACK_MM = 6.0  # columns cannot be cut to equal length: lines and figures stay whole
_TRIES = 3
_MM_PER_PX = 25.4 / 96

Render = Callable[[str, str], list[Any]]  # html of a part and its page rules, to the engine's pages


class Part(NamedTuple):
    """A piece of the document that is set over the full width, or in columns."""

    kind: Literal["wide", "columns"]
    html: str


@dataclass
class Layout:
    """Fills sheets from the top. `pages` are the engine's pages of all parts so far, `placements` their places."""

    on: Sheet
    direction: str
    render: Render
    pages: list[Any] = field(default_factory=list)
    placements: list[Placement] = field(default_factory=list)
    _page: int = 0
    _used_mm: float = 0.0

    def add_all(self, parts: Sequence[Part]) -> None:
        """Place the parts in order. Only the last may leave its columns unequal."""
        for number, part in enumerate(parts):
            if self._room_mm < _LEAST_ROOM_MM:
                self._turn_over()
            if part.kind == "wide":
                self._add_wide(part.html)
            else:
                self._add_columns(part.html, balanced=number < len(parts) - 1)

    @property
    def page_count(self) -> int:
        """How many sheets are used."""
        return max(placement.page for placement in self.placements) + 1

    @property
    def _room_mm(self) -> float:
        return self.on.set_height_mm - self._used_mm

    def _turn_over(self) -> None:
        self._page, self._used_mm = self._page + 1, 0.0

    def _set(self, html: str, width_mm: float, heights_mm: dict[int, float]) -> list[Any]:
        return self.render(html + _END_MARK, part_css(width_mm, self.on.set_height_mm, heights_mm))

    def _place(self, pages: Sequence[Any], columns: int) -> None:
        for number, page in enumerate(pages):
            turn, column = divmod(number, columns)
            first = 0 if self.direction == "ltr" or columns > 1 else self.on.columns - 1  # what is wide begins at the left
            top_mm = self._used_mm if turn == 0 else 0.0
            self.pages.append(page)
            self.placements.append(self.on.place(self._page + turn, column + first, top_mm, self.direction))

    def _go_on_below(self, turns: int, end_mm: float) -> None:
        """Move to where the part ended, so many sheets further on."""
        self._used_mm = end_mm + (self._used_mm if turns == 0 else 0.0)
        self._page += turns

    def _add_wide(self, html: str) -> None:
        width_mm = self.on.set_width_mm
        pages = self._set(html, width_mm, {0: self._room_mm})
        if len(pages) > 1 and self._used_mm:
            self._turn_over()
            pages = self._set(html, width_mm, {})
        self._place(pages, 1)
        self._go_on_below(len(pages) - 1, _end_mm(pages))

    def _add_columns(self, html: str, *, balanced: bool) -> None:
        count = self.on.columns
        heights = dict.fromkeys(range(count), self._room_mm)
        pages = self._set(html, self.on.set_column_mm, heights)
        end_mm = self.on.set_height_mm
        if balanced:
            pages, end_mm = self._balanced(html, pages, heights)
        self._place(pages, count)
        self._go_on_below((len(pages) - 1) // count, end_mm)

    def _balanced(self, html: str, pages: list[Any], heights: dict[int, float]) -> tuple[list[Any], float]:
        """The run again, with its last sheet's columns cut to equal height; as it was if that does not work out."""
        count = self.on.columns
        last = (len(pages) - 1) // count * count
        room_mm = heights.get(last, self.on.set_height_mm)
        full_columns = len(pages) - 1 - last
        height_mm = (full_columns * room_mm + _end_mm(pages)) / count
        for _ in range(_TRIES if count > 1 else 0):
            height_mm += _SLACK_MM
            if height_mm >= room_mm:
                break
            cut = dict.fromkeys(range(last, last + count), height_mm)
            tried = self._set(html, self.on.set_column_mm, heights | cut)
            spilt = len(tried) - last - count
            if spilt <= 0:
                return tried, height_mm
            height_mm += ((spilt - 1) * height_mm + _end_mm(tried)) / count
        return pages, room_mm if full_columns else _end_mm(pages)


def _end_mm(pages: Sequence[Any]) -> float:
    """How far down its last page a part reaches."""
    return float(pages[-1].anchors[END][1]) * _MM_PER_PX
