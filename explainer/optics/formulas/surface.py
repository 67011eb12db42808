"""One lens surface: its curvature, its sag, the power it must have, and the front curve a lens usually gets.

Signs: a surface power is positive when the surface adds convergence. The sag is measured from the front of
the lens towards the eye, so the convex front has a positive curvature and so has the hollow back, whose power
is negative.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from explainer.errors import OutOfRange
from explainer.optics.formulas import ranges

Array = NDArray[np.float64]

FLAT_FRONT_D = 6.0
"""Front curve of a lens without power by the rule of thumb [D]."""


def curvature_from_power(*, power_d: float, index: float) -> float:
    """Curvature of a surface between air and the lens.

    Parameters: power_d surface power [D]; index refractive index of the lens.
    Returns: curvature [1/mm], with the sign of the power; for the back surface seen from the front turn the
        sign.
    Raises: OutOfRange for an index outside 1.4 to 2.0.
    Equation: c = F / (1000 (n - 1)); exact.
    Reference: memory (definition of surface power).
    """
    return power_d / (1000 * (ranges.index(index) - 1))


def toric_sag_mm(
    *,
    x_mm: Array,
    y_mm: Array,
    base_curvature_per_mm: float,
    cross_curvature_per_mm: float,
    base_meridian_deg: float,
    surface: str = "surface",
) -> Array:
    """Exact depth of a toric surface, whose axis stands at x = y = 0, over arrays of places.

    Parameters: x_mm, y_mm places [mm], x to the observer's right; base_ and cross_curvature_per_mm [1/mm];
        base_meridian_deg direction of the base curve [deg], anticlockwise from x; surface its name in a
        refusal.
    Returns: sag [mm]; equal curvatures give the sphere.
    Raises: OutOfRange when a place lies beyond the end of the surface.
    Equation: torus; an arc of the cross curve is swept about an axis along the line through the base curve's
        centre: q = sag of the cross curve; s = q + c u^2 / (k + sqrt(k^2 - (c u)^2)), k = 1 - c q, c the base
        curvature. Callers sweep along the flatter curve (the tyre form). The barrel form differs in the
        fourth order only.
    Reference: derived; the tests hold it against the implicit equation of the torus.
    """
    if base_curvature_per_mm == cross_curvature_per_mm:
        return _sphere_sag_mm(x_mm, y_mm, base_curvature_per_mm, surface)
    angle = math.radians(base_meridian_deg)
    along = x_mm * math.cos(angle) + y_mm * math.sin(angle)
    across = y_mm * math.cos(angle) - x_mm * math.sin(angle)
    steepest = max(abs(base_curvature_per_mm), abs(cross_curvature_per_mm))
    room = 1 - (cross_curvature_per_mm * across) ** 2
    arc = cross_curvature_per_mm * across**2 / (1 + _root(room, x_mm, y_mm, steepest, surface))
    lever = 1 - base_curvature_per_mm * arc
    room = lever**2 - (base_curvature_per_mm * along) ** 2
    swept = base_curvature_per_mm * along**2 / (lever + _root(room, x_mm, y_mm, steepest, surface))
    depth: Array = arc + swept
    return depth


def back_surface_power_d(*, back_vertex_power_d: float, front_power_d: float, index: float, centre_mm: float) -> float:
    """Power the back surface needs in one meridian so that the lens has the wanted back vertex power there.

    Parameters: back_vertex_power_d wanted [D]; front_power_d [D]; index; centre_mm centre thickness [mm].
    Returns: surface power [D], negative for the usual hollow back.
    Raises: OutOfRange when the front surface focuses inside the lens.
    Equation: F2 = F'v - F1 / (1 - (t/n) F1), t in metres; exact for rays near the axis.
    Reference: back-vertex-power-problems (the same equation solved for F'v).
    """
    reduced = centre_mm / 1000 / ranges.index(index) * front_power_d
    if reduced >= 1:
        raise OutOfRange(
            f"centre thickness behind a front curve of {front_power_d:+.2f} D",
            centre_mm,
            0,
            1000 * index / front_power_d,
            "mm",
        )
    return back_vertex_power_d - front_power_d / (1 - reduced)


def vogel_plus_d(*, mean_sphere_d: float, flat_d: float = FLAT_FRONT_D) -> float:
    """Front curve of a plus lens by Vogel's rule.

    Parameters: mean_sphere_d sphere plus half the cylinder [D]; flat_d front curve of a lens without power [D].
    Returns: front surface power [D].
    Raises: OutOfRange outside 0 to +8 D; stronger lenses are not made so steep.
    Equation: F1 = M + flat_d. A rule for choosing blanks, not a law of optics.
    Reference: memory (trade rule), as are the limits.
    """
    return ranges.within("mean sphere for the plus front curve rule", mean_sphere_d, 0, 8, "D") + flat_d


def vogel_minus_d(*, mean_sphere_d: float, flat_d: float = FLAT_FRONT_D) -> float:
    """Front curve of a minus lens by Vogel's rule.

    Parameters: mean_sphere_d sphere plus half the cylinder [D]; flat_d front curve of a lens without power [D].
    Returns: front surface power [D], with the usual 6 D 0 (flat) at -12 D.
    Raises: OutOfRange outside -12 to 0 D, where the rule would ask for a hollow front.
    Equation: F1 = M / 2 + flat_d. A rule for choosing blanks, not a law of optics.
    Reference: memory (trade rule), as are the limits.
    """
    return ranges.within("mean sphere for the minus front curve rule", mean_sphere_d, -12, 0, "D") / 2 + flat_d


def usual_front_curve_d(*, mean_sphere_d: float, flat_d: float = FLAT_FRONT_D) -> float:
    """Front curve to assume when the workshop does not say which blank it takes.

    Parameters: mean_sphere_d sphere plus half the cylinder [D]; flat_d front curve of a lens without power [D].
    Returns: front surface power [D].
    Raises: OutOfRange outside -25 to +25 D.
    Equation: Vogel's rule between -12 and +8 D; beyond, the front stays flat or at +14 D, because blanks do.
    Reference: memory (trade rule).
    """
    ranges.within("mean sphere", mean_sphere_d, -25, 25, "D")
    if mean_sphere_d < 0:
        return vogel_minus_d(mean_sphere_d=max(mean_sphere_d, -12.0), flat_d=flat_d)
    return vogel_plus_d(mean_sphere_d=min(mean_sphere_d, 8.0), flat_d=flat_d)


def _sphere_sag_mm(x_mm: Array, y_mm: Array, curvature_per_mm: float, surface: str) -> Array:
    squared = x_mm**2 + y_mm**2
    root = _root(1 - curvature_per_mm**2 * squared, x_mm, y_mm, abs(curvature_per_mm), surface)
    depth: Array = curvature_per_mm * squared / (1 + root)
    return depth


def _root(room: Array, x_mm: Array, y_mm: Array, steepest_per_mm: float, surface: str) -> Array:
    """The square root that every sag needs, or a refusal that says how far the surface reaches."""
    if room.min() < 0:
        raise _too_wide(2 * float(np.max(np.hypot(x_mm, y_mm))), 1 / steepest_per_mm, surface)
    root: Array = np.sqrt(room)
    return root


def _too_wide(diameter_mm: float, radius_mm: float, surface: str) -> OutOfRange:
    name = f"diameter on the {surface} (steepest radius {radius_mm:.1f} mm)"
    return OutOfRange(name, round(diameter_mm, 2), 0.0, 2 * radius_mm, "mm")


def as_array(values: Sequence[float] | Array) -> Array:
    """Numbers as an array of floats."""
    return np.asarray(values, dtype=np.float64)
