"""The dial of ISO 8429:1986: zero at the observer's right, counter-clockwise, both eyes alike."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lens_strategies import ANGLES, AXES, SIDES

from explainer.errors import OutOfRange
from explainer.optics.formulas import dial


@given(axis=ANGLES)
def test_an_axis_lies_above_zero_and_up_to_180(axis: float) -> None:
    assert 0 < dial.normalise_axis(axis_deg=axis) <= 180


@given(axis=ANGLES)
def test_half_a_turn_leaves_an_axis_as_it_was(axis: float) -> None:
    # Law: an axis is a line, so its two ends are one axis.
    assert dial.axis_difference(first_deg=axis, second_deg=axis + 180) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("axis", [0, 180, 360, -180, 0.0, -0.0])
def test_the_horizontal_is_always_written_180(axis: float) -> None:
    assert dial.normalise_axis(axis_deg=axis) == 180
    assert dial.whole_axis(axis_deg=axis) == 180


@pytest.mark.parametrize(
    ("axis", "whole"), [(0.3, 180), (0.5, 1), (179.4, 179), (179.5, 180), (179.9, 180), (90.5, 91)]
)
def test_rounding_never_prints_an_axis_of_zero(axis: float, whole: int) -> None:
    assert dial.whole_axis(axis_deg=axis) == whole


@given(axis=AXES)
def test_the_mirror_image_of_the_mirror_image_is_the_axis_itself(axis: float) -> None:
    twice = dial.mirrored_axis(axis_deg=dial.mirrored_axis(axis_deg=axis))
    assert dial.axis_difference(first_deg=twice, second_deg=axis) == pytest.approx(0, abs=1e-9)


@given(axis=AXES)
def test_a_mirror_turns_the_direction_of_an_axis_left_for_right_only(axis: float) -> None:
    # Law: a mirror changes the sign of x. The mirrored line runs through (-cos, sin).
    seen, mirrored = (
        dial.direction(angle_deg=axis),
        dial.direction(angle_deg=dial.mirrored_axis(axis_deg=axis)),
    )
    cross = mirrored.right * seen.up - mirrored.up * (-seen.right)
    assert cross == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("axis", [90, 180])
def test_upright_and_level_are_the_only_axes_a_mirror_leaves_alone(axis: float) -> None:
    assert dial.mirrored_axis(axis_deg=axis) == axis
    assert dial.mirrored_axis(axis_deg=axis - 1) != axis - 1


@pytest.mark.parametrize(("first", "second", "apart"), [(179, 1, 2), (1, 179, 2), (90, 180, 90), (45, 135, 90)])
def test_axes_are_compared_across_the_horizontal(first: float, second: float, apart: float) -> None:
    assert dial.axis_difference(first_deg=first, second_deg=second) == pytest.approx(apart)


@given(first=ANGLES, second=ANGLES, turn=st.floats(-360, 360))
def test_the_angle_between_two_axes_stays_when_both_turn(first: float, second: float, turn: float) -> None:
    before = dial.axis_difference(first_deg=first, second_deg=second)
    assert 0 <= before <= 90
    assert dial.axis_difference(first_deg=second, second_deg=first) == before
    after = dial.axis_difference(first_deg=first + turn, second_deg=second + turn)
    assert after == pytest.approx(before, abs=1e-9)


@given(axis=st.floats(0.5, 179.5).filter(lambda each: each != 90), side=SIDES)
def test_the_upper_end_is_where_the_direction_of_the_axis_points(axis: float, side: dial.Side) -> None:
    step = dial.direction(angle_deg=axis)
    assert step.up > 0
    towards_nose = step.right * dial.nasal_sign(side) > 0
    assert dial.upper_end(axis_deg=axis, side=side) == ("nasal" if towards_nose else "temporal")


@given(axis=st.floats(0.5, 179.5).filter(lambda each: each != 90))
def test_the_same_axis_rises_to_the_nose_on_one_eye_and_to_the_temple_on_the_other(axis: float) -> None:
    ends = {dial.upper_end(axis_deg=axis, side="right"), dial.upper_end(axis_deg=axis, side="left")}
    assert ends == {"nasal", "temporal"}


def test_level_and_upright_have_no_upper_end_on_one_side() -> None:
    assert dial.upper_end(axis_deg=180, side="left") == "level"
    assert dial.upper_end(axis_deg=0, side="right") == "level"
    assert dial.upper_end(axis_deg=90, side="right") == "upright"


def test_the_nose_is_at_the_observers_right_of_the_wearers_right_eye() -> None:
    assert (dial.nasal_sign("right"), dial.nasal_sign("left")) == (1, -1)


@pytest.mark.parametrize("nonsense", [math.nan, math.inf, -math.inf])
def test_what_is_no_angle_is_refused(nonsense: float) -> None:
    with pytest.raises(OutOfRange):
        dial.normalise_axis(axis_deg=nonsense)
    with pytest.raises(OutOfRange):
        dial.direction(angle_deg=nonsense)
