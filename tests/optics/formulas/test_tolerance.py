"""The rules of tolerance. What the standards print stands in tests/published/tolerance.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import tolerance
from explainer.optics.formulas.tolerance import Band
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


@pytest.mark.parametrize(("cylinder", "row"), [(0.25, 14), (0.5, 7)])
def test_the_widest_rows_are_the_turns_that_leave_an_eighth_of_a_dioptre(cylinder: float, row: float) -> None:
    # torgersen-2006: the axis error that leaves 0.12 D, rounded up to a whole degree.
    assert residual_cylinder(cylinder_d=cylinder, turn_deg=row - 1) < 0.12
    assert residual_cylinder(cylinder_d=cylinder, turn_deg=row) >= 0.12


def test_what_the_table_leaves_out_has_no_limit() -> None:
    assert tolerance.allowed(AXIS, size=0.1) is None
    assert tolerance.allowed((), size=1.0) is None


@given(size=st.floats(0, 20))
def test_every_power_falls_into_exactly_one_row(size: float) -> None:
    holding = [band for band in SPHERE if tolerance.band_of((band,), size=size) is band]
    assert tolerance.band_of(SPHERE, size=size) in holding
    assert tolerance.allowed(SPHERE, size=size) == (0.13 if size <= 6.5 else pytest.approx(size * 0.02))


@given(limit=st.floats(0.01, 5), off=st.floats(-6, 6))
def test_a_deviation_is_judged_by_its_size_alone(limit: float, off: float) -> None:
    found = tolerance.verdict(deviation=off, allowed=limit)

    assert found == tolerance.verdict(deviation=-off, allowed=limit)
    if abs(abs(off) - limit) > 1e-6:
        assert found == ("inside" if abs(off) < limit else "outside")


def test_a_limit_itself_is_inside_and_the_next_hundredth_is_not() -> None:
    assert tolerance.verdict(deviation=-2.13 + 2.0, allowed=0.13) == "inside"  # floats miss it by their rounding
    assert tolerance.verdict(deviation=-2.14 + 2.0, allowed=0.13) == "outside"


def test_a_part_of_a_reading_can_fail_and_never_pass() -> None:
    assert tolerance.verdict_of_a_part(deviation=0.1, allowed=0.33) == "not-checked"
    assert tolerance.verdict_of_a_part(deviation=-0.4, allowed=0.33) == "outside"


def test_up_to_its_power_one_limit_holds_and_above_it_the_other() -> None:
    assert tolerance.limit_up_to(allowed=0.67, up_to=2.75, power_d=-2.75) == 0.67
    assert tolerance.limit_above(allowed=2.5, above=2.75, power_d=-2.76) == 2.5
    with pytest.raises(OutOfRange):
        tolerance.limit_up_to(allowed=0.67, up_to=2.75, power_d=2.76)
    with pytest.raises(OutOfRange):
        tolerance.limit_above(allowed=2.5, above=2.75, power_d=2.75)


def test_a_row_gives_its_limit_only_for_what_it_holds() -> None:
    assert tolerance.row_limit(allowed=2, above=6.5, size=-8.0, percent=True) == pytest.approx(0.16)
    with pytest.raises(OutOfRange):
        tolerance.row_limit(allowed=0.13, above=0, up_to=6.5, size=7.0)


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
        tolerance.verdict(deviation=math.nan, allowed=0.13)
