"""Each row of the table of situations: what is claimed of its order, and what its whole leaflet says and never says."""

from __future__ import annotations

import pytest
from optics.claims.situation_table import ROWS, UK, Row
from phrases import every_phrase, speaker_of

from explainer.optics.claim import Basis
from explainer.optics.claims.ledger import ClaimSet
from explainer.render.sections import Speaker


@pytest.fixture(scope="module")
def spoken() -> dict[str, tuple[Speaker, str]]:
    found = {}
    for row in ROWS:
        speaker = speaker_of(row.order, workshop=UK)
        texts = every_phrase(speaker).items()
        # a picture's own words are said only where the picture stands
        found[row.name] = speaker, "\n".join(text for name, text in texts if not name.startswith("picture."))
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
