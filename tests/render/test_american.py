"""American English: words, units, dates, whom to call; the source stays British."""

from __future__ import annotations

import re

import pytest
from optics.claims.situation_table import order
from phrases import every_phrase, speaker_of

from explainer.render.american import WORDS, american
from explainer.render.language import language

US = {"country": "US", "recheck_days": 30}
REACTIVE = order(
    "-2.50 -1.00 x 90 prism 2 base in", "-2.50 DS", lens={"tint": "photochromic"}, wearer={"birth_year": 1990}
) | {"language": "en-US"}


@pytest.fixture(scope="module")
def text() -> str:
    return "\n".join(every_phrase(speaker_of(REACTIVE, workshop=US)).values())


def test_no_british_word_is_left(text: str):
    british = re.compile(r"\b(" + "|".join(map(re.escape, WORDS)) + r")\b", re.IGNORECASE)

    assert british.findall(text) == []
    assert "windshield" in text
    assert "diopters" in text
    assert "dish soap" in text


def test_help_is_american(text: str):
    assert "Now: 911 or emergency room" in text
    assert "Eye doctor; else the emergency room" in text
    assert "the FDA" in text
    for other in ("A&E", "999", "111", "optometrist", "DVLA", "number plate", "Yellow Card", "MHRA"):
        assert other not in text


def test_distances_are_inches_and_feet_and_lens_sizes_stay_millimetres(text: str):
    assert "letters 5 inches high, 66 feet away" in text.lower()
    assert "least blurred at about 14 inches" in text or "clearly up to about 16 inches" in text
    assert "63.5 mm from pupil to pupil" in text
    assert not re.search(r"\d (cm|m)\b", text)
    assert "23 °C (73 °F)" in text


def test_the_date_has_the_month_first(text: str):
    assert "December 24, 2026" in text


def test_the_source_is_british_and_values_put_in_keep_their_names():
    assert language("en-GB").gettext("The kerb is grey.") == "The kerb is grey."
    assert american("%(centre)s: Colour of the kerb, %(colour)s") == "%(centre)s: Color of the curb, %(colour)s"


def test_english_without_a_region_follows_the_workshops_country():
    speaker = speaker_of(REACTIVE | {"language": "en"}, workshop=US)

    assert speaker.language.code == "en-US"
    assert speaker_of(REACTIVE | {"language": "en"}, workshop={"country": "GB"}).language.code == "en"
