"""Which language each sentence of a message is in, told by its small words; people mix languages, above all in fear."""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from explainer.topics.books import FOLDER, languages
from explainer.topics.words import Message, plain

_PATIENCE = 2


@dataclass(frozen=True, slots=True)
class Tongues:
    """The language of the whole message, and by language the sentences that may be in it."""

    main: str
    open_sentences: Mapping[str, frozenset[int]]


def tongues(message: Message, declared: str) -> Tongues:
    """The languages of a message. `declared` decides where the words do not."""
    counts = {language: Counter[int]() for language in languages()}
    arabic = set()
    for word, sentence in zip(message.words, message.sentences, strict=True):
        for language, count in counts.items():
            count[sentence] += word in _small_words()[language]
        if "\u0621" <= word[:1] <= "\u064a":
            arabic.add(sentence)
    totals = {language: count.total() + len(arabic) * (language == "ar") for language, count in counts.items()}
    main = max(totals, key=lambda language: (totals[language], language == declared))
    if totals[main] == totals.get(declared, 0):
        main = declared
    sentences = set(message.sentences)
    opened = {
        language: frozenset(each for each in sentences if _open(counts, each, language, main)) for language in counts
    }
    return Tongues(main, {**opened, "ar": frozenset(arabic)})


def _open(counts: Mapping[str, Counter[int]], sentence: int, language: str, main: str) -> bool:
    """Whether a sentence may be in that language: the message's own, or its small words say so."""
    here = {each: count[sentence] for each, count in counts.items()}
    if language == main or not any(here.values()):
        return True
    return here[language] >= (_PATIENCE if here[main] else 1)


@cache
def _small_words() -> Mapping[str, frozenset[str]]:
    with (FOLDER / "small_words.toml").open("rb") as file:
        return {language: frozenset(map(plain, words.split())) for language, words in tomllib.load(file).items()}
