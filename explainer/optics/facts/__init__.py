"""Numbers that are looked up, not computed: each with unit, basis, source and place in that source.

A file `material.toml` with a table `[polycarbonate.index_d]` holds the fact `material.polycarbonate.index_d`.
`sources.toml` holds every citation once. What is incomplete is refused when it is loaded.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from explainer.errors import FactError
from explainer.optics.claim import Basis, Citation, Interval

FOLDER = Path(__file__).parent
_NOT_FACTS = frozenset({"sources", "statements", "statements_situations"})
_SELF_EVIDENT = frozenset({Basis.DEFINITION, Basis.COMMON_PRACTICE, Basis.MEMORY, Basis.COMPUTED})


@dataclass(frozen=True, slots=True)
class Fact:
    """One looked-up value: a number, an Interval or a member of a closed set."""

    id: str
    value: float | int | str | Interval
    unit: str
    basis: Basis
    sources: tuple[Citation, ...]
    note: str

    @property
    def number(self) -> float:
        """The value as a number; the middle of an interval. FactError when it is a word."""
        if isinstance(self.value, Interval):
            return self.value.middle
        if isinstance(self.value, str):
            raise FactError(f"fact {self.id} is the word {self.value!r}, not a number")
        return float(self.value)

    @property
    def interval(self) -> Interval:
        """The value as an interval; a single number is an interval of no width."""
        if isinstance(self.value, Interval):
            return self.value
        return Interval(self.number, self.number)


@dataclass(frozen=True, slots=True)
class Source:
    """One published source: enough to find it again, whether it is weak, and a short name for a page."""

    key: str
    title: str
    where: str
    weak: bool
    short: str


def get(fact_id: str) -> Fact:
    """The fact of that id; FactError when there is none."""
    topic, _, rest = fact_id.partition(".")
    try:
        return topic_facts(topic)[rest]
    except KeyError:
        raise FactError(f"there is no fact {fact_id}") from None


def number(fact_id: str) -> float:
    """Short for get(fact_id).number."""
    return get(fact_id).number


def topics() -> tuple[str, ...]:
    """The names of all fact files."""
    return tuple(sorted(p.stem for p in FOLDER.glob("*.toml") if p.stem not in _NOT_FACTS))


def every_fact() -> Iterator[Fact]:
    """All facts of all files."""
    for topic in topics():
        yield from topic_facts(topic).values()


@cache
def topic_facts(topic: str) -> Mapping[str, Fact]:
    """All facts of one file, by the rest of their id."""
    if topic not in topics():
        raise FactError(f"there is no fact file {topic}.toml")
    found: dict[str, Fact] = {}
    for path, entry in _entries(_read(topic), ()):
        rest = ".".join(path)
        found[rest] = _fact(f"{topic}.{rest}", entry)
    return found


@cache
def sources() -> Mapping[str, Source]:
    """Every citation, by key."""
    return {
        key: Source(
            key,
            title := _text(entry, "title", key),
            _text(entry, "where", key),
            bool(entry.get("weak", False)),
            str(entry.get("short", title)),
        )
        for key, entry in _read("sources").items()
    }


def _read(name: str) -> dict[str, Any]:
    with (FOLDER / f"{name}.toml").open("rb") as file:
        return tomllib.load(file)


def _entries(table: dict[str, Any], path: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], dict[str, Any]]]:
    if "basis" in table or "value" in table or "low" in table:
        yield path, table
        return
    for key, value in table.items():
        if not isinstance(value, dict):
            raise FactError(f"{'.'.join((*path, key))} stands outside any fact")
        yield from _entries(value, (*path, key))


def _fact(fact_id: str, entry: dict[str, Any]) -> Fact:
    try:
        basis = Basis(entry["basis"])
    except (KeyError, ValueError):
        raise FactError(f"fact {fact_id} has no basis, or an unknown one") from None
    cited = [entry, *entry.get("also", [])] if "source" in entry else []
    citations = tuple(Citation(c["source"], _text(c, "locator", fact_id)) for c in cited)
    unknown = [c.source for c in citations if c.source not in sources()]
    if unknown:
        raise FactError(f"fact {fact_id} cites unknown sources: {', '.join(unknown)}")
    if not citations and basis not in _SELF_EVIDENT:
        raise FactError(f"fact {fact_id} is {basis} and needs a source")
    value = Interval(float(entry["low"]), float(entry["high"])) if "low" in entry else entry["value"]
    return Fact(fact_id, value, _text(entry, "unit", fact_id), basis, citations, str(entry.get("note", "")))


def _text(entry: dict[str, Any], name: str, owner: str) -> str:
    text = entry.get(name)
    if not isinstance(text, str) or not text.strip():
        raise FactError(f"{owner} has no {name}")
    return text
