"""Daylight on an upright lens: the geometry by hand, the shipped sky and the result against pvlib's model."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np
import pytest
from handwork import band_integral
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.facts import spectra
from explainer.optics.formulas.sky import in_shade, on_lens, under_cloud
from explainer.optics.formulas.spectrum import Spectrum

GRID = np.array([300.0, 500.0])
BEAM, SKY = Spectrum(GRID, np.array([1.0, 1.0])), Spectrum(GRID, np.array([0.4, 0.4]))
UVA = {"low_nm": 315, "high_nm": 400}


def value(**how) -> float:
    usual = {"direct": BEAM, "diffuse": SKY, "elevation_deg": 0.0, "turn_deg": 0.0, "ground_share": 0.0}
    return float(on_lens(**{**usual, **how}).values[0])


def test_the_sun_on_the_horizon_ahead_falls_straight_on():
    assert value() == pytest.approx(1 + 0.4 / 2)


def test_the_sun_overhead_or_at_the_side_does_not_fall_on_the_lens():
    assert value(elevation_deg=90.0) == pytest.approx(0.2)
    assert value(turn_deg=90.0) == pytest.approx(0.2)


def test_white_ground_under_the_zenith_sun_gives_half_of_what_falls_on_it():
    assert value(elevation_deg=90.0, ground_share=1.0) == pytest.approx(0.2 + (1 + 0.4) / 2)


def test_half_a_sky_hidden_halves_the_shade():
    assert in_shade(diffuse=SKY, sky_share=0.5).values[0] == pytest.approx(0.1)


def test_cloud_takes_its_share_of_the_level_light():
    cloudy = under_cloud(direct=BEAM, diffuse=SKY, elevation_deg=30.0, cloud_share=0.31, ground_share=0.0)

    assert cloudy.values[0] == pytest.approx(0.31 * (0.5 + 0.4) / 2)


@given(
    elevation=st.floats(0, 90),
    turn=st.floats(0, 90),
    ground=st.floats(0, 1),
    more=st.floats(0, 90),
    snow=st.floats(0, 1),
)
def test_turning_away_dims_and_brighter_ground_brightens(elevation, turn, ground, more, snow):
    here = value(elevation_deg=elevation, turn_deg=turn, ground_share=ground)

    assert value(elevation_deg=elevation, turn_deg=max(turn, more), ground_share=ground) <= here + 1e-12
    assert value(elevation_deg=elevation, turn_deg=turn, ground_share=max(ground, snow)) >= here - 1e-12


@pytest.mark.parametrize(
    "wrong",
    [{"elevation_deg": -1.0}, {"elevation_deg": 91.0}, {"turn_deg": 91.0}, {"ground_share": 1.1}, {"sky_share": -0.1}],
)
def test_angles_and_shares_keep_their_bounds(wrong):
    with pytest.raises(OutOfRange):
        value(**wrong)


def test_two_grids_do_not_mix():
    with pytest.raises(OutOfRange):
        value(diffuse=Spectrum(np.array([300.0, 400.0]), np.array([1.0, 1.0])))


def spectrl2(elevation: float, albedo: float, pressure: float, **plane):
    spectrum, atmosphere = pytest.importorskip("pvlib.spectrum"), pytest.importorskip("pvlib.atmosphere")
    zenith = 90.0 - elevation
    return spectrum.spectrl2(
        apparent_zenith=zenith,
        aoi=plane.get("aoi", zenith),
        surface_tilt=plane.get("tilt", 0),
        ground_albedo=albedo,
        surface_pressure=pressure,
        relative_airmass=plane.get("airmass", atmosphere.get_relative_airmass(zenith, "kasten1966")),
        precipitable_water=1.416,
        ozone=0.3438,
        aerosol_turbidity_500nm=0.084,
        dayofyear=94,
    )


def theirs(result, name: str) -> Spectrum:
    inside = result["wavelength"].squeeze() <= 780
    return Spectrum(result["wavelength"].squeeze()[inside], result[name].squeeze()[inside])


@pytest.mark.parametrize(
    ("column", "elevation", "albedo", "pressure"),
    [(f"sun{e}", e, 0.03, 101325.0) for e in (60, 45, 35, 25, 15)]
    + [("snow", 45, 0.88, 74700.0), ("old_snow", 45, 0.50, 74700.0)],
)
def test_the_shipped_sky_is_what_its_first_lines_say(column: str, elevation: float, albedo: float, pressure: float):
    model = spectrl2(elevation, albedo, pressure)
    parts = [("diffuse", "dhi")] if column == "old_snow" else [("direct", "dni"), ("diffuse", "dhi")]

    for ours, name in parts:
        shipped = spectra.load("sky", f"{column}_{ours}")
        np.testing.assert_allclose(shipped.values, theirs(model, name).values, rtol=6e-4)


def test_the_shipped_bench_lamp_is_the_direct_beam_at_air_mass_two():
    model = theirs(spectrl2(30, 0.03, 101325.0, airmass=2.0), "dni")
    shipped = spectra.load("sky", "bench_direct")
    scale = shipped.values / model.values

    np.testing.assert_allclose(scale, scale[-1], rtol=6e-4)


@pytest.mark.parametrize(
    ("elevation", "turn", "within"), [(60, 0, 0.05), (60, 45, 0.05), (45, 45, 0.05), (25, 0, 0.18)]
)
def test_light_on_an_upright_lens_is_near_pvlibs_tilted_plane(elevation: float, turn: float, within: float):
    """pvlib brightens the sky round the sun, the even sky here does not: that misses a sixth facing a low sun."""
    aoi = np.degrees(np.arccos(cos(radians(elevation)) * cos(radians(turn))))
    model = spectrl2(elevation, 0.03, 101325.0, tilt=90, aoi=float(aoi))
    flat = spectrl2(elevation, 0.03, 101325.0)
    ours = on_lens(
        direct=theirs(flat, "dni"),
        diffuse=theirs(flat, "dhi"),
        elevation_deg=elevation,
        turn_deg=turn,
        ground_share=0.03,
    )

    assert band_integral(ours, **UVA) == pytest.approx(band_integral(theirs(model, "poa_global"), **UVA), rel=within)


def test_fresh_snow_nearly_doubles_the_uva_on_an_upright_lens():
    """Worked with pvlib's tilted plane: 1.87 times grass at a sun 40 degrees high."""
    totals = []
    for albedo in (0.88, 0.03):
        flat = spectrl2(40, albedo, 101325.0)
        parts = {"direct": theirs(flat, "dni"), "diffuse": theirs(flat, "dhi")}
        totals.append(band_integral(on_lens(**parts, elevation_deg=40, turn_deg=0, ground_share=albedo), **UVA))

    assert totals[0] / totals[1] == pytest.approx(1.87, abs=0.2)


def test_level_light_adds_up():
    """Direct times the sine of the elevation, plus the sky: what the cloud formula starts from."""
    clear = under_cloud(direct=BEAM, diffuse=SKY, elevation_deg=40.0, cloud_share=1.0, ground_share=0.0)

    assert 2 * clear.values[0] == pytest.approx(sin(radians(40)) + 0.4)
