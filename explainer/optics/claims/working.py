"""What a formula is given: ids of claims and facts, one end of a range, results of other formulas, plain words.

Whatever is handed over brings the ids that it comes from. So the evidence of a result is what went into it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from operator import attrgetter
from typing import Any, TypeAlias

from explainer.errors import FactError
from explainer.optics.claim import Interval, Value

FACT = "fact:"


@dataclass(frozen=True, slots=True)
class Plain:
    """A value that states nothing and therefore has no id: a side, the name of a table."""

    value: Any


@dataclass(frozen=True, slots=True)
class End:
    """One end of what stands behind an id, or its middle, or both ends as the range itself."""

    ref: str
    take: Callable[[Any], Any]


def low(ref: str) -> End:
    """The low end of a range; a single number is its own end."""
    return End(ref, lambda value: value.low if isinstance(value, Interval) else value)


def high(ref: str) -> End:
    """The high end of a range; a single number is its own end."""
    return End(ref, lambda value: value.high if isinstance(value, Interval) else value)


def middle(ref: str) -> End:
    """The middle of a range, for what can be worked out only once, such as the shape of a lens."""
    return End(ref, lambda value: value.middle if isinstance(value, Interval) else value)


@dataclass(frozen=True, slots=True)
class Working:
    """What a formula gave and the ids of what it was given: for results that several claims share.

    `results` holds one result for each combination of the ends of the ranges it was given, else one.
    """

    results: tuple[Any, ...]
    formula: str
    inputs: tuple[str, ...]

    @property
    def result(self) -> Any:
        """The result where there is only one."""
        (only,) = self.results
        return only

    def of(self, name: str) -> Working:
        """One field of the results."""
        field = attrgetter(name)
        return Working(tuple(map(field, self.results)), self.formula, self.inputs)

    def scaled(self, factor: float) -> Working:
        """Every result times a factor: a fraction as percent."""
        return replace(self, results=tuple(result * factor for result in self.results))

    def stated(self, value: Value) -> Working:
        """What the result supports, with the same inputs: that there is a reason, beside which."""
        return replace(self, results=(value,))

    def span(self, least: str, greatest: str) -> Working:
        """The range from one field to another."""
        ends = tuple(getattr(result, name) for result in self.results for name in (least, greatest))
        return replace(self, results=ends)

    @property
    def value(self) -> Value:
        """The extent of the results; a yes only when every one says yes."""
        first = self.results[0]
        if isinstance(first, bool):
            return all(self.results)
        if len(self.results) == 1:
            return first  # type: ignore[no-any-return]
        if isinstance(first, str):
            if any(result != first for result in self.results):
                raise FactError(f"{self.formula} gives different words for the ends of a range: {self.results}")
            return first
        return Interval(min(self.results), max(self.results))


Ref: TypeAlias = "str | End | Plain | Working | Sequence[Ref]"
Refs = Mapping[str, Ref]


@cache
def formula_name(formula: Callable[..., Any]) -> str:
    """The dotted name of a formula inside explainer.optics, e.g. `formulas.prism.prentice`."""
    return f"{formula.__module__.removeprefix('explainer.optics.')}.{formula.__qualname__}"
