"""What `check` says of the reader's country."""

from __future__ import annotations

import pytest
from phrases import every_phrase, order_of, speaker_of
from plain_order import PLAIN

NEUTRAL = "stay in neutral words"


@pytest.mark.parametrize("country", ["GB", "IE", "DE", "AT", "FR", "US"])
def test_a_country_with_an_entry_needs_no_note(country: str):
    assert not [note for note in order_of(PLAIN, {"country": country}).notes if "country" in note]


@pytest.mark.parametrize("workshop", [{}, {"country": "NZ"}])
def test_a_country_without_an_entry_is_told_and_spoken_of_neutrally(workshop: dict[str, str]):
    notes = [note for note in order_of(PLAIN, workshop).notes if NEUTRAL in note]
    text = "\n".join(every_phrase(speaker_of(PLAIN, workshop=workshop)).values())

    assert len(notes) == 1
    assert "Now: the emergency number or a hospital’s emergency department" in text
    for word in ("A&E", "999", "111", "112", "911", "DVLA", "Yellow Card", "number plate"):
        assert word not in text


def test_the_workshops_own_numbers_go_first():
    own = {"country": "NZ", "emergency": "Call 111", "urgent_help": "the eye clinic in Dell, 0800 555 010"}

    text = "\n".join(every_phrase(speaker_of(PLAIN, workshop=own)).values())

    assert "Now: Call 111 or a hospital’s emergency department" in text
    assert "Eye doctor or the eye clinic in Dell, 0800 555 010" in text


def test_a_law_of_another_country_is_noticed():
    assert any("legal_profile eu" in note for note in order_of(PLAIN, {"country": "GB", "legal_profile": "eu"}).notes)


@pytest.mark.parametrize(
    ("country", "said"),
    [
        ("GB", ("Now: 999 or hospital A&E", "Optometrist, urgent eye service or 111", "Yellow Card", "20 m away")),
        ("IE", ("Now: 112", "Optometrist or GP")),
        ("DE", ("Now: 112", "Eye doctor or 116117")),
        ("FR", ("Now: 112", "Eye doctor or 15")),
        ("AT", ("Now: 112", "Eye doctor; else")),
    ],
)
def test_each_country_has_its_numbers_and_places(country: str, said: tuple[str, ...]):
    text = "\n".join(every_phrase(speaker_of(PLAIN, workshop={"country": country})).values())

    assert [words for words in said if words not in text] == []
    assert "2017/745" not in text
