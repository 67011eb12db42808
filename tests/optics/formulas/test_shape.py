"""The outline: box, trace, centring and mirroring, against the boxing system and closed formulas."""

from __future__ import annotations

import math

import numpy as np
import pytest
from handwork import mirrored
from hypothesis import assume, given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import shape

A = st.floats(36, 62)
B = st.floats(24, 56)
SHARE = st.floats(0, 1)


def boxed(a_mm: float, b_mm: float, share: float) -> shape.Outline:
    """An outline whose ED lies that share of the way from the longer side to the diagonal."""
    longer = max(a_mm, b_mm)
    ed = longer + share * (math.hypot(a_mm, b_mm) - longer)
    return shape.outline_from_box(a_mm=a_mm, b_mm=b_mm, ed_mm=min(ed, math.hypot(a_mm, b_mm)))


@given(a=A, b=B, share=SHARE)
def test_the_outline_touches_its_box_on_all_four_sides_and_reaches_its_ed(a: float, b: float, share: float) -> None:
    outline = boxed(a, b, share)
    x, y = outline.points()
    assert (min(x), max(x), min(y), max(y)) == pytest.approx((-a / 2, a / 2, -b / 2, b / 2))
    wanted = max(a, b) + share * (math.hypot(a, b) - max(a, b))
    assert outline.ed_mm == pytest.approx(wanted, abs=1e-6)


@given(a=A, b=B, share=SHARE)
def test_the_outline_is_convex_and_symmetrical(a: float, b: float, share: float) -> None:
    outline = boxed(a, b, share)
    x, y = outline.points()
    dx, dy = np.roll(x, -1) - x, np.roll(y, -1) - y
    assert np.all(dx * np.roll(dy, -1) - np.roll(dx, -1) * dy > -1e-9)
    assert mirrored(outline).a_mm == pytest.approx(outline.a_mm)
    assert outline.box_centre_mm == pytest.approx((0, 0), abs=1e-9)


def test_the_two_ends_are_ellipse_and_rectangle_and_the_square_box_gives_the_circle() -> None:
    ellipse = shape.outline_from_box(a_mm=50, b_mm=38, ed_mm=50)
    rectangle = shape.outline_from_box(a_mm=50, b_mm=38, ed_mm=math.hypot(50, 38))
    circle = shape.outline_from_box(a_mm=48, b_mm=48, ed_mm=48)
    # A polygon of 360 chords loses 5e-5 of the area of a smooth line, nothing of a rectangle.
    assert ellipse.area_mm2 == pytest.approx(math.pi * 25 * 19, rel=1e-4)
    assert rectangle.area_mm2 == pytest.approx(50 * 38)
    assert rectangle.circumference_mm == pytest.approx(2 * (50 + 38))
    assert np.allclose(np.hypot(*circle.points()), 24)


@pytest.mark.parametrize("ed", [49.9, 62.9, math.nan])
def test_an_ed_that_the_box_cannot_have_is_refused(ed: float) -> None:
    with pytest.raises(OutOfRange, match="ED of a box of 50 x 38 mm") as refusal:
        shape.outline_from_box(a_mm=50, b_mm=38, ed_mm=ed)
    assert refusal.value.low == 50
    assert refusal.value.high == pytest.approx(62.80, abs=0.005)


def test_without_an_ed_the_assumed_shape_lies_between_two_traced_frames() -> None:
    # Two traced frames, A x B, ED: 51.00 x 44.01, 52.33 and 55.00 x 38.01, 58.09 (public sample records).
    round_ish = shape.outline_from_box(a_mm=51, b_mm=44.01)
    long_ish = shape.outline_from_box(a_mm=55, b_mm=38.01)
    assert round_ish.ed_mm > 52.33
    assert long_ish.ed_mm < 58.09


@given(b=B, height=SHARE)
def test_a_height_above_the_lowest_point_becomes_a_height_above_the_datum(b: float, height: float) -> None:
    above = shape.above_datum_mm(height_mm=height * b, b_mm=b)
    assert above == pytest.approx((height - 0.5) * b, abs=1e-9)


@pytest.mark.parametrize(("b", "height", "above"), [(52, 23, -3), (48, 24, 0), (50, 28, 3), (46, 19, -4)])
def test_published_heights_against_the_datum(b: float, height: float, above: float) -> None:
    # Decentration quiz with answers, questions 9 to 12 (opticians' training course).
    assert shape.above_datum_mm(height_mm=height, b_mm=b) == above


def test_a_54_mm_round_lens_decentred_3_mm_needs_a_blank_of_60() -> None:
    # Opticianry questions and answers, volume 3 (weak source, arithmetic of the circle).
    lens = shape.outline_from_box(a_mm=54, b_mm=54, ed_mm=54)
    moved = shape.centred_on_pupil(lens, side="left", inward_mm=3)
    assert shape.minimum_uncut_mm(moved) == pytest.approx(60)
    assert shape.minimum_uncut_mm(moved, allowance_mm=2) == pytest.approx(62)


@pytest.mark.parametrize(
    ("a", "b", "ed", "decentration", "rule"), [(58, 50, 60, 4, 68), (56, 50, 59, 4, 67), (48, 42, 50, 6, 62)]
)
def test_the_exact_blank_is_never_larger_than_the_published_rule(
    a: float, b: float, ed: float, decentration: float, rule: float
) -> None:
    # Decentration quiz, questions 5, 7 and 8: ED + twice the decentration (box heights are ours). A triangle law.
    moved = shape.centred_on_pupil(
        shape.outline_from_box(a_mm=a, b_mm=b, ed_mm=ed), side="right", inward_mm=decentration
    )
    assert rule - 2 * decentration <= shape.minimum_uncut_mm(moved) <= rule


