"""Where blocks stand on the pages: arithmetic on their heights, the same for every order.

A page is a stack of rows. A row is a block over the full width, or a pair of columns of blocks. No row is cut, none is
set smaller. Boxes and pictures keep off the fold: a row that would stand on it begins below it. When a page has too
little room it gives way in this order, and each step is undone if it was not enough:

1. the gaps between rows go from 6 mm to 4;
2. the fold may fall on a row;
3. a block that may stand elsewhere moves to the first later page that has room for it, of less weight first;
4. blocks of priority C are left out, the last one first;
5. what does not fit goes on to a page of its own, which adds a sheet.

Two pages become one where all of both fits on it (`merged`), and the last sheet is never left with a blank back that
another order could be printed on.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import NamedTuple

from explainer.compose.blocks import MERGED_TITLE, Block
from explainer.compose.paper import COLUMN_MM, FOLD_FREE_MM, GUTTER_MM, Paper

WIDE_GAP_MM, NARROW_GAP_MM, WIDEST_GAP_MM = 6.0, 4.0, 11.0
_HOLE_MM = 24.0  # a row of text stands on the fold rather than leave more than this empty above it
_GAPS = (WIDE_GAP_MM, NARROW_GAP_MM)
Heights = Mapping[str, float]


class Place(NamedTuple):
    """Where a block stands: the page, counted from 1, and its corner [mm] at the reading side of the live width."""

    block: Block
    page: int
    start_mm: float
    top_mm: float


@dataclass(frozen=True, slots=True)
class Row:
    """Blocks that stand beside each other: one over the full width, or those of two columns."""

    blocks: tuple[Block, ...]
    height_mm: float
    gap_mm: float

    @property
    def foldable(self) -> bool:
        """Whether the fold may fall on it: text alone."""
        return all(block.text_only for block in self.blocks)


def rows(blocks: Sequence[Block], heights: Heights, gap_mm: float) -> list[Row]:
    """The blocks of a page as rows from above."""
    found = []
    for is_full, group in groupby(blocks, key=lambda block: block.column == "full"):
        together = tuple(group)
        parts = [(block,) for block in together] if is_full else [together]
        found += [Row(part, _height(part, heights, gap_mm), _gap(part[0], gap_mm)) for part in parts]
    return found


def _height(blocks: Sequence[Block], heights: Heights, gap_mm: float) -> float:
    columns = {block.column for block in blocks}
    return max(_stacked([block for block in blocks if block.column == column], heights, gap_mm) for column in columns)


def _stacked(blocks: Sequence[Block], heights: Heights, gap_mm: float) -> float:
    return sum(heights[block.name] for block in blocks) + sum(_gap(block, gap_mm) for block in blocks[1:])


def _gap(block: Block, gap_mm: float) -> float:
    """The room above a block; some belong to what stands above them."""
    return gap_mm if block.gap_mm is None else block.gap_mm


def tops(found: Sequence[Row], paper: Paper, page: int, *, fold: bool) -> list[float] | None:
    """Where each row begins [mm]; None if they do not fit. What is spare widens the gaps, above and below the fold."""
    top = paper.top_mm
    begins: list[float] = []
    broken = None
    for number, row in enumerate(found):
        top += row.gap_mm if number else 0.0
        if fold and broken is None and (below := _below_the_fold(row, top, paper)) is not None:
            broken, top = number, below
        begins.append(top)
        top += row.height_mm
    spare = paper.bottom_mm(page) - top
    if spare < 0:
        return None
    if broken is None:
        _spread(begins, found, range(len(found)), spare, paper if fold else None)
        return begins
    above = begins[broken - 1] + found[broken - 1].height_mm if broken else paper.top_mm
    _spread(begins, found, range(broken), paper.fold_mm - FOLD_FREE_MM - above)
    _spread(begins, found, range(broken, len(found)), spare)
    return begins


def _below_the_fold(row: Row, top: float, paper: Paper) -> float | None:
    """Where a row begins that would stand on the fold: below it, or there (None) if it may."""
    above, below = paper.fold_mm - FOLD_FREE_MM, paper.fold_mm + FOLD_FREE_MM
    if not paper.folds or top >= below or top + row.height_mm <= above:
        return None
    return None if row.foldable and above - top > _HOLE_MM else below


def _spread(begins: list[float], found: Sequence[Row], field: range, room: float, folded: Paper | None = None) -> None:
    """Share what is spare among the gaps of a field that may widen, up to the widest gap; no row moves on the fold."""
    open_gaps = [number for number in field[1:] if found[number].blocks[0].gap_mm is None]
    if not open_gaps or room <= 0:
        return
    most = min(room / len(open_gaps), WIDEST_GAP_MM - found[open_gaps[0]].gap_mm)
    for more in (most, most / 2):
        moved = {n: begins[n] + more * sum(gap <= n for gap in open_gaps) for n in field}
        if folded is None or all(_below_the_fold(found[n], top, folded) is None for n, top in moved.items()):
            for number, top in moved.items():
                begins[number] = top
            return


def places(stacked: Iterable[tuple[Row, float]], page: int, heights: Heights, gap_mm: float) -> Iterator[Place]:
    """The place of each block, row by row from where it begins; of a pair of columns the first is read first."""
    for row, top in stacked:
        for column, start in (("full", 0.0), ("first", 0.0), ("second", COLUMN_MM + GUTTER_MM)):
            at = top
            for number, block in enumerate(block for block in row.blocks if block.column == column):
                at += _gap(block, gap_mm) if number else 0.0
                yield Place(block, page, start, at)
                at += heights[block.name]


def fitted(blocks: Sequence[Block], heights: Heights, paper: Paper, page: int) -> list[Place] | None:
    """A page's blocks in their places after the first two ways of giving way; None if they do not help."""
    for fold in (True, False) if paper.folds else (False,):
        for gap in _GAPS:
            found = rows(blocks, heights, gap)
            begins = tops(found, paper, page, fold=fold)
            if begins is not None:
                return list(places(zip(found, begins, strict=True), page, heights, gap))
    return None


