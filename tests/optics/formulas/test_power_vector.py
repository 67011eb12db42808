"""Power vectors and matrices. The published sums stand in tests/published/power_vector.toml."""

from __future__ import annotations

import math

import pytest
import sympy
from handwork import added
from hypothesis import given
from hypothesis import strategies as st
from lens_strategies import ANGLES, ASTIGMATIC, LENSES, SPHERES, lens

from explainer.errors import OutOfRange
from explainer.optics.formulas import power_vector as pv
from explainer.optics.formulas.prescription import (
    SpheroCylinder,
    mean_sphere,
    minus_cylinder_form,
    power_in_meridian,
    transpose,
)


def same_lens(first: SpheroCylinder, second: SpheroCylinder) -> bool:
    """Equality by power matrix, which knows neither forms nor the end of the axis scale."""
    return pv.power_matrix(**first._asdict()) == pytest.approx(pv.power_matrix(**second._asdict()), abs=1e-9)


@given(one=ASTIGMATIC)
def test_the_lens_of_a_vector_is_the_minus_cylinder_form(one: SpheroCylinder) -> None:
    expected = minus_cylinder_form(**one._asdict())
    found = pv.lens_of_vector(**pv.vector_of(one)._asdict())
    assert found[:2] == pytest.approx(expected[:2])
    assert math.sin(math.radians(found.axis_deg - expected.axis_deg)) == pytest.approx(0, abs=1e-9)


@given(one=LENSES)
def test_both_forms_of_a_lens_have_one_vector_and_one_matrix(one: SpheroCylinder) -> None:
    other = transpose(**one._asdict())
    assert pv.vector_of(other) == pytest.approx(pv.vector_of(one), abs=1e-9)
    assert same_lens(one, other)


@given(one=LENSES)
def test_the_trace_of_the_matrix_is_twice_the_mean_and_the_determinant_the_product(one: SpheroCylinder) -> None:
    matrix = pv.power_matrix(**one._asdict())
    assert matrix.fxx_d + matrix.fyy_d == pytest.approx(
        2 * mean_sphere(sphere_d=one.sphere_d, cylinder_d=one.cylinder_d)
    )
    determinant = matrix.fxx_d * matrix.fyy_d - matrix.fxy_d**2
    assert determinant == pytest.approx(one.sphere_d * (one.sphere_d + one.cylinder_d), abs=1e-9)


def test_the_matrix_is_the_turned_diagonal_matrix() -> None:
    # Independent reference: sympy builds R diag(S, S + C) R^T; our three entries must be its entries.
    sphere, cylinder, axis = sympy.symbols("S C A", real=True)
    turn = sympy.Matrix([[sympy.cos(axis), -sympy.sin(axis)], [sympy.sin(axis), sympy.cos(axis)]])
    symbolic = turn * sympy.diag(sphere, sphere + cylinder) * turn.T
    for values in [(-3.0, 2.0, 30), (1.25, -4.5, 117), (0.0, -1.0, 45), (6.5, -0.25, 3)]:
        exact = symbolic.subs({sphere: values[0], cylinder: values[1], axis: values[2] * sympy.pi / 180})
        ours = pv.power_matrix(**lens(*values)._asdict())
        assert ours == pytest.approx((float(exact[0, 0]), float(exact[1, 1]), float(exact[0, 1])))


@given(one=LENSES, meridian=ANGLES)
def test_the_power_in_a_meridian_is_the_matrix_seen_along_it(one: SpheroCylinder, meridian: float) -> None:
    # Law: u^T F u for a step u along the meridian.
    matrix, angle = pv.power_matrix(**one._asdict()), math.radians(meridian)
    x, y = math.cos(angle), math.sin(angle)
    along = matrix.fxx_d * x * x + 2 * matrix.fxy_d * x * y + matrix.fyy_d * y * y
    assert along == pytest.approx(power_in_meridian(**one._asdict(), meridian_deg=meridian), abs=1e-9)


@pytest.mark.parametrize("cylinder", [-0.01, -1e-6])
def test_a_small_cylinder_keeps_its_axis(cylinder: float) -> None:
    small = pv.lens_of_vector(**pv.power_vector(sphere_d=0.0, cylinder_d=cylinder, axis_deg=70)._asdict())
    assert small == pytest.approx((0.0, cylinder, 70.0), rel=1e-6, abs=1e-12)


