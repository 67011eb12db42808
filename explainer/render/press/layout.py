"""Where the parts of a leaflet go on its sheets: over the full width, side by side, or as running text in columns.

The engine has set each part once; what happens here is arithmetic. Columns are filled from the top with as many strips
as they hold. Columns that end above a wide part are balanced, and the last ones if there is more than one: the highest
end is found at which everything still fits.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import groupby
from typing import Any, Literal, NamedTuple

from explainer.render.press.galley import Piece
from explainer.render.press.sheet import Placement, Sheet
from explainer.render.press.strips import Strip, pictures_in

_LEAST_ROOM_MM = 45.0  # with less room than this, a wide part or a pair begins on the next page
_BALANCED_TO_MM = 0.5
_TOLERANCE_MM = 1.5  # a figure may stand this far into the gap between columns
_WIDTH = re.compile(r'<(?:figure|div)\b[^>]*\bstyle="[^"]*\bwidth:\s*([\d.]+)mm')

Kind = Literal["wide", "pair", "columns"]


def set_kind(kind: Kind, html: str, column_mm: float) -> Kind:
    """How a part is set: wide also if one of its figures is wider than a column."""
    widest_mm = max((float(width) for width in _WIDTH.findall(html)), default=0.0)
    return "wide" if widest_mm > column_mm + _TOLERANCE_MM else kind


class _Item(NamedTuple):
    """A strip in the running text, and the gap [mm] above it if it does not begin a column. Pieces are counted."""

    number: int
    piece: Piece
    strip: Strip
    gap_mm: float


@dataclass
class Layout:
    """Fills sheets from the top. `spilt` are the alternative texts of figures that are taller than a page."""

    on: Sheet
    direction: str
    spilt: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._page = 0
        self._used_mm = [0.0] * self.on.columns  # in each column of the page
        self._placed: list[tuple[Piece, list[Strip], Placement]] = []

    def add_all(self, parts: Sequence[tuple[Kind, Sequence[Piece]]]) -> None:
        """Place the parts in order; neighbours in columns run on."""
        runs: list[tuple[Kind, list[Piece]]] = []
        for kind, pieces in parts:
            if runs and kind == "columns" == runs[-1][0]:
                runs[-1][1].extend(pieces)
            else:
                runs.append((kind, list(pieces)))
        for number, (kind, pieces) in enumerate(runs):
            if kind == "wide":
                self._add_wide(pieces)
            elif kind == "columns" or not self._add_pair(pieces):
                self._add_columns(pieces, is_last=number == len(runs) - 1)

    @property
    def page_count(self) -> int:
        """How many sheets are used."""
        return max(placement.page for _, _, placement in self._placed) + 1

    @property
    def placements(self) -> list[Placement]:
        """The place of each of `pages`."""
        return [placement for _, _, placement in self._placed]

    def pages(self) -> list[Any]:
        """The engine's pages of everything placed so far."""
        return [piece.page(strips) for piece, strips, _ in self._placed]

    def _turn_over(self) -> None:
        self._page, self._used_mm = self._page + 1, [0.0] * self.on.columns

    def _add_wide(self, pieces: Sequence[Piece]) -> None:
        """Over the full width; begun on the next page if it fits whole there, and little of this one is left."""
        full_mm, items = self.on.set_height_mm, _items(pieces)
        top_mm, needed_mm = max(self._used_mm), _extent_mm(items)
        late = full_mm * 0.75 < top_mm and full_mm - top_mm < needed_mm <= full_mm
        if late or full_mm - top_mm < _LEAST_ROOM_MM:
            self._turn_over()
            top_mm = 0.0
        # it begins at the left margin: in the first column in reading order, or in the last
        at_left = 0 if self.direction == "ltr" else self.on.columns - 1
        filled = self._filled(items, [full_mm - top_mm])
        for turn, items in enumerate(filled):
            self._place(items, turn, at_left, top_mm if turn == 0 else 0.0)
        self._page += len(filled) - 1
        end_mm = (top_mm if len(filled) == 1 else 0.0) + _extent_mm(filled[-1]) + filled[-1][-1].piece.below_mm
        self._used_mm = [end_mm] * self.on.columns

    def _add_pair(self, halves: Sequence[Piece]) -> bool:
        """Two halves side by side, each in a column of its own; False if there is no room for that."""
        if self.on.set_height_mm - max(self._used_mm) < _LEAST_ROOM_MM:
            self._turn_over()
        rooms_mm = [self.on.set_height_mm - used_mm for used_mm in self._used_mm]
        if len(halves) > len(rooms_mm) or any(half.height_mm > rooms_mm[n] for n, half in enumerate(halves)):
            return False
        for column, half in enumerate(halves):
            self._place(_items([half]), 0, column, self._used_mm[column])
            self._used_mm[column] += half.height_mm + half.below_mm
        return True

    def _add_columns(self, pieces: Sequence[Piece], *, is_last: bool) -> None:
        items, count, full_mm = _items(pieces), self.on.columns, self.on.set_height_mm
        end_mm = full_mm
        filled = self._filled(items, [full_mm - used for used in self._used_mm])
        if not is_last or len(filled) % count != 1:
            filled, end_mm = self._balanced(filled)
        for number, column in enumerate(filled):
            turn = number // count
            self._place(column, turn, number % count, self._used_mm[number % count] if turn == 0 else 0.0)
        turns = (len(filled) - 1) // count
        self._page += turns
        self._used_mm = [end_mm] * count

    def _balanced(self, filled: list[list[_Item]]) -> tuple[list[list[_Item]], float]:
        """The columns with those of the last sheet ending as high as can be, and that end [mm]."""
        count = self.on.columns
        first = (len(filled) - 1) // count * count
        used_mm = self._used_mm if first == 0 else [0.0] * count
        items = [item for column in filled[first:] for item in column]
        low_mm, high_mm = max(used_mm), self.on.set_height_mm
        best = filled[first:]
        while high_mm - low_mm > _BALANCED_TO_MM:
            end_mm = (low_mm + high_mm) / 2
            tried = _fill(items, [end_mm - used for used in used_mm], end_mm)
            if len(tried) <= count and all(map(_holds, tried, [end_mm - used for used in used_mm])):
                best, high_mm = tried, end_mm
            else:
                low_mm = end_mm
        below_mm = max((column[-1].piece.below_mm for column in best if column), default=0.0)
        return [*filled[:first], *best], min(high_mm + below_mm, self.on.set_height_mm)

    def _filled(self, items: Sequence[_Item], rooms_mm: Sequence[float]) -> list[list[_Item]]:
        for item in items:
            if item.strip.height_mm > self.on.set_height_mm + _TOLERANCE_MM:
                self.spilt.extend(pictures_in(item.strip))
        return _fill(items, rooms_mm, self.on.set_height_mm)

    def _place(self, items: Sequence[_Item], turn: int, column: int, top_mm: float) -> None:
        """Put items into a column from so far down, so many sheets further on."""
        for _, group in groupby(items, key=lambda item: item.number):
            found = list(group)
            piece = found[0].piece
            top_mm += found[0].gap_mm if found[0] is not items[0] else 0.0
            strips = [item.strip for item in found]
            at_mm = top_mm - strips[0].top_mm
            self._placed.append((piece, strips, self.on.place(self._page + turn, column, at_mm, self.direction)))
            top_mm += _extent_mm(found)


