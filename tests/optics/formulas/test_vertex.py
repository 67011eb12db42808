"""A lens that moves. The published cases stand in tests/published/vertex.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import vertex

POWERS = st.floats(-15, 15)
MOVES = st.floats(-15, 15)
DISTANCES = st.floats(5, 20)


@given(power=POWERS.filter(lambda each: abs(each) > 0.1), closer=MOVES)
def test_the_focus_of_the_needed_lens_stays_where_it_was(power: float, closer: float) -> None:
    # Law: the lens must image infinity onto one point, the far point. Its focal length changes by the move.
    needed = vertex.needed_power(power_d=power, closer_mm=closer)
    assert 1000 / needed == pytest.approx(1000 / power - closer)


@given(power=POWERS, closer=MOVES)
def test_moving_there_and_back_gives_the_power_back(power: float, closer: float) -> None:
    there = vertex.needed_power(power_d=power, closer_mm=closer)
    assert vertex.needed_power(power_d=there, closer_mm=-closer) == pytest.approx(power, abs=1e-9)


@given(power=POWERS.filter(lambda each: abs(each) > 0.1), closer=st.floats(0.5, 15))
def test_closer_to_the_eye_every_lens_must_be_more_plus(power: float, closer: float) -> None:
    needed = vertex.needed_power(power_d=power, closer_mm=closer)
    assert needed > power
    assert vertex.needed_power(power_d=power, closer_mm=-closer) < power


@given(power=st.floats(-15, -0.25), distance=DISTANCES)
def test_the_far_point_of_a_minus_eye_is_one_place_from_lens_and_from_eye(power: float, distance: float) -> None:
    # Law: the far point coincides with the lens's second focal point (basic-optics-7-slides).
    at_eye = vertex.ocular_refraction(spectacle_power_d=power, vertex_mm=distance)
    from_eye_cm = vertex.far_point_cm(ocular_refraction_d=at_eye)
    from_lens_cm = vertex.far_point_cm(ocular_refraction_d=power)
    assert from_eye_cm == pytest.approx(from_lens_cm + distance / 10)


def test_the_far_point_lies_before_a_minus_eye_and_behind_a_plus_eye() -> None:
    assert vertex.far_point_cm(ocular_refraction_d=-2.0) > 0 > vertex.far_point_cm(ocular_refraction_d=2.0)


@pytest.mark.parametrize(
    ("power", "closer"), [(26.0, 40.0), (-26.0, -40.0), (5.0, 40.5), (math.nan, 2.0), (24.9, 40.0)]
)
def test_a_move_past_the_focus_or_beyond_all_frames_is_refused(power: float, closer: float) -> None:
    with pytest.raises(OutOfRange):
        vertex.needed_power(power_d=power, closer_mm=closer)


def test_an_eye_without_error_has_no_far_point_to_print() -> None:
    with pytest.raises(OutOfRange):
        vertex.far_point_cm(ocular_refraction_d=0.0)
