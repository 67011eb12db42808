"""A lens that is worn at a slant: the power that it acts with, and where the optical centre belongs."""

from __future__ import annotations

import math
from typing import NamedTuple

from explainer.optics.formulas.dial import Side, nasal_sign
from explainer.optics.formulas.power_vector import lens_of_vector, power_matrix
from explainer.optics.formulas.prescription import FLAT_AXIS_DEG, SpheroCylinder, sphero_cylinder
from explainer.optics.formulas.ranges import index as lens_index
from explainer.optics.formulas.ranges import power, within


class Slant(NamedTuple):
    """How a lens stands before the eye: the whole tilt [deg], and the line it is tilted about, as an axis [deg]."""

    tilt_deg: float
    hinge_axis_deg: float


def whole_slant(*, pantoscopic_deg: float = 0.0, wrap_deg: float = 0.0, side: Side) -> Slant:
    """Forward tilt and face form of a front as one tilt of one lens.

    Parameters: pantoscopic_deg forward tilt, the lower rim towards the cheek [deg]; wrap_deg face form of this
        lens, the temporal rim towards the temple [deg]; side the wearer's eye.
    Returns: tilt and hinge; hinge 180 for no tilt at all.
    Raises: OutOfRange for a forward tilt outside -10 to 30, or a face form outside -10 to 40 degrees.
    Equation: the front's normal is (t sin w cos p, -sin p, cos w cos p), t the way to the temple; cos a =
        cos w cos p, and the hinge lies across the normal's picture in the plane of the face.
    Reference: derived; by itself each tilt has the hinge that durham-lens-tilt gives (180 and 90).
    """
    forward = math.radians(within("forward tilt", pantoscopic_deg, -10, 30, "deg"))
    around = math.radians(within("face form", wrap_deg, -10, 40, "deg"))
    if not (forward or around):
        return Slant(0.0, FLAT_AXIS_DEG)
    across = -nasal_sign(side) * math.sin(around) * math.cos(forward)
    up = -math.sin(forward)
    hinge = math.degrees(math.atan2(up, across)) + 90
    return Slant(math.degrees(math.asin(math.hypot(across, up))), hinge % 180 or FLAT_AXIS_DEG)


def tilted_lens(
    *,
    sphere_d: float,
    cylinder_d: float = 0.0,
    axis_deg: float = FLAT_AXIS_DEG,
    tilt_deg: float,
    hinge_axis_deg: float,
    index: float,
) -> SpheroCylinder:
    """What a lens acts like when it is tilted before the eye.

    Parameters: sphere_d, cylinder_d [D], axis_deg [deg] of the lens; tilt_deg tilt [deg]; hinge_axis_deg line it
        is tilted about, 180 for the forward tilt of a front, 90 for face form [deg]; index of the lens.
    Returns: a sphere becomes a lens with a cylinder of the sign of the sphere, whose axis is the hinge; any other
        lens comes in minus-cylinder form.
    Raises: OutOfRange for a tilt outside -40 to 40 degrees, or an index outside 1.4 to 2.
    Equation: S' = S (1 + sin^2 a / (2n)), C' = S' tan^2 a (Martin); the same of the power matrix in the
        directions along and across the hinge: k F11, k F12 / cos a, k F22 / cos^2 a. For sight through the
        optical centre.
    Reference: durham-lens-tilt (worked examples); vertex-tilt-flashcards (arithmetic only); the matrix derived.
    """
    power("sphere", sphere_d)
    angle = math.radians(within("tilt", tilt_deg, -40, 40, "deg"))
    gain = 1 + math.sin(angle) ** 2 / (2 * lens_index(index))
    if cylinder_d == 0:
        sphere = sphere_d * gain
        return sphero_cylinder(sphere_d=sphere, cylinder_d=sphere * math.tan(angle) ** 2, axis_deg=hinge_axis_deg)
    along = power_matrix(sphere_d=sphere_d, cylinder_d=cylinder_d, axis_deg=axis_deg - hinge_axis_deg)
    xx, xy = gain * along.fxx_d, gain * along.fxy_d / math.cos(angle)
    yy = gain * along.fyy_d / math.cos(angle) ** 2
    seen = lens_of_vector(m_d=(xx + yy) / 2, j0_d=(xx - yy) / 2, j45_d=xy)
    return sphero_cylinder(sphere_d=seen.sphere_d, cylinder_d=seen.cylinder_d, axis_deg=seen.axis_deg + hinge_axis_deg)


def centre_drop_mm(*, tilt_deg: float, degrees_per_mm: float = 2.0) -> float:
    """How far below the pupil the optical centre belongs when the front is tilted forward.

    Parameters: tilt_deg forward tilt [deg]; degrees_per_mm tilt for which the centre goes down 1 mm [deg].
    Returns: distance below the pupil [mm].
    Raises: OutOfRange for a tilt outside 0 to 25 degrees.
    Equation: 1 mm for every 2 degrees; a rule, near to 27 mm sin a (lens to the eye's centre of rotation).
    Reference: well-adjusted-frame-2020-magazine.
    """
    return within("forward tilt", tilt_deg, 0, 25, "deg") / degrees_per_mm
