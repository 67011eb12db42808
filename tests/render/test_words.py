"""Templates and catalogues: no number of their own, no claim that the core does not know, no value lost on the way."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from catalogues import messages

from explainer.optics.claims.statements import every_statement, statement
from explainer.render.language import available, is_sound, read_catalogue
from explainer.resources import root

TEMPLATES = sorted([*root("templates").rglob("*.md"), *root("templates").rglob("*.html")])
SECTIONS = [path for path in TEMPLATES if path.parent.name in ("sections", "phrases", "tables", "topics", "email")]
UNIT_SIGN = re.compile(r"(?<![\w(])(mm|cm|nm|dpt)\b|°|%(?!\()|\bD\b(?!\))")
PLACEHOLDER = re.compile(r"%\((\w+)\)s")
CLAIM_CALL = re.compile(r"""(?:say|raw|has|is_|stated|caution)\(\s*'([^']+)'\s*[,)]""")
SIDE_CALL = re.compile(r"""(?:say|raw|has|is_)\(\s*(?:side|section_side|sight_side) ~ '(\.[^']+)'\s*[,)]""")


TEXTS = messages()


def test_there_are_messages_to_check():
    assert len(TEXTS) > 250


def test_no_message_holds_a_digit():
    assert [text for text in TEXTS if re.search(r"\d", text)] == []


def test_no_message_holds_a_unit_sign():
    without_number = [text for text in TEXTS if "%(number)s" not in text and "%(amount)s" not in text]

    assert [text for text in without_number if UNIT_SIGN.search(PLACEHOLDER.sub("", text))] == []


@pytest.mark.parametrize("path", SECTIONS, ids=lambda path: path.name)
def test_no_template_prints_a_digit_of_its_own(path: Path):
    bare = re.sub(r"\{[{%#].*?[}%#]\}", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    bare = re.sub(r"<[^>]*>", "", bare)
    numbered_list = re.sub(r"^\d+\. ", "", bare, flags=re.MULTILINE)

    assert not re.search(r"\d", numbered_list)


@pytest.mark.parametrize("path", SECTIONS, ids=lambda path: path.name)
def test_every_sentence_of_a_template_is_a_message(path: Path):
    text = path.read_text(encoding="utf-8")
    outside = re.sub(r"\{% trans.*?endtrans %\}", "", text, flags=re.DOTALL)
    outside = re.sub(r"\{[{%#].*?[}%#]\}", "", outside, flags=re.DOTALL)
    outside = re.sub(r"<[^>]*>", "", outside)

    assert not re.search(r"[^\W\d_]{2,}", outside), "words outside any message"


@pytest.mark.parametrize("path", SECTIONS, ids=lambda path: path.name)
def test_every_claim_that_a_template_names_is_a_statement_of_the_core(path: Path):
    text = path.read_text(encoding="utf-8")
    named = CLAIM_CALL.findall(text) + ["right" + tail for tail in SIDE_CALL.findall(text)]

    for claim_id in named:
        assert statement(claim_id)


def test_every_statement_says_something_and_has_a_unit():
    for pattern, entry in every_statement().items():
        assert entry.says.strip(), pattern
        assert entry.unit, pattern


LANGUAGES = [code for code in available() if code != "en"]


@pytest.mark.parametrize("code", LANGUAGES)
def test_a_translation_keeps_every_placeholder_and_adds_no_digit(code: str):
    catalogue = read_catalogue(root("locales") / code / "LC_MESSAGES" / "explainer.po")

    for message in catalogue:
        if message.id and message.string and not message.fuzzy:  # a proposal is not printed
            assert is_sound(message), message.id
            assert sorted(PLACEHOLDER.findall(message.string)) == sorted(PLACEHOLDER.findall(message.id)), message.id
            assert not re.search(r"\d", PLACEHOLDER.sub("", message.string)), message.id
