"""Category, driving by night, and the pair of lens and windscreen, as claims."""

from __future__ import annotations

import pytest

from explainer.optics.claim import Interval
from explainer.optics.claims import ClaimSet, explain
from explainer.optics.spectacles import Eye, LensChoice, LensData, Prescription, Spectacles

NO_POWER = Prescription(right=Eye(sphere_d=0.0), left=Eye(sphere_d=0.0))
UV = LensChoice(tint="photochromic")


def claims_of(lens: LensChoice) -> ClaimSet:
    return explain(Spectacles(prescription=NO_POWER, lens=lens)).claims


def category(percent: float) -> int | None:
    return claims_of(LensChoice(tint="fixed", tint_percent=percent)).value("tint.category")


@pytest.mark.parametrize(
    ("percent", "number"), [(80.1, 0), (80, 1), (43.1, 1), (43, 2), (18, 3), (8.1, 3), (8, 4), (3.1, 4), (3, None)]
)
def test_the_upper_bound_belongs_to_the_category(percent: float, number: int | None):
    """ISO 12312-1 as quoted by the College of Optometrists: over 43 to 80 is category 1, and so on."""
    assert category(percent) == number


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
        (LensChoice(tint="fixed"), "no"),
        (LensChoice(tint="clear", material="high-index-1.74"), "yes"),
    ],
)
def test_night_driving_by_the_75_percent_rule(lens: LensChoice, word: str):
    """College of Optometrists: under 75 % not in twilight or at night; 61.1 % failed in a test of 2002."""
    assert claims_of(lens).value("drive.night") == word


@pytest.mark.parametrize(
    ("lens", "word"),
    [
        (LensChoice(tint="fixed", tint_percent=8.0), "no"),
        (LensChoice(tint="fixed", tint_percent=8.1), "yes"),
        (LensChoice(tint="fixed", tint_category=3), "yes"),
        (LensChoice(tint="fixed", tint_category=4), "no"),
        (UV, "not-when-darkest"),
    ],
)
def test_day_driving_ends_with_the_last_category(lens: LensChoice, word: str):
    """College of Optometrists: categories 0 to 3 only; a patent claims light-reactive lenses down to 4 %."""
    assert claims_of(lens).value("drive.day") == word


def test_lens_and_windscreen_multiply():
    """UN Regulation 43 (2001): at least 75 %; the band of the pane reaches from 70 to 82."""
    claim = claims_of(LensChoice(tint="fixed", tint_percent=50.0))["tint.windscreen.light.with_glass"]

    assert isinstance(claim.value, Interval)
    assert (claim.value.low, claim.value.high) == pytest.approx((35.0, 41.0))
    assert claim.inputs == ("tint.transmittance", "fact:light.windscreen.light.range")


def test_what_rests_on_a_category_names_the_ends_of_that_category():
    claims = claims_of(LensChoice(tint="fixed", tint_category=2))

    assert claims["tint.category.light"].inputs == ("fact:light.category.2",)
    assert "tint.category.light" in claims["drive.day"].inputs
    assert "tint.category.light" in claims["drive.night"].inputs
    assert "tint.category.light" in claims["tint.windscreen.light.with_glass"].inputs


@pytest.mark.parametrize("number", range(5))
def test_a_category_alone_gives_the_bounds_of_the_category(number: int):
    """The same table: 80 to 100, 43 to 80, 18 to 43, 8 to 18, 3 to 8 percent."""
    low, high = [(80, 100), (43, 80), (18, 43), (8, 18), (3, 8)][number]

    assert claims_of(LensChoice(tint="fixed", tint_category=number)).value("tint.category.light") == Interval(low, high)
