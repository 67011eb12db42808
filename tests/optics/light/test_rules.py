"""Category, night driving, and the pair of lens and pane."""

from __future__ import annotations

import pytest

from explainer.optics.claim import Interval
from explainer.optics.light.bands import transmittance
from explainer.optics.light.rules import categories, category, driving_by_night, with_pane
from explainer.optics.spectacles import LensChoice, LensData

UV = LensChoice(tint="photochromic")


@pytest.mark.parametrize(
    ("percent", "number"), [(80.1, 0), (80, 1), (43.1, 1), (43, 2), (18, 3), (8.1, 3), (8, 4), (3.1, 4), (3, None)]
)
def test_the_upper_bound_belongs_to_the_category(percent: float, number: int | None):
    """ISO 12312-1 as quoted by the College of Optometrists: over 43 to 80 is category 1, and so on."""
    assert category(percent) == number


def test_a_band_touches_every_category_between_its_ends():
    assert categories(Interval(7.0, 20.0)) == (2, 4)
    assert categories(Interval(2.0, 90.0)) == (0, None)


@pytest.mark.parametrize(
    ("lens", "word"),
    [
        (UV, "when-clear"),
        (LensChoice(tint="photochromic-visible"), "when-clear"),
        (LensChoice(tint="photochromic", supplied=LensData(clear_percent=74.9)), "no"),
        (LensChoice(tint="photochromic", supplied=LensData(clear_percent=75.0)), "when-clear"),
        (LensChoice(tint="fixed", tint_percent=74.9), "no"),
        (LensChoice(tint="fixed", tint_percent=75.0), "yes"),
        (LensChoice(tint="fixed", tint_percent=61.1), "no"),
        (LensChoice(tint="fixed", tint_category=0), "yes"),
        (LensChoice(tint="fixed", tint_category=1), "no"),
        (LensChoice(tint="clear", material="high-index-1.74"), "yes"),
    ],
)
def test_night_driving_by_the_75_percent_rule(lens: LensChoice, word: str):
    """College of Optometrists: under 75 % not in twilight or at night; 61.1 % failed in a test of 2002."""
    assert driving_by_night(lens) == word


def test_lens_and_windscreen_multiply():
    """UN Regulation 43 (2001): at least 75 %; the band of the pane reaches from 70 to 82."""
    lens = LensChoice(tint="fixed", tint_percent=50.0)
    both = with_pane(transmittance(lens, place="windscreen_shaded", celsius=23), place="windscreen_shaded")

    assert (both.interval.low, both.interval.high) == pytest.approx((35.0, 41.0))
    assert "light.windscreen.light.range" in both.facts


def test_outdoors_there_is_no_pane():
    assert with_pane(transmittance(UV, place="snow", celsius=23), place="snow") is None


def test_side_windows_have_their_own_pane():
    band = transmittance(UV, place="side_window_green", celsius=23)

    assert "light.side_window.light.range" in with_pane(band, place="side_window_green").facts
