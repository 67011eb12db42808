"""The evidence says what a claim rests on: a fact is moved, and exactly the claims whose chain lists it change.

Each numeric fact is moved a little, and no claim may change that does not list it. A claim that lists it must change
too, in one order at least: by a little where it is a number that follows, and by larger moves where it is a verdict, a
limit that another limit hides, or the end of a range that others reach beyond. Not asked of words that rest on it
through other claims only, nor of what is rounded to coarse steps on the way (shades, thirds, halves of hours): there
the claims below have changed. A rule of claims names all that it asked, also what did not decide; and it may come or
go with the absence of a claim, which has no name.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from functools import cache

import pytest
from wide_orders import wide_orders

from explainer.errors import ExplainerError
from explainer.optics import facts
from explainer.optics.claim import Claim, Interval
from explainer.optics.claims import explain
from explainer.optics.claims.ledger import FACT
from explainer.optics.claims.tint import temperatures
from explainer.optics.facts import Fact
from explainer.optics.formulas.reactive import is_reactive
from explainer.optics.light.bands import Band
from explainer.optics.light.views import reactive_bands
from explainer.optics.spectacles import Spectacles

Claims = Mapping[str, Claim]
KEEP_THE_DATA = {"topic_facts", "sources", "every_statement", "_compiled", "statement", "formula_name", "_spectrum"}
COMPUTED_SKIES = (15.0, 25.0, 35.0, 45.0, 60.0)  # the sun's heights for which facts/spectra/sky.csv holds a sky


COARSE = ("shade.", "clearing.", "thinner.", "tint.other_dye.", "near.", "turn.")
COMPENSATED = {
    "right.back_vertex.along_axis",  # the back curve is made so that this comes out as prescribed
    "right.back_vertex.across_axis",
    "right.worn.axis",  # a tilt turns the axis alike in every index
}
BY_A_LIMIT = {f"bench.{way}.{what}" for way in ("vertical", "horizontal") for what in ("prism", "deviation_mm")}
"""Issued where the pair has a limit of that kind."""


@contextmanager
def moved(changes: Mapping[str, Fact]) -> Iterator[None]:
    """The facts as if they were others; whatever was kept from them is forgotten before and after."""
    tables = {fact_id: facts.topic_facts(fact_id.partition(".")[0]) for fact_id in changes}
    before = {fact_id: facts.get(fact_id) for fact_id in changes}
    try:
        for fact_id, table in tables.items():
            table[fact_id.partition(".")[2]] = changes[fact_id]
        forget()
        yield
    finally:
        for fact_id, table in tables.items():
            table[fact_id.partition(".")[2]] = before[fact_id]
        forget()


def forget() -> None:
    for name, module in list(sys.modules.items()):
        if name.startswith("explainer.optics"):
            for item, value in vars(module).items():
                if hasattr(value, "cache_clear") and item not in KEEP_THE_DATA:
                    value.cache_clear()


def chains(claims: Claims) -> dict[str, set[str]]:
    """For each claim the facts that it rests on, however deep."""
    found: dict[str, set[str]] = {}
    for claim in claims.values():
        found[claim.id] = set()
        for ref in claim.inputs:
            found[claim.id] |= {ref.removeprefix(FACT)} if ref.startswith(FACT) else found[ref]
    return found


@cache
def as_it_is() -> dict[str, tuple[Claims, dict[str, set[str]]]]:
    found = {}
    for name, order in wide_orders().items():
        claims = explain(order).claims
        found[name] = claims, chains(claims)
    return found


def changed(before: Claims, after: Claims) -> set[str]:
    """The claims that are no longer there, are new, or have another value; rounding is no change."""
    return {
        name
        for name in {*before, *after}
        if name not in before or name not in after or not same(before[name].value, after[name].value)
    }


def same(one, two) -> bool:
    if isinstance(one, Interval) and isinstance(two, Interval):
        return same(one.low, two.low) and same(one.high, two.high)
    if isinstance(one, bool | str | Interval) or isinstance(two, bool | str | Interval):
        return one == two
    return math.isclose(one, two, rel_tol=1e-9, abs_tol=1e-11)


def bands_of(order: Spectacles) -> Mapping[str, Band]:
    """The bands of the model of light, which hold the departures that a wider one hides in the claim."""
    choice = order.lens
    if not is_reactive(choice.tint):
        return {}
    kept = [reactive_bands(choice.tint, choice.supplied.of_light(), celsius) for celsius in temperatures()]
    return {name: band for bands in kept for name, band in bands.items()}


@cache
def as_it_was() -> dict[str, Mapping[str, Band]]:
    return {name: bands_of(order) for name, order in wide_orders().items()}


def departed(before: Mapping[str, Band], after: Mapping[str, Band]) -> set[str]:
    """The bands in which what one assumption alone does has changed."""
    return {name for name in before if name in after and before[name].departures != after[name].departures}


def partners(fact: Fact) -> list[Fact]:
    """The end of a row of a table, and the beginning of the next, are one number in two places."""
    if not fact.id.startswith("tolerance."):
        return [fact]
    base, _, part = fact.id.rpartition(".")
    row = base.rpartition("_")
    if part not in ("above", "up_to") or not row[2].isdigit():
        return [fact]
    other = f"{row[0]}_{int(row[2]) + (1 if part == 'up_to' else -1)}.{'above' if part == 'up_to' else 'up_to'}"
    known = {each.id for each in facts.every_fact()}
    return [fact, facts.get(other)] if other in known else [fact]


def little(fact: Fact) -> list[float | Interval]:
    """The value moved a little, either way."""
    value = fact.value
    if ".elevation" in fact.id:
        return [neighbour(value, up) for up in (True, False)]
    if isinstance(value, Interval):
        step = (value.high - value.low) / 1000 or max(abs(value.low), 1.0) / 1e4
        ends = [(step, 0.0), (0.0, step), (0.0, -step), (-step, 0.0)]
        return [Interval(value.low + a, value.high + b) for a, b in ends if value.low + a <= value.high + b]
    step = abs(value) / 1000 or 1e-4
    return [value + step, value - step]


def large(fact: Fact) -> list[float | Interval]:
    """The value moved far, for verdicts and for limits that something else hides."""
    value = fact.value
    if isinstance(value, Interval) and ".elevation" in fact.id:
        return [Interval(low, high) for low in COMPUTED_SKIES for high in COMPUTED_SKIES if low < high]
    if isinstance(value, Interval):
        low, high = value.low, value.high
        wide = max(high - low, abs(high) / 2)
        ends = [(low - wide, high), (low, high + wide), (low, high + 4 * wide), (low, high + 40 * wide)]
        ends += [(low * part, high) for part in (0.9, 0.7, 0.5, 0.3, 0.1, 0.001)] + [(low, (9 * 100 + high) / 10)]
        ends += [(low + wide, high + wide), (low - wide, high - wide), (low + high, 2 * high), (low / 2, high / 2)]
        ends += [(low / 5, high / 10)]
        return [Interval(*pair) for pair in ends if pair[0] <= pair[1]]
    factors = (1.25, 0.8, 1.1, 0.9, 2, 0.5, 0.3, 0.24, 3, 4.5, 0.1, 10, 0.01, 60)
    return [value * factor for factor in factors] + [value + 0.3, value + 3, value + 30, value - 30, 0.0]


def neighbour(value, up: bool):
    """The next height of the sun for which there is a computed sky."""
    if isinstance(value, Interval):
        return (
            Interval(neighbour(value.low, True), value.high)
            if up
            else Interval(value.low, neighbour(value.high, False))
        )
    others = [sky for sky in COMPUTED_SKIES if (sky > value if up else sky < value)]
    return (min(others) if up else max(others)) if others else value


class Found:
    """What moving one fact showed: claims that changed and do not list it, claims that list it and did not change."""

    def __init__(self, fact: Fact) -> None:
        self.fact, self.group = fact, partners(fact)
        ids = {each.id for each in self.group}
        self.listing = {name: {c for c, chain in both[1].items() if chain & ids} for name, both in as_it_is().items()}
        self.wanted = {name: self._must_move(name) for name in wide_orders()}
        self.unlisted: set[str] = set()
        self.alive: set[str] = set()

    def _must_move(self, name: str) -> set[str]:
        """Kinds of claims in an order that the fact must be able to move: numbers, and words that use it themselves."""
        claims, chain = as_it_is()[name]
        direct = FACT + self.fact.id
        listed = [claim for claim in claims.values() if self.fact.id in chain[claim.id]]
        stated = [claim for claim in listed if claim.formula is None and claim.value != self.fact.value]
        words = [claim for claim in listed if isinstance(claim.value, bool | str) and direct not in claim.inputs]
        asked = [claim for claim in listed if (claim.formula or "").startswith("claims.")]
        coarse = [claim for claim in listed if claim.id.startswith(COARSE)]
        return {kind(claim.id) for claim in listed if claim not in (*stated, *words, *asked, *coarse)} - COMPENSATED

    @property
    def dead(self) -> set[str]:
        return set().union(*self.wanted.values()) - self.alive

    def users(self) -> list[str]:
        """A few orders that together hold every kind of claim that lists the fact."""
        left, chosen = self.dead, []
        while left:
            best = max(self.wanted, key=lambda name: len(self.wanted[name] & left))
            chosen.append(best)
            left = left - self.wanted[best]
        return chosen

    def move(self, value: float | Interval, users: list[str]) -> None:
        with moved({each.id: replace(each, value=value) for each in self.group}):
            for name in users:
                self._compare(name)

    def _compare(self, name: str) -> None:
        before = as_it_is()[name][0]
        try:
            after = explain(wide_orders()[name]).claims
        except ExplainerError:
            return  # moved so far that no such lens, place or table exists
        listed = self.listing[name] | {c for c, chain in chains(after).items() if self.fact.id in chain}
        different = changed(before, after)
        came_or_went = {c for c in different if c not in before or c not in after}
        decided = {c for c in came_or_went if ({**before, **after}[c].formula or "").startswith("claims.")}
        self.unlisted |= {f"{name}: {claim}" for claim in different - listed - decided - BY_A_LIMIT}
        self.alive |= {kind(claim) for claim in different & listed}
        self.alive |= {kind(claim) for claim in departed(as_it_was()[name], bands_of(wide_orders()[name]))}


def kind(claim_id: str) -> str:
    """A claim without its side and its temperature: lenses and temperatures are alike in what they rest on."""
    parts = [{"left": "right", "5": "t", "23": "t", "35": "t"}.get(part, part) for part in claim_id.split(".")]
    return ".".join(parts)


def look(fact: Fact) -> Found:
    found = Found(fact)
    first = found.users()
    for value in little(fact):
        found.move(value, first or ["ordinary", "strong"])
    for value in large(fact):
        found.move(value, first if found.dead else [])
    others = [name for name in wide_orders() if name not in first]
    for value in (*little(fact), *large(fact)):
        found.move(value, [name for name in others if found.wanted[name] & found.dead])
    return found


def is_numeric(fact: Fact) -> bool:
    """A number that can be moved: the temperatures stand in the names of claims, and pages ask for them there."""
    return (
        not fact.id.startswith("rules.temperature.")
        and isinstance(fact.value, int | float | Interval)
        and not isinstance(fact.value, bool)
    )


NUMERIC = [fact for fact in facts.every_fact() if is_numeric(fact)]
SAMPLE = [*NUMERIC[::41], facts.get("light.category.3"), facts.get("rules.front_curve.minus")]


@pytest.mark.parametrize("fact", SAMPLE, ids=lambda fact: fact.id)
def test_a_fact_moves_exactly_the_claims_that_name_it(fact: Fact):
    found = look(fact)

    assert not found.unlisted
    assert not found.dead


@pytest.mark.slow
@pytest.mark.parametrize("fact", [fact for fact in NUMERIC if fact not in SAMPLE], ids=lambda fact: fact.id)
def test_every_other_fact_too(fact: Fact):
    test_a_fact_moves_exactly_the_claims_that_name_it(fact)
