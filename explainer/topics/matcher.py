"""What a customer's message seems to be about: weights of the terms found in it, added up for each topic.

Deliberately simple, so that the desk sees why: every proposal names its terms, every alarm its words (`signs.py`).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from explainer.errors import Fault, InputError
from explainer.topics.books import languages, own_book, topic_book
from explainer.topics.signs import NOW, all_signs, find_signs, tier_of
from explainer.topics.terms import Places
from explainer.topics.tongue import tongues
from explainer.topics.words import read_words

LEAST = 2.0
LONGEST = 20_000
SHOWN = 5


@dataclass(frozen=True, slots=True)
class Proposal:
    """One topic that may answer the message: the sum of the weights of the terms found, and these terms.

    `first` is the place of the first of their words, by which questions are put in the order asked. `alone` is the
    weight of the terms that no proposal before it rests on.
    """

    topic: str
    score: float
    terms: tuple[str, ...]
    first: int
    alone: float


@dataclass(frozen=True, slots=True)
class Reading:
    """What was read out of a message: urgent signs by name with the words that name them, and topics, best first."""

    language: str
    signs: Mapping[str, tuple[str, ...]]
    proposals: tuple[Proposal, ...]

    @property
    def urgent(self) -> bool:
        """Whether the message names a sign that must not wait."""
        return bool(self.signs)

    @property
    def tier(self) -> str | None:
        """How soon help is needed: `now`, `today`, or none."""
        return tier_of(self.signs)


@dataclass(frozen=True, slots=True)
class _Hit:
    """One term of a topic, found: its weight, and which words of the message it is."""

    text: str
    weight: float
    at: frozenset[int]


def read_question(text: str, language: str, extra: Mapping[str, Mapping[str, float]] | None = None) -> Reading:
    """Signs and topics in a message. `extra` are terms of a workshop's own topics. InputError for other languages."""
    short = language.partition("-")[0]
    if short not in languages():
        raise InputError("the message", [Fault("language", language, f"one of {', '.join(languages())}")])
    message = read_words(text[:LONGEST])
    spoken = tongues(message, short)
    found: defaultdict[str, list[_Hit]] = defaultdict(list)
    for book in [*map(topic_book, languages()), own_book(short, extra or {})]:
        sentences = spoken.open_sentences[book.language]
        if not sentences:
            continue
        places = Places(message.only(sentences), book.vocabulary, sentences)
        for topic, weighted in book.terms.items():
            for term, weight in weighted:
                hit = next(places.hits(term), None)
                if hit is not None:
                    found[topic].append(_Hit(term.text, weight, frozenset(hit)))
    return Reading(spoken.main, find_signs(message, spoken), _proposals({t: _counted(h) for t, h in found.items()}))


def _counted(hits: Sequence[_Hit]) -> list[_Hit]:
    """The terms that count, the weightiest first: one that rests on no word of its own adds nothing."""
    counted: list[_Hit] = []
    used: frozenset[int] = frozenset()
    for hit in sorted(hits, key=lambda each: -each.weight):
        if hit.weight < 0 or not hit.at <= used:
            counted.append(hit)
            used |= hit.at
    return counted


def _proposals(found: Mapping[str, Sequence[_Hit]]) -> tuple[Proposal, ...]:
    """The topics with enough weight. First the heaviest, then whichever has most weight that those before it lack."""
    left = {topic: hits for topic, hits in found.items() if _weight(hits) >= LEAST}
    proposals: list[Proposal] = []
    used: frozenset[int] = frozenset()
    while left:
        topic = max(left, key=lambda each: (_alone(left[each], used), _weight(left[each])))
        hits = left.pop(topic)
        first = min(at for hit in hits if hit.weight > 0 for at in hit.at)
        terms = tuple(hit.text for hit in hits)
        proposals.append(Proposal(topic, _weight(hits), terms, first, _alone(hits, used)))
        used = used.union(*(hit.at for hit in hits))
    return tuple(proposals)


def _weight(hits: Sequence[_Hit]) -> float:
    return round(sum(hit.weight for hit in hits), 2)


def _alone(hits: Sequence[_Hit], used: frozenset[int]) -> float:
    return round(sum(hit.weight for hit in hits if not hit.at & used), 2)


def reading_lines(reading: Reading) -> list[str]:
    """What was read, for the support desk: urgent signs first, then the best topics with score and terms."""
    lines = []
    if reading.tier is not None:
        how = "needs help NOW" if reading.tier == NOW else "needs help TODAY"
        lines.append(f"URGENT, {how}: the message may name a sign that must not wait. Read it yourself, and call.")
        lines += [f"  {all_signs()[sign].says}: {', '.join(words)}" for sign, words in reading.signs.items()]
    lines += [f"{each.topic}: {each.score:g} ({', '.join(each.terms)})" for each in reading.proposals[:SHOWN]]
    return lines if reading.proposals else [*lines, "No topic fits this message. Read it and answer it yourself."]
