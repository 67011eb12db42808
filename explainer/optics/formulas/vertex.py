"""A lens that moves along the line of sight: the power it needs there, and what the far point says.

A distance counts positive when the new place is closer to the eye.
"""

from __future__ import annotations

from explainer.errors import OutOfRange
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
