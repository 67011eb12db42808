"""A lens that has turned. The published table stands in tests/published/turn.toml."""

from __future__ import annotations

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st
from lens_strategies import REAL_CYLINDERS

from explainer.optics.formulas import turn

TURNS = st.floats(-90, 90)


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


@given(cylinder=REAL_CYLINDERS, small=st.floats(0, 89), more=st.floats(0.1, 1))
def test_more_turn_leaves_more(cylinder: float, small: float, more: float) -> None:
    less = turn.residual_cylinder(cylinder_d=cylinder, turn_deg=small)
    assert turn.residual_cylinder(cylinder_d=cylinder, turn_deg=small + more) > less


def test_thirty_degrees_leave_as_much_as_no_cylinder_at_all() -> None:
    assert turn.residual_cylinder(cylinder_d=-2.25, turn_deg=30) == pytest.approx(2.25)
