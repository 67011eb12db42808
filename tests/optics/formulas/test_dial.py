"""The dial of ISO 8429:1986: zero at the observer's right, counter-clockwise, both eyes alike."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lens_strategies import ANGLES, AXES

from explainer.optics.formulas import dial


@given(axis=ANGLES)
def test_an_axis_lies_above_zero_and_up_to_180(axis: float) -> None:
    assert 0 < dial.normalise_axis(axis_deg=axis) <= 180


@given(axis=ANGLES)
def test_half_a_turn_leaves_an_axis_as_it_was(axis: float) -> None:
    # Law: an axis is a line, so its two ends are one axis.
    assert dial.axis_difference(first_deg=axis, second_deg=axis + 180) == pytest.approx(0, abs=1e-9)


@given(axis=AXES)
def test_the_mirror_image_of_the_mirror_image_is_the_axis_itself(axis: float) -> None:
    twice = dial.mirrored_axis(axis_deg=dial.mirrored_axis(axis_deg=axis))
    assert dial.axis_difference(first_deg=twice, second_deg=axis) == pytest.approx(0, abs=1e-9)


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


def test_the_nose_is_at_the_observers_right_of_the_wearers_right_eye() -> None:
    assert (dial.nasal_sign("right"), dial.nasal_sign("left")) == (1, -1)
