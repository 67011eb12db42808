"""Plain comparisons."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from studies import study

from explainer.optics import facts
from explainer.optics.formulas.comparison import (
    difference,
    greatest_power,
    kind_of_power,
    lets_ultraviolet_pass,
    pupil_distance,
    share_saved,
    spreads_more,
    stronger_lens,
    whole_pd,
)

POWERS = st.integers(-80, 80).map(lambda steps: steps / 4)


@pytest.mark.parametrize(("power", "kind"), [(-0.25, "minus"), (0.25, "plus"), (0.0, "plano"), (-0.0, "plano")])
def test_the_kind_follows_the_sign(power: float, kind: str):
    assert kind_of_power(power_d=power) == kind


@given(POWERS, POWERS)
def test_the_greatest_power_does_not_depend_on_how_the_lens_is_written(sphere: float, cylinder: float):
    one = greatest_power(sphere_d=sphere / 2, cylinder_d=cylinder / 2)
    other = greatest_power(sphere_d=(sphere + cylinder) / 2, cylinder_d=-cylinder / 2)

    assert one == pytest.approx(other)


def test_the_stronger_lens_is_the_one_with_the_greater_power():
    assert stronger_lens(right_d=6.0, left_d=4.25) == "right"
    assert stronger_lens(right_d=1.0, left_d=1.25) == "left"
    assert stronger_lens(right_d=2.0, left_d=2.0) == "equal"


@given(POWERS, POWERS)
def test_a_difference_is_the_same_both_ways_and_never_negative(one: float, other: float):
    assert difference(first_d=one, second_d=other) == difference(first_d=other, second_d=one) >= 0


def test_a_lens_of_four_fifths_of_the_reference_saves_a_fifth():
    """The published thickness table of a laboratory: 5.6 mm in hard resin, 4.5 mm in polycarbonate, 20 % (memory)."""
    assert share_saved(value=4.5, reference=5.6) == pytest.approx(20, abs=0.5)


def test_a_heavier_lens_saves_less_than_nothing():
    assert share_saved(value=11.0, reference=10.0) == pytest.approx(-10)


def test_halves_of_the_pupil_distance_add_up():
    assert whole_pd(right_mm=31.0, left_mm=32.5) == 63.5


def test_the_entrance_pupil_lies_behind_the_cornea():
    """Vertex distance 12 mm and about 3 mm more: 15 mm, as in the published magnification example (SM01)."""
    assert pupil_distance(vertex_mm=12.0, entrance_pupil_mm=3.0) == 15.0


def test_a_small_abbe_number_spreads_more():
    assert spreads_more(abbe=30, reference_abbe=58)
    assert not spreads_more(abbe=58, reference_abbe=58)


def test_hard_resin_leaves_ultraviolet_through_and_polycarbonate_does_not():
    """A letter on the outer limits of the ultraviolet: clear hard resin passes a part of the UV-A to 380 nm.

    Of polycarbonate a laboratory's letter gives cut-offs from 380 nm (see facts/material.toml).
    """
    end = facts.number("light.uv.band_end.spectacles")
    assert study("light.uv.hard_resin.unweighted_380").number > 0
    assert lets_ultraviolet_pass(edge_nm=facts.get("material.hard-resin.uv_edge").interval.high, band_end_nm=end)
    assert not lets_ultraviolet_pass(edge_nm=facts.get("material.polycarbonate.uv_edge").interval.high, band_end_nm=end)
