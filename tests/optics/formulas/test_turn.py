"""A lens that has turned. The published table stands in tests/published/turn.toml."""

from __future__ import annotations

import math

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st
from lens_strategies import AXES, REAL_CYLINDERS

from explainer.errors import OutOfRange
from explainer.optics.formulas import turn
from explainer.optics.formulas.dial import axis_difference
from explainer.optics.formulas.power_vector import power_matrix

TURNS = st.floats(-90, 90)


@given(cylinder=REAL_CYLINDERS, axis=AXES)
def test_a_lens_that_has_not_turned_leaves_nothing(cylinder: float, axis: float) -> None:
    left = turn.residual_of_turn(cylinder_d=cylinder, axis_deg=axis, turn_deg=0)
    assert left == (pytest.approx(0, abs=1e-9), 0.0, 180.0)
    assert turn.residual_cylinder(cylinder_d=cylinder, turn_deg=0) == 0


@given(cylinder=REAL_CYLINDERS, axis=AXES)
def test_a_right_angle_leaves_twice_the_cylinder(cylinder: float, axis: float) -> None:
    left = turn.residual_of_turn(cylinder_d=cylinder, axis_deg=axis, turn_deg=90)
    assert left.cylinder_d == pytest.approx(-2 * abs(cylinder))
    assert turn.residual_cylinder(cylinder_d=cylinder, turn_deg=-90) == pytest.approx(2 * abs(cylinder))


@given(cylinder=REAL_CYLINDERS, axis=AXES, turned=TURNS)
def test_what_is_left_over_is_a_cross_cylinder_of_the_stated_size(cylinder: float, axis: float, turned: float) -> None:
    left = turn.residual_of_turn(cylinder_d=cylinder, axis_deg=axis, turn_deg=turned)
    assert left.sphere_d + left.cylinder_d / 2 == pytest.approx(0, abs=1e-9)
    size = turn.residual_cylinder(cylinder_d=cylinder, turn_deg=turned)
    assert -left.cylinder_d == pytest.approx(size, abs=1e-8)


@given(cylinder=REAL_CYLINDERS.map(lambda each: -abs(each)), axis=AXES, turned=st.floats(1, 89))
def test_the_residual_of_a_minus_cylinder_lies_45_less_half_the_turn_on_the_other_side(
    cylinder: float, axis: float, turned: float
) -> None:
    # iacle-module-3: the over-refraction's axis moves against the turn.
    anticlockwise = turn.residual_of_turn(cylinder_d=cylinder, axis_deg=axis, turn_deg=turned)
    clockwise = turn.residual_of_turn(cylinder_d=cylinder, axis_deg=axis, turn_deg=-turned)
    away = 45 - turned / 2
    assert axis_difference(first_deg=anticlockwise.axis_deg, second_deg=axis - away) < 1e-6
    assert axis_difference(first_deg=clockwise.axis_deg, second_deg=axis + away) < 1e-6


@given(cylinder=REAL_CYLINDERS, axis=AXES, turned=TURNS)
def test_the_turned_lens_and_the_residual_make_the_lens_that_is_needed(
    cylinder: float, axis: float, turned: float
) -> None:
    left = power_matrix(**turn.residual_of_turn(cylinder_d=cylinder, axis_deg=axis, turn_deg=turned)._asdict())
    supplied = power_matrix(sphere_d=0.0, cylinder_d=cylinder, axis_deg=axis + turned)
    needed = power_matrix(sphere_d=0.0, cylinder_d=cylinder, axis_deg=axis)
    assert [a + b for a, b in zip(left, supplied, strict=True)] == pytest.approx(list(needed), abs=1e-8)


@given(cylinder=REAL_CYLINDERS, axis=AXES, turned=TURNS)
def test_the_form_in_which_the_lens_is_written_does_not_change_what_is_left(
    cylinder: float, axis: float, turned: float
) -> None:
    one = turn.residual_of_turn(cylinder_d=cylinder, axis_deg=axis, turn_deg=turned)
    other = turn.residual_of_turn(cylinder_d=-cylinder, axis_deg=axis + 90, turn_deg=turned)
    assert power_matrix(**one._asdict()) == pytest.approx(power_matrix(**other._asdict()), abs=1e-8)


def test_the_residual_matrix_has_the_symbolic_eigenvalues() -> None:
    # Independent reference: sympy. Turned diagonal matrices, their difference, and its eigenvalues +-C sin d.
    cylinder, angle = sympy.symbols("C d", positive=True)

    def at(axis: sympy.Expr) -> sympy.Matrix:
        rotation = sympy.Matrix([[sympy.cos(axis), -sympy.sin(axis)], [sympy.sin(axis), sympy.cos(axis)]])
        return rotation * sympy.diag(0, -cylinder) * rotation.T

    difference = at(sympy.Integer(0)) - at(angle)
    assert sympy.simplify(difference.trace()) == 0
    assert sympy.simplify(difference.det() + (cylinder * sympy.sin(angle)) ** 2) == 0
    value = float((2 * cylinder * sympy.sin(angle)).subs({cylinder: 1.75, angle: sympy.pi / 18}))
    assert turn.residual_cylinder(cylinder_d=-1.75, turn_deg=10) == pytest.approx(value)


@given(cylinder=REAL_CYLINDERS, turned=st.floats(0, 90))
def test_the_turn_that_leaves_a_residual_is_the_turn_that_left_it(cylinder: float, turned: float) -> None:
    left = turn.residual_cylinder(cylinder_d=cylinder, turn_deg=turned)
    found = turn.axis_error_for_residual(cylinder_d=cylinder, residual_d=left)
    # Near 90 degrees the sine is flat, so the angle itself is known to fewer digits than the sine.
    assert math.sin(math.radians(found)) == pytest.approx(math.sin(math.radians(turned)), abs=1e-9)


@given(cylinder=REAL_CYLINDERS, small=st.floats(0, 89), more=st.floats(0.1, 1))
def test_more_turn_leaves_more(cylinder: float, small: float, more: float) -> None:
    less = turn.residual_cylinder(cylinder_d=cylinder, turn_deg=small)
    assert turn.residual_cylinder(cylinder_d=cylinder, turn_deg=small + more) > less


def test_thirty_degrees_leave_as_much_as_no_cylinder_at_all() -> None:
    assert turn.residual_cylinder(cylinder_d=-2.25, turn_deg=30) == pytest.approx(2.25)


@pytest.mark.parametrize(("cylinder", "residual"), [(0.5, 1.01), (0.0, 0.1), (1.0, -0.1), (1.0, math.nan)])
def test_a_residual_that_no_turn_leaves_is_refused(cylinder: float, residual: float) -> None:
    with pytest.raises(OutOfRange):
        turn.axis_error_for_residual(cylinder_d=cylinder, residual_d=residual)


def test_a_turn_beyond_half_a_circle_and_a_cylinder_beyond_20_are_refused() -> None:
    with pytest.raises(OutOfRange, match="turn"):
        turn.residual_of_turn(cylinder_d=-1.0, axis_deg=90, turn_deg=181)
    with pytest.raises(OutOfRange, match="cylinder"):
        turn.residual_of_turn(cylinder_d=-20.25, axis_deg=90, turn_deg=5)
