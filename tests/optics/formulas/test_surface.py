"""One lens surface, against the geometry of sphere and torus and the published rules."""

from __future__ import annotations

import math

import numpy as np
import pytest
from handwork import sphere_sag_mm
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import surface

POWERS = st.floats(-18, 18)
INDICES = st.floats(1.49, 1.76)
CURVATURES = st.floats(-0.03, 0.03)
FAR = st.floats(-15, 15)


@given(
    base=CURVATURES,
    cross=CURVATURES,
    meridian=st.floats(0, 180),
    x=FAR,
    y=FAR,
)
def test_a_toric_sag_lies_on_the_torus(base: float, cross: float, meridian: float, x: float, y: float) -> None:
    z = float(
        surface.toric_sag_mm(
            x_mm=np.array([x]),
            y_mm=np.array([y]),
            base_curvature_per_mm=base,
            cross_curvature_per_mm=cross,
            base_meridian_deg=meridian,
        )[0]
    )
    turn = math.radians(meridian)
    u, v = x * math.cos(turn) + y * math.sin(turn), y * math.cos(turn) - x * math.sin(turn)
    # Law: cut at right angles to the axis of rotation, the torus shows circles. The point is at the distance d from
    # that axis, as far as a point of the arc v at depth q, so u^2 + (R - z)^2 = (R - q)^2 with R the base radius;
    # times the base curvature: c u^2 - 2 z + c z^2 = -2 q + c q^2. And the arc is a circle: k v^2 - 2 q + k q^2 = 0.
    q = cross * v**2 / 2
    for _ in range(60):
        q = cross * (v**2 + q**2) / 2
    assert base * u**2 - 2 * z + base * z**2 == pytest.approx(-2 * q + base * q**2, abs=1e-9)


def test_the_base_curve_stands_in_its_own_meridian() -> None:
    flat, steep = surface.toric_sag_mm(
        x_mm=np.array([20.0, 0.0]),
        y_mm=np.array([0.0, 20.0]),
        base_curvature_per_mm=0.01,
        cross_curvature_per_mm=0.02,
        base_meridian_deg=0.0,
    )
    assert flat == pytest.approx(100 - math.sqrt(100**2 - 20**2))
    assert steep == pytest.approx(50 - math.sqrt(50**2 - 20**2))


@given(bvp=st.floats(-15, 10), front=st.floats(0, 14), index=INDICES, centre=st.floats(0.5, 10))
def test_the_back_surface_gives_the_wanted_back_vertex_power(
    bvp: float, front: float, index: float, centre: float
) -> None:
    back = surface.back_surface_power_d(back_vertex_power_d=bvp, front_power_d=front, index=index, centre_mm=centre)
    # Step-along vergence, surface by surface, from a distant object.
    inside = 1 / (1 / front - centre / 1000 / index) if front else 0.0
    assert inside + back == pytest.approx(bvp, abs=1e-9)


def test_the_check_lens_of_other_programs() -> None:
    # n 1.586, front +6.00, back -10.00, centre 2.0 mm: back vertex power -3.954257 D (computed once, outside this
    # project, by symbolic algebra in sympy 1.14.0 and by the ray tracing library rayoptics 0.9.8).
    back = surface.back_surface_power_d(back_vertex_power_d=-3.954257, front_power_d=6, index=1.586, centre_mm=2.0)
    assert back == pytest.approx(-10, abs=1e-6)


@pytest.mark.parametrize(
    ("mean_sphere", "front"), [(4, 10), (2, 8), (0, 6), (-6, 3), (-8, 2), (-12, 0), (-15, 0), (11, 14)]
)
def test_vogels_rule(mean_sphere: float, front: float) -> None:
    # Trade rule, common practice: plus lenses M + 6, minus lenses M/2 + 6; what lies beyond is an assumption.
    assert surface.usual_front_curve_d(mean_sphere_d=mean_sphere) == front


def test_vogels_rules_refuse_each_others_lenses() -> None:
    with pytest.raises(OutOfRange, match="plus front curve rule"):
        surface.vogel_plus_d(mean_sphere_d=-0.25)
    with pytest.raises(OutOfRange, match="minus front curve rule"):
        surface.vogel_minus_d(mean_sphere_d=0.25)
    with pytest.raises(OutOfRange):
        surface.usual_front_curve_d(mean_sphere_d=math.nan)


def test_a_surface_that_ends_before_the_edge_is_refused_by_diameter_and_radius() -> None:
    with pytest.raises(OutOfRange, match=r"diameter on the surface \(steepest radius 27\.7 mm\) = 60") as refusal:
        sphere_sag_mm(power_d=18, index=1.498, height_mm=30)
    assert refusal.value.high == pytest.approx(2 * 498 / 18)
    with pytest.raises(OutOfRange, match=r"diameter on the front \(steepest radius 25\.0 mm\) = 60"):
        surface.toric_sag_mm(
            x_mm=np.array([30.0]),
            y_mm=np.array([0.0]),
            base_curvature_per_mm=0.04,
            cross_curvature_per_mm=0.01,
            base_meridian_deg=0,
            surface="front",
        )


@pytest.mark.parametrize("index", [1.0, 1.39, 2.1, math.nan])
def test_what_is_no_lens_material_is_refused(index: float) -> None:
    with pytest.raises(OutOfRange, match="refractive index"):
        surface.curvature_from_power(power_d=1, index=index)


def test_a_front_that_focuses_inside_the_lens_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"front curve of \+20\.00 D"):
        surface.back_surface_power_d(back_vertex_power_d=1, front_power_d=20, index=1.5, centre_mm=80)