@given(a=A, b=B, share=SHARE, inward=st.floats(0.1, 8))
def test_moving_the_centre_inward_leaves_more_lens_on_the_temple_side(
    a: float, b: float, share: float, inward: float
) -> None:
    outline = boxed(a, b, share)
    left, right = shape.horizontal_reach_mm(shape.centred_on_pupil(outline, side="right", inward_mm=inward))
    # Right lens seen from the front: the nose at the observer's right.
    assert -left == pytest.approx(a / 2 + inward)
    assert right == pytest.approx(a / 2 - inward)
    left, right = shape.horizontal_reach_mm(shape.centred_on_pupil(outline, side="left", inward_mm=inward))
    assert -left == pytest.approx(a / 2 - inward)
    assert right == pytest.approx(a / 2 + inward)


def test_the_horizontal_line_ends_where_it_first_leaves_a_notched_lens() -> None:
    corners = [(-20, -20), (20, -20), (20, 20), (12, 20), (12, -5), (8, -5), (8, 20), (-20, 20)]
    share = np.linspace(0, 1, 6, endpoint=False)[:, None]
    sides = zip(corners, corners[1:] + corners[:1], strict=True)
    points = np.vstack([np.array(a) * (1 - share) + np.array(b) * share for a, b in sides])
    notched = shape.Outline(tuple(points[:, 0].tolist()), tuple(points[:, 1].tolist()))
    assert shape.horizontal_reach_mm(notched) == pytest.approx((-20, 8))


def test_a_pupil_above_the_datum_leaves_less_lens_above_it() -> None:
    moved = shape.centred_on_pupil(shape.outline_from_box(a_mm=50, b_mm=38), side="left", inward_mm=2, above_datum_mm=3)
    assert (max(moved.y_mm), min(moved.y_mm)) == pytest.approx((16, -22))


@given(a=A, b=B, share=SHARE, inward=st.floats(-5, 5), above=st.floats(-5, 5))
def test_mirroring_exchanges_the_sides_and_twice_is_nothing(
    a: float, b: float, share: float, inward: float, above: float
) -> None:
    right = shape.centred_on_pupil(boxed(a, b, share), side="right", inward_mm=inward, above_datum_mm=above)
    left = shape.centred_on_pupil(boxed(a, b, share), side="left", inward_mm=inward, above_datum_mm=above)
    reflected = mirrored(right)
    assert mirrored(reflected) == right
    assert shape.minimum_uncut_mm(reflected) == pytest.approx(shape.minimum_uncut_mm(left))
    assert shape.horizontal_reach_mm(reflected) == pytest.approx(shape.horizontal_reach_mm(left))
    assert reflected.area_mm2 == pytest.approx(left.area_mm2)


@given(dx=st.floats(-2, 2), dy=st.floats(-2, 2), count=st.integers(90, 720))
def test_the_tracers_own_centre_does_not_matter(dx: float, dy: float, count: int) -> None:
    angle = np.arange(count) * 2 * math.pi / count
    # A circle of 24 mm traced from a point beside its centre: law of cosines.
    beside, towards = math.hypot(dx, dy), math.atan2(dy, dx)
    radii = beside * np.cos(angle - towards) + np.sqrt(24**2 - (beside * np.sin(angle - towards)) ** 2)
    outline = shape.outline_from_radii(radii_mm=tuple(radii.tolist()))
    chord = 24 * (1 - math.cos(math.pi / count)) * 2 + 1e-6  # what a polygon may miss of the circle
    assert outline.a_mm == pytest.approx(48, abs=2 * chord)
    assert outline.ed_mm == pytest.approx(48, abs=2 * chord)


def test_the_first_radius_points_to_the_observers_right_and_the_next_ones_go_up() -> None:
    radii = [20.0] * 360
    radii[0] = 30.0
    outline = shape.outline_from_radii(radii_mm=radii)
    assert outline.x_mm[0] == pytest.approx(25)  # box from -20 to 30, so its centre lies at 5
    assert outline.y_mm[90] == pytest.approx(20)


@pytest.mark.parametrize("radii", [[20.0] * 20, [20.0] * 100 + [0.5], [20.0] * 100 + [math.nan]])
def test_a_trace_that_cannot_be_a_lens_is_refused(radii: list[float]) -> None:
    with pytest.raises(OutOfRange, match="traced radi"):
        shape.outline_from_radii(radii_mm=radii)


@given(inward=st.floats(-60, 60), above=st.floats(-60, 60))
def test_a_pupil_outside_the_lens_is_refused(inward: float, above: float) -> None:
    inside = (inward / 25) ** 2 + (above / 19) ** 2
    assume(abs(inside - 1) > 0.01)
    outline = shape.outline_from_box(a_mm=50, b_mm=38, ed_mm=50)
    if inside < 1:
        moved = shape.centred_on_pupil(outline, side="right", inward_mm=inward, above_datum_mm=above)
        assert moved.area_mm2 == pytest.approx(outline.area_mm2)
    else:
        with pytest.raises(OutOfRange, match="optical centre"):
            shape.centred_on_pupil(outline, side="right", inward_mm=inward, above_datum_mm=above)


def test_a_clockwise_line_is_refused() -> None:
    outline = shape.outline_from_box(a_mm=50, b_mm=38)
    with pytest.raises(OutOfRange, match="anticlockwise"):
        shape.Outline(tuple(reversed(outline.x_mm)), tuple(reversed(outline.y_mm)))
