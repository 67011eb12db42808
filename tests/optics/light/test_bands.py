"""The bands of light-reactive, fixed and clear lenses: laws, extent of the sweep, supplied data, speed.

Where a number stands here it is from an independent run of the same equations with another clear-sky
atmosphere (sea level, turbidity and ozone unstated), so it is met only as nearly as two skies agree.
"""

from __future__ import annotations

import random
import time
from math import inf

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import FactError, OutOfRange
from explainer.optics import facts
from explainer.optics.formulas import dye
from explainer.optics.formulas.photochromic import ParameterSet
from explainer.optics.light.bands import darken_half_time, fade_time, transmittance
from explainer.optics.light.daylight import PLACES
from explainer.optics.light.lens import lens_family
from explainer.optics.light.places import exposure
from explainer.optics.spectacles import LensChoice, LensData

UV, VISIBLE = LensChoice(tint="photochromic"), LensChoice(tint="photochromic-visible")
MEASURED = LensData(
    clear_percent=82.0,
    dark_percent_by_celsius=((5.0, 9.0), (23.0, 14.0), (35.0, 27.0)),
    darken_half_s=20.0,
    fade_half_s=60.0,
)
SUPPLIED = LensChoice(tint="photochromic", supplied=MEASURED)
DEGREES = st.floats(0, 40)


def central(place, celsius: float, lens: LensChoice = UV) -> float:
    return transmittance(lens, place=place, celsius=celsius).central


@pytest.mark.parametrize("lens", [UV, VISIBLE, SUPPLIED], ids=["uv", "visible", "supplied"])
@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("celsius", [5, 12.5, 23, 35])
def test_usual_lies_in_the_band_and_the_band_in_what_cannot_be_excluded(lens, place, celsius: float):
    band = transmittance(lens, place=place, celsius=celsius)

    assert 0 < band.outer.low <= band.interval.low <= band.central <= band.interval.high <= band.outer.high <= 100


@pytest.mark.parametrize("place", PLACES)
@given(celsius=DEGREES, warmer=st.floats(0, 20))
def test_every_end_of_a_band_is_lighter_when_warmer(place, celsius: float, warmer: float):
    cold = transmittance(UV, place=place, celsius=celsius)
    warm = transmittance(UV, place=place, celsius=min(40.0, celsius + warmer))

    for first, second in [(cold.interval, warm.interval), (cold.outer, warm.outer)]:
        assert first.low <= second.low * (1 + 1e-12)
        assert first.high <= second.high * (1 + 1e-12)


def test_places_are_as_dark_as_their_ultraviolet():
    order = ["snow", "summer_noon", "bench", "overcast", "open_shade", "windscreen_low_sun", "windscreen_shaded"]
    tints = [central(place, 23) for place in order]

    assert tints == sorted(tints)


def test_car_glass_never_darkens_a_lens_more_than_the_sun_outside():
    assert central("side_window_clear", 23) < central("side_window_green", 23) < central("windscreen_low_sun", 23)
    assert central("convertible", 23) > central("summer_noon", 23)


def test_the_visible_class_is_darker_behind_a_windscreen():
    for celsius in (5, 23, 35):
        assert central("windscreen_low_sun", celsius, VISIBLE) < central("windscreen_low_sun", celsius)


@pytest.mark.parametrize(
    ("place", "celsius", "percent", "points"),
    [
        ("bench", 5, 7.2, 0.05),
        ("bench", 23, 17.0, 0.05),
        ("bench", 35, 37.2, 0.05),
        ("summer_noon", 5, 6.4, 0.3),
        ("summer_noon", 23, 11.4, 0.6),
        ("summer_noon", 35, 24.0, 1.5),
        ("snow", 5, 6.0, 0.3),
        ("overcast", 23, 26.5, 2.5),
        ("windscreen_low_sun", 23, 67.3, 6.0),
    ],
)
def test_the_default_lens_agrees_with_an_independent_run(place, celsius: float, percent: float, points: float):
    assert central(place, celsius) == pytest.approx(percent, abs=points)


def test_behind_a_windscreen_the_band_is_wide_and_above_the_one_outdoors():
    car, outdoors = (transmittance(UV, place=p, celsius=23).interval for p in ("windscreen_low_sun", "summer_noon"))

    assert car.high - car.low > 25
    assert car.low > outdoors.high


def test_category_four_cannot_be_excluded_in_cold_and_snow():
    """So nothing may say that such a lens is fine for driving there."""
    limit = facts.number("light.day_driving_limit")

    assert transmittance(UV, place="snow", celsius=5).outer.low < limit
    assert transmittance(VISIBLE, place="snow", celsius=5).outer.low < limit
    assert transmittance(SUPPLIED, place="snow", celsius=5).outer.low < limit