def arranged(blocks: Sequence[Block], heights: Heights, paper: Paper) -> list[Place]:
    """All pages: each in its places, after as many ways of giving way as it needs.

    The last two pages become one where that has room for both and no page needs to be added.
    """
    apart = [[b for b in blocks if b.page == page and b.name != MERGED_TITLE] for page in (1, 2, 3, 4)]
    together = [b for b in blocks if b.page in (3, 4) and (not b.is_title or b.name == MERGED_TITLE)]
    if all(apart) and fitted(together, heights, paper, 3) is not None:
        short = _filled([*map(list, apart[:2]), together], heights, paper)
        if max(place.page for place in short) == 3:
            return short
    return _filled([page for page in apart if page], heights, paper)


def _filled(waiting: list[list[Block]], heights: Heights, paper: Paper) -> list[Place]:
    """Page after page; what a page has no room for goes on to one of its own."""
    found: list[Place] = []
    number = 0
    while number < len(waiting):
        page = number + 1
        stands = _made_to_fit(waiting, page, heights, paper)
        if stands is None:
            if rest := _overflow(waiting[number], heights, paper, page):
                waiting.insert(page, rest)
            stands = fitted(waiting[number], heights, paper, page) or _alone(waiting[number], page, paper)
        found += stands
        number += 1
    return found


def padded(places: Sequence[Place], notes: Sequence[Block], paper: Paper) -> list[Place]:
    """The same with room for notes on a last page that would stay empty: no sheet's back is another order's front."""
    pages = max(place.page for place in places)
    more = [Place(block, pages + 1, 0.0, paper.top_mm) for block in notes] if pages % 2 else []
    return [*places, *more]


