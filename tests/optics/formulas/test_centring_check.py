"""Measured centring against the rule for mounted pairs (ansi-z80-1-2015-guide, table 6)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lens_strategies import LENSES, lens

from explainer.optics.formulas.centring_check import check_heights, check_pd
from explainer.optics.formulas.prescription import SpheroCylinder
from explainer.optics.formulas.tolerance import ImbalanceRule

HORIZONTAL = ImbalanceRule(up_to_d=2.75, prism_pd=0.67, distance_mm=2.5)
VERTICAL = ImbalanceRule(up_to_d=3.375, prism_pd=0.33, distance_mm=1.0)


@given(right=LENSES, left=LENSES)
def test_a_pair_centred_as_ordered_is_inside(right: SpheroCylinder, left: SpheroCylinder) -> None:
    assert check_pd(HORIZONTAL, right=right, left=left, pd_error_mm=0).verdict == "inside"
    heights = check_heights(VERTICAL, right=right, left=left, right_up_mm=0, left_up_mm=0)
    assert heights.verdict == "inside"


@given(power=st.floats(0.5, 2.75), off=st.floats(0, 15))
def test_a_weak_pair_is_judged_by_prism(power: float, off: float) -> None:
    found = check_pd(HORIZONTAL, right=lens(-power), left=lens(-power), pd_error_mm=off)
    assert found.judged_by == "prism"
    assert found.prism_pd == pytest.approx(power * off / 10)
    if abs(found.prism_pd - 0.67) > 1e-6:
        assert found.verdict == ("inside" if found.prism_pd < 0.67 else "outside")


@given(power=st.floats(2.8, 15), off=st.floats(-10, 10))
def test_a_strong_pair_is_judged_by_distance(power: float, off: float) -> None:
    found = check_pd(HORIZONTAL, right=lens(power), left=lens(1.0), pd_error_mm=off)
    assert found.judged_by == "distance"
    if abs(abs(off) - 2.5) > 1e-6:
        assert found.verdict == ("inside" if abs(off) < 2.5 else "outside")


def test_the_horizontal_power_chooses_the_limit_not_the_power_along_the_axis() -> None:
    # -5.00 lies upright only: the horizontal power of -1.00 -4.00 x 180 is -1.00.
    upright = lens(-1.0, -4.0, 180)
    assert check_pd(HORIZONTAL, right=upright, left=upright, pd_error_mm=3).judged_by == "prism"
    level = lens(-1.0, -4.0, 90)
    assert check_pd(HORIZONTAL, right=level, left=level, pd_error_mm=3).judged_by == "distance"


def test_equal_heights_are_inside_even_when_both_are_wrong_and_unequal_ones_are_not() -> None:
    both = check_heights(VERTICAL, right=lens(-2.0), left=lens(-2.0), right_up_mm=4, left_up_mm=4)
    assert (both.prism_pd, both.verdict) == (0, "inside")
    one = check_heights(VERTICAL, right=lens(-2.0), left=lens(-2.0), right_up_mm=2, left_up_mm=0)
    assert one.prism_pd == pytest.approx(0.4)
    assert one.verdict == "outside"


def test_strong_lenses_are_judged_by_the_difference_of_their_heights() -> None:
    near = check_heights(VERTICAL, right=lens(-6.0), left=lens(-6.0), right_up_mm=1.0, left_up_mm=0.0)
    far = check_heights(VERTICAL, right=lens(-6.0), left=lens(-6.0), right_up_mm=1.0, left_up_mm=-0.1)
    assert (near.judged_by, near.verdict) == ("distance", "inside")
    assert far.verdict == "outside"
