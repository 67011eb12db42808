"""Which parts of terms a word of a message may be: the same form, one slip of the fingers away, or written by ear.

A part is a word, or a word with a star for any ending or beginning (`scratch*`, `*scheibe`), or `=word` for that very
spelling. A word that is a word of its own (`other_*.txt`) is never taken for a slip: `think` is not `thick`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from functools import cache, lru_cache
from pathlib import Path

from explainer.topics.forms import forms
from explainer.topics.sounds import sound

FOLDER = Path(__file__).parent
_SHORTEST_SLIP = 5
_SHORTEST_TWO_SLIPS = 9
_SHORTEST_END = 6
_NO_STEMS = frozenset({"sich"})


class Vocabulary:
    """The parts of all terms of one language, arranged so that a word of a message finds its parts at once."""

    def __init__(self, parts: Iterable[str], language: str) -> None:
        self.language = language
        self._same: defaultdict[str, set[str]] = defaultdict(set)
        self._exact: defaultdict[str, set[str]] = defaultdict(set)
        self._begin: defaultdict[str, set[str]] = defaultdict(set)
        self._inside: list[tuple[str, str]] = []
        self._near: defaultdict[str, list[tuple[str, str]]] = defaultdict(list)
        self._sounds: defaultdict[str, set[str]] = defaultdict(set)
        for part in sorted(set(parts)):
            self._add(part)
        self._longest = max(map(len, self._begin), default=0)
        self._known: dict[tuple[str, bool], frozenset[str]] = {}

    def _add(self, part: str) -> None:
        core = part.strip("*=")
        if part.startswith("="):
            (self._begin if part.endswith("*") else self._exact)[core].add(part)
            return
        if part.startswith("*"):
            self._inside.append((core, part))
            return
        if part.endswith("*"):
            self._begin[core].add(part)
        else:
            for form in self._forms(core):
                self._same[form].add(part)
        self._sounds[sound(core, self.language)].add(part)
        if len(core) >= _SHORTEST_SLIP - 1:
            self._near[core[0]].append((core, part))

    def _forms(self, core: str) -> frozenset[str]:
        """Its forms, but for one that is a word of its own: `sicht` is no `sich`."""
        if self.language == "ar":
            return frozenset({core})
        return frozenset(each for each in forms(core, self.language) if each == core or each not in _NO_STEMS)

    def parts(self, word: str, *, loosely: bool = True) -> frozenset[str]:
        """The parts that the word may be; slips and sounds count only `loosely`."""
        found = self._known.get((word, loosely))
        if found is None:
            found = self._known[word, loosely] = self._parts(word, loosely)
        return found

    def _parts(self, word: str, loosely: bool) -> frozenset[str]:
        if not word:
            return frozenset()
        found = self.plainly(word, stems=loosely)
        if loosely and not found and word not in other_words(self.language):
            found = self.slips(word)
        return frozenset(found)

    def plainly(self, word: str, *, stems: bool = True) -> set[str]:
        """The parts that the word is as it is spelt."""
        found = set(self._exact.get(word, ()))
        for form in forms(word, self.language) if stems else (word,):
            found |= self._same.get(form, set())
            for end in range(1, min(len(form), self._longest) + 1):
                found |= self._begin.get(form[:end], set())
        for core, part in self._inside:
            if core in word if part.endswith("*") else word.endswith(core):
                found.add(part)
        return found

    def slips(self, word: str) -> set[str]:
        """The parts that the word may be meant for: one slip away, or alike in sound."""
        found: set[str] = set()
        for form in forms(word, self.language):
            found |= self._sounds.get(sound(form, self.language), set()) if sound(form, self.language) else set()
            for core, part in self._near.get(form[:1], ()):
                if _slip(core, form) or (part.endswith("*") and _begins(core, form)):
                    found.add(part)
        found |= {part for core, part in self._inside if len(core) >= _SHORTEST_END and _ends(core, word)}
        return found


def _begins(core: str, word: str) -> bool:
    return any(_slip(core, word[: len(core) + more]) for more in (0, 1, -1) if len(core) + more < len(word))


def _ends(core: str, word: str) -> bool:
    return any(_slip(core, word[-len(core) - more :]) for more in (0, 1, -1) if len(core) + more < len(word))


@lru_cache(maxsize=65536)
def _slip(part: str, word: str) -> bool:
    """One slip (a letter more, less, other, two swapped), two in long words; short ones only swap two letters."""
    shorter, longer = sorted((len(part), len(word)))
    if longer - shorter > 1 or shorter < _SHORTEST_SLIP - 1 or part[0] != word[0]:
        return False
    if shorter < _SHORTEST_SLIP and sorted(part) != sorted(word):
        return False
    return distance(part, word) <= (2 if shorter >= _SHORTEST_TWO_SLIPS else 1)


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


@cache
def other_words(language: str) -> frozenset[str]:
    """Words of their own that lie near a term."""
    path = FOLDER / f"other_{language}.txt"
    return frozenset(path.read_text(encoding="utf-8").split()) if path.is_file() else frozenset()
