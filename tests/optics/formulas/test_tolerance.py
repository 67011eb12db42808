"""The rules of tolerance. What the standards print stands in tests/published/tolerance.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lens_strategies import ASTIGMATIC, LENSES, SPHERES, lens

from explainer.errors import OutOfRange
from explainer.optics.formulas import tolerance
from explainer.optics.formulas.prescription import SpheroCylinder, transpose
from explainer.optics.formulas.tolerance import Band, ImbalanceRule
from explainer.optics.formulas.turn import residual_cylinder

# ansi-z80-1-2015-guide, tables 1, 3 and 4, typed here again so that the rules are tried on real rows.
SPHERE = (Band(0, 6.5, 0.13), Band(6.5, math.inf, 0.02, relative=True))
CYLINDER = (Band(0, 2.0, 0.13), Band(2.0, 4.5, 0.15), Band(4.5, math.inf, 0.04, relative=True))
AXIS = (
    Band(0.12, 0.25, 14),
    Band(0.25, 0.5, 7),
    Band(0.5, 0.75, 5),
    Band(0.75, 1.5, 3),
    Band(1.5, math.inf, 2),
)
ADDITION = (Band(0, 4.0, 0.12), Band(4.0, math.inf, 0.18))
HORIZONTAL = ImbalanceRule(up_to_d=2.75, prism_pd=0.67, distance_mm=2.5)


@given(one=LENSES)
def test_a_lens_exactly_as_ordered_is_inside_or_not_checked_never_outside(one: SpheroCylinder) -> None:
    assert tolerance.power_verdict(SPHERE, ordered=one, read=one) == "inside"
    cylinder = one.cylinder_d
    assert tolerance.cylinder_verdict(CYLINDER, ordered_cylinder_d=cylinder, read_cylinder_d=cylinder) == "inside"
    expected = "inside" if cylinder else "not-checked"
    assert tolerance.axis_verdict(AXIS, ordered=one, read=one) == expected


@given(ordered=LENSES, read=LENSES)
def test_no_verdict_depends_on_the_form_in_which_order_or_reading_are_written(
    ordered: SpheroCylinder, read: SpheroCylinder
) -> None:
    other_order, other_reading = transpose(**ordered._asdict()), transpose(**read._asdict())
    for first, second in ((other_order, read), (ordered, other_reading), (other_order, other_reading)):
        assert tolerance.power_deviation(ordered=first, read=second) == pytest.approx(
            tolerance.power_deviation(ordered=ordered, read=read), abs=1e-9
        )
        assert tolerance.axis_verdict(AXIS, ordered=first, read=second) == tolerance.axis_verdict(
            AXIS, ordered=ordered, read=read
        )


@given(sphere=st.floats(-6, 6), off=st.floats(0.14, 3))
def test_a_wrong_sphere_is_outside_both_ways(sphere: float, off: float) -> None:
    for sign in (1, -1):
        read = lens(sphere + sign * off)
        assert tolerance.power_verdict(SPHERE, ordered=lens(sphere), read=read) == "outside"


@given(size=st.floats(0.25, 10), sphere=SPHERES)
def test_a_lens_made_with_the_wrong_sign_is_outside(size: float, sphere: float) -> None:
    assert tolerance.power_verdict(SPHERE, ordered=lens(-size), read=lens(size)) == "outside"
    wrong_axis = tolerance.axis_verdict(AXIS, ordered=lens(sphere, -1.0, 20), read=lens(sphere, 1.0, 20))
    assert wrong_axis == "outside"


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
def test_the_meridian_of_greatest_absolute_power_is_compared(
    ordered: tuple[float, float, float], read: tuple[float, float, float], deviation: float
) -> None:
    found = tolerance.power_deviation(ordered=lens(*ordered), read=lens(*read))
    assert found == pytest.approx(deviation)


def test_a_limit_itself_is_inside_and_the_next_hundredth_is_not() -> None:
    assert tolerance.power_verdict(SPHERE, ordered=lens(-2.0), read=lens(-2.13)) == "inside"
    assert tolerance.power_verdict(SPHERE, ordered=lens(-2.0), read=lens(-2.14)) == "outside"
    assert tolerance.cylinder_verdict(CYLINDER, ordered_cylinder_d=-1.0, read_cylinder_d=-1.13) == "inside"
    assert tolerance.cylinder_verdict(CYLINDER, ordered_cylinder_d=-1.0, read_cylinder_d=-1.14) == "outside"


@pytest.mark.parametrize(
    ("ordered", "read", "verdict"), [(179, 1, "inside"), (1, 179, "inside"), (180, 2, "inside"), (180, 3, "outside")]
)
def test_the_axis_is_compared_across_the_horizontal(ordered: float, read: float, verdict: str) -> None:
    found = tolerance.axis_verdict(AXIS, ordered=lens(0, -2.0, ordered), read=lens(0, -2.0, read))
    assert found == verdict


@given(one=ASTIGMATIC, off=st.floats(15, 90))
def test_an_axis_beyond_the_widest_row_is_always_outside(one: SpheroCylinder, off: float) -> None:
    read = lens(one.sphere_d, one.cylinder_d, one.axis_deg + off)
    assert tolerance.axis_verdict(AXIS, ordered=one, read=read) == "outside"


@pytest.mark.parametrize(("cylinder", "row"), [(0.25, 14), (0.5, 7)])
def test_the_widest_rows_are_the_turns_that_leave_an_eighth_of_a_dioptre(cylinder: float, row: float) -> None:
    # torgersen-2006: the axis error that leaves 0.12 D, rounded up to a whole degree.
    assert residual_cylinder(cylinder_d=cylinder, turn_deg=row - 1) < 0.12
    assert residual_cylinder(cylinder_d=cylinder, turn_deg=row) >= 0.12


def test_what_the_table_leaves_out_is_not_checked_rather_than_passed() -> None:
    assert tolerance.allowed(AXIS, size=0.1) is None
    tiny = lens(0, -0.1, 20)
    assert tolerance.axis_verdict(AXIS, ordered=tiny, read=lens(0, -0.1, 110)) == "not-checked"
    assert tolerance.axis_verdict(AXIS, ordered=lens(0, -1.0, 20), read=lens(-0.5)) == "not-checked"
    assert tolerance.deviation_verdict((), size=1.0, deviation=5.0) == "not-checked"


@given(size=st.floats(0, 20))
def test_every_power_falls_into_exactly_one_row(size: float) -> None:
    holding = [band for band in SPHERE if tolerance.band_of((band,), size=size) is band]
    assert tolerance.band_of(SPHERE, size=size) in holding
    assert tolerance.allowed(SPHERE, size=size) == (0.13 if size <= 6.5 else pytest.approx(size * 0.02))


@given(ordered=st.floats(0.5, 4), off=st.floats(0, 1))
def test_the_addition_is_judged_by_its_difference(ordered: float, off: float) -> None:
    verdict = tolerance.addition_verdict(ADDITION, ordered_add_d=ordered, read_add_d=ordered + off)
    if abs(off - 0.12) > 1e-6:
        assert verdict == ("inside" if off < 0.12 else "outside")


def test_up_to_its_power_the_rule_judges_prism_and_above_it_distance() -> None:
    def judge(power: float, prism: float, distance: float) -> str:
        return tolerance.imbalance_verdict(HORIZONTAL, strongest_power_d=power, prism_pd=prism, distance_mm=distance)

    assert judge(2.75, 0.67, 9.0) == "inside"
    assert judge(2.75, -0.68, 0.0) == "outside"
    assert judge(-2.76, 9.0, -2.5) == "inside"
    assert judge(3.0, 0.0, 2.6) == "outside"


def test_a_rule_without_a_distance_holds_its_prism_for_every_power() -> None:
    rule = ImbalanceRule(up_to_d=math.inf, prism_pd=0.5, distance_mm=math.inf)
    verdict = tolerance.imbalance_verdict(rule, strongest_power_d=20.0, prism_pd=0.6, distance_mm=0.1)
    assert verdict == "outside"


@pytest.mark.parametrize("band", [(1.0, 1.0, 0.1), (2.0, 1.0, 0.1), (0.0, 1.0, 0.0), (0.0, 1.0, math.nan)])
def test_a_row_that_holds_nothing_cannot_be_made(band: tuple[float, float, float]) -> None:
    with pytest.raises(OutOfRange):
        Band(*band)


def test_rows_that_overlap_are_refused() -> None:
    with pytest.raises(OutOfRange):
        tolerance.band_of((Band(0, 2, 0.1), Band(1, 3, 0.2)), size=1.5)


@pytest.mark.parametrize("size", [-1.0, math.nan])
def test_a_size_below_nothing_is_refused(size: float) -> None:
    with pytest.raises(OutOfRange):
        tolerance.allowed(SPHERE, size=size)


def test_a_reading_that_is_no_number_is_refused_not_judged() -> None:
    with pytest.raises(OutOfRange):
        tolerance.deviation_verdict(SPHERE, size=1.0, deviation=math.nan)
    with pytest.raises(OutOfRange):
        tolerance.cylinder_verdict(CYLINDER, ordered_cylinder_d=-1.0, read_cylinder_d=math.nan)
    with pytest.raises(OutOfRange):
        tolerance.imbalance_verdict(HORIZONTAL, strongest_power_d=1.0, prism_pd=math.nan, distance_mm=0.0)
