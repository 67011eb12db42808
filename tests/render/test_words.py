"""Templates and catalogues: no number of their own, no claim that the core does not know, no value lost on the way."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.extract import DEFAULT_KEYWORDS, extract_from_dir

from explainer.optics.claims.statements import every_statement, statement
from explainer.render.language import available, is_sound, read_catalogue
from explainer.resources import root

TEMPLATES = sorted([*root("templates").rglob("*.md"), *root("templates").rglob("*.html")])
SECTIONS = [path for path in TEMPLATES if path.parent.name in ("sections", "phrases", "tables", "topics", "email")]
HOME = Path(__file__).parents[2]
UNIT_SIGN = re.compile(r"(?<![\w(])(mm|cm|nm|dpt)\b|°|%(?!\()|\bD\b(?!\))")
PLACEHOLDER = re.compile(r"%\((\w+)\)s")
CLAIM_CALL = re.compile(r"""(?:say|raw|has|is_|stated|caution)\(\s*'([^']+)'\s*[,)]""")
SIDE_CALL = re.compile(r"""(?:say|raw|has|is_)\(\s*(?:side|section_side|sight_side) ~ '(\.[^']+)'\s*[,)]""")


def messages() -> Catalog:
    """Every message of the program, as pybabel would extract it."""
    with (HOME / "pyproject.toml").open("rb") as file:
        mappings = tomllib.load(file)["tool"]["babel"]["mappings"]
    methods = [(mapping["pattern"], mapping["method"]) for mapping in mappings]
    options = {mapping["pattern"]: mapping for mapping in mappings}
    catalogue = Catalog()
    for _, _, message, _, _ in extract_from_dir(HOME, methods, options, keywords=DEFAULT_KEYWORDS):
        catalogue.add(message)
    return catalogue


MESSAGES = messages()
TEXTS = [message.id for message in MESSAGES if message.id]


def test_there_are_messages_to_check():
    assert len(TEXTS) > 250


@pytest.mark.parametrize("text", TEXTS)
def test_no_message_holds_a_digit(text: str):
    assert not re.search(r"\d", text)


@pytest.mark.parametrize("text", [t for t in TEXTS if "%(number)s" not in t and "%(amount)s" not in t])
def test_no_message_holds_a_unit_sign(text: str):
    assert not UNIT_SIGN.search(PLACEHOLDER.sub("", text))


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
        if message.id and message.string:
            assert is_sound(message) or message.fuzzy, message.id
            assert sorted(PLACEHOLDER.findall(message.string)) == sorted(PLACEHOLDER.findall(message.id)), message.id
            assert not re.search(r"\d", PLACEHOLDER.sub("", message.string)), message.id
