"""Tints: what the tables of worked cases cannot say, mostly with spectra (see also tests/published/light.toml)."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics import facts
from explainer.optics.facts import spectra
from explainer.optics.formulas import tint
from explainer.optics.formulas.spectrum import Spectrum, luminous_transmittance

NM = np.arange(380.0, 781.0, 5.0)
D65, EYE = spectra.load("cie_d65", "d65"), spectra.load("cie_v", "v")
BOUNDS = (1.0, 0.80, 0.43, 0.18, 0.08)
RED_LAMP = Spectrum(NM, 1 / (1 + np.exp(-(NM - 610) / 6)))
BLUE_LAMP = Spectrum(NM, np.exp(-(((NM - 470) / 20) ** 2)))


def quotient(values, lamp: Spectrum) -> float:
    return tint.signal_quotient(Spectrum(NM, values), signal=lamp, illuminant=D65, observer=EYE)


@pytest.mark.parametrize("lamp", [RED_LAMP, BLUE_LAMP])
def test_a_neutral_tint_dims_signals_as_it_dims_the_scene(lamp: Spectrum):
    assert quotient(np.full(NM.size, 0.2), lamp) == pytest.approx(1.0, abs=1e-12)


def test_a_brown_filter_favours_red_and_dims_blue():
    brown = 0.05 + 0.4 / (1 + np.exp(-(NM - 590) / 20))

    assert quotient(brown, RED_LAMP) > 1
    assert quotient(brown, BLUE_LAMP) < 1


def test_colour_science_finds_the_same_quotient():
    """Both transmittances by colour-science's own integration to XYZ, Y alone."""
    colour = pytest.importorskip("colour")
    values = 0.1 + 0.6 * np.exp(-(((NM - 520) / 60) ** 2))
    shape = colour.SpectralShape(380, 780, 5)
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(shape)
    filtered = colour.SpectralDistribution(dict(zip(NM, values, strict=True)))
    lamps = [
        colour.SpectralDistribution(dict(zip(NM, RED_LAMP.values, strict=True))),
        colour.SDS_ILLUMINANTS["D65"].copy().align(shape),
    ]
    seen, scene = (colour.sd_to_XYZ(filtered, observer, lamp, method="Integration")[1] for lamp in lamps)

    assert quotient(values, RED_LAMP) == pytest.approx(seen / scene, rel=1e-4)


@given(first=st.floats(0, 1), second=st.floats(0, 1))
def test_a_lighter_tint_never_has_a_darker_category(first: float, second: float):
    light, dark = max(first, second), min(first, second)
    here, there = (tint.category(transmittance=t, upper_bounds=BOUNDS, darkest=0.03) for t in (light, dark))

    assert (5 if here is None else here) <= (5 if there is None else there)


def test_the_bounds_of_the_categories_meet():
    bands = [facts.get(f"light.category.{number}").interval for number in range(5)]

    assert [band.high / 100 for band in bands] == list(BOUNDS)
    assert all(lighter.low == darker.high for lighter, darker in pairwise(bands))
    assert facts.number("light.day_driving_limit") == bands[4].high


def test_the_response_of_the_default_lens_is_well_over_the_least():
    """Application note: response = clear over dark; the least, 1.25, is from memory."""
    clear, dark = (facts.number(f"light.photochromic.{state}.usual") / 100 for state in ("clear", "dark"))

    assert tint.photochromic_response(clear=clear, dark=dark) > 4 * facts.number("light.response.least")


def test_the_older_limit_of_uvb_for_yellow_night_glasses():
    """Press report of 2002: a tenth of the luminous transmittance, 6.1 % for glasses with 61.1 %."""
    share = facts.number("light.uvb_share_allowed_2002") / 100

    assert share * facts.number("light.failed_night_glasses") == pytest.approx(6.1, abs=0.05)


def road(values, grid=NM) -> bool:
    spectrum = Spectrum(grid, values)
    luminous = luminous_transmittance(spectrum, illuminant=D65, observer=EYE)
    return tint.passes_all_road_colours(spectrum, luminous=luminous, least_share=0.2)


def test_a_neutral_tint_passes_all_road_colours():
    assert road(np.full(NM.size, 0.15))


def test_a_hole_in_the_green_fails_on_the_road():
    """At least a fifth of the luminous transmittance everywhere from 475 to 650 nm (ISO 12312-1 as quoted)."""
    assert not road(np.where(np.abs(NM - 500) < 6, 0.01, 0.5))


def test_a_hole_outside_the_road_band_does_not_count():
    assert road(np.where((NM < 470) | (NM > 660), 0.001, 0.5))


def test_a_hole_at_the_very_end_of_the_band_counts_between_grid_points():
    grid = np.array([380.0, 470.0, 480.0, 780.0])

    assert not road(np.array([0.0, 0.0, 0.1, 0.9]), grid)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: tint.category(transmittance=80, upper_bounds=BOUNDS, darkest=0.03),
        lambda: tint.category(transmittance=0.5, upper_bounds=(1.0, 0.43, 0.8), darkest=0.03),
        lambda: tint.drives_by_day(transmittance=-0.1, darkest=0.08),
        lambda: tint.drives_by_night(transmittance=75, lightest=0.75),
        lambda: tint.through_both(lens=0.5, glass=75),
        lambda: tint.optical_density(transmittance=0.0),
        lambda: tint.photochromic_response(clear=0.2, dark=0.3),
        lambda: tint.times_over(transmittance=0.1, limit=0.0),
        lambda: tint.signal_verdict(quotient=0.5, mildest=0.8, strictest=0.6),
        lambda: tint.signal_verdict(quotient=-0.5, mildest=0.6, strictest=0.8),
        lambda: quotient(np.zeros(NM.size), RED_LAMP),
        lambda: tint.passes_all_road_colours(
            Spectrum(np.array([480.0, 780.0]), np.array([1.0, 1.0])), luminous=1.0, least_share=0.2
        ),
    ],
)
def test_what_is_out_of_range_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()
