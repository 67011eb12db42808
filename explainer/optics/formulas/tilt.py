"""A lens that is worn at a slant: the power error, and where the optical centre belongs."""

from __future__ import annotations

import math

from explainer.optics.formulas.prescription import SpheroCylinder, sphero_cylinder
from explainer.optics.formulas.ranges import index as lens_index
from explainer.optics.formulas.ranges import power, within


def tilted_lens(*, sphere_d: float, tilt_deg: float, hinge_axis_deg: float, index: float) -> SpheroCylinder:
    """What a spherical lens acts like when it is tilted before the eye.

    Parameters: sphere_d power of the lens [D]; tilt_deg tilt [deg]; hinge_axis_deg line it is tilted about,
        180 for the forward tilt of a front, 90 for face form [deg]; index of the lens.
    Returns: lens with a cylinder of the sign of the sphere, whose axis is the hinge.
    Raises: OutOfRange for a tilt outside -40 to 40 degrees, or an index outside 1.4 to 2.
    Equation: S' = S (1 + sin^2 a / (2n)), C' = S' tan^2 a (Martin); for sight through the optical centre.
    Reference: durham-lens-tilt (worked examples); vertex-tilt-flashcards (arithmetic only).
    """
    power("sphere", sphere_d)
    angle = math.radians(within("tilt", tilt_deg, -40, 40, "deg"))
    sphere = sphere_d * (1 + math.sin(angle) ** 2 / (2 * lens_index(index)))
    return sphero_cylinder(sphere_d=sphere, cylinder_d=sphere * math.tan(angle) ** 2, axis_deg=hinge_axis_deg)


def centre_drop_mm(*, tilt_deg: float) -> float:
    """How far below the pupil the optical centre belongs when the front is tilted forward.

    Parameters: tilt_deg forward tilt [deg].
    Returns: distance below the pupil [mm].
    Raises: OutOfRange for a tilt outside 0 to 25 degrees.
    Equation: 1 mm for every 2 degrees; a rule, near to 27 mm sin a (lens to the eye's centre of rotation).
    Reference: well-adjusted-frame-2020-magazine.
    """
    return within("forward tilt", tilt_deg, 0, 25, "deg") / 2
