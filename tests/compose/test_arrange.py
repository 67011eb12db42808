"""Where blocks stand: the documented order of giving way, from heights alone.

Outside: A4 is 210 x 297 mm (ISO 216), US Letter 8.5 x 11 in; a sheet folded once is folded at half its height.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as some

from explainer.compose.arrange import NARROW_GAP_MM, WIDE_GAP_MM, Place, arranged, fitted, flowing, padded
from explainer.compose.blocks import BLOCKS, LARGE_ORDER, Block
from explainer.compose.paper import COLUMN_MM, GUTTER_MM, LIVE_MM, PAPERS, Paper

A4 = PAPERS["A4"]
EDGE_MM = 5.0


def made(**heights: float) -> tuple[list[Block], dict[str, float]]:
    """Full-width blocks of page one with these heights."""
    return [Block(name=name, page=1) for name in heights], heights


def tops(places: list[Place]) -> dict[str, float]:
    return {place.block.name: place.top_mm for place in places}


def test_papers_have_their_sizes_and_keep_their_edges_free() -> None:
    assert (A4.width_mm, A4.height_mm) == (210, 297)
    letter = PAPERS["Letter"]
    assert (letter.width_mm, letter.height_mm) == pytest.approx((8.5 * 25.4, 11 * 25.4), abs=0.06)
    for paper in PAPERS.values():
        assert paper.fold_mm == paper.height_mm / 2
        assert min(paper.side_mm, paper.top_mm, *(paper.foot_mm(page) for page in (1, 2))) > EDGE_MM
        assert 2 * paper.side_mm + LIVE_MM == pytest.approx(paper.width_mm)
    assert 2 * COLUMN_MM + GUTTER_MM == LIVE_MM


def test_a_row_that_would_stand_on_the_fold_begins_below_it() -> None:
    blocks, heights = made(first=100, second=60, third=40)
    found = tops(fitted(blocks, heights, A4, 1) or [])
    assert found["first"] == A4.top_mm
    assert found["second"] == A4.fold_mm + 4
    assert found["third"] >= found["second"] + 60 + NARROW_GAP_MM


def test_text_may_stand_on_the_fold_rather_than_leave_a_hole() -> None:
    heights = {"first": 60.0, "table": 90.0}
    boxed = [Block(name="first", page=1), Block(name="table", page=1)]
    told = [Block(name="first", page=1), Block(name="table", page=1, text_only=True)]
    assert tops(fitted(boxed, heights, A4, 1) or [])["table"] > A4.fold_mm
    assert tops(fitted(told, heights, A4, 1) or [])["table"] < A4.fold_mm


def test_gaps_narrow_before_the_fold_is_given_up() -> None:
    room = A4.fold_mm - 4 - A4.top_mm
    blocks, heights = made(a=room / 2 - 2.5, b=room / 2 - 2.5, c=100)  # five millimetres for the gap between
    found = tops(fitted(blocks, heights, A4, 1) or [])
    assert found["b"] - found["a"] - heights["a"] == pytest.approx(NARROW_GAP_MM, abs=1.1)
    assert found["c"] == A4.fold_mm + 4


def test_the_fold_is_given_up_before_anything_moves() -> None:
    blocks, heights = made(a=120, b=60, c=70)
    found = tops(fitted(blocks, heights, A4, 1) or [])
    assert found["b"] < A4.fold_mm < found["b"] + heights["b"]


def at_page(places: list[Place]) -> dict[str, int]:
    return {place.block.name: place.page for place in places}


def test_a_block_moves_to_the_next_page_before_one_is_left_out() -> None:
    blocks = [
        Block(name="a", page=1),
        Block(name="b", page=1, moves=True),
        Block(name="spare", page=1, priority="C"),
        Block(name="other", page=2),
    ]
    heights = {"a": 150.0, "b": 60.0, "spare": 60.0, "other": 100.0}
    assert at_page(arranged(blocks, heights, A4)) == {"a": 1, "spare": 1, "b": 2, "other": 2}


def test_the_last_spare_block_goes_when_nothing_can_move() -> None:
    blocks = [
        Block(name="a", page=1),
        Block(name="spare", page=1, priority="C"),
        Block(name="later", page=1, priority="C"),
    ]
    heights = {"a": 150.0, "spare": 60.0, "later": 60.0}
    assert at_page(arranged(blocks, heights, A4)) == {"a": 1, "spare": 1}


def test_what_has_no_room_anywhere_adds_a_page_and_what_must_stay_stays() -> None:
    blocks = [Block(name="a", page=1), Block(name="b", page=1), Block(name="help", page=1, stays=True)]
    heights = {"a": 120.0, "b": 90.0, "help": 100.0}
    assert at_page(arranged(blocks, heights, A4)) == {"a": 1, "help": 1, "b": 2}


def test_two_short_pages_become_one_with_its_own_title() -> None:
    pages = [block for block in BLOCKS if block.name in TWO]
    short = dict.fromkeys(TWO, 20.0)
    assert {place.page for place in arranged(pages, short, A4)} == {1, 2, 3}
    assert {"title_numbers", "title_light"} & set(at_page(arranged(pages, short, A4))) == set()
    long = short | {"numbers": 150.0, "thickness": 150.0}
    found = at_page(arranged(pages, long, A4))
    assert (found["numbers"], found["imprint"]) == (3, 4)
    assert "title_merged" not in found


TWO = ("title", "days", "title_numbers", "title_merged", "numbers", "title_light", "thickness", "imprint")


def test_a_last_page_without_a_back_gets_one() -> None:
    notes = [block for block in BLOCKS if block.name == "notes"]
    one = [Place(Block(name="a", page=1), page, 0.0, 12.0) for page in (1, 2, 3)]
    assert [place.page for place in padded(one, notes, A4)] == [1, 2, 3, 4]
    assert padded(one[:2], notes, A4) == one[:2]


@given(some.dictionaries(some.sampled_from([block.name for block in BLOCKS if block.page]), some.floats(3, 150)))
def test_whatever_the_heights_no_block_is_split_and_none_covers_another(heights: Mapping[str, float]) -> None:
    heights = {"title": 17.0, **heights}
    for paper in PAPERS.values():
        blocks = [block for block in BLOCKS if block.name in heights]
        found = arranged(blocks, heights, paper)
        _sound(found, heights, paper, columns=True)
        lost = set(heights) - set(at_page(found))
        assert all(block.priority == "C" or block.is_title for block in blocks if block.name in lost)


@given(some.fixed_dictionaries({name: some.floats(3, 110) for name in LARGE_ORDER}))
def test_large_print_keeps_titles_in_order_and_every_block_whole(heights: Mapping[str, float]) -> None:
    by_name = {block.name: block for block in BLOCKS}
    found = flowing([by_name[name] for name in LARGE_ORDER], heights, A4, most=99)
    assert sorted(place.block.name for place in found) == sorted(LARGE_ORDER)
    titles = [place.block.name for place in found if place.block.is_title or place.block.stays]
    assert titles == [name for name in LARGE_ORDER if name in titles]
    for place, after in pairwise(found):
        assert not place.block.is_title or place.page == after.page, "a title stands with what it heads"
    _sound(found, heights, A4, columns=False)


def _sound(places: list[Place], heights: Mapping[str, float], paper: Paper, *, columns: bool) -> None:
    """Nothing beyond the page's end or on top of another block; pages without gaps in their count."""
    assert sorted({place.page for place in places}) == list(range(1, max(place.page for place in places) + 1))
    for page in {place.page for place in places}:
        here = [place for place in places if place.page == page]
        for place in here:
            assert place.top_mm >= paper.top_mm - 1e-6
            assert place.top_mm + heights[place.block.name] <= paper.bottom_mm(page) + 1e-6
        for column in ("first", "second") if columns else ("full",):
            seen = [place for place in here if not columns or place.block.column in (column, "full")]
            ends = sorted((place.top_mm, place.top_mm + heights[place.block.name]) for place in seen)
            assert all(end <= begin + 1e-6 for (_, end), (begin, _) in pairwise(ends))


def test_every_block_of_the_table_stands_in_large_print_too() -> None:
    merged_or_notes = {"title_merged", "notes"}
    assert {block.name for block in BLOCKS} - merged_or_notes == set(LARGE_ORDER)
    assert LARGE_ORDER.index("help") < LARGE_ORDER.index("pair")


def test_gap_names_tell_the_truth() -> None:
    assert (WIDE_GAP_MM, NARROW_GAP_MM) == (6, 4)
