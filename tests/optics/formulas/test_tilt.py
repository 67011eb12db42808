"""Tilted lenses. The published examples stand in tests/published/thick_lens.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas.tilt import centre_drop_mm, tilted_lens, whole_slant

POWERS = st.floats(-15, 15).filter(lambda each: abs(each) > 0.25)
INDICES = st.floats(1.49, 1.76)


@given(power=POWERS, index=INDICES)
def test_a_lens_that_stands_upright_is_itself(power: float, index: float) -> None:
    assert tilted_lens(sphere_d=power, tilt_deg=0, hinge_axis_deg=180, index=index) == (power, 0.0, 180.0)


@given(power=POWERS, index=INDICES, tilt=st.floats(1, 30), hinge=st.sampled_from([90.0, 180.0]))
def test_tilt_strengthens_both_meridians_and_most_the_one_across_the_hinge(
    power: float, index: float, tilt: float, hinge: float
) -> None:
    lens = tilted_lens(sphere_d=power, tilt_deg=tilt, hinge_axis_deg=hinge, index=index)
    assert abs(lens.sphere_d) > abs(power)
    assert lens.cylinder_d * power > 0
    assert lens.axis_deg == hinge


@given(power=POWERS, index=INDICES, tilt=st.floats(0.5, 30))
def test_forward_and_backward_tilt_do_the_same_to_the_power(power: float, index: float, tilt: float) -> None:
    forward = tilted_lens(sphere_d=power, tilt_deg=tilt, hinge_axis_deg=180, index=index)
    backward = tilted_lens(sphere_d=power, tilt_deg=-tilt, hinge_axis_deg=180, index=index)
    assert forward == backward


@given(power=st.floats(1, 15), index=INDICES, tilt=st.floats(1, 20))
def test_the_error_is_near_the_third_order_astigmatism_of_an_oblique_bundle(
    power: float, index: float, tilt: float
) -> None:
    # Coddington's equations for a thin lens with the stop at it (memory, textbook): the cylinder is F tan^2
    # a to the
    # lowest order, whatever the index; the sphere grows by sin^2 a / (2n).
    lens = tilted_lens(sphere_d=power, tilt_deg=tilt, hinge_axis_deg=180, index=index)
    square = math.radians(tilt) ** 2
    assert lens.cylinder_d / power == pytest.approx(square, rel=1.5 * square + 1e-6)
    assert lens.sphere_d / power - 1 == pytest.approx(square / (2 * index), rel=square)


def test_tilts_no_frame_has_are_refused() -> None:
    with pytest.raises(OutOfRange, match="tilt"):
        tilted_lens(sphere_d=-2.0, tilt_deg=41, hinge_axis_deg=180, index=1.5)
    with pytest.raises(OutOfRange, match="tilt"):
        centre_drop_mm(tilt_deg=-1)
    with pytest.raises(OutOfRange, match="refractive index"):
        tilted_lens(sphere_d=-2.0, tilt_deg=10, hinge_axis_deg=180, index=1.0)


@given(tilt=st.floats(4, 15))
def test_the_rule_for_the_centre_is_near_the_geometry_of_the_turning_eye(tilt: float) -> None:
    # Geometry: the axis of the lens runs through the eye's centre of rotation, about 27 mm behind it
    # (memory).
    assert centre_drop_mm(tilt_deg=tilt) == pytest.approx(27 * math.sin(math.radians(tilt)), rel=0.08)


def test_a_front_that_is_tilted_and_wrapped_alike_hinges_across_its_lowest_corner() -> None:
    """Seen by someone facing the wearer, the right lens goes back most low at the temple, lower left.

    So it turns about the line from upper left to lower right, 135 degrees after ISO 8429; the left
    lens about its mirror.
    """
    right, left = (whole_slant(pantoscopic_deg=5, wrap_deg=5, side=side) for side in ("right", "left"))  # type: ignore[arg-type]
    assert right.hinge_axis_deg == pytest.approx(135, abs=0.2)
    assert left.hinge_axis_deg == pytest.approx(45, abs=0.2)
    assert right.tilt_deg == left.tilt_deg == pytest.approx(5 * math.sqrt(2), abs=0.01)