def _made_to_fit(pages: list[list[Block]], page: int, heights: Heights, paper: Paper) -> list[Place] | None:
    """A page in place; blocks that had to go are moved to a later one, or left out. None if that does not help."""
    blocks = pages[page - 1]
    while (stands := fitted(blocks, heights, paper, page)) is None:
        if _moved_on(pages, page, heights, paper):
            continue
        spare = next((block for block in reversed(blocks) if block.priority == "C"), None)
        if spare is None:
            return None
        blocks.remove(spare)
    return stands


def _moved_on(pages: list[list[Block]], page: int, heights: Heights, paper: Paper) -> bool:
    """Move one block, the least and last that may, to the first later page with room for it; whether there was one."""
    movable_ones = [block for block in reversed(pages[page - 1]) if block.moves]
    for movable in sorted(movable_ones, key=lambda block: block.priority, reverse=True):
        for later in range(page + 1, len(pages) + 1):
            more = _taken_in(pages[later - 1], movable)
            if fitted(more, heights, paper, later) is not None:
                pages[page - 1].remove(movable)
                pages[later - 1][:] = more
                return True
    return False


def _taken_in(blocks: Sequence[Block], more: Block) -> list[Block]:
    """A page with one more block, below its title."""
    at = 1 if blocks and blocks[0].is_title else 0
    return [*blocks[:at], more, *blocks[at:]]


def _overflow(blocks: list[Block], heights: Heights, paper: Paper, page: int) -> list[Block]:
    """Take from a page what it has no room for, from the end and not what must stay; at least one block is left."""
    rest: list[Block] = []
    while len(blocks) > 1 and fitted(blocks, heights, paper, page) is None:
        goes = next((block for block in reversed(blocks) if not block.stays), blocks[-1])
        blocks.remove(goes)
        rest.insert(0, goes)
    return rest


def _alone(blocks: Sequence[Block], page: int, paper: Paper) -> list[Place]:
    """A block that is taller than any page: it stands alone, and the test of what is printed sees it."""
    return [Place(block, page, 0.0, paper.top_mm) for block in blocks]


def flowing(blocks: Sequence[Block], heights: Heights, paper: Paper, most: int) -> list[Place]:
    """Large print: without as many blocks of priority C, from the last on, as make it no longer than so many pages."""
    kept = list(blocks)
    while True:
        found = _flow(kept, heights, paper)
        spare = [block for block in kept if block.priority == "C"]
        if not spare or max(place.page for place in found) <= most:
            return found
        kept.remove(spare[-1])


def _flow(blocks: Sequence[Block], heights: Heights, paper: Paper) -> list[Place]:
    """Blocks in one column, in reading order, each whole.

    A block that fits no more begins a page; what follows it may fill the room before it, unless it is a title, the last
    block, or belongs below a title.
    """
    found: list[Place] = []
    waiting = list(blocks)
    page, top = 1, paper.top_mm
    while waiting:
        room = paper.bottom_mm(page) - top
        fresh = top == paper.top_mm
        chosen = next(
            (n for n, block in enumerate(waiting) if _may_stand(waiting, n, heights, room, fresh=fresh)), None
        )
        if chosen is None:
            page, top = page + 1, paper.top_mm
            continue
        block = waiting.pop(chosen)
        top += 0.0 if fresh else _gap(block, WIDE_GAP_MM)
        found.append(Place(block, page, 0.0, top))
        top += heights[block.name]
    return found


def _may_stand(waiting: Sequence[Block], number: int, heights: Heights, room: float, *, fresh: bool) -> bool:
    """Whether a block may go here: it fits, with what a title needs below it, and overtakes no title."""
    block = waiting[number]
    if fresh and number == 0:
        return True
    if number and (any(each.is_title or each.stays for each in waiting[: number + 1]) or number == len(waiting) - 1):
        return False
    needed = heights[block.name] + (0.0 if fresh else _gap(block, WIDE_GAP_MM))
    if block.is_title and number + 1 < len(waiting):
        needed += heights[waiting[number + 1].name] + _gap(waiting[number + 1], WIDE_GAP_MM)
    return needed <= room
