"""Spectra: the shipped tables against the libraries they come from, weighted means against colour science, refusals.

The libraries pvlib and colour-science are asked where they are installed; without them the printed numbers stand.
"""

from __future__ import annotations

import numpy as np
import pytest
from handwork import band_integral, weighted_mean
from hypothesis import given
from hypothesis import strategies as st
from studies import study

from explainer.errors import FactError, OutOfRange
from explainer.optics import facts
from explainer.optics.facts import spectra
from explainer.optics.formulas.spectrum import Spectrum

SUN = spectra.load("astm_g173", "global")
BENCH = spectra.load("sky", "bench_direct")
FIVE_NM = np.arange(380.0, 781.0, 5.0)


# ASTM G173-03 global tilt, trapezium rule on the table as published [W/m2].
@pytest.mark.parametrize(
    ("low", "high", "watts"),
    [(300, 400, 46.10), (315, 380, 31.58), (315, 400, 45.42), (280, 315, 0.682), (380, 400, 13.84), (380, 430, 49.28)],
)
def test_the_sun_adds_up_within_each_band(low: float, high: float, watts: float):
    assert band_integral(SUN, low_nm=low, high_nm=high) == pytest.approx(watts, abs=0.005)


def test_direct_sun_adds_up():
    direct = spectra.load("astm_g173", "direct")

    assert band_integral(direct, low_nm=300, high_nm=400) == pytest.approx(30.52, abs=0.005)
    assert band_integral(direct, low_nm=315, high_nm=380) == pytest.approx(19.98, abs=0.005)


def test_a_filter_that_ends_at_380_leaks_three_tenths_of_what_lies_below_400():
    leak = band_integral(SUN, low_nm=380, high_nm=400) / band_integral(SUN, low_nm=300, high_nm=400)

    assert leak == pytest.approx(0.300, abs=0.0005)


def test_clear_hard_resin_is_told_by_the_band_it_is_measured_in():
    """A trade letter: about 19 % of the UV-A to 380 nm passes clear hard resin, 45 % to 400 nm.

    A sharp edge at 370 nm with 92 % above, under the sun, comes within 4 points of both.
    """
    resin = Spectrum(np.array([300.0, 369.999, 370.0, 400.0]), np.array([0.0, 0.0, 0.92, 0.92]))
    for high, fact in [(380, "unweighted_380"), (400, "unweighted_400")]:
        share = weighted_mean(resin, weight=SUN, low_nm=315, high_nm=high)
        assert 100 * share == pytest.approx(study(f"light.uv.hard_resin.{fact}").number, abs=4)


def test_pvlib_holds_the_same_sun():
    spectrum = pytest.importorskip("pvlib.spectrum")
    theirs = spectrum.get_reference_spectra(standard="ASTM G173-03")

    assert np.trapezoid(theirs["global"], theirs.index) == pytest.approx(1000.37, abs=0.005)
    inside = theirs.loc[280:780]
    np.testing.assert_allclose(SUN.values, inside["global"], rtol=1e-4)
    np.testing.assert_allclose(spectra.load("astm_g173", "direct").values, inside["direct"], rtol=1e-4)
    uva = theirs.loc[315:400, "global"]
    assert band_integral(SUN, low_nm=315, high_nm=400) == pytest.approx(np.trapezoid(uva, uva.index), rel=1e-4)


@pytest.mark.parametrize(
    ("low", "high", "table", "tolerance"),
    [(300, 340, 1.25, 1.25), (340, 380, 5.6, 1.5), (380, 420, 12, 3), (420, 460, 20, 3), (460, 500, 26, 2.6)],
)
def test_the_bench_lamp_keeps_to_the_table_of_the_test(low: float, high: float, table: float, tolerance: float):
    """Irradiance table of the photochromic test [W/m2], from memory; below 340 nm it only wants less than 2.5."""
    assert band_integral(BENCH, low_nm=low, high_nm=high) == pytest.approx(table, abs=tolerance)


def test_the_global_lamp_does_not_keep_to_the_table():
    """Why the bench is taken as the direct beam: the table (from memory) wants 5.6 +/- 1.5 W/m2 here."""
    lamp = spectra.load("sky", "bench_global")

    assert band_integral(lamp, low_nm=340, high_nm=380) > 5.6 + 1.5


@given(low=st.floats(300, 500), width=st.floats(1, 200), level=st.floats(0, 1))
def test_a_mean_lies_between_least_and_most(low: float, width: float, level: float):
    ramp = Spectrum(np.array([280.0, 780.0]), np.array([0.0, level]))

    mean = weighted_mean(ramp, weight=SUN, low_nm=low, high_nm=low + width)

    assert float(ramp.at(low)) - 1e-12 <= mean <= float(ramp.at(low + width)) + 1e-12


@given(cut=st.floats(301, 399))
def test_a_band_is_the_sum_of_its_parts(cut: float):
    parts = band_integral(SUN, low_nm=300, high_nm=cut) + band_integral(SUN, low_nm=cut, high_nm=400)

    assert parts == pytest.approx(band_integral(SUN, low_nm=300, high_nm=400), rel=1e-9)


@pytest.mark.parametrize(
    ("grid", "values"),
    [([400], [1]), ([400, 500], [1]), ([500, 400], [1, 1]), ([400, 400], [1, 1]), ([400, 500], [1, np.nan])],
)
def test_what_is_no_spectrum_is_refused(grid, values):
    with pytest.raises(OutOfRange):
        Spectrum(np.array(grid, dtype=float), np.array(values, dtype=float))


def test_a_spectrum_does_not_change():
    source = np.array([1.0, 2.0])
    spectrum = Spectrum(np.array([400.0, 500.0]), source)
    source[0] = 9

    assert spectrum.values[0] == 1
    with pytest.raises(ValueError, match="read-only"):
        spectrum.values[0] = 5


def test_every_file_names_source_unit_step_and_origin():
    for file in {file for file, _ in spectra.names()}:
        said = spectra.about(file)
        assert said["source"] in facts.sources()
        assert all(said[key] for key in ("unit", "step", "origin"))


def test_the_spectra_stay_small():
    assert sum(path.stat().st_size for path in spectra.FOLDER.glob("*.csv")) < 120_000


@pytest.mark.parametrize(("file", "column"), [("no_such", "x"), ("sky", "no_such"), ("sky", "wavelength_nm")])
def test_an_unknown_spectrum_is_refused(file: str, column: str):
    with pytest.raises(FactError):
        spectra.load(file, column)
