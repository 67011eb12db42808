"""Reflection and transmission. The published cases stand in tests/published/lens_light.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.optics.formulas import reflection

INDICES = st.floats(1.4, 2.0)


@given(index=INDICES)
def test_to_and_fro_inside_the_lens_is_a_geometric_series(index: float) -> None:
    # Law: (1 - R)^2 (1 + R^2 + R^4 + …), summed here term by term.
    once = reflection.surface_reflectance(index=index)
    series = sum((1 - once) ** 2 * once ** (2 * trips) for trips in range(40))
    assert reflection.transmittance(index=index) == pytest.approx(series)


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
