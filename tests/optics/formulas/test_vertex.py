"""A lens that moves. The published cases stand in tests/published/vertex.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from lens_strategies import ASTIGMATIC, LENSES

from explainer.errors import OutOfRange
from explainer.optics.formulas import vertex
from explainer.optics.formulas.prescription import SpheroCylinder, power_in_meridian, transpose

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


@given(power=POWERS, closer=MOVES)
def test_the_effect_of_a_moved_lens_is_the_lens_that_would_need_this_one_there(power: float, closer: float) -> None:
    effect = vertex.effect_after_move(power_d=power, closer_mm=closer)
    assert vertex.needed_power(power_d=effect, closer_mm=closer) == pytest.approx(power, abs=1e-9)


@given(power=POWERS.filter(lambda each: abs(each) > 0.1), closer=st.floats(0.5, 15))
def test_closer_to_the_eye_every_lens_must_be_more_plus(power: float, closer: float) -> None:
    needed = vertex.needed_power(power_d=power, closer_mm=closer)
    assert needed > power
    assert vertex.needed_power(power_d=power, closer_mm=-closer) < power


@given(power=POWERS, moved=st.floats(0, 4))
def test_the_rule_of_thumb_is_the_first_term_of_the_change(power: float, moved: float) -> None:
    # Geometric series: F' - F = d F^2 + d^2 F^3 + ...; what is left is of the order of the second term.
    exact = vertex.needed_power(power_d=power, closer_mm=moved) - power
    rough = vertex.simplified_change(power_d=power, moved_mm=moved)
    second = (moved / 1000) ** 2 * abs(power) ** 3
    assert abs(exact - rough) <= second / (1 - moved / 1000 * abs(power)) + 1e-12
    assert vertex.simplified_change(power_d=power, moved_mm=-moved) == rough


@given(power=POWERS, distance=DISTANCES)
def test_the_eye_and_the_spectacle_plane_translate_into_each_other(power: float, distance: float) -> None:
    at_eye = vertex.ocular_refraction(spectacle_power_d=power, vertex_mm=distance)
    back = vertex.spectacle_power(ocular_refraction_d=at_eye, vertex_mm=distance)
    assert back == pytest.approx(power, abs=1e-9)


@given(power=st.floats(-15, -0.25), distance=DISTANCES)
def test_the_far_point_of_a_minus_eye_is_one_place_from_lens_and_from_eye(power: float, distance: float) -> None:
    # Law: the far point coincides with the lens's second focal point (basic-optics-7-slides).
    at_eye = vertex.ocular_refraction(spectacle_power_d=power, vertex_mm=distance)
    from_eye_cm = vertex.far_point_cm(ocular_refraction_d=at_eye)
    from_lens_cm = vertex.far_point_cm(ocular_refraction_d=power)
    assert from_eye_cm == pytest.approx(from_lens_cm + distance / 10)


def test_the_far_point_lies_before_a_minus_eye_and_behind_a_plus_eye() -> None:
    assert vertex.far_point_cm(ocular_refraction_d=-2.0) > 0 > vertex.far_point_cm(ocular_refraction_d=2.0)


@given(one=ASTIGMATIC, closer=MOVES)
def test_a_toric_lens_moves_meridian_by_meridian_and_keeps_axis_and_sign(one: SpheroCylinder, closer: float) -> None:
    moved = vertex.needed_lens(**one._asdict(), closer_mm=closer)
    for turn in (0, 90):
        before = power_in_meridian(**one._asdict(), meridian_deg=one.axis_deg + turn)
        after = power_in_meridian(**moved._asdict(), meridian_deg=one.axis_deg + turn)
        assert after == pytest.approx(vertex.needed_power(power_d=before, closer_mm=closer), abs=1e-9)
    assert moved.axis_deg == one.axis_deg
    assert moved.cylinder_d * one.cylinder_d > 0


@given(one=LENSES, distance=DISTANCES)
def test_the_form_of_a_moved_lens_does_not_matter(one: SpheroCylinder, distance: float) -> None:
    moved = vertex.ocular_lens(**one._asdict(), vertex_mm=distance)
    other = vertex.ocular_lens(**transpose(**one._asdict())._asdict(), vertex_mm=distance)
    assume(moved.cylinder_d != 0)
    assert transpose(**other._asdict()) == pytest.approx(moved, abs=1e-9)


@pytest.mark.parametrize(
    ("power", "closer"), [(26.0, 40.0), (-26.0, -40.0), (5.0, 40.5), (math.nan, 2.0), (24.9, 40.0)]
)
def test_a_move_past_the_focus_or_beyond_all_frames_is_refused(power: float, closer: float) -> None:
    with pytest.raises(OutOfRange):
        vertex.needed_power(power_d=power, closer_mm=closer)


@pytest.mark.parametrize("distance", [-0.1, 40.1, math.nan])
def test_an_impossible_vertex_distance_is_refused(distance: float) -> None:
    with pytest.raises(OutOfRange, match="vertex distance"):
        vertex.ocular_refraction(spectacle_power_d=-2.0, vertex_mm=distance)
    with pytest.raises(OutOfRange, match="vertex distance"):
        vertex.spectacle_power(ocular_refraction_d=-2.0, vertex_mm=distance)
    with pytest.raises(OutOfRange, match="vertex distance"):
        vertex.ocular_lens(sphere_d=-2.0, cylinder_d=0.0, axis_deg=180, vertex_mm=distance)


def test_an_eye_without_error_has_no_far_point_to_print() -> None:
    with pytest.raises(OutOfRange):
        vertex.far_point_cm(ocular_refraction_d=0.0)
