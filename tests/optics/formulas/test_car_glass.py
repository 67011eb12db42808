"""Car glass: the model panes against the studies that measured real ones."""

from __future__ import annotations

import numpy as np
import pytest
from handwork import weighted_mean
from hypothesis import given
from hypothesis import strategies as st
from studies import study

from explainer.errors import OutOfRange
from explainer.optics import facts
from explainer.optics.facts import spectra
from explainer.optics.formulas.car_glass import glass_transmittance, half_wavelength_nm
from explainer.optics.formulas.spectrum import Spectrum
from explainer.optics.light.places import pane_edge

SUN = spectra.load("astm_g173", "global")
WINDSCREEN = {"width_nm": 4.5, "plateau": 0.82}
SIDE_CLEAR = {"width_nm": 8.0, "plateau": 0.90}


def glass(*, low_nm: float, high_nm: float, half_nm: float, width_nm: float, plateau: float) -> Spectrum:
    grid = np.arange(low_nm, high_nm + 0.5)
    values = glass_transmittance(wavelength_nm=grid, half_nm=half_nm, width_nm=width_nm, plateau=plateau)
    return Spectrum(grid, values)


def passed(half_nm: float, low: float, high: float, shape: dict[str, float]) -> float:
    pane = glass(low_nm=280, high_nm=500, half_nm=half_nm, **shape)
    return weighted_mean(pane, weight=SUN, low_nm=low, high_nm=high)


def test_one_windscreen_keeps_out_99_percent_to_380_and_86_percent_to_400():
    """Why trade tables of 84-86 % (to 400 nm) and meters of 95-98 % both hold: worked with an edge at 390 nm.

    0.8 % passes from 300 to 380 nm and 13.7 % from 315 to 400 nm (that run with a slightly bluer sky: 1 point).
    """
    assert passed(390, 300, 380, WINDSCREEN) == pytest.approx(0.008, abs=0.0005)
    assert passed(390, 315, 400, WINDSCREEN) == pytest.approx(0.137, abs=0.01)


def test_the_usual_windscreen_passes_what_the_glass_trade_says():
    """Trade column 2008 (weak): 84 to 86 % of the UV-A to 400 nm blocked."""
    assert 0.14 <= passed(pane_edge("windscreen").usual, 315, 400, WINDSCREEN) <= 0.16


def test_the_windscreens_of_the_sweep_reach_both_ends_of_the_29_cars():
    """JAMA Ophthalmology 2016: 95 to 98 % blocked. The meter's band is unknown, so both readings are kept."""
    edge = pane_edge("windscreen")

    assert passed(edge.low, 315, 380, WINDSCREEN) == pytest.approx(0.05, abs=1e-3)
    assert passed(edge.high, 315, 400, WINDSCREEN) == pytest.approx(0.02, abs=1e-3)


def test_laminated_glass_of_a_glazing_page_lies_within_the_sweep():
    """Glazing page (weak): 2 % (0.76 mm of plastic) and 4 % (0.38 mm) pass from 280 to 380 nm."""
    edge = pane_edge("windscreen")
    thick, thin = study("light.windscreen.uv380_transmitted").interval.low, 4.0

    assert passed(edge.high, 280, 380, WINDSCREEN) < thick / 100 < thin / 100 < passed(edge.low, 280, 380, WINDSCREEN)


def test_the_darkest_laminated_glass_of_a_study_is_near_the_strict_end():
    """Br J Dermatol 2004: grey laminated glass passes 0.9 %; Photodermatol 2009: laminated passes none."""
    strict = passed(pane_edge("windscreen").high, 315, 400, WINDSCREEN)

    assert strict == pytest.approx(0.009, abs=0.012)


