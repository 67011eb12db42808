"""How a workshop judges its bench: by the table of a standard or by its own copy, and whether it must read at all."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

Meridians = Literal["stronger", "both"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitRow:
    """One row: sizes above `above` and up to `up_to`, in lenses of up to `power_up_to` [D], may differ by `allowed`."""

    allowed: float
    above: float = 0.0
    up_to: float = math.inf
    power_up_to: float = math.inf


@dataclass(frozen=True, slots=True, kw_only=True)
class ImbalanceRow:
    """Unwanted prism of a pair in one direction, for prescribed prism up to `prism_up_to` [prism dioptre].

    Up to the power `power_up_to` [D] a prism is allowed, above it a distance [mm]; without a distance the prism always.
    """

    prism_pd: float
    prism_up_to: float = math.inf
    power_up_to: float = math.inf
    distance_mm: float = math.inf


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnLimits:
    """The limits that a workshop entered from its own copy of a standard, with the name that it gave them.

    Quantities without rows are not judged. `meridians` says whether a limit of power holds for the stronger principal
    meridian alone or for both. Lengths in mm, None where nothing is to be judged.
    """

    name: str
    meridians: Meridians = "both"
    power: tuple[LimitRow, ...] = ()
    cylinder: tuple[LimitRow, ...] = ()
    axis: tuple[LimitRow, ...] = ()
    addition: tuple[LimitRow, ...] = ()
    progressive_power: tuple[LimitRow, ...] = ()
    progressive_cylinder: tuple[LimitRow, ...] = ()
    horizontal: tuple[ImbalanceRow, ...] = ()
    vertical: tuple[ImbalanceRow, ...] = ()
    prism_pd: float | None = None
    prism_or_mm: float | None = None
    progressive_point_mm: float | None = None
    height_mm: float | None = None
    height_difference_mm: float | None = None

    def rows(self, quantity: str) -> tuple[LimitRow, ...]:
        """The rows of power, cylinder, axis, addition, progressive_power or progressive_cylinder.

        A progressive lens is judged by the general rows where it has none of its own.
        """
        rows: tuple[LimitRow, ...] = getattr(self, quantity)
        return rows or (self.rows(quantity.removeprefix("progressive_")) if quantity.startswith("progressive_") else ())


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchRules:
    """By which limits readings are judged, and whether an order needs readings."""

    standard: str = "ansi-z80-1-2015"
    own: OwnLimits | None = None
    required: bool = False
