"""A change of prescription, and when it counts as oblique."""

from __future__ import annotations

import pytest
from handwork import added
from hypothesis import assume, given
from hypothesis import strategies as st
from lens_strategies import AXES, LENSES, REAL_CYLINDERS, SPHERES, lens

from explainer.errors import OutOfRange
from explainer.optics.formulas.change import change, change_strength, is_oblique_change, oblique_part
from explainer.optics.formulas.power_vector import power_matrix
from explainer.optics.formulas.prescription import SpheroCylinder, transpose


@given(one=LENSES)
def test_no_change_is_nothing(one: SpheroCylinder) -> None:
    assert change_strength(previous=one, new=one) == pytest.approx(0, abs=1e-9)
    assert not is_oblique_change(previous=one, new=one, threshold_d=0.25)


@given(previous=LENSES, new=LENSES)
def test_the_previous_lens_and_the_change_make_the_new_one(previous: SpheroCylinder, new: SpheroCylinder) -> None:
    sum_ = added(previous, change(previous=previous, new=new))
    assert power_matrix(**sum_._asdict()) == pytest.approx(power_matrix(**new._asdict()), abs=1e-8)


@given(previous=LENSES, new=LENSES)
def test_the_size_of_a_change_is_the_same_both_ways_and_in_both_forms(
    previous: SpheroCylinder, new: SpheroCylinder
) -> None:
    there, back = (
        change_strength(previous=previous, new=new),
        change_strength(previous=new, new=previous),
    )
    other_form = transpose(**new._asdict())
    assert there == pytest.approx(back, abs=1e-9)
    assert change_strength(previous=previous, new=other_form) == pytest.approx(there, abs=1e-9)
    assert oblique_part(previous=previous, new=other_form) == pytest.approx(
        oblique_part(previous=previous, new=new), abs=1e-9
    )


@given(first=LENSES, second=LENSES, third=LENSES)
def test_a_detour_is_never_shorter(first: SpheroCylinder, second: SpheroCylinder, third: SpheroCylinder) -> None:
    direct = change_strength(previous=first, new=third)
    detour = change_strength(previous=first, new=second) + change_strength(previous=second, new=third)
    assert direct <= detour + 1e-9


@given(sphere=SPHERES, cylinder=REAL_CYLINDERS, axis=st.sampled_from([90.0, 180.0]), new_sphere=SPHERES)
def test_changes_along_the_horizontal_and_the_vertical_are_never_oblique(
    sphere: float, cylinder: float, axis: float, new_sphere: float
) -> None:
    assert oblique_part(previous=lens(sphere), new=lens(new_sphere, cylinder, axis)) == pytest.approx(0, abs=1e-9)


@given(cylinder=REAL_CYLINDERS, axis=st.sampled_from([45.0, 135.0]), sphere=SPHERES)
def test_a_new_cylinder_at_45_or_135_counts_with_its_full_size(cylinder: float, axis: float, sphere: float) -> None:
    assert oblique_part(previous=lens(sphere), new=lens(sphere, cylinder, axis)) == pytest.approx(abs(cylinder))


@given(previous=LENSES, new=LENSES)
def test_the_oblique_part_is_never_more_than_twice_the_whole_change(
    previous: SpheroCylinder, new: SpheroCylinder
) -> None:
    assert oblique_part(previous=previous, new=new) <= 2 * change_strength(previous=previous, new=new) + 1e-9


@given(sphere=SPHERES.filter(lambda each: abs(each) < 10), cylinder=REAL_CYLINDERS, axis=AXES)
def test_only_the_oblique_part_makes_an_upright_line_lean(sphere: float, cylinder: float, axis: float) -> None:
    # Law behind the definition: a lens at a distance d magnifies by the matrix (I - d F)^-1. An upright line
    # leans by (inverse)_xy / (inverse)_yy, and the inverse of a 2 x 2 matrix has -(-d Fxy) in that place.
    distance_m = 0.015
    matrix = power_matrix(sphere_d=sphere, cylinder_d=cylinder, axis_deg=axis)
    a, b, d = 1 - distance_m * matrix.fxx_d, -distance_m * matrix.fxy_d, 1 - distance_m * matrix.fyy_d
    determinant = a * d - b * b
    lean = (-b / determinant) / (a / determinant)
    counted = oblique_part(previous=lens(sphere), new=lens(sphere, cylinder, axis))
    assert abs(lean) * a / distance_m == pytest.approx(counted / 2, abs=1e-9)


@given(axis=AXES, turned=st.floats(5, 20), cylinder=st.sampled_from([-2.0, -3.0]))
def test_the_same_turn_of_the_axis_counts_most_near_upright_and_level(
    axis: float, turned: float, cylinder: float
) -> None:
    # A cylinder that leaves 90 or 180 gains J45 fastest; one at 45 only gains J0.
    assume(abs((axis + turned / 2) % 90 - 45) < 44)
    here = oblique_part(previous=lens(0, cylinder, axis), new=lens(0, cylinder, axis + turned))
    upright = oblique_part(previous=lens(0, cylinder, 90 - turned / 2), new=lens(0, cylinder, 90 + turned / 2))
    assert here <= upright + 1e-9


def test_the_threshold_itself_counts() -> None:
    assert is_oblique_change(previous=lens(-2.0), new=lens(-2.0, -0.5, 45), threshold_d=0.5)
    assert not is_oblique_change(previous=lens(-2.0), new=lens(-2.0, -0.25, 45), threshold_d=0.5)
    with pytest.raises(OutOfRange):
        is_oblique_change(previous=lens(0.0), new=lens(1.0), threshold_d=0.0)
