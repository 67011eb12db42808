"""Colour. The published cases stand in tests/published/lens_light.toml."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import chromatic

ABBES = st.floats(28, 60)
POWERS = st.floats(-15, 15).filter(lambda each: abs(each) > 0.25)
D_LINE, F_LINE, C_LINE = 587.5618, 486.1327, 656.2725

# zhang-2020, tabulated refractive index of polycarbonate by wavelength in nm.
ZHANG = {500: 1.60251, 550: 1.59509, 590: 1.59004, 600: 1.58873}


@given(power=POWERS, abbe=ABBES, threshold=st.floats(0.05, 0.5))
def test_the_fringe_reaches_the_threshold_at_the_stated_distance(power: float, abbe: float, threshold: float) -> None:
    distance = chromatic.threshold_distance_mm(power_d=power, abbe=abbe, threshold_pd=threshold)
    if distance <= 50:
        found = chromatic.fringe_at_distance_pd(power_d=power, distance_mm=distance, abbe=abbe)
        assert found == pytest.approx(threshold)


@pytest.mark.parametrize(
    ("formula", "wrong"),
    [
        ("transverse_spread_pd", {"prism_pd": -0.1, "abbe": 30}),
        ("transverse_spread_pd", {"prism_pd": 1.0, "abbe": 10}),
        ("fringe_at_distance_pd", {"power_d": 2.0, "distance_mm": 51.0, "abbe": 30}),
        ("threshold_distance_mm", {"power_d": 0.0, "abbe": 30, "threshold_pd": 0.1}),
        ("threshold_distance_mm", {"power_d": 2.0, "abbe": 30, "threshold_pd": 1.1}),
    ],
)
def test_what_no_material_does_is_refused(formula: str, wrong: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        getattr(chromatic, formula)(**wrong)
