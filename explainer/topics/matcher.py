"""What a customer's message seems to be about: weights of the terms found in it, added up for each topic.

Deliberately simple, so that the desk sees why: every proposal names its terms. Signs that cannot wait are looked for
apart and always come first. A sign that is denied ("no flashes") counts as named: calm must never be false.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from explainer.errors import Fault, InputError
from explainer.topics.catalogue import FOLDER
from explainer.topics.spelling import found, plain, words_of

Weights = Mapping[str, float]
Groups = Mapping[str, tuple[str, ...]]

LEAST = 2.0
LONGEST = 20_000
SHOWN = 5


@dataclass(frozen=True, slots=True)
class Proposal:
    """One topic that may answer the message: the sum of the weights of the terms found, and these terms."""

    topic: str
    score: float
    terms: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Reading:
    """What was read out of a message: urgent signs by name with the terms found, and topics, best first."""

    language: str
    signs: Mapping[str, tuple[str, ...]]
    proposals: tuple[Proposal, ...]

    @property
    def urgent(self) -> bool:
        """Whether the message names a sign that must not wait."""
        return bool(self.signs)


def languages() -> tuple[str, ...]:
    """The languages in which messages can be read."""
    return tuple(sorted(path.stem.removeprefix("terms_") for path in FOLDER.glob("terms_*.toml")))


def read_question(text: str, language: str, extra: Mapping[str, Mapping[str, float]] | None = None) -> Reading:
    """Signs and topics in a message. `extra` are terms of a workshop's own topics. InputError for other languages."""
    short = language.partition("-")[0]
    if short not in languages():
        raise InputError("the message", [Fault("language", language, f"one of {', '.join(languages())}")])
    words = words_of(text[:LONGEST])
    book = _book(f"terms_{short}.toml")
    weighed = {**book.terms, **_prepared(extra or {})}
    scored = (_weigh(topic, terms, words, short, book.groups) for topic, terms in weighed.items())
    best = sorted((each for each in scored if each.score >= LEAST), key=lambda each: -each.score)
    return Reading(short, urgent_signs(words), tuple(best))


def urgent_signs(words: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    """Signs that must not wait, looked for in every language that there is: people mix languages, above all in fear."""
    signs: dict[str, tuple[str, ...]] = {}
    for language in languages():
        book = _book(f"urgent_{language}.toml")
        for sign, terms in book.terms.items():
            hit = tuple(term for term in terms if found(term, words, language, book.groups))
            if hit:
                signs[sign] = (*signs.get(sign, ()), *hit)
    return signs


def reading_lines(reading: Reading) -> list[str]:
    """What was read, for the support desk: urgent signs first, then the best topics with score and terms."""
    lines = []
    if reading.urgent:
        lines.append("URGENT: the message may name a sign that must not wait. Read it yourself, and call the customer.")
        lines += [f"  {sign}: {', '.join(terms)}" for sign, terms in reading.signs.items()]
    lines += [f"{each.topic}: {each.score:g} ({', '.join(each.terms)})" for each in reading.proposals[:SHOWN]]
    return lines if reading.proposals else [*lines, "No topic fits this message. Read it and answer it yourself."]


def _weigh(topic: str, terms: Weights, words: tuple[str, ...], language: str, groups: Groups) -> Proposal:
    hit = {term: weight for term, weight in terms.items() if found(term, words, language, groups)}
    return Proposal(topic, round(sum(hit.values()), 2), tuple(hit))


@dataclass(frozen=True, slots=True)
class _Book:
    """One file of terms: groups of words that mean alike here, and the weighed terms of each topic or sign."""

    groups: Groups
    terms: Mapping[str, Weights]


@cache
def _book(name: str) -> _Book:
    with (FOLDER / name).open("rb") as file:
        raw = tomllib.load(file)
    groups = {group: tuple(map(plain, words)) for group, words in raw.pop("groups", {}).items()}
    return _Book(groups, _prepared(raw))


def _prepared(raw: Mapping[str, Mapping[str, float] | list[str]]) -> dict[str, dict[str, float]]:
    """Terms without accents; a list stands for terms of weight one."""
    weighed = {name: terms if isinstance(terms, Mapping) else dict.fromkeys(terms, 1.0) for name, terms in raw.items()}
    return {name: {plain(term): float(weight) for term, weight in terms.items()} for name, terms in weighed.items()}
