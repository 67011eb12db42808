"""The limits that readings are judged by: rows of a standard's facts, or the rows that the workshop entered itself.

A limit is stated as a claim before anything is held against it. From facts it is worked out by the row that holds the
size; a workshop's own limit is stated as supplied.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from explainer.optics import facts
from explainer.optics.claims.ledger import FACT, Ledger
from explainer.optics.claims.working import Plain, Ref
from explainer.optics.facts import tolerance_tables as tables
from explainer.optics.formulas import tolerance
from explainer.optics.rules import BenchRules, LimitRow

Quantity = Literal["power", "cylinder", "axis", "addition", "progressive_power", "progressive_cylinder"]
Length = Literal["progressive_point", "height", "height_difference"]
OWN = "own-limits"

_TABLE = {"power": "sphere", "progressive_power": "progressive-sphere", "progressive_cylinder": "progressive-cylinder"}
_LENGTHS: Mapping[str, Mapping[Length, str]] = {
    "ansi-z80-1-2015": {  # what the guide to 2015 leaves out stands in earlier editions
        "progressive_point": "tolerance.ansi-z80-1-1999.progressive-point.distance",
        "height": "tolerance.ansi-z80-1-2010.segment.height",
        "height_difference": "tolerance.ansi-z80-1-2010.segment.height_difference",
    }
}
_PROGRESSIVE = {"ansi-z80-1-2015": "ansi-z80-1-1999.progressive"}


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit: the formula of its row with what it is given, or the workshop's own number."""

    formula: Callable[..., Any] | None = None
    refs: Mapping[str, Ref] = field(default_factory=dict)
    own: float | None = None

    def state(self, ledger: Ledger, claim_id: str) -> None:
        """Issues the limit under that claim id."""
        if self.own is not None:
            ledger.supplied(claim_id, self.own)
        elif self.formula is not None:
            ledger.compute(claim_id, self.formula, self.refs)

    def number(self, ledger: Ledger) -> float:
        """The limit itself, without a claim: to choose between two."""
        if self.own is not None:
            return self.own
        assert self.formula is not None
        return float(ledger.work(self.formula, self.refs).result)


@dataclass(frozen=True, slots=True)
class PairLimit:
    """The limit of a pair's prism in one direction: a prism [prism dioptre], or for strong lenses a distance [mm]."""

    limit: Limit
    by_distance: bool


@dataclass(frozen=True, slots=True)
class Limits:
    """The limits of a workshop, asked quantity by quantity. None: they say nothing of it."""

    rules: BenchRules

    @property
    def name(self) -> str:
        """The word of `bench.standard`."""
        return OWN if self.rules.own else self.rules.standard

    @property
    def both_meridians(self) -> bool:
        """Whether each principal meridian has a limit of its own; in the facts' standards only the stronger has."""
        return self.rules.own is not None and self.rules.own.meridians == "both"

    def of(self, quantity: Quantity, *, size: Ref, amount: float, power: float = 0.0) -> Limit | None:
        """The limit for a size: its amount chooses the row (own rows by the greatest power of the lens too)."""
        if self.rules.own is not None:
            rows = self.rules.own.rows(quantity)
            value = tolerance.allowed(_bands(rows, power), size=amount) if rows else None
            return None if value is None else Limit(own=value)
        standard, table = self.rules.standard, _TABLE.get(quantity, quantity)
        if not tables.has(standard, table):
            table = table.removeprefix("progressive-")
        if not tables.has(standard, table):
            return None
        names = tables.fact_ids(standard, table, size=amount)
        if not names:
            return None
        refs: dict[str, Ref] = {name.rpartition(".")[2]: FACT + name for name in names}
        percent = facts.get(names[0]).unit == "percent"
        return Limit(tolerance.row_limit, {**refs, "size": size, "percent": Plain(percent)})

    def pair(
        self, direction: tables.Direction, *, power: Ref, amount: float, prism: float, progressive: bool
    ) -> PairLimit | None:
        """The limit of the pair's prism for lenses of that greatest power in the direction; `prism` was ordered.

        A progressive pair stronger than its row has no limit here: each of its reference points has one.
        """
        if self.rules.own is not None:
            return self._own_pair(direction, amount, prism)
        own_table = _PROGRESSIVE.get(self.rules.standard) if progressive else None
        path = f"tolerance.{own_table or self.rules.standard}{'-' if own_table else '.'}{direction}-imbalance"
        return _pair_of_facts(path, power, amount)

    def _own_pair(self, direction: tables.Direction, power: float, prism: float) -> PairLimit | None:
        assert self.rules.own is not None
        rows = self.rules.own.horizontal if direction == "horizontal" else self.rules.own.vertical
        row = next((row for row in rows if prism <= row.prism_up_to), None)
        if row is None:
            return None
        by_distance = power > row.power_up_to
        if by_distance and math.isinf(row.distance_mm):
            return None
        return PairLimit(Limit(own=row.distance_mm if by_distance else row.prism_pd), by_distance)

    def lens_prism(self, *, by_distance: bool) -> Limit | None:
        """Prism at the reference point of one lens, or the distance by which that point may be off."""
        own = self.rules.own
        if own is not None:
            value = own.prism_or_mm if by_distance else own.prism_pd
            return None if value is None else Limit(own=value)
        name = f"tolerance.{self.rules.standard}.reference-point.{'distance' if by_distance else 'prism'}"
        return _plain(name)

    def length(self, name: Length) -> Limit | None:
        """A distance allowed, whatever the power [mm]."""
        own = self.rules.own
        if own is not None:
            value: float | None = getattr(own, f"{name}_mm")
            return None if value is None else Limit(own=value)
        fact_id = _LENGTHS.get(self.rules.standard, {}).get(name)
        return _plain(fact_id) if fact_id else None


def same(*, allowed: float) -> float:
    """A limit that holds whatever the lens. Reference: definition."""
    return allowed


def _plain(fact_id: str) -> Limit | None:
    return Limit(same, {"allowed": FACT + fact_id}) if _stands(fact_id) else None


def _stands(fact_id: str) -> bool:
    return fact_id.removeprefix(f"{tables.TOPIC}.") in facts.topic_facts(tables.TOPIC)


def _pair_of_facts(path: str, power: Ref, amount: float) -> PairLimit | None:
    if not _stands(f"{path}.up_to"):
        plain = _plain(f"{path}.prism")
        return PairLimit(plain, by_distance=False) if plain else None
    limit = FACT + f"{path}.up_to"
    if amount <= facts.number(f"{path}.up_to"):
        refs: dict[str, Ref] = {"allowed": f"{FACT}{path}.prism", "up_to": limit, "power_d": power}
        return PairLimit(Limit(tolerance.limit_up_to, refs), by_distance=False)
    if not _stands(f"{path}.distance"):
        return None
    refs = {"allowed": f"{FACT}{path}.distance", "above": limit, "power_d": power}
    return PairLimit(Limit(tolerance.limit_above, refs), by_distance=True)


def _bands(rows: tuple[LimitRow, ...], power: float) -> tuple[tolerance.Band, ...]:
    """The rows of one column: those of the least `power_up_to` that still holds the power."""
    columns = sorted({row.power_up_to for row in rows if power <= row.power_up_to})
    if not columns:
        return ()
    return tuple(tolerance.Band(row.above, row.up_to, row.allowed) for row in rows if row.power_up_to == columns[0])
