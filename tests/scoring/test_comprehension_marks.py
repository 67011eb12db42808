"""Block B: each check takes its points away from a leaflet that is hard to understand."""

from __future__ import annotations

import pytest
from reading import grade
from scoring.breaking import marked, remade, sound
from scoring.reading_ease import german_scores, german_syllables


def changed(name: str, old: str, new: str, **parts: str):
    made = sound(name, **parts)
    assert old in made.html
    return made.changed(html=made.html.replace(old, new))


def test_a_long_summary_is_seen():
    assert marked("B2", sound("low-myope")).points == 2
    point = "<li>Clean them with water and a drop of soap.</li>"
    assert marked("B2", changed("low-myope", point, point * 6)).points == 0


def test_a_summary_with_nothing_to_do_is_seen():
    assert marked("B2", changed("low-myope", "Clean them with", "The lenses like")).points == 0


def test_the_passive_voice_is_seen():
    assert (
        marked("B2", changed("low-myope", "Clean them with water", "Clean them. They are cleaned with water")).points
        == 1
    )


def test_a_long_sentence_is_seen():
    assert marked("B3", sound("low-myope")).points == 2
    long = f"it is so that {'a long row of short words and ' * 4} no dot is to be seen."
    assert marked("B3", changed("low-myope", "Cover one eye", f"{long} Cover one eye")).points == 0


def test_hard_words_are_seen():
    hard = "Ametropia necessitates individualised ophthalmological refraction. " * 90
    assert marked("B3", changed("low-myope", "Cover one eye", f"{hard} Cover one eye")).points == 0


def test_german_syllables_and_formulas():
    """Syllables by the dictionary; Amstad and LIX worked by hand for two sentences of three words."""
    assert [german_syllables(word) for word in ("Brille", "Zylinder", "Auge", "neu", "Gleitsichtgläser")] == [
        2,
        3,
        2,
        1,
        4,
    ]
    scores = german_scores("Der Hund bellt. Die Katze schläft.")
    assert scores.amstad == pytest.approx(180 - 3 - 58.5 * 7 / 6)
    assert scores.lix == pytest.approx(3 + 100 / 6)


def test_the_english_formula_is_that_of_the_other_tests():
    assert grade("The black cat sat down. It was happy.") == pytest.approx(0.39 * 4 + 11.8 * 9 / 8 - 15.59)


def test_a_term_without_its_explanation_is_seen():
    made = sound("photochromic-driver")
    before = marked("B4", made).reason
    after = marked("B4", made.changed(html=made.html.replace("<strong>Sphere</strong> is", "The sphere, as you know,")))
    assert "sphere" not in before
    assert "sphere (first in numbers) is never explained" in after.reason


def test_a_word_that_the_termbase_lacks_is_seen():
    assert (
        "varifocal"
        in marked("B4", changed("bifocal-plus-add", "Cover one eye", "With a varifocal lens cover one eye")).reason
    )


def test_a_reading_power_that_is_left_as_a_sum_is_seen():
    assert marked("B5", sound("bifocal-plus-add")).points == 2
    broken = remade("bifocal-plus-add", change=lambda html: html.replace("+4.25 D", "+2.00 D"))
    assert marked("B5", broken).points == 0


def test_big_pieces_and_long_lists_are_seen():
    assert marked("B6", changed("low-myope", "Cover one eye", "word " * 160 + "Cover one eye")).points == 0
    point = "<li>Clean them with water and a drop of soap.</li>"
    assert "a list of" in marked("B6", changed("low-myope", point, point * 8)).reason


def test_steps_without_numbers_and_no_tick_list_are_seen():
    made = sound("low-myope")
    assert marked("B6", made).points in (1, 2)
    assert marked("B6", made.changed(html=made.html.replace("<ol>", "<ul>").replace("</ol>", "</ul>"))).points == 0
    assert marked("B6", made.changed(html=made.html.replace('class="ticks"', ""))).points == 0


@pytest.mark.parametrize("words", ["1 in 20 people cannot", "15 % of the light", "one in 7 lenses"])
def test_bad_shares_are_seen(words):
    assert marked("B7", sound("photochromic-driver")).points in (1, 2)
    assert marked("B7", changed("photochromic-driver", "Cover one eye", f"{words}. Cover one eye")).points == 0


def test_a_tint_without_a_bar_is_seen():
    made = sound("photochromic-driver")
    broken = made.changed(html=made.html.replace("drawing tint_", "drawing x_"))
    assert "without bar" in marked("B7", broken).reason
