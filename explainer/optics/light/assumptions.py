"""What is not known exactly: a usual value and how far the evidence lets it go, one axis of a sweep each.

Arrays made here have one axis per assumption. On each axis index 0 is the usual value, 1 the low end, 2 the
high end; an axis of length 1 is an assumption that is settled (a value supplied by the workshop).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from explainer.optics import facts
from explainer.optics.claim import Interval
from explainer.optics.formulas.spectrum import FloatArray


@dataclass(frozen=True, slots=True)
class Assumption:
    """One assumption: the ids of the facts behind it, its usual value and both ends, in the formulas' units."""

    name: str
    facts: tuple[str, ...]
    usual: float
    low: float
    high: float

    @property
    def values(self) -> tuple[float, ...]:
        """The values along the axis of this assumption."""
        return (self.usual,) if self.low == self.high else (self.usual, self.low, self.high)


@dataclass(frozen=True, slots=True)
class Departure:
    """What one result becomes when one assumption alone goes to its low and to its high end."""

    assumption: str
    low_end: float
    high_end: float
    at_low: float
    at_high: float


class Looked:
    """Looks facts up and remembers which, so that what was used is what is named. Percentages come as parts of one."""

    def __init__(self) -> None:
        self.ids: tuple[str, ...] = ()

    def number(self, fact_id: str) -> float:
        """A fact as a number."""
        return self._fact(fact_id).number

    def part(self, fact_id: str) -> float:
        """A fact in percent as a part of one."""
        return self._fact(fact_id).number / 100

    def parts(self, fact_id: str) -> Interval:
        """A range in percent as a range of parts of one."""
        found = self._fact(fact_id).interval
        return Interval(found.low / 100, found.high / 100)

    def _fact(self, fact_id: str) -> facts.Fact:
        if fact_id not in self.ids:
            self.ids += (fact_id,)
        return facts.get(fact_id)


def from_facts(base: str, *, scale: float = 1.0) -> Assumption:
    """The assumption of the facts `<base>.usual` and `<base>.range`, times a scale (percent to parts: 0.01)."""
    usual, ends = facts.get(f"{base}.usual"), facts.get(f"{base}.range")
    low, high = ends.interval.low * scale, ends.interval.high * scale
    return Assumption(base, (usual.id, ends.id), usual.number * scale, low, high)


def settled(name: str, value: float) -> Assumption:
    """No longer an assumption: the workshop has given the value."""
    return Assumption(name, (), value, value, value)


def axes(assumptions: Sequence[Assumption]) -> list[FloatArray]:
    """One array per assumption, shaped so that formulas combine all of them with each other."""
    grids = [np.array(assumption.values, dtype=np.float64) for assumption in assumptions]
    return list(np.meshgrid(*grids, indexing="ij", sparse=True))


def usual_of(results: FloatArray) -> float:
    """The result with every assumption at its usual value."""
    return float(results[(0,) * results.ndim])


def departures(assumptions: Sequence[Assumption], results: FloatArray) -> tuple[Departure, ...]:
    """The results with one assumption at a time at its ends, all others usual."""
    found = []
    for axis, assumption in enumerate(assumptions):
        if results.shape[axis] == 1:
            continue
        before, after = (0,) * axis, (0,) * (results.ndim - axis - 1)
        at_low, at_high = (float(results[(*before, end, *after)]) for end in (1, 2))
        found.append(Departure(assumption.name, assumption.low, assumption.high, at_low, at_high))
    return tuple(found)
