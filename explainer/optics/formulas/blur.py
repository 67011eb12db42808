"""How large the blur of an eye out of focus is, and roughly what it can read."""

from __future__ import annotations

import math
from typing import NamedTuple

from explainer.optics.formulas.prescription import sphero_cylinder
from explainer.optics.formulas.ranges import power, within


class BlurEllipse(NamedTuple):
    """The blur of one point: full extent along the axis and across it [mrad], and that axis [deg]."""

    along_axis_mrad: float
    across_axis_mrad: float
    axis_deg: float


def blur_angle_mrad(*, pupil_mm: float, defocus_d: float) -> float:
    """Full extent of the blur of one point, in one meridian.

    Parameters: pupil_mm width of the pupil [mm]; defocus_d missing or surplus power in that meridian [D].
    Returns: angle [mrad].
    Raises: OutOfRange for a pupil outside 1 to 9 mm.
    Equation: pupil times defocus (m times 1/m is radians); geometrical, without diffraction.
    Reference: defocus-encyclopedia (0.057 degrees per mm and D); strasburger-2018 and thibos-2011
        (derivations).
    """
    return within("pupil", pupil_mm, 1, 9, "mm") * abs(power("defocus", defocus_d))


def blur_ellipse(*, sphere_d: float, cylinder_d: float, axis_deg: float, pupil_mm: float) -> BlurEllipse:
    """The blur of a distant point for an eye that lacks its lens and does not accommodate.

    Parameters: sphere_d, cylinder_d [D], axis_deg [deg] of the lens that is missing; pupil_mm [mm].
    Returns: extent along the axis and across it [mrad], and the axis [deg].
    Raises: OutOfRange for a pupil outside 1 to 9 mm.
    Equation: along p |S|, across p |S + C|. A blur that is longer one way smears lines that run across that
        way.
    Reference: thibos-2011 (the rule in each meridian); derived.
    """
    lens = sphero_cylinder(sphere_d=sphere_d, cylinder_d=cylinder_d, axis_deg=axis_deg)
    along = blur_angle_mrad(pupil_mm=pupil_mm, defocus_d=lens.sphere_d)
    across = blur_angle_mrad(pupil_mm=pupil_mm, defocus_d=lens.sphere_d + lens.cylinder_d)
    return BlurEllipse(along, across, lens.axis_deg)


def degrees_of_mrad(*, angle_mrad: float) -> float:
    """An angle in degrees.

    Parameters: angle_mrad [mrad].
    Returns: angle [deg].
    Raises: nothing.
    Equation: definition of the radian.
    Reference: definition.
    """
    return math.degrees(angle_mrad / 1000)


def arcmin_of_mrad(*, angle_mrad: float) -> float:
    """An angle in minutes of arc.

    Parameters: angle_mrad [mrad].
    Returns: angle [arcmin]; 1 mrad is 3.44.
    Raises: nothing.
    Equation: definition of the radian.
    Reference: definition.
    """
    return 60 * degrees_of_mrad(angle_mrad=angle_mrad)


def focal_line_mm(*, power_d: float) -> float:
    """Distance behind a refracting system at which distant light comes to a line in one meridian.

    Parameters: power_d power of the system in that meridian [D].
    Returns: distance [mm], as in air.
    Raises: OutOfRange for a power outside 0.1 to 200 D.
    Equation: 1000 / F.
    Reference: conoid-of-sturm-slides.
    """
    return 1000 / within("power", power_d, 0.1, 200, "D")


def rough_resolution_arcmin(*, blur_d: float, best_arcmin: float) -> float:
    """Roughly the smallest detail that a blurred eye resolves. Sources differ widely: a range, or nothing.

    Parameters: blur_d dioptric distance from the right lens [D]; best_arcmin detail resolved with it
        [arcmin].
    Returns: minimum angle of resolution [arcmin].
    Raises: OutOfRange for a blur outside 0 to 10 D, or a best detail outside 0.4 to 10 arcmin.
    Equation: MAR = MAR0 (1 + b^2); the pupil is not modelled.
    Reference: blendowske-2015.
    """
    within("blur", blur_d, 0, 10, "D")
    return within("best resolution", best_arcmin, 0.4, 10, "arcmin") * (1 + blur_d**2)


def snellen_denominator(*, resolution_arcmin: float, numerator: float) -> float:
    """The lower number of an acuity written as a fraction.

    Parameters: resolution_arcmin minimum angle of resolution [arcmin]; numerator 20 for feet, 6 for metres.
    Returns: lower number, in the unit of the numerator.
    Raises: OutOfRange for a resolution outside 0.4 to 1000 arcmin, or a numerator outside 1 to 40.
    Equation: numerator times MAR in arcmin; the definition of the fraction.
    Reference: definition.
    """
    within("resolution", resolution_arcmin, 0.4, 1000, "arcmin")
    return within("numerator", numerator, 1, 40) * resolution_arcmin
