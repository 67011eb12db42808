"""A lens that moves along the line of sight: the power it needs there, and what the far point says.

A distance counts positive when the new place is closer to the eye. A toric lens is reckoned meridian by
meridian; its axis stays.
"""

from __future__ import annotations

from collections.abc import Callable

from explainer.errors import OutOfRange
from explainer.optics.formulas.prescription import SpheroCylinder, principal_powers, sphero_cylinder
from explainer.optics.formulas.ranges import POWER_D, power, within


def needed_power(*, power_d: float, closer_mm: float) -> float:
    """The power that does the same work from a new distance.

    Parameters: power_d power at the old place [D]; closer_mm by which the lens comes closer to the eye [mm].
    Returns: power needed at the new place [D].
    Raises: OutOfRange for a move beyond 40 mm, one past the focus of the lens, or a power beyond 40 D.
    Equation: F' = F / (1 - d F), d in metres; exact for distant objects.
    Reference: vertex-distance-encyclopedia; mrcophth-short-questions (example).
    """
    power("power", power_d)
    shift = within("move towards the eye", closer_mm, -40, 40, "mm") / 1000
    left = 1 - shift * power_d
    if left <= 0:
        low, high = (-POWER_D, 1 / shift) if shift > 0 else (1 / shift, POWER_D)
        raise OutOfRange("power", power_d, low, high, "D")
    return power("power needed", power_d / left)


def effect_after_move(*, power_d: float, closer_mm: float) -> float:
    """The effect that an unchanged lens has after it moved, as a power at its old place.

    Parameters: power_d power of the lens [D]; closer_mm by which it came closer to the eye [mm].
    Returns: power at the old place that would do the same [D]. This is not the power to order.
    Raises: OutOfRange for a move beyond 40 mm, or one that passes the focus of the lens.
    Equation: F / (1 + d F), d in metres; the inverse of needed_power.
    Reference: vertex-distance-encyclopedia (the same formula, solved for the other power).
    """
    return needed_power(power_d=power_d, closer_mm=-closer_mm)


def simplified_change(*, power_d: float, moved_mm: float) -> float:
    """How much a move changes a power, by the rule of thumb.

    Parameters: power_d [D]; moved_mm distance of the move, either way [mm].
    Returns: size of the change [D], never negative.
    Raises: OutOfRange for a move beyond 40 mm.
    Equation: F^2 d, d in metres: the first term of needed_power; too small for strong plus lenses.
    Reference: vertex-tilt-flashcards (arithmetic only).
    """
    power("power", power_d)
    return power_d**2 * abs(within("move", moved_mm, -40, 40, "mm")) / 1000


def ocular_refraction(*, spectacle_power_d: float, vertex_mm: float) -> float:
    """The power needed at the eye itself.

    Parameters: spectacle_power_d back vertex power [D]; vertex_mm from the lens to the cornea [mm].
    Returns: ocular refraction K [D].
    Raises: OutOfRange for a vertex distance outside 0 to 40 mm.
    Equation: K = F / (1 - v F), v in metres.
    Reference: vertex-distance-encyclopedia; clsa-2011 (example).
    """
    within("vertex distance", vertex_mm, 0, 40, "mm")
    return needed_power(power_d=spectacle_power_d, closer_mm=vertex_mm)


def spectacle_power(*, ocular_refraction_d: float, vertex_mm: float) -> float:
    """The spectacle lens for a refraction that is known at the eye.

    Parameters: ocular_refraction_d K [D]; vertex_mm from the lens to the cornea [mm].
    Returns: back vertex power [D].
    Raises: OutOfRange for a vertex distance outside 0 to 40 mm.
    Equation: F = K / (1 + v K), v in metres; the inverse of ocular_refraction.
    Reference: mrcophth-refraction (question; the answer is derived).
    """
    within("vertex distance", vertex_mm, 0, 40, "mm")
    return needed_power(power_d=ocular_refraction_d, closer_mm=-vertex_mm)


def needed_lens(*, sphere_d: float, cylinder_d: float, axis_deg: float, closer_mm: float) -> SpheroCylinder:
    """The sphero-cylinder that does the same work from a new distance.

    Parameters: sphere_d, cylinder_d [D]; axis_deg [deg]; closer_mm by which it comes closer to the eye [mm].
    Returns: lens needed at the new place, with the same axis and the same sign of cylinder.
    Raises: OutOfRange for a move beyond 40 mm, or one that passes a focus of the lens.
    Equation: needed_power for each of the two principal powers.
    Reference: dispensing-notes (each principal meridian separately; arithmetic only).
    """

    def moved(power_d: float) -> float:
        return needed_power(power_d=power_d, closer_mm=closer_mm)

    return _by_meridian(moved, sphero_cylinder(sphere_d=sphere_d, cylinder_d=cylinder_d, axis_deg=axis_deg))


def ocular_lens(*, sphere_d: float, cylinder_d: float, axis_deg: float, vertex_mm: float) -> SpheroCylinder:
    """The sphero-cylinder needed at the eye itself.

    Parameters: sphere_d, cylinder_d [D], axis_deg [deg] of the spectacle lens; vertex_mm to the cornea [mm].
    Returns: refraction at the eye, with the same axis and the same sign of cylinder.
    Raises: OutOfRange for a vertex distance outside 0 to 40 mm.
    Equation: ocular_refraction for each of the two principal powers.
    Reference: vertex-distance-encyclopedia.
    """
    within("vertex distance", vertex_mm, 0, 40, "mm")
    return needed_lens(sphere_d=sphere_d, cylinder_d=cylinder_d, axis_deg=axis_deg, closer_mm=vertex_mm)


def far_point_cm(*, ocular_refraction_d: float) -> float:
    """The farthest place that the unaided, relaxed eye sees clearly, measured from the eye.

    Parameters: ocular_refraction_d K [D]; with the spectacle power the distance counts from the lens.
    Returns: distance before the eye [cm] for minus eyes; negative, a place behind the eye, for plus eyes.
    Raises: OutOfRange for no refraction, whose far point is infinitely far.
    Equation: -100 / K.
    Reference: basic-optics-7-slides (the far point and the lens's second focal point coincide).
    """
    power("ocular refraction", ocular_refraction_d)
    if abs(ocular_refraction_d) < 1e-6:
        raise OutOfRange("size of the ocular refraction", abs(ocular_refraction_d), 1e-6, 40, "D")
    return -100 / ocular_refraction_d


def _by_meridian(change: Callable[[float], float], lens: SpheroCylinder) -> SpheroCylinder:
    along, across = principal_powers(sphere_d=lens.sphere_d, cylinder_d=lens.cylinder_d)
    new_along, new_across = change(along), change(across)
    return sphero_cylinder(sphere_d=new_along, cylinder_d=new_across - new_along, axis_deg=lens.axis_deg)
