"""Reflection and transmission. The published cases stand in tests/published/lens_light.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import reflection

INDICES = st.floats(1.4, 2.0)


@given(index=INDICES)
def test_to_and_fro_inside_the_lens_is_a_geometric_series(index: float) -> None:
    # Law: (1 - R)^2 (1 + R^2 + R^4 + …), summed here term by term.
    once = reflection.surface_reflectance(index=index)
    series = sum((1 - once) ** 2 * once ** (2 * trips) for trips in range(40))
    assert reflection.transmittance(index=index) == pytest.approx(series)


@given(index=INDICES)
def test_inner_reflections_can_only_add_light(index: float) -> None:
    straight = reflection.transmittance_without_inner_reflections(index=index)
    assert 0 < straight < reflection.transmittance(index=index) < 1


@given(index=st.floats(1.4, 1.9), more=st.floats(0.01, 0.1))
def test_a_higher_index_throws_back_more_and_lets_through_less(index: float, more: float) -> None:
    low, high = index, index + more
    assert reflection.surface_reflectance(index=low) < reflection.surface_reflectance(index=high)
    assert reflection.transmittance(index=low) > reflection.transmittance(index=high)


@given(index=INDICES)
def test_the_reflectance_at_normal_incidence_is_fresnels(index: float) -> None:
    # Law: Fresnel's equations at a very small angle, both polarisations, here from Snell's law.
    outside = 1e-4
    inside = math.asin(math.sin(outside) / index)
    across = (math.sin(outside - inside) / math.sin(outside + inside)) ** 2
    along = (math.tan(outside - inside) / math.tan(outside + inside)) ** 2
    assert reflection.surface_reflectance(index=index) == pytest.approx((across + along) / 2, rel=1e-6)


def test_a_quarter_wave_layer_does_what_a_thin_film_library_says() -> None:
    # prysm 0.21.1, multilayer_stack_rt: index 1.38 on 1.586 at 555 nm, quarter wave: 0.00832139; bare:
    # 0.0513497.
    layered = reflection.quarter_wave_reflectance(index=1.586, layer_index=1.38)
    assert layered == pytest.approx(0.00832139, abs=5e-9)
    assert reflection.surface_reflectance(index=1.586) == pytest.approx(0.0513497, abs=5e-8)


@given(index=INDICES)
def test_the_ideal_layer_has_the_square_root_of_the_index(index: float) -> None:
    ideal = reflection.quarter_wave_reflectance(index=index, layer_index=max(1.2, math.sqrt(index)))
    assert ideal == pytest.approx(0 if index >= 1.44 else ideal, abs=1e-15)
    none = reflection.quarter_wave_reflectance(index=index, layer_index=index)
    assert none == pytest.approx(reflection.surface_reflectance(index=index))


@given(index=INDICES)
def test_at_the_critical_angle_the_light_leaves_along_the_surface(index: float) -> None:
    angle = math.radians(reflection.critical_angle_deg(index=index))
    assert index * math.sin(angle) == pytest.approx(1)


@pytest.mark.parametrize("index", [1.0, 1.39, 2.01, math.nan])
def test_what_is_no_lens_material_is_refused(index: float) -> None:
    for formula in (
        reflection.surface_reflectance,
        reflection.transmittance,
        reflection.transmittance_without_inner_reflections,
        reflection.critical_angle_deg,
    ):
        with pytest.raises(OutOfRange, match="refractive index"):
            formula(index=index)
    with pytest.raises(OutOfRange):
        reflection.quarter_wave_reflectance(index=index, layer_index=1.38)
    with pytest.raises(OutOfRange, match="layer"):
        reflection.quarter_wave_reflectance(index=1.5, layer_index=1.1)
