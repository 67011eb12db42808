"""Prism: what a lens does off its optical centre, and how a base is written.

Base in and base up count positive, in prism dioptres (cm per m). A place on the lens counts from the optical
centre, nasal and up positive. In the picture x is to the observer's right, where the nose is for the right
eye.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from explainer.optics.formulas.dial import Side, nasal_sign
from explainer.optics.formulas.power_vector import power_matrix
from explainer.optics.formulas.ranges import within


class Prism(NamedTuple):
    """A prism of one eye by its two parts [prism dioptre]: base in and base up positive."""

    base_in_pd: float
    base_up_pd: float


class BaseSetting(NamedTuple):
    """A prism of one eye by its size [prism dioptre] and where its base points, 0 to 360 [deg]."""

    amount_pd: float
    base_deg: float


def decentration_for_prism(*, power_d: float, prism_pd: float) -> float:
    """How far the optical centre must stand from the pupil to give a wanted prism.

    Parameters: power_d power along the line [D]; prism_pd wanted, size [prism dioptre].
    Returns: distance [mm]; a plus lens moves towards the wanted base, a minus lens away from it.
    Raises: OutOfRange for a power below 0.01 D, which no decentration helps, or a prism outside 0 to 20.
    Equation: c = P / F, c in centimetres.
    Reference: mrcophth-decentration.
    """
    size = within("size of the power", abs(power_d), 0.01, 40, "D")
    return 10 * within("wanted prism", prism_pd, 0, 20, "prism dioptre") / size


def prism_at(
    *, sphere_d: float, cylinder_d: float, axis_deg: float, side: Side, nasal_mm: float, up_mm: float
) -> Prism:
    """Prism at any point of a lens, cylinder and all.

    Parameters: sphere_d, cylinder_d [D]; axis_deg [deg]; side the wearer's eye; nasal_mm, up_mm the point
        looked through, from the optical centre, positive towards the nose and up [mm].
    Returns: base in and base up [prism dioptre].
    Raises: OutOfRange for a point beyond 50 mm.
    Equation: P = -F c, F the power matrix, c in centimetres; exact for a thin lens.
    Reference: long-1976.
    """
    within("nasal distance", nasal_mm, -50, 50, "mm")
    within("distance up", up_mm, -50, 50, "mm")
    matrix = power_matrix(sphere_d=sphere_d, cylinder_d=cylinder_d, axis_deg=axis_deg)
    sign = nasal_sign(side)
    x_cm, y_cm = sign * nasal_mm / 10, up_mm / 10
    base_x = -(matrix.fxx_d * x_cm + matrix.fxy_d * y_cm)
    base_y = -(matrix.fxy_d * x_cm + matrix.fyy_d * y_cm)
    return Prism(sign * base_x + 0.0, base_y + 0.0)


def base_setting(*, base_in_pd: float, base_up_pd: float, side: Side) -> BaseSetting:
    """Horizontal and vertical prism as one prism with its base on the dial.

    Parameters: base_in_pd, base_up_pd [prism dioptre]; side the wearer's eye.
    Returns: size [prism dioptre] and base, from 0 up to but not 360 [deg]. Right eye: in 0, up 90, out 180,
        down 270; left eye: out 0, up 90, in 180, down 270. The base of no prism is 0.
    Raises: OutOfRange for a prism beyond 100 prism dioptres.
    Equation: P = sqrt(H^2 + V^2), angle by quadrant.
    Reference: durham-prism-modules; iso-8429-1986 (base setting 0 to 360).
    """
    within("horizontal prism", base_in_pd, -100, 100, "prism dioptre")
    within("vertical prism", base_up_pd, -100, 100, "prism dioptre")
    angle = math.degrees(math.atan2(base_up_pd + 0.0, nasal_sign(side) * base_in_pd + 0.0))
    whole = angle + 360 if angle < 0 else angle
    return BaseSetting(math.hypot(base_in_pd, base_up_pd), 0.0 if whole >= 360 else whole)


def displacement_cm(*, base_in_pd: float, base_up_pd: float, distance_cm: float) -> float:
    """How far a prism moves what is seen through it, at a distance.

    Parameters: base_in_pd, base_up_pd [prism dioptre]; distance_cm of the thing looked at [cm].
    Returns: size of the shift [cm], never negative.
    Raises: OutOfRange for a distance outside 1 to 10 000 cm.
    Equation: P d / 100: the definition of the prism dioptre, one centimetre at one metre.
    Reference: exam-guide-prism.
    """
    within("distance", distance_cm, 1, 10_000, "cm")
    return math.hypot(base_in_pd, base_up_pd) * distance_cm / 100


def prism_from_centre_error(
    *,
    sphere_d: float,
    cylinder_d: float,
    axis_deg: float,
    side: Side,
    centre_in_mm: float,
    centre_up_mm: float,
) -> Prism:
    """Prism that a misplaced optical centre puts before the pupil.

    Parameters: sphere_d, cylinder_d [D]; axis_deg [deg]; side the wearer's eye; centre_in_mm, centre_up_mm
        where the optical centre stands from the pupil, positive towards the nose and up [mm].
    Returns: base in and base up [prism dioptre]. A plus lens has its base where the centre went.
    Raises: OutOfRange for an error beyond 50 mm.
    Equation: prism_at, at the opposite place: P = F times the error.
    Reference: nfos-prentice-answers; long-1976.
    """
    return prism_at(
        sphere_d=sphere_d,
        cylinder_d=cylinder_d,
        axis_deg=axis_deg,
        side=side,
        nasal_mm=-centre_in_mm,
        up_mm=-centre_up_mm,
    )
