"""Words of a message and terms to look for: endings and small slips of spelling do not matter.

A term is one word or several, which may stand in any order but near each other. A star stands for any ending or any
beginning: `scratch*`, `*scheibe`. `@name` stands for any word of a group, and
`=word` for that very spelling.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from functools import lru_cache

_WORD = re.compile(r"[^\W\d_]+")
_APOSTROPHE = re.compile(r"(?<=\w)['\u2019\u02bc](?=\w)")
_ENDINGS = {
    "en": ("ingly", "ing", "ies", "ied", "edly", "ed", "es", "ly", "s"),
    "de": ("ern", "em", "en", "er", "es", "et", "e", "n", "s"),
}
_SHORTEST_STEM = {"en": 3, "de": 4}
_WIDE_REACH = 6
_REACH = 3  # words that may stand between those of a term, all together


def words_of(text: str) -> tuple[str, ...]:
    """The message's words in small letters without accents: `Gläser` becomes `glaser`, `can't` becomes `cant`."""
    return tuple(plain(word) for word in _WORD.findall(_APOSTROPHE.sub("", text)))


def plain(text: str) -> str:
    """Small letters, no accents."""
    spread = unicodedata.normalize("NFKD", text.casefold())
    return "".join(sign for sign in spread if not unicodedata.combining(sign))


def found(term: str, words: tuple[str, ...], language: str, groups: Mapping[str, tuple[str, ...]]) -> bool:
    """Whether the term stands in the message: all its words within a short stretch, each in a place of its own.

    A part `@name` stands for any word of that group; such terms may be spread wider.
    """
    parts = term.split()
    places = [_places(part, words, language, groups) for part in parts]
    if not all(places):
        return False
    stretch = len(parts) + (_WIDE_REACH if "@" in term else _REACH)
    starts = sorted(set().union(*places))
    return any(_apart([{p for p in each if start <= p < start + stretch} for each in places]) for start in starts)


def _places(part: str, words: tuple[str, ...], language: str, groups: Mapping[str, tuple[str, ...]]) -> set[int]:
    wanted = groups[part[1:]] if part.startswith("@") else (part,)
    return {place for place, word in enumerate(words) if any(alike(each, word, language) for each in wanted)}


def _apart(places: list[set[int]]) -> bool:
    """Whether every part can have a place of its own."""
    if not places:
        return True
    return any(_apart([each - {place} for each in places[1:]]) for place in places[0])


def alike(part: str, word: str, language: str) -> bool:
    """Whether a word of the message is that word of a term. All but `*ending` asks for the same first letter."""
    first = part[1] if part.startswith("=") else part[0]
    return first in ("*", word[0]) and _alike(part, word, language)


@lru_cache(maxsize=65536)
def _alike(part: str, word: str, language: str) -> bool:
    if part.startswith("="):
        return word.startswith(part[1:-1]) if part.endswith("*") else word == part[1:]
    core = part.strip("*")
    if part == core:
        return part == word or _stem(part, language) == _stem(word, language) or _slip(part, word)
    if not part.startswith("*"):
        return word.startswith(core) or any(_slip(core, word[: len(core) + more]) for more in (0, 1, -1))
    return core in word if part.endswith("*") else word.endswith(core)


def _stem(word: str, language: str) -> str:
    """The word without its ending, roughly; a doubled letter before the ending goes too (`slipping`, `slip`)."""
    for ending in _ENDINGS[language]:
        if word.endswith(ending) and len(word) - len(ending) >= _SHORTEST_STEM[language]:
            stem = word.removesuffix(ending)
            if ending in ("ies", "ied"):
                return stem + "y"
            doubled = len(stem) > 3 and stem[-1] == stem[-2] and stem[-1] not in "ls"
            return _bare(stem[:-1] if doubled else stem)
    return _bare(word)


def _bare(stem: str) -> str:
    """Without a last e, so that `scrape` is found in `scraping`; short words keep it (`care` is no `car`)."""
    return stem.removesuffix("e") if len(stem) > 4 else stem


def _slip(part: str, word: str) -> bool:
    """One slip (a letter more, less, other, two swapped) in words of six letters and more; the first is right."""
    longer = max(len(part), len(word))
    if longer < 6 and sorted(part) != sorted(word):  # in words of five, only two letters that changed places
        return False
    if min(len(part), len(word)) < 5 or part[0] != word[0] or abs(len(part) - len(word)) > 1:
        return False
    return distance(part, word) <= (2 if longer >= 10 else 1)


def distance(one: str, other: str) -> int:
    """Letters to change, put in, leave out, or swap with a neighbour (optimal string alignment)."""
    before: list[int] = []
    last = list(range(len(other) + 1))
    for row, sign in enumerate(one, start=1):
        this = [row]
        for column, mate in enumerate(other, start=1):
            best = min(last[column] + 1, this[-1] + 1, last[column - 1] + (sign != mate))
            if row > 1 and column > 1 and sign == other[column - 2] and one[row - 2] == mate:
                best = min(best, before[column - 2] + 1)
            this.append(best)
        before, last = last, this
    return last[-1]
