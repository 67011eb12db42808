"""The command that brings the catalogues up to date: it touches what changed and nothing else.

GNU gettext manual, "The Format of PO Files": a fuzzy entry is not used until a translator has confirmed it, and a
comment `#| msgid` holds the wording that its translation was made for.
"""

from __future__ import annotations

import difflib
import importlib.util
from types import ModuleType

import pytest
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po
from catalogues import messages

from explainer.render.language import available, is_sound
from explainer.resources import root

LANGUAGES = [code for code in available() if code != "en"]
OLD = "Both lenses sit tight. There is no crack or chip."
NEW = "Both lenses sit tight. There is no crack and no chip."


@pytest.fixture(scope="module")
def update() -> ModuleType:
    spec = importlib.util.spec_from_file_location("update", root("locales") / "update.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def text_of(code: str) -> str:
    return (root("locales") / code / "LC_MESSAGES" / "explainer.po").read_text(encoding="utf-8")


def program_of(text: str, *, without: str = "", with_: str = "") -> Catalog:
    """The sentences of a program that says what this catalogue holds, but for a change."""
    found = Catalog()
    for message in catalogue_of(text):
        if message.id and message.id != without:
            found.add(message.id)
    if with_:
        found.add(with_)
    return found


def catalogue_of(text: str) -> Catalog:
    return read_po(text.splitlines(keepends=True), abort_invalid=True)


def touched(old: str, new: str) -> list[str]:
    lines = difflib.unified_diff(old.split("\n"), new.split("\n"), n=0, lineterm="")
    return [line for line in lines if line[0] in "+-" and line[:3] not in ("+++", "---")]


@pytest.mark.parametrize("code", LANGUAGES)
def test_nothing_new_touches_no_line(code: str, update: ModuleType):
    assert update.updated(text_of(code), program_of(text_of(code))) == text_of(code)


@pytest.mark.parametrize("code", LANGUAGES)
def test_a_reworded_sentence_touches_its_own_lines(code: str, update: ModuleType):
    old = text_of(code)
    new = update.updated(old, program_of(old, without=OLD, with_=NEW))
    message = catalogue_of(new).get(NEW)

    assert touched(old, new) == [f'-msgid "{OLD}"', "+#, fuzzy", f'+#| msgid "{OLD}"', f'+msgid "{NEW}"']
    assert message.string == catalogue_of(old).get(OLD).string
    assert not is_sound(message), "a proposal is not printed"
    assert update.updated(new, program_of(new)) == new


def test_lines_broken_by_another_editor_stay(update: ModuleType):
    old = text_of("de").replace(f'msgid "{OLD}"', f'msgid ""\n"{OLD[:20]}"\n"{OLD[20:]}"')
    new = update.updated(old, program_of(old, without="hard resin"))

    assert touched(old, new) == ['-msgid "hard resin"', '-msgstr "Standard-Kunststoff"', "-"]


def test_a_new_language_begins_as_a_draft_with_every_sentence(update: ModuleType):
    text = update.updated(update.HEAD.format(name="French", code="fr"), program_of(text_of("de")))
    found = catalogue_of(text)

    assert {message.id for message in found} == {message.id for message in catalogue_of(text_of("de"))}
    assert "Status: draft" in found.header_comment
    assert not any(is_sound(message) for message in found)


def test_the_report_tells_the_share_and_what_is_lacking(update: ModuleType):
    text = f'{update.HEAD.format(name="French", code="fr")}\nmsgid "Axis"\nmsgstr "Axe"\n\nmsgid "Add"\nmsgstr ""\n'
    program = Catalog()
    for message in ("Axis", "Add", "Prism", "Sphere"):
        program.add(message)

    assert update.report("fr", text, program).split("\n") == [
        "fr: 1 of 4 sentences are translated (25 %)",
        "  in English: Add",
        "  in English: Prism",
        "  in English: Sphere",
    ]


def test_the_command_finds_the_sentences_of_templates_and_of_the_program(update: ModuleType):
    found = [message.id for message in update.messages() if message.id]

    assert sorted(found) == sorted(messages())
    assert {"Your new glasses", "%(low)s to %(high)s", "right eye"} <= set(found)
