"""The arithmetic of the ball tests. The published numbers stand in tests/published/impact.toml."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import impact


@given(mass=st.floats(0.1, 100), height=st.floats(0.01, 5))
def test_the_energy_at_the_bottom_is_the_height_it_fell_through(mass: float, height: float) -> None:
    # Law: conservation of energy, m g h.
    speed = impact.drop_speed(height_m=height)
    energy = impact.impact_energy(mass_g=mass, speed_m_s=speed)
    assert energy == pytest.approx(mass / 1000 * 9.80665 * height)


@given(diameter=st.floats(1, 50), density=st.floats(1, 20))
def test_a_ball_twice_as_wide_weighs_eight_times_as_much(diameter: float, density: float) -> None:
    one = impact.ball_mass(diameter_mm=diameter, density_g_cm3=density)
    assert impact.ball_mass(diameter_mm=2 * diameter, density_g_cm3=density) == pytest.approx(8 * one)


@pytest.mark.parametrize(
    ("formula", "wrong"),
    [
        ("drop_speed", {"height_m": -1.0}),
        ("drop_speed", {"height_m": 11.0}),
        ("impact_energy", {"mass_g": -1.0, "speed_m_s": 1.0}),
        ("impact_energy", {"mass_g": 1.0, "speed_m_s": 501.0}),
        ("ball_mass", {"diameter_mm": 101.0, "density_g_cm3": 7.85}),
        ("ball_mass", {"diameter_mm": 10.0, "density_g_cm3": 0.1}),
    ],
)
def test_what_no_ball_test_does_is_refused(formula: str, wrong: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        getattr(impact, formula)(**wrong)
