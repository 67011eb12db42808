"""The helpers under the figures: angles, curves, labels pushed apart, round steps, and the glasses in space."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.figures.paths import arc, arrow_head, circle, ellipse, hatching, polar, round_box, spline
from explainer.figures.scales import nice_step, steps
from explainer.figures.spread import spread
from explainer.figures.wireframe import BEND, LENS_HIGH, TIP, View, feet, glasses, resting

places = st.lists(st.floats(0, 100), max_size=8)


def test_polar_is_anticlockwise_on_a_page_whose_y_runs_down() -> None:
    assert polar((10, 10), 5, 0) == pytest.approx((15, 10))
    assert polar((10, 10), 5, 90) == pytest.approx((10, 5))
    assert polar((10, 10), 5, 180) == pytest.approx((5, 10))
    assert polar((10, 10), 5, 270) == pytest.approx((10, 15))


def test_arcs_and_circles_keep_their_radius() -> None:
    for path in (arc((3, 4), 2, 20, 340), circle((3, 4), 2)):
        curves = [path.points[i : i + 4] for i in range(0, len(path.points) - 3, 3)]
        for a, b, c, d in curves:
            for t in (0.0, 0.25, 0.5, 1.0):
                x, y = (
                    (1 - t) ** 3 * a[i] + 3 * t * (1 - t) ** 2 * b[i] + 3 * t**2 * (1 - t) * c[i] + t**3 * d[i]
                    for i in (0, 1)
                )
                assert math.dist((x, y), (3, 4)) == pytest.approx(2, abs=0.002)


def test_an_arc_starts_and_ends_where_it_is_told() -> None:
    path = arc((0, 0), 1, 30, 200)
    assert path.points[0] == pytest.approx(polar((0, 0), 1, 30))
    assert path.points[-1] == pytest.approx(polar((0, 0), 1, 200))


def test_an_ellipse_is_turned_anticlockwise() -> None:
    first = ellipse((0, 0), 2, 1, 30).points[0]
    assert first == pytest.approx(polar((0, 0), 2, 30))


def test_a_spline_passes_through_every_point() -> None:
    given_points = [(0, 0), (1, 3), (4, 4), (6, 1)]
    assert [spline(given_points).points[i] for i in (0, 3, 6, 9)] == given_points
    closed = spline(given_points, closed=True)
    assert closed.points[12] == given_points[0]


def test_a_round_box_stays_in_its_rectangle() -> None:
    for x, y in round_box(1, 2, 10, 5, 1.5).points:
        assert 1 <= x <= 11
        assert 2 <= y <= 7


def test_an_arrow_points_at_its_tip() -> None:
    tip, one, other, again = arrow_head((5, 0), (0, 0), 2).points
    assert tip == again == (5, 0)
    assert one[0] == other[0] == pytest.approx(3)


@given(st.floats(1, 60), st.floats(1, 20), st.floats(0.5, 4))
def test_hatching_is_cut_to_its_rectangle(wide: float, high: float, gap: float) -> None:
    for path in hatching(2, 3, wide, high, gap):
        (x1, y1), (x2, y2) = path.points
        assert x2 - x1 == pytest.approx(y1 - y2, abs=1e-6)  # rises to the right at 45 degrees
        assert all(2 - 1e-9 <= x <= 2 + wide + 1e-9 for x in (x1, x2))
        assert all(3 - 1e-9 <= y <= 3 + high + 1e-9 for y in (y1, y2))


@given(places)
def test_labels_that_are_spread_are_apart_in_order_and_inside(found: list[float]) -> None:
    result = spread(found, gap=4, low=0, high=100)
    order = sorted(range(len(found)), key=lambda i: found[i])
    put = [result[i] for i in order]
    assert all(b - a >= 4 - 1e-9 for a, b in pairwise(put))
    assert all(-1e-9 <= y <= 100 + 1e-9 for y in put)


def test_labels_with_room_stay_where_they_are_and_close_ones_share_the_push() -> None:
    assert spread([50.0, 10.0], gap=4, low=0, high=100) == [50.0, 10.0]
    assert spread([20.0, 21.0], gap=4, low=0, high=100) == pytest.approx([18.5, 22.5])
    assert spread([0.0, 0.0], gap=4, low=0, high=100) == pytest.approx([0, 4])
    assert spread([1.0, 1.0, 1.0], gap=4, low=0, high=6) == pytest.approx([0, 3, 6])


@pytest.mark.parametrize(
    ("length", "pieces", "step"), [(100, 6, 20), (180, 5, 50), (40, 5, 10), (2.4, 5, 0.5), (1, 1, 1)]
)
def test_round_steps(length: float, pieces: int, step: float) -> None:
    assert nice_step(length, pieces) == pytest.approx(step)
    assert steps(length, pieces)[-1] <= length


@pytest.mark.parametrize("upside_down", [False, True])
def test_the_straight_pair_stands_on_both_rims_and_both_temples_at_once(upside_down: bool) -> None:
    """The touch test of the trade (https://eyecarebusiness.com/issues/2010/october/fix-and-fit): a pair in alignment
    touches a flat table at four places, right way up and upside down."""
    pair = resting(upside_down=upside_down)
    touching = feet(pair)
    assert len(touching) == 4
    assert [y for _, y, _ in touching] == pytest.approx([0, 0, 0, 0], abs=0.15)
    assert min(y for line in (*pair.rims, *pair.temples, pair.bridge) for _, y, _ in line) >= -1e-9


def test_upside_down_it_stands_on_the_tops_of_the_rims_and_the_temple_tips_point_up() -> None:
    ends = [line[-1][1] for line in resting(upside_down=True).temples]
    assert min(ends) > 20
    assert max(line[-1][1] for line in resting(upside_down=False).temples) == pytest.approx(0, abs=1e-9)


def test_the_glasses_are_the_same_on_both_sides() -> None:
    pair = glasses()
    for left, right in (pair.rims, pair.ends, pair.temples):
        assert {(round(-x, 9), y, z) for x, y, z in left} == {(round(x, 9), y, z) for x, y, z in right}
    assert max(y for _, y, _ in pair.rims[0]) == pytest.approx(LENS_HIGH)


def test_views_show_what_is_far_away_higher_when_seen_from_above_and_rolled_things_anticlockwise() -> None:
    from_above = View(above_deg=20)
    assert from_above.see((0, 0, -100))[1] < from_above.see((0, 0, 0))[1]
    assert from_above.see((0, 10, 0))[1] < from_above.see((0, 0, 0))[1]
    rolled = View(roll_deg=10).see((100, 0, 0))
    assert rolled[0] > 0 > rolled[1]
    assert TIP[1] < BEND[1]
