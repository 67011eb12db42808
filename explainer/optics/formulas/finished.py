"""A finished lens against its order: by how much each quantity differs, before any limit is asked.

A deviation is what was read less what was ordered and carries that sign. Horizontal prism counts positive for base in,
vertical prism for base up.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from explainer.optics.formulas.dial import Side
from explainer.optics.formulas.optical_centre import has_centre, optical_centre
from explainer.optics.formulas.power_vector import power_matrix
from explainer.optics.formulas.prescription import SpheroCylinder, minus_cylinder_form
from explainer.optics.formulas.ranges import power, within

_EQUAL_D = 1e-9


class Meridians(NamedTuple):
    """Both principal powers of a lens as ordered and as read [D], and how far they differ [D]."""

    stronger_ordered_d: float
    stronger_read_d: float
    weaker_ordered_d: float
    weaker_read_d: float

    @property
    def stronger_deviation_d(self) -> float:
        """Read less ordered in the stronger meridian [D]."""
        return self.stronger_read_d - self.stronger_ordered_d

    @property
    def weaker_deviation_d(self) -> float:
        """Read less ordered in the weaker meridian [D]."""
        return self.weaker_read_d - self.weaker_ordered_d


def meridians(*, ordered: SpheroCylinder, read: SpheroCylinder) -> Meridians:
    """The principal powers of a lens, side by side with what was read.

    Parameters: ordered, read lenses, each in either form.
    Returns: first the meridian of greatest absolute power of the order; of two equally strong ones the one that
        differs more.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: both lenses in minus-cylinder form: S against S, S + C against S + C. Where the axis lies is a
        question of its own.
    Reference: ansi-z80-1-1999-tables and ansi-z80-1-2015-guide (meridian of highest power).
    """
    first, second = minus_cylinder_form(**ordered._asdict()), minus_cylinder_form(**read._asdict())
    along = (first.sphere_d, second.sphere_d)
    across = (first.sphere_d + first.cylinder_d, second.sphere_d + second.cylinder_d)
    apart = abs(along[0]) - abs(across[0])
    if abs(apart) < _EQUAL_D:
        apart = abs(along[1] - along[0]) - abs(across[1] - across[0])
    return Meridians(*along, *across) if apart >= 0 else Meridians(*across, *along)


def nearest_meridian(*, ordered: SpheroCylinder, read_d: float) -> float:
    """By how much a single power that was read misses the nearer principal power of the order.

    Parameters: ordered lens; read_d the one power that was read, whichever meridian it belongs to [D].
    Returns: read less that principal power [D].
    Raises: OutOfRange for a power beyond 40 D.
    Equation: the smaller of read - S and read - (S + C).
    Reference: ansi-z80-1-2015-guide (a lens has two principal powers; a reading of one of them proves no other).
    """
    value = power("power read", read_d)
    return min((value - ordered.sphere_d, value - ordered.sphere_d - ordered.cylinder_d), key=abs)


def deviation(*, ordered: float, read: float) -> float:
    """Read less ordered.

    Parameters: ordered, read in one unit.
    Returns: the difference in that unit, with its sign.
    Raises: OutOfRange for what is no finite number.
    Equation: read - ordered.
    Reference: definition.
    """
    for name, value in (("ordered", ordered), ("read", read)):
        within(name, value, -1000, 1000)
    return read - ordered


def size_deviation(*, ordered: float, read: float) -> float:
    """Read less ordered, of sizes without their sign: a cylinder in either form.

    Parameters: ordered, read in one unit.
    Returns: the difference of the sizes, positive when too much was read.
    Raises: OutOfRange for what is no finite number.
    Equation: |read| - |ordered|.
    Reference: ansi-z80-1-2015-guide (a cylinder has a size; its form is a way to write it).
    """
    return deviation(ordered=abs(ordered), read=abs(read))


def point_off(*, lens: SpheroCylinder, side: Side, in_pd: float, up_pd: float) -> float:
    """How far a lens's reference point is from where it belongs, by the prism that is found there.

    Parameters: lens; side; in_pd, up_pd prism read less ordered [prism dioptre].
    Returns: distance [mm]; infinite for a lens that has no power in some direction, since no distance explains
        a prism there.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: |10 F^-1 dP|, F the power matrix.
    Reference: ansi-z80-1-2015-guide (item 5: or the point within 1.0 mm); long-1976.
    """
    if in_pd == 0 and up_pd == 0:
        return 0.0
    if not has_centre(sphere_d=lens.sphere_d, cylinder_d=lens.cylinder_d):
        return math.inf
    return math.hypot(*optical_centre(lens=lens, side=side, prism_in_pd=in_pd, prism_up_pd=up_pd))


def greatest_power_towards(*, right: SpheroCylinder, left: SpheroCylinder, vertical: bool) -> float:
    """The greater power of two lenses in the horizontal or the vertical.

    Parameters: right, left lenses; vertical: which direction.
    Returns: size [D], never negative.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: the larger |Fxx|, or |Fyy|, of both power matrices.
    Reference: ansi-z80-1-2015-guide (table 6 goes by the power in the direction).
    """
    found = [power_matrix(**lens._asdict()) for lens in (right, left)]
    return max(abs(each.fyy_d if vertical else each.fxx_d) for each in found)


def size(*, value: float) -> float:
    """A quantity without its sign.

    Parameters: value in any unit.
    Returns: its size in that unit.
    Raises: OutOfRange for what is no finite number.
    Equation: |value|.
    Reference: definition.
    """
    return abs(within("value", value, -1000, 1000))


def size_of(*, in_pd: float, up_pd: float) -> float:
    """The size of a prism given by its two parts.

    Parameters: in_pd, up_pd [prism dioptre].
    Returns: size [prism dioptre], never negative.
    Raises: OutOfRange for a prism beyond 100 prism dioptres.
    Equation: sqrt(H^2 + V^2).
    Reference: durham-prism-modules (parts combine at right angles); ansi-z80-1-2015-guide (item 5, in any direction).
    """
    return math.hypot(*(within("prism", part, -100, 100, "prism dioptre") for part in (in_pd, up_pd)))


def distance_of(*, prism_pd: float, power_d: float) -> float:
    """How far a pair's centring would have to be off to give this prism.

    Parameters: prism_pd of the pair [prism dioptre]; power_d greatest power in the direction [D].
    Returns: distance [mm], never negative.
    Raises: OutOfRange for a power below 0.12 D, which no distance helps.
    Equation: 10 P / F.
    Reference: exam-guide-prism (Prentice's rule).
    """
    return (
        10 * abs(within("prism", prism_pd, -100, 100, "prism dioptre")) / within("power", abs(power_d), 0.12, 40, "D")
    )
