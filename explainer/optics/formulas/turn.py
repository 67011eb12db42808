"""A lens that has turned in its rim: what is left over, and which turn leaves a given error.

A turn counts anticlockwise as seen by someone facing the wearer. The residual is what the eye needs minus
what the turned lens supplies.
"""

from __future__ import annotations

import math

from explainer.optics.formulas.power_vector import subtract
from explainer.optics.formulas.prescription import SpheroCylinder, sphero_cylinder
from explainer.optics.formulas.ranges import power, within


def residual_of_turn(*, cylinder_d: float, axis_deg: float, turn_deg: float) -> SpheroCylinder:
    """The lens that is missing when the cylinder sits at the wrong axis.

    Parameters: cylinder_d [D] and axis_deg [deg] as needed; turn_deg by which the lens has turned [deg].
    Returns: needed minus supplied, in minus-cylinder form. Its mean sphere is 0: it is a cross-cylinder. The
        sphere of the lens does not matter.
    Raises: OutOfRange for a cylinder beyond 20 D, or a turn beyond 180 degrees.
    Equation: for a minus cylinder: sphere |C| sin d, cylinder -2 |C| sin d, at 45 - d/2 degrees from the
        right axis, on the side opposite to the turn.
    Reference: iacle-module-3 (appendix B, tabulated from 0 to 45 degrees).
    """
    within("cylinder", cylinder_d, -20, 20, "D")
    within("turn", turn_deg, -180, 180, "deg")
    needed = sphero_cylinder(sphere_d=0.0, cylinder_d=cylinder_d, axis_deg=axis_deg)
    supplied = sphero_cylinder(sphere_d=0.0, cylinder_d=cylinder_d, axis_deg=axis_deg + turn_deg)
    return subtract(needed, supplied)


def residual_cylinder(*, cylinder_d: float, turn_deg: float) -> float:
    """The size of the cylinder that is left over when a lens has turned.

    Parameters: cylinder_d [D]; turn_deg [deg].
    Returns: size of the residual cylinder [D], never negative.
    Raises: OutOfRange for a cylinder beyond 40 D, or a turn beyond 180 degrees.
    Equation: 2 |C| sin |d|: about 3.5 percent of the cylinder per degree at first, all at 30, twice at 90.
    Reference: iacle-module-3; felipe-toric-rotation (a third at 10 degrees).
    """
    power("cylinder", cylinder_d)
    within("turn", turn_deg, -180, 180, "deg")
    return 2 * abs(cylinder_d) * math.sin(math.radians(abs(turn_deg)))


def axis_error_for_residual(*, cylinder_d: float, residual_d: float) -> float:
    """The smallest turn that leaves a given residual cylinder.

    Parameters: cylinder_d [D]; residual_d size of the residual cylinder [D].
    Returns: turn, 0 to 90 [deg].
    Raises: OutOfRange when no turn leaves so much (more than twice the cylinder), or for no cylinder at all.
    Equation: d = arcsin(E / (2 |C|)).
    Reference: torgersen-2006 and optometry-77-343 (the basis of the axis tolerances).
    """
    size = within("size of the cylinder", abs(cylinder_d), 0.01, 40, "D")
    share = within("residual cylinder", residual_d, 0, 2 * size, "D") / (2 * size)
    return math.degrees(math.asin(share))