def test_windscreens_pass_only_above_380_and_side_windows_above_335():
    """Photodermatol 2003. Below the wavelength named, no more than a twentieth passes; 20 nm above, more does."""
    screen, side = pane_edge("windscreen").usual, pane_edge("side_window_clear").usual

    assert glass_transmittance(wavelength_nm=375.0, half_nm=screen, **WINDSCREEN) < 0.05
    assert glass_transmittance(wavelength_nm=400.0, half_nm=screen, **WINDSCREEN) > 0.5
    assert glass_transmittance(wavelength_nm=320.0, half_nm=side, **SIDE_CLEAR) < 0.05
    assert glass_transmittance(wavelength_nm=355.0, half_nm=side, **SIDE_CLEAR) > 0.5


def test_what_is_found_inside_cars_fits_the_windscreens():
    """Parisi and Kimlin: 5 to 17 % of outdoor UV-A in cars; Photodermatol 2003: 3 to 4 % on the arm, windows shut."""
    edge, inside = pane_edge("windscreen"), study("light.in_car.uva.untinted").interval
    arm = study("light.in_car.arm_dose.shut").interval

    assert inside.low <= 100 * passed(edge.usual, 315, 400, WINDSCREEN) <= inside.high
    assert 100 * passed(edge.high, 315, 400, WINDSCREEN) < arm.low < arm.high < inside.high


def test_clear_side_windows_lie_between_two_studies():
    """Br J Dermatol 2004: 62.8 % of the UV-A; Photodermatol 2009: 74.3 %."""
    edge = pane_edge("side_window_clear")

    assert passed(edge.low, 315, 400, SIDE_CLEAR) == pytest.approx(0.743, abs=1e-3)
    assert passed(edge.high, 315, 400, SIDE_CLEAR) == pytest.approx(0.628, abs=1e-3)


def test_tinted_side_windows_span_the_29_cars():
    """JAMA Ophthalmology 2016: 44 to 96 % blocked, mean 71 %."""
    edge, shape = pane_edge("side_window_green"), {"width_nm": 8.0, "plateau": 0.85}

    blocked = [1 - passed(half, 315, 400, shape) for half in (edge.low, edge.usual, edge.high)]

    assert blocked == pytest.approx([0.44, 0.71, 0.96], abs=1e-3)


def test_trade_figures_for_tinted_side_glass_lie_within_that_span():
    """Trade column 2008 (weak): 48 % blocked by tinted and 65 % by solar green single glass."""
    cars, trade = (
        facts.get("light.side_window.uva_blocked.range").interval,
        study("light.side_window.uva400_blocked").interval,
    )

    assert cars.low <= trade.low < trade.high <= cars.high


@given(share=st.floats(0.01, 0.85), width=st.floats(2, 15))
def test_the_edge_found_passes_the_share_asked_for(share: float, width: float):
    shape = {"width_nm": width, "plateau": 0.9}

    half = half_wavelength_nm(transmitted=share, sun=SUN, low_nm=315, high_nm=400, **shape)

    pane = glass(low_nm=315, high_nm=400, half_nm=half, **shape)
    assert weighted_mean(pane, weight=SUN, low_nm=315, high_nm=400) == pytest.approx(share, abs=2e-3)


@given(half=st.floats(330, 410), low=st.floats(300, 500), more=st.floats(0, 100))
def test_glass_clears_towards_longer_waves_and_never_beyond_its_plateau(half: float, low: float, more: float):
    here, there = glass_transmittance(wavelength_nm=np.array([low, low + more]), half_nm=half, **WINDSCREEN)

    assert 0 < here <= there <= 0.82


def test_half_the_plateau_is_reached_at_the_edge():
    assert glass_transmittance(wavelength_nm=390.0, half_nm=390.0, **WINDSCREEN) == pytest.approx(0.41)


@pytest.mark.parametrize(
    "wrong", [{"transmitted": 0.95}, {"transmitted": 0.0}, {"width_nm": 0.0}, {"plateau": 1.2}, {"low_nm": 200.0}]
)
def test_what_no_glass_can_do_is_refused(wrong: dict[str, float]):
    asked = {"transmitted": 0.1, "low_nm": 315.0, "high_nm": 400.0, **WINDSCREEN, **wrong}

    with pytest.raises(OutOfRange):
        half_wavelength_nm(sun=SUN, **asked)
