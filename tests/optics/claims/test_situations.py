"""Each row of the table of situations: what is claimed of its order, and what its whole leaflet says and never says."""

from __future__ import annotations

import re

import pytest
from optics.claims.situation_table import ROWS, UK, Row
from phrases import every_phrase, speaker_of

from explainer.optics.claim import Basis
from explainer.optics.claims.ledger import ClaimSet
from explainer.render.sections import Speaker

_ELSEWHERE = ("picture.", "bar.")  # said only where the picture, or on a telephone the block, stands


@pytest.fixture(scope="module")
def spoken() -> dict[str, tuple[Speaker, str]]:
    found = {}
    for row in ROWS:
        speaker = speaker_of(row.order, workshop=UK)
        texts = every_phrase(speaker).items()
        found[row.name] = speaker, "\n".join(text for name, text in texts if not name.startswith(_ELSEWHERE))
    return found


def holds(claims: ClaimSet, wanted: str) -> bool:
    name, _, word = wanted.partition("=")
    value = claims.value(name)
    return value == word if word else value is not None and value is not False


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_what_holds_is_claimed_and_what_does_not_is_not(row: Row, spoken: dict[str, tuple[Speaker, str]]):
    claims = spoken[row.name][0].voice.claims

    assert [wanted for wanted in row.says if not holds(claims, wanted)] == []
    assert [name for name in row.silent if holds(claims, name)] == []


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_the_leaflet_says_it_and_never_the_other(row: Row, spoken: dict[str, tuple[Speaker, str]]):
    text = spoken[row.name][1]

    assert [words for words in row.words if words not in text] == []
    assert [words for words in row.never if words in text] == []


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_every_situation_names_what_it_rests_on(row: Row, spoken: dict[str, tuple[Speaker, str]]):
    claims = spoken[row.name][0].voice.claims

    for name in row.says:
        claim = claims[name.partition("=")[0]]
        assert claim.inputs or claim.sources or claim.basis is Basis.ORDERED, name


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_one_box_and_one_triangle_at_most_and_the_gravest_line_first(row: Row, spoken: dict[str, tuple[Speaker, str]]):
    claims = spoken[row.name][0].voice.claims
    child = row.order["wearer"].get("birth_year", 0) > 2010

    assert (claims.value("warning.box") == "parents") is child
    triangles = [name for name in ("know.stairs", "know.unequal", "know.unequal_near") if claims.value(name)]
    assert (claims.value("warning.triangle") is not None) is bool(triangles)
    for gravest in ("too_dark", "near_only", "fixed_dark"):
        if claims.value(f"drive.{gravest}"):
            assert claims.value("warning.first") == gravest


WORST = {  # the themes that a page must not harp on, and the words that tell them
    "night": r"\bnight\b",
    "stairs": r"\bstairs\b",
    "double": r"two pictures|\bdouble\b",
    "protection": r"eye protection",
    "fire": r"start a fire",
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_no_page_has_a_caution_three_times(row: Row, spoken: dict[str, tuple[Speaker, str]]):
    """By the phrases of each page; the help panel is rank nought and counts apart."""
    speaker = spoken[row.name][0]
    said = {name.split(" ")[0]: text for name, text in every_phrase(speaker).items()}
    pages = {
        1: ("title.", "purpose.", "pair.", "states.", "drive.", "know.", "check."),
        2: ("first.", "changed.", "can_i_drive.", "parents.", "fit.", "clean.", "safe."),
        3: ("numbers.", "pupils.", "turn.", "without.", "where.", "near_range."),
        4: ("light.", "clearing.", "dark.", "thinner.", "uv.", "reflections.", "edges.", "knocks.", "imprint."),
    }
    heads = (".head", ".title")
    for number, names in pages.items():
        texts = [text for name, text in said.items() if name.startswith(names) and not name.endswith(heads)]
        for theme, words in WORST.items():
            found = [text for text in texts if re.search(words, text, re.IGNORECASE)]
            assert len(found) <= 2, (number, theme, found)
