"""Phrases: spoken once, inline, silent where they do not hold, and the same in pages and mails."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from optics.claims.situation_table import ROWS, UK, Row, order
from phrases import ABOUT, NAMES, every_phrase, speaker_of
from plain_order import PLAIN
from reading import grade
from reading import sentences as split_sentences

from explainer.render import sections
from explainer.render.language import language
from explainer.resources import root


def test_a_single_paragraph_is_inline_and_holds_its_claims():
    speaker = speaker_of(PLAIN)

    html = speaker.phrase_html("first.settle")

    assert html.startswith("Most people settle within <bdi")
    assert "<p>" not in html
    assert "settling.usual" in speaker.voice.said


def test_a_phrase_that_does_not_hold_is_nothing():
    assert speaker_of(PLAIN).phrase("know.stairs") == ""
    assert not speaker_of(PLAIN).phrase("know.unequal")


def test_a_phrase_is_a_mark_that_the_voice_sets_in_and_is_spoken_once():
    speaker = speaker_of(PLAIN)

    first, again = speaker.phrase("check.fit"), speaker.phrase("check.fit")

    assert first == again
    assert speaker.voice.html(f"<li>{first}</li>") == f"<li>{speaker.phrase_html('check.fit')}</li>"
    assert "<strong>Level,</strong>" in speaker.voice.html(first)


def test_a_phrase_about_one_eye_is_told_which():
    speaker = speaker_of(PLAIN)

    assert speaker.phrase_text("pair.side", side="left") == "Left eye"
    assert speaker.phrase_text("pair.side", side="right") == "Right eye"


def test_a_name_of_a_customer_is_neither_markdown_nor_html():
    named = PLAIN | {"wearer": {"name": "Odalys *Bracken* whistle", "birth_year": 1971}}

    html = speaker_of(named).phrase_html("header.made_for")

    assert "*Bracken*" in html
    assert "<em>" not in html


@pytest.mark.parametrize("name", NAMES)
def test_a_phrase_file_is_a_template_of_messages(name: str):
    text = (root("templates") / "phrases" / f"{name}.md").read_text(encoding="utf-8")

    assert re.fullmatch(r"[a-z_]+(\.[a-z0-9_]+)*", name)
    assert "{% trans" in text or "{{" in text


def test_every_phrase_can_be_asked_of_any_order():
    said = every_phrase(speaker_of(PLAIN))

    assert len(said) > 100
    assert all("{" not in text and "**" not in text and "None" not in text for text in said.values())


@pytest.mark.parametrize("code", ["de", "ar"])
def test_what_is_not_translated_stands_in_english_with_its_language(code: str):
    speaker = speaker_of(PLAIN, language(code))

    assert every_phrase(speaker)


def test_the_list_of_phrases_is_the_folder():
    assert {path.stem for path in Path(root("templates") / "phrases").glob("*.md")} == set(NAMES)


SPOKEN = {row.name: every_phrase(speaker_of(row.order, workshop=UK)) for row in ROWS}
LONGEST_WORDS = 30


def sentence(text: str) -> str:
    return text if text[-1] in ".?!:" else f"{text}."


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_every_leaflet_reads_at_grade_six_or_below(row: Row):
    prose = [sentence(text) for text in SPOKEN[row.name].values() if len(text.split()) > 3]

    assert grade("\n".join(prose)) <= 6


def test_no_sentence_is_long():
    texts = {text for said in SPOKEN.values() for text in said.values()}
    words = [found for text in texts for found in split_sentences(text)]

    assert [" ".join(each) for each in words if len(each) > LONGEST_WORDS] == []


@pytest.mark.parametrize(
    "wording", ["you will", "always safe", "soon unnoticed", "perfect", "guarantee", "don't worry"]
)
def test_no_phrase_promises(wording: str):
    for name in NAMES:
        text = (root("templates") / "phrases" / f"{name}.md").read_text(encoding="utf-8")
        assert wording not in text.lower(), name


def test_measuring_is_told_only_beside_the_list_of_what_was_read():
    read = {"right": "-1.00 DS", "left": "-1.00 DS"}
    power = order("-1.00 DS")
    said = {
        name: [speaker_of(power | bench, workshop=shop).phrase_text(name) for bench in ({}, {"bench": read})]
        for name in ("measured.title", "measured.main", "measured.not")
        for shop in ({"country": "US"},)
    }

    assert [none for none, _ in said.values()] == ["", "", ""]
    assert said["measured.main"][1] == "We measured these: powers. All are inside the limits."
    assert "prism" in said["measured.not"][1]
    british = speaker_of(power | {"bench": read}, workshop=UK).phrase_text("measured.main")
    assert british == "We measured these: powers.", "no verdict by another country's limits"


@pytest.mark.parametrize("row", ROWS[::4], ids=lambda row: row.name)
def test_the_short_way_to_html_says_what_markdown_says(row: Row, monkeypatch: pytest.MonkeyPatch):
    short = speaker_of(row.order, workshop=UK)
    long = speaker_of(row.order, workshop=UK)

    for name in every_phrase(short):
        told = dict(zip(ABOUT.get(name.split(" ")[0], {}), name.split(" ")[1:], strict=True))
        quick = short.phrase_html(name.split(" ")[0], **told)
        with monkeypatch.context() as slow:
            slow.setattr(sections, "_INLINE", re.compile("(?!)"))
            assert long.phrase_html(name.split(" ")[0], **told) == quick
