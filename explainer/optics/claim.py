"""The claim: one technical statement about this pair of spectacles, which cannot exist without unit and basis."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from explainer.errors import FactError


class Basis(StrEnum):
    """What a statement rests on, strongest first. The order is that of `strength`."""

    DEFINITION = "definition"
    ORDERED = "ordered"
    MEASURED = "measured"
    SUPPLIED = "supplied"
    COMPUTED = "computed"
    STANDARD = "standard"
    REGULATION = "regulation"
    PUBLISHED = "published"
    COMMON_PRACTICE = "common-practice"
    MEMORY = "memory"

    @property
    def strength(self) -> int:
        """0 is strongest. Only the order matters: a computed claim is never stronger than its weakest input."""
        return _STRENGTH[self]


_STRENGTH = {basis: place for place, basis in enumerate(Basis)}


@dataclass(frozen=True, slots=True)
class Interval:
    """A range, where sources disagree or the evidence gives no sharp number."""

    low: float
    high: float

    def __post_init__(self) -> None:
        if not (math.isfinite(self.low) and math.isfinite(self.high) and self.low <= self.high):
            raise FactError(f"an interval needs two finite ends in order, not {self.low} and {self.high}")

    @property
    def middle(self) -> float:
        """The arithmetic middle, for drawing only."""
        return (self.low + self.high) / 2

    def outward(self, digits: int) -> Interval:
        """The range rounded outward to so many decimals, so that what is shown holds what is known."""
        scale: float = 10**digits
        return Interval(math.floor(self.low * scale + 1e-9) / scale, math.ceil(self.high * scale - 1e-9) / scale)


Value = float | int | bool | str | Interval


@dataclass(frozen=True, slots=True)
class Citation:
    """A key of facts/sources.toml and the place inside that source."""

    source: str
    locator: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """One technical statement.

    `value` is a number, an Interval or a member of a closed set, never a sentence. `inputs` are ids of claims or of
    facts (`fact:…`). `digits` is the number of decimals to print. `weakest` is the weakest basis in the whole chain
    below; it is filled in when the claim joins a ClaimSet.
    """

    id: str
    value: Value
    unit: str
    basis: Basis
    sources: tuple[Citation, ...] = ()
    formula: str | None = None
    inputs: tuple[str, ...] = ()
    digits: int = 2
    weakest: Basis = field(default=Basis.DEFINITION)

    def __post_init__(self) -> None:
        if not self.unit:
            raise FactError(f"claim {self.id} has no unit")
        if self.basis is Basis.COMPUTED and not (self.formula and self.inputs):
            raise FactError(f"claim {self.id} is computed but names no formula or no inputs")
        if self.basis in _NEED_SOURCE and not self.sources:
            raise FactError(f"claim {self.id} is {self.basis} but names no source")
        if isinstance(self.value, float) and not math.isfinite(self.value):
            raise FactError(f"claim {self.id} is not finite: {self.value}")

    def as_json(self) -> dict[str, Any]:
        """The public form, with all fields (see DEVELOPERS.md)."""
        value: Any = self.value
        if isinstance(value, Interval):
            value = {"low": value.low, "high": value.high}
        return {
            "id": self.id,
            "value": value,
            "unit": self.unit,
            "basis": str(self.basis),
            "weakest": str(self.weakest),
            "sources": [{"source": c.source, "locator": c.locator} for c in self.sources],
            "formula": self.formula,
            "inputs": list(self.inputs),
            "digits": self.digits,
        }


_NEED_SOURCE = frozenset({Basis.STANDARD, Basis.REGULATION, Basis.PUBLISHED})
