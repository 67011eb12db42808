"""The word lists: for every language one book of topics and one of urgent signs, read once."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from explainer.topics.terms import Groups, Term, term
from explainer.topics.vocabulary import Vocabulary
from explainer.topics.words import plain

FOLDER = Path(__file__).parent
Weighted = tuple[tuple[Term, float], ...]


@dataclass(frozen=True, slots=True)
class Book:
    """One list: the weighed terms of each topic or sign, the harmless phrases, and the vocabulary of all of them."""

    language: str
    terms: Mapping[str, Weighted]
    harmless: tuple[Term, ...]
    vocabulary: Vocabulary


@cache
def languages() -> tuple[str, ...]:
    """The languages in which messages can be read."""
    return tuple(sorted(path.stem.removeprefix("terms_") for path in FOLDER.glob("terms_*.toml")))


@cache
def topic_book(language: str) -> Book:
    """The words that point to topics."""
    return _book(language, f"terms_{language}.toml")


@cache
def urgent_book(language: str) -> Book:
    """The words that name urgent signs."""
    return _book(language, f"urgent_{language}.toml")


def own_book(language: str, terms: Mapping[str, Mapping[str, float]]) -> Book:
    """The words of a workshop's own topics."""
    return _made(language, terms, {}, ())


def _book(language: str, name: str) -> Book:
    with (FOLDER / name).open("rb") as file:
        raw = tomllib.load(file)
    groups = {group: tuple(map(plain, words)) for group, words in raw.pop("groups", {}).items()}
    harmless = raw.pop("harmless", {}).get("phrases", ())
    return _made(language, raw, groups, harmless)


def _made(
    language: str,
    raw: Mapping[str, Mapping[str, float] | list[str]],
    groups: Groups,
    harmless: tuple[str, ...] | list[str],
) -> Book:
    terms = {name: _weighted(lines, groups) for name, lines in raw.items()}
    masks = tuple(term(line, groups) for line in harmless)
    every = {word for weighted in terms.values() for each, _ in weighted for word in each.words()}
    every |= {word for each in masks for word in each.words()}
    return Book(language, terms, masks, Vocabulary(every, language))


def _weighted(lines: Mapping[str, float] | list[str], groups: Groups) -> Weighted:
    """Terms with their weights; a list stands for terms of weight one."""
    weights = lines if isinstance(lines, Mapping) else dict.fromkeys(lines, 1.0)
    return tuple((term(text, groups), float(weight)) for text, weight in weights.items())
