"""How far a finished lens may differ from the order, by a table of tolerances that the caller brings along.

The rules hold for any standard that is written as bands; no table stands here. "not-checked" means that the
table says nothing about this case; it is never a silent pass.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from explainer.errors import OutOfRange
from explainer.optics.formulas.ranges import within

Verdict = Literal["inside", "outside", "not-checked"]

ROUNDING = 1e-9
"""A reading exactly at the limit is inside; floats may miss the limit by their rounding."""


@dataclass(frozen=True, slots=True)
class Band:
    """One row of a table: for sizes above `above` and up to `up_to`, this much is allowed.

    `relative` means that `allowed` is a fraction of the size. The first band of a table also holds its lower
    end.
    """

    above: float
    up_to: float
    allowed: float
    relative: bool = False

    def __post_init__(self) -> None:
        if not self.above < self.up_to:
            raise OutOfRange("upper end of a tolerance band", self.up_to, self.above, math.inf, "")
        if not 0 < self.allowed < math.inf:
            raise OutOfRange("tolerance", self.allowed, 0, math.inf, "")


def band_of(bands: Sequence[Band], *, size: float) -> Band | None:
    """The row of the table that governs a size.

    Parameters: bands in rising order; size of the ordered quantity, without its sign.
    Returns: the row, or None where the table says nothing.
    Raises: OutOfRange for a size that is not a number from 0, or for bands that overlap or fall.
    Equation: above < size <= up_to; the first row also holds its lower end.
    Reference: ansi-z80-1-2015-guide (the form of its tables).
    """
    within("size", size, 0, math.inf)
    for lower, upper in pairwise(bands):
        if upper.above < lower.up_to:
            raise OutOfRange("lower end of a tolerance band", upper.above, lower.up_to, math.inf, "")
    for place, band in enumerate(bands):
        if band.above < size <= band.up_to or (place == 0 and size == band.above):
            return band
    return None


def allowed(bands: Sequence[Band], *, size: float) -> float | None:
    """How much a quantity of that size may deviate, either way.

    Parameters: bands in rising order; size of the ordered quantity, without its sign.
    Returns: deviation allowed, in the unit of the table; None where the table says nothing.
    Raises: OutOfRange as band_of.
    Equation: the row's number, or its fraction of the size.
    Reference: ansi-z80-1-2015-guide.
    """
    band = band_of(bands, size=size)
    if band is None:
        return None
    return row_limit(
        allowed=band.allowed * 100 if band.relative else band.allowed,
        above=band.above,
        up_to=band.up_to,
        size=size,
        percent=band.relative,
    )


def row_limit(*, allowed: float, above: float, size: float, up_to: float = math.inf, percent: bool = False) -> float:
    """The deviation that one row of a table allows for a size that it holds.

    Parameters: allowed by the row, in the unit of the table or in percent of the size; above, up_to the ends of
        the row; size of the ordered quantity, either sign.
    Returns: deviation allowed, in the unit of the table.
    Raises: OutOfRange for a size that the row does not hold.
    Equation: the row's number, or its share of the size.
    Reference: ansi-z80-1-2015-guide (the form of its tables).
    """
    held = within("size for this row", abs(size), above, up_to)
    return allowed * held / 100 if percent else allowed


def limit_up_to(*, allowed: float, up_to: float, power_d: float) -> float:
    """The limit that holds up to a power.

    Parameters: allowed; up_to the power up to which it holds [D]; power_d of the lens [D].
    Returns: allowed.
    Raises: OutOfRange for a stronger lens.
    Equation: none; the row's own number.
    Reference: ansi-z80-1-2015-guide (table 6).
    """
    within("power for this row", abs(power_d), 0, up_to, "D")
    return allowed


def limit_above(*, allowed: float, above: float, power_d: float) -> float:
    """The limit that holds above a power.

    Parameters: allowed; above the power above which it holds [D]; power_d of the lens [D].
    Returns: allowed.
    Raises: OutOfRange for a lens that is no stronger.
    Equation: none; the row's own number.
    Reference: ansi-z80-1-2015-guide (table 6).
    """
    if not abs(power_d) > above:
        raise OutOfRange("power for this row", power_d, above, math.inf, "D")
    return allowed


def verdict(*, deviation: float, allowed: float) -> Verdict:
    """Whether a deviation is within its limit.

    Parameters: deviation read less ordered, either sign; allowed either way, in the same unit.
    Returns: "inside" up to and at the limit, else "outside".
    Raises: OutOfRange for a deviation that is no finite number, or a limit below 0.
    Equation: |deviation| <= allowed.
    Reference: ansi-z80-1-2015-guide.
    """
    if not math.isfinite(deviation):
        raise OutOfRange("deviation", deviation, -math.inf, math.inf, "")
    return "inside" if abs(deviation) <= within("limit", allowed, 0, math.inf) + ROUNDING else "outside"


def verdict_of_a_part(*, deviation: float, allowed: float) -> Verdict:
    """The verdict where only a part of the quantity was read: it can fail, but never pass.

    Parameters: deviation of the part; allowed for the whole, in the same unit.
    Returns: "outside" beyond the limit, else "not-checked".
    Raises: OutOfRange as verdict.
    Equation: the whole deviates at least as much as its part.
    Reference: derived.
    """
    return "outside" if verdict(deviation=deviation, allowed=allowed) == "outside" else "not-checked"
