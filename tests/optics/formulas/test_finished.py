"""A finished lens against its order. What standards and handbooks print stands in tests/published/finished.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lens_strategies import ASTIGMATIC, LENSES, lens

from explainer.errors import OutOfRange
from explainer.optics.formulas import finished
from explainer.optics.formulas.prescription import SpheroCylinder, transpose
from explainer.optics.formulas.prism import prism_at


@given(one=LENSES)
def test_a_lens_exactly_as_ordered_differs_nowhere(one: SpheroCylinder) -> None:
    found = finished.meridians(ordered=one, read=one)

    assert found.stronger_deviation_d == found.weaker_deviation_d == 0
    assert abs(found.stronger_ordered_d) >= abs(found.weaker_ordered_d) - 1e-9


@given(ordered=LENSES, read=LENSES)
def test_the_form_in_which_order_or_reading_are_written_changes_nothing(
    ordered: SpheroCylinder, read: SpheroCylinder
) -> None:
    other_order, other_reading = transpose(**ordered._asdict()), transpose(**read._asdict())
    expected = finished.meridians(ordered=ordered, read=read)
    for first, second in ((other_order, read), (ordered, other_reading), (other_order, other_reading)):
        assert finished.meridians(ordered=first, read=second) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("ordered", "read", "deviation"),
    [
        ((-2.0, -1.0, 90), (-2.1, -1.0, 90), -0.1),  # strongest across the axis: -3.00 and -3.10
        ((-2.0, -1.0, 90), (-2.0, -1.2, 90), -0.2),  # the cylinder reaches the strongest meridian
        ((2.0, -1.0, 90), (2.0, -1.2, 90), 0.0),  # strongest along the axis: the cylinder does not reach it
        ((1.0, -2.0, 90), (0.95, -2.0, 90), -0.05),  # equally strong: no leap from +1.00 to -1.05
        ((-2.0, 0.0, 180), (-2.1, -0.12, 30), -0.22),  # a sphere: the meridian that differs more
    ],
)
def test_the_meridian_of_greatest_absolute_power_is_the_stronger_one(
    ordered: tuple[float, float, float], read: tuple[float, float, float], deviation: float
) -> None:
    found = finished.meridians(ordered=lens(*ordered), read=lens(*read))
    assert found.stronger_deviation_d == pytest.approx(deviation)


def test_a_sphere_alone_is_held_against_the_nearer_meridian() -> None:
    """-2.00 -1.00 x 90 has -2.00 and -3.00: a reading of -3.05 may be the latter, one of -2.50 is neither."""
    order = lens(-2.0, -1.0, 90)

    assert finished.nearest_meridian(ordered=order, read_d=-3.05) == pytest.approx(-0.05)
    assert finished.nearest_meridian(ordered=order, read_d=-1.9) == pytest.approx(0.1)
    assert abs(finished.nearest_meridian(ordered=order, read_d=-2.5)) == pytest.approx(0.5)


def test_sizes_are_compared_without_their_sign() -> None:
    assert finished.size_deviation(ordered=-1.0, read=1.2) == pytest.approx(0.2)
    assert finished.deviation(ordered=62.0, read=61.0) == -1.0
    assert finished.size(value=-3.0) == 3.0
    assert finished.size_of(in_pd=3.0, up_pd=-4.0) == pytest.approx(5.0)


@given(one=LENSES, nasal=st.floats(-5, 5), up=st.floats(-5, 5), side=st.sampled_from(["right", "left"]))
def test_a_point_is_as_far_off_as_its_prism_says(one: SpheroCylinder, nasal: float, up: float, side) -> None:
    """Through a place off the centre a lens shows the prism that leads back to that distance."""
    there = prism_at(**one._asdict(), side=side, nasal_mm=nasal, up_mm=up)
    off = finished.point_off(lens=one, side=side, in_pd=there.base_in_pd, up_pd=there.base_up_pd)

    weak = min(abs(one.sphere_d), abs(one.sphere_d + one.cylinder_d))
    if weak >= 0.12:
        assert off == pytest.approx(math.hypot(nasal, up), abs=1e-6)
    elif there.base_in_pd or there.base_up_pd:
        assert off == math.inf


@given(one=ASTIGMATIC, other=ASTIGMATIC)
def test_the_greatest_power_towards_a_direction_is_that_of_the_stronger_lens(
    one: SpheroCylinder, other: SpheroCylinder
) -> None:
    for vertical in (True, False):
        found = finished.greatest_power_towards(right=one, left=other, vertical=vertical)
        alone = [finished.greatest_power_towards(right=each, left=each, vertical=vertical) for each in (one, other)]
        assert found == max(alone)


def test_only_the_power_in_the_direction_counts() -> None:
    """-1.00 -4.00 x 180 has -1.00 across and -5.00 upright."""
    upright = lens(-1.0, -4.0, 180)

    assert finished.greatest_power_towards(right=upright, left=upright, vertical=False) == pytest.approx(1.0)
    assert finished.greatest_power_towards(right=upright, left=upright, vertical=True) == pytest.approx(5.0)


def test_a_prism_is_turned_back_into_the_distance_that_gives_it() -> None:
    assert finished.distance_of(prism_pd=-1.5, power_d=-6.0) == pytest.approx(2.5)
    with pytest.raises(OutOfRange):
        finished.distance_of(prism_pd=1.0, power_d=0.0)
