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
from explainer.optics.formulas.dial import axis_difference
from explainer.optics.formulas.prescription import SpheroCylinder, minus_cylinder_form, strongest_power
from explainer.optics.formulas.ranges import power, within

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


@dataclass(frozen=True, slots=True)
class ImbalanceRule:
    """Unwanted prism of a pair: up to a power [D] a prism counts [prism dioptre], above it a distance [mm].

    A rule without a distance holds its prism for every power: `up_to_d` and `distance_mm` are infinite.
    """

    up_to_d: float
    prism_pd: float
    distance_mm: float


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
    return band.allowed * size if band.relative else band.allowed


def deviation_verdict(bands: Sequence[Band], *, size: float, deviation: float) -> Verdict:
    """Whether a deviation is within the table.

    Parameters: bands in rising order; size of the ordered quantity; deviation read less ordered, either sign.
    Returns: "inside" up to and at the limit, "outside", or "not-checked" where the table says nothing.
    Raises: OutOfRange as band_of, or for a deviation that is no finite number.
    Equation: |deviation| <= allowed.
    Reference: ansi-z80-1-2015-guide.
    """
    if not math.isfinite(deviation):
        raise OutOfRange("deviation", deviation, -math.inf, math.inf, "")
    limit = allowed(bands, size=size)
    if limit is None:
        return "not-checked"
    return "inside" if abs(deviation) <= limit + ROUNDING else "outside"


def power_deviation(*, ordered: SpheroCylinder, read: SpheroCylinder) -> float:
    """How much the strongest power of a lens differs from the order.

    Parameters: ordered, read lenses, each in either form.
    Returns: read less ordered power [D] in the principal meridian of greatest absolute power of the order.
        Where both meridians of the order are equally strong, the one that differs more.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: both lenses in minus-cylinder form; S against S, or S + C against S + C.
    Reference: ansi-z80-1-1999-tables and ansi-z80-1-2015-guide (meridian of highest power).
    """
    first, second = minus_cylinder_form(**ordered._asdict()), minus_cylinder_form(**read._asdict())
    along = second.sphere_d - first.sphere_d
    across = along + second.cylinder_d - first.cylinder_d
    sizes = abs(first.sphere_d), abs(first.sphere_d + first.cylinder_d)
    if abs(sizes[0] - sizes[1]) < ROUNDING:
        return max(along, across, key=abs)
    return along if sizes[0] > sizes[1] else across


def power_verdict(bands: Sequence[Band], *, ordered: SpheroCylinder, read: SpheroCylinder) -> Verdict:
    """Whether the strongest power is within the table for spheres.

    Parameters: bands of the sphere by its strongest power [D]; ordered, read lenses.
    Returns: verdict.
    Raises: OutOfRange as band_of.
    Equation: power_deviation against the row of the order's strongest power.
    Reference: ansi-z80-1-2015-guide.
    """
    size = abs(strongest_power(sphere_d=ordered.sphere_d, cylinder_d=ordered.cylinder_d))
    return deviation_verdict(bands, size=size, deviation=power_deviation(ordered=ordered, read=read))


def cylinder_verdict(bands: Sequence[Band], *, ordered_cylinder_d: float, read_cylinder_d: float) -> Verdict:
    """Whether the cylinder is within the table. The form in which it is written has no part in this.

    Parameters: bands of the cylinder by its size [D]; ordered_cylinder_d, read_cylinder_d [D], each in either
        form.
    Returns: verdict.
    Raises: OutOfRange as band_of.
    Equation: | |C read| - |C ordered| | against the row of |C ordered|.
    Reference: ansi-z80-1-2015-guide.
    """
    power("ordered cylinder", ordered_cylinder_d)
    size = abs(ordered_cylinder_d)
    return deviation_verdict(bands, size=size, deviation=abs(power("cylinder", read_cylinder_d)) - size)


def axis_verdict(bands: Sequence[Band], *, ordered: SpheroCylinder, read: SpheroCylinder) -> Verdict:
    """Whether the axis is within the table, by the size of the ordered cylinder.

    Parameters: bands of the axis [deg] by the cylinder [D]; ordered, read lenses, each in either form.
    Returns: verdict; "not-checked" for a cylinder that the table leaves out, or when none was read (which the
        cylinder's own verdict then shows).
    Raises: OutOfRange as band_of.
    Equation: the smaller angle between the axes of the minus-cylinder forms: 179 and 1 are 2 degrees apart.
    Reference: ansi-z80-1-2015-guide.
    """
    first, second = minus_cylinder_form(**ordered._asdict()), minus_cylinder_form(**read._asdict())
    if not (first.cylinder_d and second.cylinder_d):
        return "not-checked"
    apart = axis_difference(first_deg=first.axis_deg, second_deg=second.axis_deg)
    return deviation_verdict(bands, size=abs(first.cylinder_d), deviation=apart)


def addition_verdict(bands: Sequence[Band], *, ordered_add_d: float, read_add_d: float) -> Verdict:
    """Whether the addition is within the table.

    Parameters: bands of the addition [D]; ordered_add_d, read_add_d [D].
    Returns: verdict.
    Raises: OutOfRange for an addition outside 0 to 40 D.
    Equation: read less ordered against the row of the order.
    Reference: ansi-z80-1-2015-guide.
    """
    size = within("ordered addition", ordered_add_d, 0, 40, "D")
    deviation = within("addition read", read_add_d, 0, 40, "D") - size
    return deviation_verdict(bands, size=size, deviation=deviation)


def imbalance_verdict(rule: ImbalanceRule, *, strongest_power_d: float, prism_pd: float, distance_mm: float) -> Verdict:
    """Whether prism from wrong centring of a pair is within the rule.

    Parameters: rule; strongest_power_d of the two lenses in that direction [D]; prism_pd unwanted prism of
        the pair [prism dioptre]; distance_mm by which the centres are off [mm]; each with either sign.
    Returns: verdict.
    Raises: OutOfRange for a power beyond 40 D, or a number that is not finite.
    Equation: up to the rule's power |prism| against its prism; above it |distance| against its distance.
    Reference: ansi-z80-1-2015-guide (mounted prismatic imbalance).
    """
    power("strongest power", strongest_power_d)
    within("prism", prism_pd, -100, 100, "prism dioptre")
    within("distance", distance_mm, -50, 50, "mm")
    if abs(strongest_power_d) <= rule.up_to_d:
        return "inside" if abs(prism_pd) <= rule.prism_pd + ROUNDING else "outside"
    return "inside" if abs(distance_mm) <= rule.distance_mm + ROUNDING else "outside"