def _items(pieces: Sequence[Piece]) -> list[_Item]:
    """The strips of pieces that run on, with the gaps between them."""
    found: list[_Item] = []
    for number, piece in enumerate(pieces):
        for strip in piece.strips:
            last = found[-1] if found else None
            if last is None:
                gap_mm = 0.0
            elif last.number == number:
                gap_mm = strip.top_mm - last.strip.bottom_mm
            else:
                gap_mm = max(last.piece.below_mm, piece.above_mm)
            found.append(_Item(number, piece, strip, gap_mm))
        if piece.tied:
            found[-1] = found[-1]._replace(strip=found[-1].strip._replace(tied=True))
    return found


def _extent_mm(items: Sequence[_Item]) -> float:
    """From the top of the first to the bottom of the last, one under the other."""
    return sum(item.strip.height_mm for item in items) + sum(item.gap_mm for item in items[1:])


def _holds(items: Sequence[_Item], room_mm: float) -> bool:
    return not items or _extent_mm(items) <= room_mm


def _fill(items: Sequence[_Item], rooms_mm: Sequence[float], full_mm: float) -> list[list[_Item]]:
    """The items in columns: the first ones with these rooms, then as many full ones as it takes."""
    columns: list[list[_Item]] = []
    rest = list(items)
    while rest:
        number = len(columns)
        room_mm = rooms_mm[number] if number < len(rooms_mm) else full_mm
        taken = _fitting(rest, room_mm, must=room_mm >= full_mm)
        columns.append(rest[:taken])
        rest = rest[taken:]
    return columns


def _fitting(items: Sequence[_Item], room_mm: float, *, must: bool) -> int:
    """How many items go into a column. Strips that belong together stay so, unless one `must` begin here and cannot."""
    used_mm, whole, any_cut = 0.0, 0, 0
    for number, item in enumerate(items):
        used_mm += item.strip.height_mm + (item.gap_mm if number else 0.0)
        if used_mm > room_mm:
            break
        any_cut = number + 1
        if not item.strip.tied:
            whole = any_cut
    return whole or (max(any_cut, 1) if must else 0)
