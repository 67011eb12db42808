"""Terms: words that stand near each other, in any order, and words that must not stand beside them.

`left|right eye` is one word of the first pair and the word eye. `@eye` stands for any word of that group. `-@photo`
asks that no word of that group stand near in the same sentence. `~8` says how many other words may stand between, all
together; else it is 3, or 6 with a group. How single words are compared: `vocabulary.py`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from explainer.topics.vocabulary import Vocabulary
from explainer.topics.words import Message, plain

Groups = Mapping[str, tuple[str, ...]]
_REACH, _WIDE_REACH = 3, 6
_BESIDE = 8
_LONG = 7


@dataclass(frozen=True, slots=True)
class Term:
    """One term. `parts` and `absent` hold, for each part, the words that may fill it; `reach` counts words between."""

    text: str
    parts: tuple[frozenset[str], ...]
    absent: frozenset[str]
    reach: int

    @property
    def stands_alone(self) -> bool:
        """Whether it is plain enough to be believed in a message of another language."""
        return len(self.parts) > 1 or min(len(word.strip("*=")) for word in self.parts[0]) >= _LONG

    def words(self) -> frozenset[str]:
        """Every word that the term asks about."""
        return self.absent.union(*self.parts)


def term(text: str, groups: Groups) -> Term:
    """The term of a line of the word lists; KeyError for a group that is not there."""
    parts: list[frozenset[str]] = []
    absent: frozenset[str] = frozenset()
    reach: int | None = None
    for piece in text.split():
        if piece.startswith("~"):
            reach = int(piece[1:])
        elif piece.startswith("-"):
            absent |= _filled(piece[1:], groups)
        else:
            parts.append(_filled(piece, groups))
    return Term(text, tuple(parts), absent, reach if reach is not None else _WIDE_REACH if "@" in text else _REACH)


def _filled(piece: str, groups: Groups) -> frozenset[str]:
    found: set[str] = set()
    for each in piece.split("|"):
        found |= set(groups[each[1:]]) if each.startswith("@") else {plain(each)}
    return frozenset(found)


class Places:
    """Where the words of a vocabulary stand in a message. `open_sentences`: those where slips of spelling count."""

    def __init__(self, message: Message, vocabulary: Vocabulary, open_sentences: frozenset[int]) -> None:
        self.message = message
        self.spoken = bool(open_sentences)
        self._at: defaultdict[str, list[int]] = defaultdict(list)
        for at, word in enumerate(message.words):
            for part in vocabulary.parts(word, loosely=message.sentences[at] in open_sentences):
                self._at[part].append(at)

    def hits(self, wanted: Term) -> Iterator[tuple[int, ...]]:
        """The positions of the words of every place where the term stands, one after the other."""
        if not self.spoken and not wanted.stands_alone:
            return
        at = [sorted({each for word in part for each in self._at.get(word, ())}) for part in wanted.parts]
        if not all(at):
            return
        place = self.message.places
        last = -1
        for start in sorted(set().union(*at)):
            if start <= last:
                continue
            end = place[start] + len(at) + wanted.reach
            near = [[each for each in part if start <= each and place[each] < end] for part in at]
            chosen = _apart(near, frozenset())
            if chosen and not self._beside(wanted, chosen):
                last = max(chosen)
                yield chosen

    def _beside(self, wanted: Term, chosen: Sequence[int]) -> bool:
        """Whether a word that must be absent stands near in the same sentence, outside the term itself."""
        place, sentence = self.message.places, self.message.sentences
        within = {sentence[at] for at in chosen}
        low, high = place[min(chosen)] - _BESIDE, place[max(chosen)] + _BESIDE
        near = (at for word in wanted.absent for at in self._at.get(word, ()))
        return any(low <= place[at] <= high and sentence[at] in within and at not in chosen for at in near)


def _apart(places: Sequence[Sequence[int]], taken: frozenset[int]) -> tuple[int, ...]:
    """A place of its own for every part, or nothing."""
    if not places:
        return ()
    for each in places[0]:
        if each in taken:
            continue
        if len(places) == 1:
            return (each,)
        rest = _apart(places[1:], taken | {each})
        if rest:
            return (each, *rest)
    return ()
