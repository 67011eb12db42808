"""Sphere, cylinder and axis. The published cases stand in tests/published/prescription.toml."""

from __future__ import annotations

import math

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st
from lens_strategies import ANGLES, ASTIGMATIC, AXES, CYLINDERS, LENSES, SPHERES, lens

from explainer.errors import OutOfRange
from explainer.optics.formulas import prescription as rx
from explainer.optics.formulas.prescription import SpheroCylinder


@given(one=LENSES)
def test_transposing_twice_gives_the_lens_back(one: SpheroCylinder) -> None:
    there = rx.transpose(**one._asdict())
    back = rx.transpose(**there._asdict())
    assert back == pytest.approx(one)


@given(one=ASTIGMATIC)
def test_transposing_turns_the_sign_of_the_cylinder_and_the_axis_by_a_right_angle(one: SpheroCylinder) -> None:
    other = rx.transpose(**one._asdict())
    assert other.cylinder_d == -one.cylinder_d
    assert abs(other.axis_deg - one.axis_deg) == pytest.approx(90)
    assert 0 < other.axis_deg <= 180


@given(one=LENSES, meridian=ANGLES)
def test_both_forms_have_the_same_power_in_every_meridian(one: SpheroCylinder, meridian: float) -> None:
    other = rx.transpose(**one._asdict())
    first = rx.power_in_meridian(**one._asdict(), meridian_deg=meridian)
    assert rx.power_in_meridian(**other._asdict(), meridian_deg=meridian) == pytest.approx(first, abs=1e-9)


def test_transposition_is_an_identity_of_power_matrices() -> None:
    # Independent reference: sympy, with the matrix built by turning diag(S, S + C) to the axis.
    sphere, cylinder, axis = sympy.symbols("S C A", real=True)

    def matrix(s: sympy.Expr, c: sympy.Expr, a: sympy.Expr) -> sympy.Matrix:
        turn = sympy.Matrix([[sympy.cos(a), -sympy.sin(a)], [sympy.sin(a), sympy.cos(a)]])
        return turn * sympy.diag(s, s + c) * turn.T

    difference = matrix(sphere, cylinder, axis) - matrix(sphere + cylinder, -cylinder, axis + sympy.pi / 2)
    assert sympy.simplify(difference) == sympy.zeros(2, 2)


@given(sphere=SPHERES, axis=ANGLES)
def test_a_lens_without_cylinder_carries_the_axis_180_whatever_was_written(sphere: float, axis: float) -> None:
    assert lens(sphere, 0.0, axis) == SpheroCylinder(sphere, 0.0, 180.0)
    assert rx.transpose(sphere_d=sphere, cylinder_d=0.0, axis_deg=axis) == SpheroCylinder(sphere, 0.0, 180.0)


@given(sphere=SPHERES, cylinder=CYLINDERS)
def test_axis_zero_and_axis_180_are_one_lens(sphere: float, cylinder: float) -> None:
    assert lens(sphere, cylinder, 0) == lens(sphere, cylinder, 180)


def test_no_power_is_ever_a_negative_zero() -> None:
    plano = rx.transpose(sphere_d=2.0, cylinder_d=-2.0, axis_deg=60)
    assert math.copysign(1, plano.sphere_d) == 1
    assert math.copysign(1, rx.transpose(sphere_d=-1.0, cylinder_d=0.0, axis_deg=5).cylinder_d) == 1
    assert math.copysign(1, lens(-0.0).sphere_d) == 1


@given(one=LENSES)
def test_along_and_across_add_up_to_twice_the_mean(one: SpheroCylinder) -> None:
    along, across = rx.principal_powers(sphere_d=one.sphere_d, cylinder_d=one.cylinder_d)
    mean = rx.mean_sphere(sphere_d=one.sphere_d, cylinder_d=one.cylinder_d)
    assert along + across == pytest.approx(2 * mean)