@pytest.mark.parametrize("lens", [UV, VISIBLE, SUPPLIED], ids=["uv", "visible", "supplied"])
def test_no_lens_within_the_ranges_lies_outside_what_cannot_be_excluded(lens: LensChoice):
    """The sweep takes corners only; three hundred lenses drawn between them show that the corners are the extent."""
    chance = random.Random(20_26)
    family = lens_family(lens.tint, lens.supplied)
    for _ in range(300):
        place, celsius = chance.choice(PLACES), chance.uniform(0, 40)
        there = exposure(place, lens.tint)
        drawn = [chance.uniform(min(a.low, a.high), max(a.low, a.high)) for a in family.assumptions]
        one = family.with_values(drawn)
        tint = 100 * float(one.steady_transmittance(chance.uniform(there.lowest, there.highest), celsius))
        outer = transmittance(lens, place=place, celsius=celsius).outer
        assert outer.low * (1 - 1e-9) <= tint <= outer.high * (1 + 1e-9)


def test_the_band_is_the_extent_of_its_departures():
    band = transmittance(UV, place="windscreen_low_sun", celsius=23)
    reached = [value for move in band.departures for value in (move.at_low, move.at_high)]

    assert band.interval.low == min(reached)
    assert band.interval.high == max(reached)
    assert {"light.windscreen.edge", "light.activation.above"} <= {move.assumption for move in band.departures}


def test_a_band_names_facts_that_exist_and_a_formula():
    for lens in (UV, VISIBLE, SUPPLIED):
        for place in PLACES:
            band = transmittance(lens, place=place, celsius=17)
            assert band.facts
            assert all(facts.get(name) for name in band.facts)
            assert band.formula is ParameterSet.steady_transmittance


# --- supplied data -----------------------------------------------------------------------------------------------


def test_a_supplied_value_is_handed_through_untouched():
    for celsius, percent in MEASURED.dark_percent_by_celsius:
        band = transmittance(SUPPLIED, place="bench", celsius=celsius)
        assert (band.interval.low, band.interval.high, band.central) == (percent, percent, percent)
        assert band.formula is None
        assert band.supplied == ("dark_percent_by_celsius",)
    half = darken_half_time(SUPPLIED, celsius=23)
    assert (half.interval.low, half.interval.high, half.formula) == (20.0, 20.0, None)


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("celsius", [5, 23, 35])
def test_supplied_data_narrow_every_band(place, celsius: float):
    generic, own = (transmittance(lens, place=place, celsius=celsius).outer for lens in (UV, SUPPLIED))

    assert own.high - own.low < generic.high - generic.low


def test_between_supplied_temperatures_the_bench_lies_between_their_values():
    assert 9 < central("bench", 12, SUPPLIED) < 14 < central("bench", 30, SUPPLIED) < 27
    band = transmittance(SUPPLIED, place="bench", celsius=12).interval
    assert band.high - band.low < 1


def test_one_supplied_temperature_other_than_23_is_met_there():
    lens = LensChoice(tint="photochromic", supplied=LensData(dark_percent_by_celsius=((18.0, 12.0),)))

    assert central("bench", 18, lens) == 12
    assert central("bench", 18.001, lens) == pytest.approx(12, abs=0.01)
    assert 12 < central("bench", 23, lens) < 20


def test_a_supplied_half_time_sets_the_pace():
    slow = LensChoice(tint="photochromic", supplied=LensData(fade_half_s=300.0))

    ratio = fade_time(slow, celsius=23, to_percent=75).central / fade_time(UV, celsius=23, to_percent=75).central
    assert ratio == pytest.approx(300 / 75, rel=1e-6)


@pytest.mark.parametrize("celsius", [5, 12, 35])
def test_a_supplied_darkening_time_is_carried_to_other_temperatures(celsius: float):
    """20 s instead of the generic 30 s at 23 C: two thirds at every temperature."""
    quick = LensChoice(tint="photochromic", supplied=LensData(darken_half_s=20.0))

    ratio = darken_half_time(quick, celsius=celsius).central / darken_half_time(UV, celsius=celsius).central
    assert ratio == pytest.approx(20 / 30)


def test_data_that_ask_for_more_dye_than_usual_get_it():
    """Three times the density in the cold: with the usual share at 23 C more than all dye would be coloured."""
    data = LensData(clear_percent=88.0, dark_percent_by_celsius=((5.0, 1.4), (23.0, 22.0)))
    lens = LensChoice(tint="photochromic", supplied=data)

    assert central("bench", 5, lens) == 1.4
    assert 1.4 < central("bench", 10, lens) < 22
    assert 1 < central("snow", 5, lens) < 1.4


