"""Reading ease by language: the formulas of the sheet, and sentences.

English: Flesch-Kincaid grade (tests/reading.py). German: Flesch after Amstad, 180 - words a sentence - 58.5 syllables
a word; first Wiener Sachtextformel, 0.1935 MS + 0.1672 SL + 0.1297 IW - 0.0327 ES - 0.875 (MS per cent of words of
three syllables or more, SL words a sentence, IW per cent of words over six letters, ES per cent of words of one
syllable); LIX, words a sentence + per cent of words over six letters. All from memory of the published formulas.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from reading import grade, sentences

_GERMAN_VOWELS = re.compile(r"aa|ee|oo|ai|ei|au|äu|eu|ie|[aeiouyäöü]")
LONGEST, MEAN = 25, 15


class Ease(NamedTuple):
    """What the formulas say of a text, and how that stands against the sheet."""

    points: int
    said: str


def german_syllables(word: str) -> int:
    """Groups of vowels, diphthongs as one."""
    return max(1, len(_GERMAN_VOWELS.findall(word.lower())))


def english(text: str) -> Ease:
    found = grade(text)
    return Ease(2 if found <= 6 else 1 if found <= 8 else 0, f"Flesch-Kincaid grade {found:.1f}, wanted 6")


class German(NamedTuple):
    """Amstad's ease, the school year of the Wiener Sachtextformel, LIX."""

    amstad: float
    vienna: float
    lix: float


def german_scores(text: str) -> German:
    found = sentences(text)
    words = [word for sentence in found for word in sentence]
    length = len(words) / len(found)
    syllables = [german_syllables(word) for word in words]
    long_words = 100 * sum(len(word) > 6 for word in words) / len(words)
    many = 100 * sum(count >= 3 for count in syllables) / len(words)
    one = 100 * sum(count == 1 for count in syllables) / len(words)
    return German(
        180 - length - 58.5 * sum(syllables) / len(words),
        0.1935 * many + 0.1672 * length + 0.1297 * long_words - 0.0327 * one - 0.875,
        length + long_words,
    )


def german(text: str) -> Ease:
    """Easy by all three is 2, by two of them 1."""
    scores = german_scores(text)
    met = sum((scores.amstad >= 65, scores.vienna <= 7, scores.lix < 40))
    said = f"Amstad {scores.amstad:.0f} (65), Vienna {scores.vienna:.1f} (7), LIX {scores.lix:.0f} (40)"
    return Ease({3: 2, 2: 1}.get(met, 0), said)


FORMULAS = {"en": english, "de": german}


def lengths(text: str) -> list[tuple[int, str]]:
    """The words in each sentence, with how it begins."""
    return [(len(words), " ".join(words[:6])) for words in sentences(text)]
