"""Magnification, against ray-transfer matrices. Published cases stand in tests/published/lens_light.toml."""

from __future__ import annotations

import math

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import magnification
from explainer.optics.formulas.thick_lens import back_vertex_power

FRONTS, BACKS = st.floats(0, 12), st.floats(-15, 0)
THICKNESSES, INDICES, DISTANCES = st.floats(1, 8), st.floats(1.49, 1.76), st.floats(10, 25)


def chief_ray_ratio() -> sympy.Expr:
    """Independent reference: the ray that meets the middle of the pupil, followed back through the lens by sympy."""
    f1, f2, t, n, h = sympy.symbols("F1 F2 t n h", real=True)

    def refraction(power: sympy.Symbol) -> sympy.Matrix:
        return sympy.Matrix([[1, 0], [-power, 1]])

    def path(length: sympy.Expr) -> sympy.Matrix:
        return sympy.Matrix([[1, length], [0, 1]])

    system = path(h) * refraction(f2) * path(t / n) * refraction(f1)
    # At the pupil the height is 0: A y + B u = 0. The ratio of the angles there and before the lens is 1 / A.
    height_in = -system[0, 1] / system[0, 0]
    return sympy.lambdify((f1, f2, t, n, h), sympy.simplify(system[1, 0] * height_in + system[1, 1]), "math")


RATIO = chief_ray_ratio()


@given(front=FRONTS, back=BACKS, thickness=THICKNESSES, index=INDICES, distance=DISTANCES)
def test_the_magnification_is_the_ratio_of_the_chief_rays_angles(
    front: float, back: float, thickness: float, index: float, distance: float
) -> None:
    power = back_vertex_power(front_d=front, back_d=back, thickness_mm=thickness, index=index)
    ours = magnification.spectacle_magnification(
        front_power_d=front,
        back_vertex_power_d=power,
        thickness_mm=thickness,
        index=index,
        pupil_distance_mm=distance,
    )
    assert ours == pytest.approx(RATIO(front, back, thickness / 1000, index, distance / 1000))


@given(power=st.floats(-15, 15).filter(lambda each: abs(each) > 0.1), distance=st.floats(8, 20))
def test_the_eye_seen_from_afar_is_the_image_of_a_thing_behind_a_thin_lens(power: float, distance: float) -> None:
    # Law: lateral magnification is the ratio of the vergences before and after the lens.
    before = -1000 / distance
    seen = magnification.eyes_seen(power_d=power, vertex_mm=distance)
    assert seen == pytest.approx(before / (before + power))


@given(power=st.floats(0.25, 15), distance=DISTANCES)
def test_plus_enlarges_and_minus_makes_smaller_both_ways_round(power: float, distance: float) -> None:
    for formula, place in (
        (magnification.power_factor, {"pupil_distance_mm": distance}),
        (magnification.eyes_seen, {"vertex_mm": distance}),
    ):
        name = "power_d" if formula is magnification.eyes_seen else "back_vertex_power_d"
        assert formula(**{name: power}, **place) > 1 > formula(**{name: -power}, **place)


@given(power=st.floats(-15, 15).filter(lambda each: abs(each) > 0.1), near=st.floats(8, 15), more=st.floats(1, 10))
def test_the_nearer_the_lens_the_nearer_to_natural_size(power: float, near: float, more: float) -> None:
    close = magnification.eyes_seen(power_d=power, vertex_mm=near)
    far = magnification.eyes_seen(power_d=power, vertex_mm=near + more)
    assert abs(close - 1) < abs(far - 1)


@given(index=INDICES, thickness=THICKNESSES)
def test_a_flat_front_and_no_power_magnify_nothing(index: float, thickness: float) -> None:
    assert magnification.shape_factor(front_power_d=0.0, thickness_mm=thickness, index=index) == 1
    assert magnification.power_factor(back_vertex_power_d=0.0, pupil_distance_mm=15.0) == 1


@pytest.mark.parametrize(
    ("formula", "wrong"),
    [
        ("eyes_seen", {"power_d": 39.0, "vertex_mm": 30.0}),
        ("eyes_seen", {"power_d": -4.0, "vertex_mm": -1.0}),
        ("power_factor", {"back_vertex_power_d": -4.0, "pupil_distance_mm": 51.0}),
        ("power_factor", {"back_vertex_power_d": math.nan, "pupil_distance_mm": 15.0}),
        ("shape_factor", {"front_power_d": 6.0, "thickness_mm": 2.0, "index": 1.33}),
        ("shape_factor", {"front_power_d": 6.0, "thickness_mm": 31.0, "index": 1.5}),
    ],
)
def test_what_no_spectacles_do_is_refused(formula: str, wrong: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        getattr(magnification, formula)(**wrong)


def test_a_refusal_names_the_powers_that_would_do() -> None:
    with pytest.raises(OutOfRange, match=r"power = 39.0 is outside -40 to 33.3333 D"):
        magnification.eyes_seen(power_d=39.0, vertex_mm=30.0)
