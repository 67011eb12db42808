"""Prism of the pair. The published cases stand in tests/published/prism.toml."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lens_strategies import LENSES, lens

from explainer.errors import OutOfRange
from explainer.optics.formulas import imbalance
from explainer.optics.formulas.dial import mirrored_axis
from explainer.optics.formulas.power_vector import power_matrix
from explainer.optics.formulas.prescription import SpheroCylinder

DOWN = st.floats(0, 20)


def mirror(one: SpheroCylinder) -> SpheroCylinder:
    return SpheroCylinder(one.sphere_d, one.cylinder_d, mirrored_axis(axis_deg=one.axis_deg))


@given(one=LENSES, down=DOWN, inset=st.floats(0, 5))
def test_a_mirrored_pair_has_no_vertical_difference(one: SpheroCylinder, down: float, inset: float) -> None:
    pair = imbalance.prism_looking_down(right=one, left=mirror(one), down_mm=down, inset_mm=inset)
    assert pair.right_up_pd == pytest.approx(0, abs=1e-8)


@given(right=LENSES, left=LENSES, down=DOWN)
def test_straight_down_the_difference_is_that_of_the_vertical_powers(
    right: SpheroCylinder, left: SpheroCylinder, down: float
) -> None:
    # Prentice's rule in the vertical meridian, for each eye (mccarthy-anisometropia).
    up = power_matrix(**right._asdict()).fyy_d - power_matrix(**left._asdict()).fyy_d
    pair = imbalance.prism_looking_down(right=right, left=left, down_mm=down)
    assert pair.right_up_pd == pytest.approx(up * down / 10, abs=1e-8)
    assert imbalance.vertical_difference_down(right=right, left=left, down_mm=down) == pytest.approx(
        abs(up) * down / 10, abs=1e-8
    )


@given(right=LENSES, left=LENSES, down=DOWN)
def test_exchanging_the_lenses_turns_the_sign_but_not_the_size(
    right: SpheroCylinder, left: SpheroCylinder, down: float
) -> None:
    one = imbalance.prism_looking_down(right=right, left=left, down_mm=down).right_up_pd
    other = imbalance.prism_looking_down(right=mirror(left), left=mirror(right), down_mm=down).right_up_pd
    assert one == pytest.approx(-other, abs=1e-8)


@given(power=st.floats(0.25, 15), wide=st.floats(0.5, 10))
def test_centres_too_far_apart_give_a_plus_pair_base_out_and_a_minus_pair_base_in(power: float, wide: float) -> None:
    plus = imbalance.prism_from_pd_error(right=lens(power), left=lens(power), pd_error_mm=wide)
    minus = imbalance.prism_from_pd_error(right=lens(-power), left=lens(-power), pd_error_mm=wide)
    assert plus.total_in_pd == pytest.approx(-power * wide / 10)
    assert minus.total_in_pd == pytest.approx(power * wide / 10)


@given(right=LENSES, left=LENSES)
def test_right_centring_gives_no_prism(right: SpheroCylinder, left: SpheroCylinder) -> None:
    assert imbalance.prism_from_pd_error(right=right, left=left, pd_error_mm=0) == pytest.approx((0, 0))
    level = imbalance.prism_from_height_error(right=right, left=left, right_up_mm=0, left_up_mm=0)
    assert level == pytest.approx((0, 0))


@given(power=st.floats(-15, 15), high=st.floats(-5, 5))
def test_equal_lenses_at_equal_heights_do_not_differ_however_wrong_the_height(power: float, high: float) -> None:
    pair = imbalance.prism_from_height_error(right=lens(power), left=lens(power), right_up_mm=high, left_up_mm=high)
    assert pair.right_up_pd == pytest.approx(0, abs=1e-9)


@given(power=st.floats(0.25, 15), high=st.floats(0.5, 5))
def test_a_right_centre_too_high_gives_a_plus_pair_base_up_right(power: float, high: float) -> None:
    pair = imbalance.prism_from_height_error(right=lens(power), left=lens(power), right_up_mm=high, left_up_mm=0)
    assert pair.right_up_pd == pytest.approx(power * high / 10)


def test_places_and_errors_beyond_all_frames_are_refused() -> None:
    with pytest.raises(OutOfRange):
        imbalance.prism_looking_down(right=lens(1.0), left=lens(1.0), down_mm=31)
    with pytest.raises(OutOfRange):
        imbalance.prism_looking_down(right=lens(1.0), left=lens(1.0), down_mm=10, inset_mm=-1)
    with pytest.raises(OutOfRange):
        imbalance.prism_from_pd_error(right=lens(1.0), left=lens(1.0), pd_error_mm=20.5)
    with pytest.raises(OutOfRange):
        imbalance.prism_from_height_error(right=lens(1.0), left=lens(1.0), right_up_mm=0, left_up_mm=-21)
