"""Where a lens's optical centre stands when the lens is to show a prism before the pupil.

The reference point is the place of the lens that shows the prescribed prism; it belongs before the pupil. The optical
centre shows none. Inward (towards the nose) and up count positive, in mm from the reference point.
"""

from __future__ import annotations

from typing import NamedTuple

from explainer.errors import OutOfRange
from explainer.optics.formulas.dial import Side, nasal_sign
from explainer.optics.formulas.power_vector import power_matrix
from explainer.optics.formulas.prescription import SpheroCylinder, principal_powers
from explainer.optics.formulas.ranges import within

LEAST_POWER_D = 0.12
"""Below this, in either principal meridian, a lensmeter finds a line or nothing, and no centre [D]."""


class Place(NamedTuple):
    """A place on the lens from its reference point, positive towards the nose and up [mm]."""

    in_mm: float
    up_mm: float


def has_centre(*, sphere_d: float, cylinder_d: float) -> bool:
    """Whether a lens has one optical centre.

    Parameters: sphere_d, cylinder_d [D].
    Returns: no for a plano lens, and for one that has power in a single direction: all points of a line are alike.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: both principal powers at least 0.12 D in size.
    Reference: common practice (the smallest step that a lensmeter shows surely).
    """
    powers = principal_powers(sphere_d=sphere_d, cylinder_d=cylinder_d)
    return min(map(abs, powers)) >= LEAST_POWER_D


def optical_centre(*, lens: SpheroCylinder, side: Side, prism_in_pd: float, prism_up_pd: float) -> Place:
    """Where the optical centre stands from the point that shows the prism.

    Parameters: lens; side the wearer's eye; prism_in_pd, prism_up_pd at the reference point [prism dioptre].
    Returns: place [mm]. A plus lens has its centre on the side of the base, a minus lens on the other; an oblique
        cylinder moves it up or down as well.
    Raises: OutOfRange for a lens that has no centre (see has_centre), or a prism beyond 100 prism dioptres.
    Equation: 10 F^-1 P, F the power matrix; exact for a thin lens.
    Reference: long-1976; mrcophth-decentration (+4.00 D, 2 base out: 5 mm out).
    """
    within("horizontal prism", prism_in_pd, -100, 100, "prism dioptre")
    within("vertical prism", prism_up_pd, -100, 100, "prism dioptre")
    if not has_centre(sphere_d=lens.sphere_d, cylinder_d=lens.cylinder_d):
        weakest = min(map(abs, principal_powers(sphere_d=lens.sphere_d, cylinder_d=lens.cylinder_d)))
        raise OutOfRange("weakest power of a lens with a centre", weakest, LEAST_POWER_D, 40, "D")
    matrix = power_matrix(**lens._asdict())
    sign = nasal_sign(side)
    px, py = sign * prism_in_pd, prism_up_pd
    determinant = matrix.fxx_d * matrix.fyy_d - matrix.fxy_d**2
    x_mm = 10 * (matrix.fyy_d * px - matrix.fxy_d * py) / determinant
    y_mm = 10 * (matrix.fxx_d * py - matrix.fxy_d * px) / determinant
    return Place(sign * x_mm + 0.0, y_mm + 0.0)


def centres_apart(*, points_mm: float, right: Place, left: Place) -> float:
    """How far apart the optical centres stand when the reference points stand before the pupils.

    Parameters: points_mm between the reference points [mm]; right, left places of the optical centres from them.
    Returns: distance across [mm].
    Raises: OutOfRange for a distance of the points outside 20 to 100 mm.
    Equation: points - right inward - left inward.
    Reference: definition; opticians-handbook-prism (the point that shows the prism stands at the pupil).
    """
    return within("distance of the reference points", points_mm, 20, 100, "mm") - right.in_mm - left.in_mm


def is_inside_box(*, a_mm: float, b_mm: float, point: Place, centre: Place) -> bool:
    """Whether the optical centre lies inside the lens's box: outside it there is no lens.

    Parameters: a_mm, b_mm of the box [mm]; point: the reference point from the middle of the box; centre: the
        optical centre from the reference point.
    Returns: yes or no; a lens does not fill the corners of its box.
    Raises: nothing.
    Equation: both places added, against half the box.
    Reference: boxing-slides.
    """
    inward, above = point.in_mm + centre.in_mm, point.up_mm + centre.up_mm
    return abs(inward) <= a_mm / 2 and abs(above) <= b_mm / 2