@given(first=LENSES, second=LENSES)
def test_the_order_of_two_lenses_in_contact_does_not_matter(first: SpheroCylinder, second: SpheroCylinder) -> None:
    assert same_lens(added(first, second), added(second, first))


@given(first=LENSES, second=LENSES, meridian=ANGLES)
def test_lenses_in_contact_add_up_in_every_meridian(
    first: SpheroCylinder, second: SpheroCylinder, meridian: float
) -> None:
    both = added(first, second)
    parts = [power_in_meridian(**each._asdict(), meridian_deg=meridian) for each in (first, second)]
    assert power_in_meridian(**both._asdict(), meridian_deg=meridian) == pytest.approx(sum(parts), abs=1e-8)


@given(first=LENSES, second=LENSES)
def test_subtracting_undoes_adding(first: SpheroCylinder, second: SpheroCylinder) -> None:
    assert same_lens(pv.subtract(added(first, second), second), first)


@given(one=LENSES)
def test_a_lens_less_itself_is_nothing_without_an_axis(one: SpheroCylinder) -> None:
    assert pv.subtract(one, one) == (pytest.approx(0, abs=1e-9), 0.0, 180.0)


@given(power=st.integers(1, 24).map(lambda count: count / 4), apart=st.floats(1, 90))
def test_two_equal_cylinders_follow_the_rule_for_obliquely_crossed_ones(power: float, apart: float) -> None:
    # indian-optician-2022: the axis bisects; sphere 2F sin^2(a/2), cylinder 2 (F - S).
    both = transpose(**added(lens(0.0, power, 180), lens(0.0, power, apart))._asdict())
    sphere = 2 * power * math.sin(math.radians(apart / 2)) ** 2
    assert same_lens(both, lens(sphere, 2 * (power - sphere), apart / 2))


@given(
    first=st.integers(1, 24).map(lambda count: count / 4),
    second=st.integers(1, 24).map(lambda count: count / 4),
    apart=st.floats(0, 90),
)
def test_any_two_cylinders_follow_the_classical_equations(first: float, second: float, apart: float) -> None:
    # indian-optician-2022: C^2 = F1^2 + F2^2 + 2 F1 F2 cos 2a, S = (F1 + F2 - C) / 2.
    both = added(lens(0.0, first, 180), lens(0.0, second, apart))
    cylinder = math.sqrt(max(0.0, first**2 + second**2 + 2 * first * second * math.cos(math.radians(2 * apart))))
    assert both.cylinder_d == pytest.approx(-cylinder, abs=1e-6)
    assert both.sphere_d + both.cylinder_d == pytest.approx((first + second - cylinder) / 2, abs=1e-6)


@given(one=LENSES)
def test_the_blur_strength_is_the_length_of_the_vector(one: SpheroCylinder) -> None:
    length = math.hypot(*pv.vector_of(one))
    assert pv.blur_strength(sphere_d=one.sphere_d, cylinder_d=one.cylinder_d) == pytest.approx(length)


@given(one=LENSES, sphere=SPHERES)
def test_no_sphere_leaves_less_blur_than_the_mean_sphere(one: SpheroCylinder, sphere: float) -> None:
    # Law: M is the sphere nearest to the lens in the space of power vectors (thibos-1994).
    mean = mean_sphere(sphere_d=one.sphere_d, cylinder_d=one.cylinder_d)
    best = pv.blur_strength(sphere_d=one.sphere_d - mean, cylinder_d=one.cylinder_d)
    other = pv.blur_strength(sphere_d=one.sphere_d - sphere, cylinder_d=one.cylinder_d)
    assert best <= other + 1e-9


def test_a_sum_beyond_any_spectacle_lens_is_refused() -> None:
    with pytest.raises(OutOfRange):
        added(lens(30.0), lens(30.0))
    with pytest.raises(OutOfRange):
        pv.power_vector(sphere_d=0.0, cylinder_d=-1.0, axis_deg=math.inf)
