"""Endings, slips and near words."""

from __future__ import annotations

import pytest

from explainer.topics.spelling import alike, distance, found, words_of


@pytest.mark.parametrize(
    ("one", "other", "apart"),
    [
        ("kitten", "sitting", 3),
        ("flaw", "lawn", 2),
        ("ca", "abc", 3),
        ("teh", "the", 1),
        ("same", "same", 0),
        ("", "ab", 2),
    ],
)
def test_distances_are_those_of_the_textbooks(one: str, other: str, apart: int):
    """Levenshtein's kitten and sitting, flaw and lawn; optimal string alignment gives 3 for ca and abc."""
    assert distance(one, other) == apart


@pytest.mark.parametrize("text", ["scratched", "Scratches", "scratching"])
def test_endings_do_not_matter(text: str):
    assert alike("scratch", words_of(text)[0], "en")


@pytest.mark.parametrize(("part", "word"), [("car", "care"), ("read", "red"), ("lens", "less"), ("tint", "tiny")])
def test_short_words_are_not_confused(part: str, word: str):
    assert not alike(part, word, "en")


def test_words_of_a_term_stand_near_each_other():
    assert found("eye pain", words_of("the pain in my left eye"), "en", {})
    assert not found("eye pain", words_of("the pain is in my back and I have a black cat with one eye"), "en", {})


def test_one_word_cannot_be_two_parts_of_a_term():
    assert not found("@a @b", words_of("side"), "en", {"a": ("side",), "b": ("side",)})


def test_accents_and_apostrophes_are_laid_aside():
    assert words_of("Gläser, can’t, CAN'T ") == ("glaser", "cant", "cant")
