"""Block F: each check takes its points away from a translation that says something else."""

from __future__ import annotations

import re
from types import SimpleNamespace

import pytest
from render import sample
from render.glyphs import glyphs
from scoring.breaking import marked, remade, sound, swap
from scoring.translation import _turned_signs

NAME = "photochromic-driver"


def german():
    return sound(NAME, language="de")


def a_title(made) -> str:
    """A title that is translated."""
    return re.findall(r"<h2>([^<]+)</h2>", made.html)[-1]


def test_the_source_language_is_not_its_own_translation():
    assert [marked(item, sound(NAME)).points for item in ("F1", "F2", "F3", "F4", "F5")] == [None] * 5


def test_a_word_left_in_english_is_seen():
    made = german()
    assert marked("F1", made).points == 2
    html = made.html.replace(a_title(made), "The first days")
    assert html != made.html
    assert marked("F1", made.changed(html=html)).points == 0


def not_translated(made) -> int:
    """The words that F3 counts as not translated yet."""
    found = re.search(r"(\d+) words are not translated yet", marked("F3", made).reason)
    return int(found[1]) if found else 0


def test_what_says_that_it_is_not_translated_is_no_fault_but_counted():
    made = german()
    html = made.html.replace(a_title(made), '<span lang="en" dir="ltr">The first days</span>')
    assert marked("F1", made.changed(html=html)).points == 2
    assert not_translated(made.changed(html=html)) == not_translated(made) + 3


@pytest.mark.slow
def test_a_number_in_a_sentence_that_is_not_translated_is_held_to_the_source_too():
    made = german()
    old = re.search(r'<bdi class="n" dir="ltr" data-claim="pair.pd">([^<]*)</bdi>', made.html)
    assert old
    english = f'<span lang="en" dir="ltr">{old[0]}</span>'
    right, wrong = english.replace(old[1], old[1].replace(",", ".")), english.replace(old[1], "46.0 mm")
    assert marked("F2", made.changed(html=made.html.replace(old[0], right))).points == 2
    assert marked("F2", made.changed(html=made.html.replace(old[0], wrong))).points == 0


def test_a_lost_block_is_seen():
    made = german()
    item = re.search(r'<section class="half care" id="care">.*?(<li>.*?</li>)', made.html, re.DOTALL)
    assert item
    assert "care" in marked("F1", made.changed(html=made.html.replace(item[1], ""))).reason
    assert marked("F1", made.changed(html=made.html.replace('id="fit"', 'id="fitness"'))).points == 0


@pytest.mark.slow
@pytest.mark.parametrize(("old", "new"), [("−2,75 D", "+2,75 D"), ("−2,75 D", "−2,57 D"), ("−2,75 D", "−2.75 D")])
def test_another_number_in_the_translation_is_seen(old: str, new: str):
    made = german()
    assert marked("F2", made).points == 2
    assert old in made.html
    assert marked("F2", made.changed(html=made.html.replace(old, new))).points == 0


def test_an_informal_word_and_a_foreign_term_are_seen():
    made = german()
    assert marked("F3", made).points == 1, "a draft is not signed"
    assert marked("F3", made.changed(html=made.html.replace(a_title(made), "Deine ersten Tage"))).points in (0, 1)
    assert marked("F3", made.changed(html=made.html.replace(a_title(made), "du hast SPH"))).points == 0


@pytest.mark.slow
def test_a_draft_that_hides_is_seen():
    made = german()
    assert marked("F4", made).points == 2
    silent = remade(
        NAME, language="de", change=lambda html: re.sub(r'<p class="draft">.*?</p>', "", html, flags=re.DOTALL)
    )
    assert "no notice" in marked("F4", silent).reason
    small = remade(NAME, language="de", css=".draft { font-size: 9pt }")
    assert marked("F4", small).points == 0
    lost = remade(NAME, language="de", change=swap("Never look at the sun or an eclipse through them.", ""))
    assert "no English copy" in marked("F4", lost).reason


@pytest.mark.parametrize(("take_away", "turned"), [("nothing at all", False), (r"</?bdi\b[^>]*>", True)])
def test_a_sign_on_the_wrong_side_is_seen(take_away: str, turned: bool):
    html = re.sub(take_away, "", sample.html("ar"))
    page = SimpleNamespace(glyphs=glyphs(sample.pdf("ar", html=html).data))
    assert bool(list(_turned_signs(page))) is turned  # type: ignore[arg-type]
