"""Amplitude of accommodation by age. Published cases stand in tests/published/accommodation.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from studies import study

from explainer.errors import OutOfRange
from explainer.optics.formulas import accommodation as acc

AGES = st.floats(5, 120)

# Donders' table as an accommodation handout prints it (accommodation-handout, weak).
DONDERS = {10: 14, 15: 12, 20: 10, 25: 8.5, 30: 7, 35: 5.5, 40: 4.5, 45: 3.5, 50: 2.5, 55: 1.75, 60: 1}


@given(age=AGES)
def test_least_mean_and_greatest_stand_in_order_and_never_below_nothing(age: float) -> None:
    least, mean, greatest = acc.amplitude_range(age_years=age)
    assert 0 <= least <= mean <= greatest


@given(age=st.floats(5, 100), later=st.floats(0, 20))
def test_nobody_gains_accommodation_with_age(age: float, later: float) -> None:
    for formula in (acc.least_amplitude, acc.mean_amplitude, acc.greatest_amplitude):
        assert formula(age_years=age + later) <= formula(age_years=age)


@pytest.mark.parametrize(("age", "amplitude"), DONDERS.items())
def test_donders_table_never_exceeds_hofstetters_greatest_and_stays_near_his_least(age: int, amplitude: float) -> None:
    # Two tellings of overlapping data: Donders lies between 2 D below the least line and the greatest line.
    least, _, greatest = acc.amplitude_range(age_years=age)
    assert least - 2 <= amplitude <= greatest


@pytest.mark.parametrize(("low", "high", "group"), [(10, 19, "adolescents"), (20, 29, "twenties"), (40, 49, "forties")])
def test_measured_group_means_lie_within_hofstetters_lines_for_those_ages(low: int, high: int, group: str) -> None:
    # plos-one-2019-amplitude: means of push-up amplitudes.
    mean = study(f"reference.accommodation.push_up_{group}").number
    assert acc.least_amplitude(age_years=high) <= mean <= acc.greatest_amplitude(age_years=low)


@pytest.mark.parametrize("age", [62.5, 70, 120])
def test_beyond_the_ends_of_the_lines_nothing_is_left_and_nothing_is_negative(age: float) -> None:
    assert acc.amplitude_range(age_years=age) == (0, 0, 0)


@pytest.mark.parametrize("age", [4.9, 121, -1, math.nan])
def test_ages_outside_the_lines_are_refused(age: float) -> None:
    for formula in (acc.least_amplitude, acc.mean_amplitude, acc.greatest_amplitude, acc.amplitude_range):
        with pytest.raises(OutOfRange, match="age"):
            formula(age_years=age)


def test_an_impossible_amplitude_is_refused() -> None:
    with pytest.raises(OutOfRange, match="amplitude"):
        acc.focused_away(refraction_d=2.0, amplitude_d=-0.5)
