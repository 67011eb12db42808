"""Words of a message: endings, slips, words written by ear, near words, and words of their own."""

from __future__ import annotations

import pytest

from explainer.topics.books import topic_book, urgent_book
from explainer.topics.sounds import sound
from explainer.topics.terms import Places, term
from explainer.topics.vocabulary import Vocabulary, distance
from explainer.topics.words import read_words


def found(line: str, text: str, language: str = "en", groups: dict[str, tuple[str, ...]] | None = None) -> bool:
    message, wanted = read_words(text), term(line, groups or {})
    vocabulary = Vocabulary(wanted.words(), language)
    return any(True for _ in Places(message, vocabulary, frozenset(message.sentences)).hits(wanted))


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


@pytest.mark.parametrize("text", ["scratched", "Scratches", "scratching", "scrathes"])
def test_endings_and_slips_do_not_matter(text: str):
    assert found("scratch", text)


@pytest.mark.parametrize(("part", "word"), [("car", "care"), ("read", "red"), ("lens", "less"), ("tint", "tiny")])
def test_short_words_are_not_confused(part: str, word: str):
    assert not found(part, word)


@pytest.mark.parametrize(("one", "other"), [("dubbel", "double"), ("bleech", "bleach"), ("nite", "night")])
def test_words_written_by_ear_sound_alike(one: str, other: str):
    assert sound(one, "en") == sound(other, "en")


@pytest.mark.parametrize(("word", "topic"), [("think", "lens"), ("computer", "car")])
def test_a_word_of_its_own_is_no_slip_of_another(word: str, topic: str):
    book = topic_book("en")
    words = {part for each, _ in book.terms[topic] for part in each.words() if len(each.parts) == 1}

    assert not book.vocabulary.parts(word) & words


@pytest.mark.parametrize("word", ["migranes", "migrains", "headackes"])
def test_slips_in_common_complaints_are_seen_through(word: str):
    assert found("migra*|headach*|headache", word)


@pytest.mark.parametrize(
    ("line", "word", "language"),
    [
        ("*reiniger", "rohrreinger", "de"),
        ("*reiniger", "Backofenreinnger", "de"),
        ("كلور*", "كلوور", "ar"),
        ("bleach*", "bleech", "en"),
    ],
)
def test_parts_with_a_star_forgive_a_slip_too(line: str, word: str, language: str):
    assert found(line, word, language)


@pytest.mark.parametrize(("line", "word"), [("sicht", "sich"), ("*reiniger", "einiger"), ("*kleber", "lieber")])
def test_a_common_word_is_no_slip(line: str, word: str):
    assert not found(line, word, "de")


def test_words_of_a_term_stand_near_each_other():
    assert found("eye pain", "the pain in my left eye")
    assert not found("eye pain", "the pain is in my back and I have a black cat with one eye")
    assert not found("eye pain", "I have one eye. The pain is in my back.")
    assert found("eye pain ~20", "the pain is in my back and I have a black cat with one eye")


def test_one_word_cannot_be_two_parts_of_a_term():
    assert not found("@a @b", "side", groups={"a": ("side",), "b": ("side",)})


def test_a_word_beside_takes_the_sense_away_but_not_across_a_sentence():
    assert not found("flash* -camera", "the camera made a flash")
    assert found("flash* -camera", "I have no camera. I see a flash.")


def test_accents_apostrophes_digits_and_arabic_forms_are_laid_aside():
    assert read_words("Gläser, can’t, CAN'T ").words == ("glaser", "cant", "cant")
    assert read_words("٢ ½ أإآة").words[0] == "2"
    assert found("عين", "بعيني", "ar")
    assert found("رؤية", "الرؤيه", "ar")


@pytest.mark.parametrize("language", ["en", "de", "ar"])
def test_every_word_of_a_group_is_one_word(language: str):
    for book in (topic_book(language), urgent_book(language)):
        every = {word for weighted in book.terms.values() for each, _ in weighted for word in each.words()}

        assert not {word for word in every if " " in word or not word.strip("*=")}