@pytest.mark.parametrize(
    "data",
    [
        LensData(clear_percent=80, dark_percent_by_celsius=((23.0, 81.0),)),
        LensData(dark_percent_by_celsius=((5.0, 20.0), (23.0, 15.0))),
        LensData(dark_percent_by_celsius=((23.0, 15.0), (23.0, 16.0))),
        LensData(dark_percent_by_celsius=((50.0, 15.0),)),
        LensData(dark_percent_by_celsius=((23.0, 0.0),)),
        LensData(clear_percent=15.0),
    ],
    ids=["dark-above-clear", "cold-lighter", "twice", "too-hot", "black", "clear-is-dark"],
)
def test_data_that_contradict_themselves_are_refused(data: LensData):
    with pytest.raises(OutOfRange):
        transmittance(LensChoice(tint="photochromic", supplied=data), place="snow", celsius=20)


# --- times -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("to_percent", [75, 80])
@given(celsius=DEGREES, warmer=st.floats(0.5, 20))
def test_warmer_lenses_clear_sooner(to_percent: float, celsius: float, warmer: float):
    cold = fade_time(UV, celsius=celsius, to_percent=to_percent)
    warm = fade_time(UV, celsius=min(40.0, celsius + warmer), to_percent=to_percent)

    assert warm.interval.high <= cold.interval.high
    assert warm.central <= cold.central


def test_clearing_takes_minutes_warm_and_the_best_part_of_an_hour_cold():
    """Not seconds, as is often said: minutes at 23 C, far longer at 5 C."""
    warm, cold = (fade_time(UV, celsius=celsius, to_percent=75) for celsius in (23, 5))

    assert 3 * 60 <= warm.interval.low < warm.central < warm.interval.high <= 15 * 60
    assert cold.central > 25 * 60


def test_the_slow_tail_moves_the_clearing_most():
    band = fade_time(UV, celsius=23, to_percent=80)
    widest = max(band.departures, key=lambda move: abs(move.at_high - move.at_low))

    assert widest.assumption == "light.dye.slow_share"


def test_a_lens_that_may_never_get_there_has_no_band():
    may_not = fade_time(VISIBLE, celsius=23, to_percent=80)
    never = fade_time(LensChoice(tint="photochromic", supplied=LensData(clear_percent=72.0)), celsius=23, to_percent=75)

    assert may_not.interval is None
    assert may_not.central is not None
    assert (never.interval, never.outer, never.central) == (None, None, None)


def test_the_fading_band_is_met_by_the_share_left_then():
    family = lens_family("photochromic", LensData())
    seconds, lens = fade_time(UV, celsius=10, to_percent=75).central, family.usual
    rate, start = lens.fade_rate(10), lens.steady_share(1.0, 10)
    left = start * (0.9 * np.exp(-rate * seconds) + 0.1 * np.exp(-rate * seconds / 6))

    assert 100 * dye.transmittance(clear=0.88, density=lens.density, share=left) == pytest.approx(75, abs=1e-6)


def test_darkening_half_time_of_the_default_lens_on_the_bench():
    """ln 2/(a + k), with a/(a + k) = 0.6 and a half-time of fading of 75 s: 75 s times 0.4."""
    assert darken_half_time(UV, celsius=23).central == pytest.approx(30.0)


# --- clear and fixed ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("lens", [LensChoice(), LensChoice(tint="fixed"), LensChoice(tint="clear")])
def test_what_was_not_said_is_not_invented(lens: LensChoice):
    with pytest.raises(FactError):
        transmittance(lens, place="bench", celsius=23)


def test_no_band_beyond_the_temperatures_of_the_model():
    with pytest.raises(OutOfRange):
        transmittance(UV, place="snow", celsius=-5)
    with pytest.raises(OutOfRange):
        fade_time(UV, celsius=41, to_percent=75)


def test_an_unknown_place_is_refused():
    with pytest.raises(FactError):
        transmittance(UV, place="moon", celsius=23)


def test_all_bands_of_an_order_take_less_than_thirty_milliseconds():
    """Ten places and three temperatures, fading and darkening; each time another lens, so nothing is remembered."""

    def once(percent: float) -> float:
        lens = LensChoice(tint="photochromic", supplied=LensData(clear_percent=percent))
        begin = time.process_time()  # of this process alone, whatever else the machine does
        for celsius in (5.0, 23.0, 35.0):
            for place in PLACES:
                transmittance(lens, place=place, celsius=celsius)
            for target in (75, 80):
                fade_time(lens, celsius=celsius, to_percent=target)
            darken_half_time(lens, celsius=celsius)
        return time.process_time() - begin

    assert min(once(80 + i / 10) for i in range(12)) < 0.030


def test_infinite_times_never_become_an_interval():
    bands = [fade_time(VISIBLE, celsius=c, to_percent=p) for c in (5, 23, 35) for p in (75, 80)]

    for band in bands:
        assert band.interval is None or band.interval.high < inf
