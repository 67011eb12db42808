"""A lens that has turned in its rim: what is left over.

The residual is what the eye needs minus what the turned lens supplies.
"""

from __future__ import annotations

import math

from explainer.optics.formulas.ranges import power, within


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
