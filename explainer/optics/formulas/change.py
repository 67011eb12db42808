"""From the old prescription to the new one: how large the change is, and whether it makes verticals lean.

Only the J45 part of a change magnifies along a slant, which tips upright lines (sloping floors, leaning
door frames). M and J0 enlarge along the vertical and the horizontal and leave both upright. So a change
counts as oblique by the size of its J45 part, written as the cylinder at 45 or 135 degrees that would have
the same effect: a change of axis between two oblique cylinders counts, a new cylinder at 90 or 180 does not.
How large it must be to matter is no matter of algebra; the caller gives the threshold with its source.
"""

from __future__ import annotations

from explainer.optics.formulas.power_vector import blur_strength, subtract, vector_of
from explainer.optics.formulas.prescription import SpheroCylinder
from explainer.optics.formulas.ranges import within


def change(*, previous: SpheroCylinder, new: SpheroCylinder) -> SpheroCylinder:
    """The lens by which the prescription changed, in minus-cylinder form.

    Parameters: previous, new lenses.
    Returns: new minus previous.
    Raises: OutOfRange when the change is beyond 40 D.
    Equation: difference of the power vectors.
    Reference: thibos-horner-astigmatism (change as vector subtraction).
    """
    return subtract(new, previous)


def change_strength(*, previous: SpheroCylinder, new: SpheroCylinder) -> float:
    """One number for how much a prescription changed.

    Parameters: previous, new lenses.
    Returns: length of the difference of the power vectors [D], never negative.
    Raises: OutOfRange when the change is beyond 40 D.
    Equation: sqrt(dM^2 + dJ0^2 + dJ45^2).
    Reference: thibos-horner-astigmatism (blurring strength).
    """
    lens = change(previous=previous, new=new)
    return blur_strength(sphere_d=lens.sphere_d, cylinder_d=lens.cylinder_d)


def oblique_part(*, previous: SpheroCylinder, new: SpheroCylinder) -> float:
    """The slanting part of a change, as the size of a cylinder at 45 or 135 degrees.

    Parameters: previous, new lenses.
    Returns: 2 |dJ45| [D], never negative.
    Raises: OutOfRange when a power is beyond 40 D.
    Equation: a cylinder C at 45 degrees has J45 = -C/2, so |C| = 2 |dJ45|.
    Reference: thibos-1994 (J45); the reading as lean of verticals is derived, see the head of this file.
    """
    return 2 * abs(vector_of(new).j45_d - vector_of(previous).j45_d)


def is_oblique_change(*, previous: SpheroCylinder, new: SpheroCylinder, threshold_d: float) -> bool:
    """Whether a change has a slanting part of at least the given size.

    Parameters: previous, new lenses; threshold_d size of an oblique cylinder that matters [D].
    Returns: yes or no.
    Raises: OutOfRange for a threshold that is not above 0 and up to 5 D.
    Equation: 2 |dJ45| >= threshold, to within the rounding of floats.
    Reference: beesley-2022 (oblique changes as a cause of rechecks); sha-2019 (sizes that matter).
    """
    within("threshold", threshold_d, 0.01, 5, "D")
    return oblique_part(previous=previous, new=new) >= threshold_d - 1e-9
