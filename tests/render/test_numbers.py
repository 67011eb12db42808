"""How a claim becomes characters."""

from __future__ import annotations

import pytest

from explainer.errors import MissingText
from explainer.optics.claim import Basis, Citation, Claim, Interval
from explainer.render.language import language
from explainer.render.numbers import claim_text, date_text, number_text

EN, DE, US = language("en-GB"), language("de-DE"), language("en-US")
MINUS = "\u2212"


def claim(claim_id: str, value, unit: str, digits: int = 2) -> Claim:
    return Claim(id=claim_id, value=value, unit=unit, basis=Basis.ORDERED, digits=digits)


@pytest.mark.parametrize(
    ("value", "english", "german"),
    [
        (-3.25, f"{MINUS}3.25 D", f"{MINUS}3,25 D"),
        (2.0, "+2.00 D", "+2,00 D"),
        (0.0, "0.00 D", "0,00 D"),
        (-0.0, "0.00 D", "0,00 D"),
        (-0.125, f"{MINUS}0.125 D", f"{MINUS}0,125 D"),
        (3.375, "+3.375 D", "+3,375 D"),
    ],
)
def test_a_power_shows_its_sign_and_the_decimal_mark_of_the_language(value: float, english: str, german: str):
    power = claim("right.sphere", value, "D")

    assert claim_text(power, EN) == english
    assert claim_text(power, DE) == german


def test_a_power_just_below_zero_never_prints_as_minus_zero():
    residue = Claim(
        id="right.mean_sphere", value=-0.004, unit="D", basis=Basis.COMPUTED, formula="f", inputs=("x",), digits=2
    )

    assert claim_text(residue, EN) == "0.00 D"


def test_a_size_has_no_sign():
    residual = Claim(
        id="right.turn.5.residual", value=0.218, unit="D", basis=Basis.COMPUTED, formula="f", inputs=("x",), digits=2
    )

    assert claim_text(residual, EN) == "0.22 D"


def test_rounding_is_half_up_and_not_half_even():
    assert number_text(0.125, 2, EN) == "0.13"
    assert number_text(2.5, 0, EN) == "3"


def test_a_range_is_rounded_outward_and_collapses_when_both_ends_print_alike():
    assert claim_text(claim("lens.abbe", Interval(27.9, 30.2), "ratio", 0), EN) == "27 to 31"
    assert claim_text(claim("lens.abbe", Interval(30.0, 30.0), "ratio", 0), EN) == "30"


@pytest.mark.parametrize(
    ("claim_id", "value", "text"),
    [
        ("right.prism.horizontal", 1.5, "1.50 Δ base in"),
        ("right.prism.horizontal", -1.5, "1.50 Δ base out"),
        ("left.prism.vertical", 0.5, "0.50 Δ base up"),
        ("left.prism.vertical", -0.5, "0.50 Δ base down"),
    ],
)
def test_a_prism_prints_its_base_as_a_word(claim_id: str, value: float, text: str):
    assert claim_text(claim(claim_id, value, "prism_D"), EN) == text


def test_a_share_is_told_in_per_cent():
    assert claim_text(claim("tint.transmittance", 15.0, "percent", 0), EN) == "15 %"


def test_times_are_seconds_first_and_minutes_when_long():
    assert claim_text(claim("tint.darken.23.half", 24.0, "s", 0), EN) == "24 seconds"
    assert claim_text(claim("tint.fade.23.to_75", Interval(170, 390), "s", 0), EN) == "2 to 7 minutes"


def test_temperatures_come_in_both_scales_where_the_country_uses_fahrenheit():
    mild = claim("tint.temperature.mild", 23.0, "celsius", 0)

    assert claim_text(mild, EN) == "23 °C"
    assert claim_text(mild, US) == "23 °C (73 °F)"


def test_dates_have_the_month_as_a_word():
    from datetime import date

    assert date_text(date(2026, 3, 7), EN) == "7 March 2026"
    assert date_text(date(2026, 3, 7), US) == "March 7, 2026"


def test_a_yes_or_no_cannot_be_printed_as_a_number():
    with pytest.raises(MissingText):
        claim_text(claim("lens.fringes", True, "yes-no"), EN)


def test_a_word_without_a_translation_is_refused():
    unknown = Claim(
        id="lens.material", value="cheese", unit="word", basis=Basis.PUBLISHED, sources=(Citation("x", "y"),)
    )

    with pytest.raises(MissingText, match="cheese"):
        claim_text(unknown, EN)


@pytest.mark.parametrize(
    ("claim_id", "value", "unit", "digits", "said"),
    [
        ("right.axis", 77.5, "deg", 0, "77.5°"),
        ("right.axis", 5.0, "deg", 0, "5°"),
        ("right.sphere", -3.125, "D", 2, "−3.125 D"),
        ("left.cylinder", -0.5, "D", 2, "−0.50 D"),
        ("right.prism.horizontal", 0.375, "prism_D", 2, "0.375 Δ base in"),
        ("right.pd", 31.25, "mm", 1, "31.25 mm"),
        ("right.pd", 31.5, "mm", 1, "31.5 mm"),
    ],
)
def test_what_was_received_is_printed_digit_for_digit(claim_id, value, unit, digits, said):
    received = Claim(id=claim_id, value=value, unit=unit, basis=Basis.ORDERED, digits=digits)

    assert claim_text(received, EN) == said


@pytest.mark.parametrize(
    ("value", "british", "american"),
    [
        (40.0, "40 cm", "16 inches"),
        (99.6, "1 m", "39 inches"),
        (108.0, "1.1 m", "43 inches"),
        (2000.0, "20 m", "66 feet"),
    ],
)
def test_lengths_are_in_the_units_that_readers_think_in(value, british, american):
    length = claim("near.far_end", value, "cm", 0)

    assert (claim_text(length, EN), claim_text(length, US)) == (british, american)
