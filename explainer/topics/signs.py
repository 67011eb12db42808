"""Signs that must not wait: looked for in every language that there is, before anything else.

A sign that is denied ("no flashes") counts as named: calm must never be false. Words with another everyday sense are
laid aside first, where what stands beside them says so (`[harmless]` in `urgent_*.toml`).
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from explainer.topics.books import FOLDER, Book, languages, urgent_book
from explainer.topics.terms import Places
from explainer.topics.tongue import Tongues
from explainer.topics.words import Message

NOW, TODAY = "now", "today"
ENOUGH = 1.0
_WINDOW = 25


@dataclass(frozen=True, slots=True)
class Sign:
    """One sign: how soon it needs help (`now` or `today`), and what it is, in words for the desk."""

    name: str
    tier: str
    says: str


@cache
def all_signs() -> Mapping[str, Sign]:
    """The signs by name, gravest first."""
    with (FOLDER / "signs.toml").open("rb") as file:
        raw = tomllib.load(file)
    return {name: Sign(name, str(entry["tier"]), str(entry["says"])) for name, entry in raw.items()}


def find_signs(message: Message, tongues: Tongues) -> dict[str, tuple[str, ...]]:
    """By sign, gravest first, the words of the message that name it."""
    bare = message.without(_harmless(message, tongues))
    grounds: dict[str, list[str]] = {}
    for language in languages():
        for sign, found in _found(bare, urgent_book(language), tongues):
            grounds.setdefault(sign, []).extend(found)
    return {sign: tuple(dict.fromkeys(grounds[sign])) for sign in all_signs() if sign in grounds}


def tier_of(signs: Mapping[str, tuple[str, ...]]) -> str | None:
    """How soon help is needed: by the gravest sign, or none."""
    tiers = {all_signs()[sign].tier for sign in signs}
    return NOW if NOW in tiers else TODAY if tiers else None


def _harmless(message: Message, tongues: Tongues) -> frozenset[int]:
    taken: set[int] = set()
    for language in languages():
        if not tongues.open_sentences[language]:
            continue
        book = urgent_book(language)
        places = Places(message, book.vocabulary, tongues.open_sentences[language])
        taken.update(at for phrase in book.harmless for hit in places.hits(phrase) for at in hit)
    return frozenset(taken)


def _found(message: Message, book: Book, tongues: Tongues) -> Iterator[tuple[str, list[str]]]:
    places = Places(message, book.vocabulary, tongues.open_sentences[book.language])
    for sign, weighted in book.terms.items():
        hits = sorted((min(hit), hit, weight) for term, weight in weighted for hit in places.hits(term))
        for first, _, _ in hits:
            end = message.places[first] + _WINDOW
            near = [(hit, weight) for start, hit, weight in hits if start >= first and message.places[start] < end]
            if sum(weight for _, weight in near) >= ENOUGH:
                yield sign, [" ".join(message.words[at] for at in sorted(hit)) for hit, _ in near]
                break
