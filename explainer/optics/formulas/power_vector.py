"""Lenses as vectors and matrices, in which they add, subtract and compare like numbers.

M is the mean sphere, J0 the cross-cylinder at 180 and 90, J45 the cross-cylinder at 45 and 135 degrees.
The matrix has x to the observer's right and y up.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from explainer.optics.formulas.dial import normalise_axis
from explainer.optics.formulas.prescription import FLAT_AXIS_DEG, SpheroCylinder, mean_sphere, sphero_cylinder

NO_CYLINDER_D = 1e-9
"""Below this a cylinder is the rounding of floats: its axis would mean nothing [D]."""


class PowerVector(NamedTuple):
    """A lens as three independent powers [D]."""

    m_d: float
    j0_d: float
    j45_d: float


class PowerMatrix(NamedTuple):
    """A lens as its symmetric matrix [D]: x to the observer's right, y up."""

    fxx_d: float
    fyy_d: float
    fxy_d: float


def power_vector(*, sphere_d: float, cylinder_d: float, axis_deg: float = FLAT_AXIS_DEG) -> PowerVector:
    """The lens as a power vector.

    Parameters: sphere_d, cylinder_d [D]; axis_deg [deg].
    Returns: M, J0, J45 [D]; the same for both ways to write the lens.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: M = S + C/2, J0 = -(C/2) cos 2A, J45 = -(C/2) sin 2A; exact.
    Reference: thibos-1994 and thibos-horner-astigmatism (meaning); thibos-1997 (equations, memory).
    """
    double = 2 * math.radians(normalise_axis(axis_deg=axis_deg))
    mean = mean_sphere(sphere_d=sphere_d, cylinder_d=cylinder_d)
    half = cylinder_d / 2
    return PowerVector(mean, 0.0 - half * math.cos(double), 0.0 - half * math.sin(double))


def lens_of_vector(*, m_d: float, j0_d: float, j45_d: float) -> SpheroCylinder:
    """The lens of a power vector, in minus-cylinder form.

    Parameters: m_d, j0_d, j45_d [D].
    Returns: the lens; a cylinder below 1e-9 D is none.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: C = -2 sqrt(J0^2 + J45^2), S = M - C/2, A = atan2(J45, J0) / 2.
    Reference: thibos-1997 (memory); the tests hold it against the matrix.
    """
    cylinder = -2 * math.hypot(j0_d, j45_d)
    if cylinder > -NO_CYLINDER_D:
        cylinder = 0.0
    axis = math.degrees(math.atan2(j45_d, j0_d)) / 2
    return sphero_cylinder(sphere_d=m_d - cylinder / 2, cylinder_d=cylinder, axis_deg=axis)


def power_matrix(*, sphere_d: float, cylinder_d: float, axis_deg: float) -> PowerMatrix:
    """The lens as its power matrix, which tells how it bends light at every point.

    Parameters: sphere_d, cylinder_d [D]; axis_deg [deg].
    Returns: Fxx, Fyy, Fxy [D].
    Raises: OutOfRange for a power beyond 40 D.
    Equation: Fxx = S + C sin^2 A, Fyy = S + C cos^2 A, Fxy = -C sin A cos A; exact for a thin lens.
    Reference: long-1976.
    """
    lens = sphero_cylinder(sphere_d=sphere_d, cylinder_d=cylinder_d, axis_deg=axis_deg)
    angle = math.radians(lens.axis_deg)
    sine, cosine = math.sin(angle), math.cos(angle)
    return PowerMatrix(
        lens.sphere_d + lens.cylinder_d * sine**2,
        lens.sphere_d + lens.cylinder_d * cosine**2,
        -lens.cylinder_d * sine * cosine,
    )


def blur_strength(*, sphere_d: float, cylinder_d: float) -> float:
    """One number for how much a lens, or a missing lens, blurs: the length of its power vector.

    Parameters: sphere_d, cylinder_d [D]; the axis does not matter.
    Returns: B [D], never negative.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: B = sqrt(M^2 + J0^2 + J45^2) = sqrt(M^2 + C^2/4).
    Reference: thibos-horner-astigmatism (blurring strength).
    """
    return math.hypot(mean_sphere(sphere_d=sphere_d, cylinder_d=cylinder_d), cylinder_d / 2)


def subtract(first: SpheroCylinder, second: SpheroCylinder) -> SpheroCylinder:
    """The lens that must be added to the second to make the first, in minus-cylinder form.

    Parameters: first, second lenses.
    Returns: first minus second.
    Raises: OutOfRange when the difference is beyond 40 D.
    Equation: the vectors subtract, component by component.
    Reference: thibos-1994; thibos-horner-astigmatism (change of refraction).
    """
    a, b = vector_of(first), vector_of(second)
    return lens_of_vector(m_d=a.m_d - b.m_d, j0_d=a.j0_d - b.j0_d, j45_d=a.j45_d - b.j45_d)


def vector_of(lens: SpheroCylinder) -> PowerVector:
    """The power vector of a lens that is already put together (see power_vector).

    Reference: thibos-1994.
    """
    return power_vector(sphere_d=lens.sphere_d, cylinder_d=lens.cylinder_d, axis_deg=lens.axis_deg)