@given(one=ASTIGMATIC)
def test_the_principal_powers_are_the_powers_along_and_across_the_axis(one: SpheroCylinder) -> None:
    along, across = rx.principal_powers(sphere_d=one.sphere_d, cylinder_d=one.cylinder_d)
    here = rx.power_in_meridian(**one._asdict(), meridian_deg=one.axis_deg)
    there = rx.power_in_meridian(**one._asdict(), meridian_deg=one.axis_deg + 90)
    assert (here, there) == pytest.approx((along, across))


@given(one=LENSES, meridian=ANGLES)
def test_powers_at_right_angles_add_up_to_twice_the_mean_in_every_direction(
    one: SpheroCylinder, meridian: float
) -> None:
    # Law: the trace of a matrix does not depend on the axes it is written in.
    here = rx.power_in_meridian(**one._asdict(), meridian_deg=meridian)
    there = rx.power_in_meridian(**one._asdict(), meridian_deg=meridian + 90)
    mean = rx.mean_sphere(sphere_d=one.sphere_d, cylinder_d=one.cylinder_d)
    assert here + there == pytest.approx(2 * mean, abs=1e-9)


@given(one=LENSES, meridian=ANGLES)
def test_no_meridian_is_stronger_than_the_strongest_principal_power(one: SpheroCylinder, meridian: float) -> None:
    strongest = rx.strongest_power(sphere_d=one.sphere_d, cylinder_d=one.cylinder_d)
    assert abs(rx.power_in_meridian(**one._asdict(), meridian_deg=meridian)) <= abs(strongest) + 1e-9


@given(one=LENSES)
def test_mean_and_strength_do_not_depend_on_the_form(one: SpheroCylinder) -> None:
    other = rx.transpose(**one._asdict())
    for formula in (rx.mean_sphere, rx.strongest_power):
        mine = formula(sphere_d=one.sphere_d, cylinder_d=one.cylinder_d)
        theirs = formula(sphere_d=other.sphere_d, cylinder_d=other.cylinder_d)
        assert abs(mine) == pytest.approx(abs(theirs))


@given(sphere=SPHERES, add=st.floats(0, 4))
def test_near_is_never_weaker_in_plus_than_distance(sphere: float, add: float) -> None:
    assert rx.near_sphere(sphere_d=sphere, add_d=add) - sphere == pytest.approx(add, abs=1e-9)


@given(count=st.integers(-80, 80))
def test_so_many_quarter_steps_make_the_power(count: int) -> None:
    assert rx.quarter_steps(power_d=count * 0.25) == count


@given(sphere=SPHERES, cylinder=CYLINDERS, axis=AXES)
def test_a_tidy_lens_is_the_lens_that_was_put_in(sphere: float, cylinder: float, axis: float) -> None:
    tidy = lens(sphere, cylinder, axis)
    assert (tidy.sphere_d, tidy.cylinder_d) == (sphere, cylinder)
    assert tidy.axis_deg == (axis if cylinder else 180)


@pytest.mark.parametrize(
    "wrong",
    [
        {"sphere_d": 40.25, "cylinder_d": 0.0, "axis_deg": 180},
        {"sphere_d": 0.0, "cylinder_d": -41.0, "axis_deg": 180},
        {"sphere_d": math.nan, "cylinder_d": 0.0, "axis_deg": 180},
        {"sphere_d": 0.0, "cylinder_d": math.inf, "axis_deg": 180},
        {"sphere_d": 0.0, "cylinder_d": -1.0, "axis_deg": math.nan},
    ],
)
def test_what_is_no_spectacle_lens_is_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        rx.transpose(**wrong)
    with pytest.raises(OutOfRange):
        rx.power_in_meridian(**wrong, meridian_deg=90)


def test_an_addition_cannot_be_negative() -> None:
    with pytest.raises(OutOfRange, match="addition"):
        rx.near_sphere(sphere_d=0.0, add_d=-0.25)
