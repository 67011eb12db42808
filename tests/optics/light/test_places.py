"""The light of the places: order, laws, and an independent run with another clear-sky atmosphere."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from handwork import band_integral

from explainer.errors import FactError
from explainer.optics import facts
from explainer.optics.facts import spectra
from explainer.optics.light.assumptions import Assumption, axes, departures, from_facts, usual_of
from explainer.optics.light.daylight import PLACES, daylight
from explainer.optics.light.places import (
    PANES,
    activation_spectrum,
    exposure,
    pane_spectrum,
)

UVA = {"low_nm": 315, "high_nm": 400}


def usual_light(place):
    there = daylight(place)
    return there.build(*(assumption.usual for assumption in there.assumptions))


# UV-A on the lens before any glass [W/m2], independent run: isotropic or tilted sky, other turbidity and ozone.
@pytest.mark.parametrize(
    ("place", "watts"),
    [("bench", 11.5), ("summer_noon", 21.4), ("side_window_clear", 22.6), ("windscreen_low_sun", 19.6), ("snow", 49.0)],
)
def test_uva_on_the_lens_is_that_of_another_sky_within_a_tenth(place, watts: float):
    assert band_integral(usual_light(place), **UVA) == pytest.approx(watts, rel=0.10)


@pytest.mark.parametrize(
    ("place", "exposed"),
    [("summer_noon", 1.97), ("overcast", 0.52), ("open_shade", 0.37), ("snow", 4.52), ("convertible", 1.22)],
)
def test_exposures_outdoors_are_those_of_another_sky_within_a_tenth(place, exposed: float):
    assert exposure(place, "photochromic").usual == pytest.approx(exposed, rel=0.10)


def test_exposures_behind_glass_are_near_those_of_another_model_pane():
    """0.07 and 0.01 behind a windscreen, 1.56 behind clear side glass that passed 77 % of the UV-A."""
    assert exposure("windscreen_low_sun", "photochromic").usual == pytest.approx(0.07, abs=0.03)
    assert exposure("windscreen_shaded", "photochromic").usual == pytest.approx(0.01, abs=0.005)
    assert exposure("side_window_clear", "photochromic").usual == pytest.approx(1.56, rel=0.15)


def test_cloud_passes_less_than_a_third_of_the_level_light():
    """Cloud factor 0.31 (agency's table, by way of a weak page): the upright lens sees half of that."""
    direct, diffuse = (spectra.load("sky", f"sun45_{part}") for part in ("direct", "diffuse"))
    level = band_integral(direct, **UVA) * np.sin(np.radians(45)) + band_integral(diffuse, **UVA)

    assert band_integral(usual_light("overcast"), **UVA) == pytest.approx(0.31 * level / 2, rel=0.04)


def test_ultraviolet_on_snow_is_more_than_twice_that_of_summer_noon():
    assert exposure("snow", "photochromic").usual > 2 * exposure("summer_noon", "photochromic").usual


@pytest.mark.parametrize("tint", ["photochromic", "photochromic-visible"])
@pytest.mark.parametrize("place", PLACES)
def test_the_usual_exposure_lies_between_its_ends(place, tint):
    there = exposure(place, tint)
    reached = [value for move in there.departures for value in (move.at_low, move.at_high)]

    assert 0 < there.lowest <= there.usual <= there.highest
    assert all(there.lowest <= value <= there.highest for value in reached)
    assert all(facts.get(name) for name in there.facts)


def test_the_bench_is_one_and_has_no_doubt():
    bench = exposure("bench", "photochromic")

    assert (bench.lowest, bench.usual, bench.highest, bench.departures) == (1.0, 1.0, 1.0, ())


def test_windscreens_leave_the_visible_class_far_more():
    uv, visible = (exposure("windscreen_low_sun", tint).usual for tint in ("photochromic", "photochromic-visible"))

    assert visible > 3 * uv


@pytest.mark.parametrize("place", sorted(PANES))
def test_glass_takes_ultraviolet_away(place):
    outside = band_integral(usual_light(place), **UVA)
    pane = pane_spectrum(PANES[place])
    light = usual_light(place)
    behind = replace(pane, values=pane.values * light.at(pane.wavelength_nm))

    assert 0 < band_integral(behind, **UVA) < 0.9 * outside


def test_what_the_glass_passes_and_what_the_dye_needs_hardly_meet():
    """The picture of the leaflet: sun, glass and dye over wavelength."""
    pane, dye = pane_spectrum("windscreen"), activation_spectrum("photochromic")
    both = replace(pane, values=pane.values * dye.values)

    share = band_integral(both, low_nm=300, high_nm=500) / band_integral(dye, low_nm=300, high_nm=500)
    assert 0 < share < 0.1


def test_an_unknown_place_is_refused():
    with pytest.raises(FactError):
        daylight("moon")


def test_axes_put_the_usual_value_first():
    wide, sharp = Assumption("a", (), 2.0, 1.0, 3.0), Assumption("b", (), 5.0, 5.0, 5.0)
    first, second = axes([wide, sharp])
    results = first * second

    assert results.shape == (3, 1)
    assert usual_of(results) == 10.0
    (move,) = departures([wide, sharp], results)
    assert (move.assumption, move.at_low, move.at_high) == ("a", 5.0, 15.0)


def test_an_assumption_comes_from_its_two_facts():
    clear = from_facts("light.photochromic.clear", scale=0.01)

    assert (clear.low, clear.usual, clear.high) == pytest.approx((0.84, 0.88, 0.91))
    assert all(facts.get(name) for name in clear.facts)
