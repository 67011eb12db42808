"""Sphere, cylinder and axis: the two ways to write one lens, its powers, its mean, its near power, its steps.

The power along the axis is the sphere; the power across it is sphere plus cylinder. Axes follow ISO 8429.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from explainer.optics.formulas.dial import normalise_axis
from explainer.optics.formulas.ranges import power, within

FLAT_AXIS_DEG = 180.0
"""The axis that a lens without cylinder carries, so that equal lenses compare equal."""


class SpheroCylinder(NamedTuple):
    """One lens: sphere and cylinder [D], axis above 0 and up to 180 [deg]; 180 without a cylinder."""

    sphere_d: float
    cylinder_d: float
    axis_deg: float


class PrincipalPowers(NamedTuple):
    """The two powers [D] of an astigmatic lens, in the direction of its axis and across it."""

    along_axis_d: float
    across_axis_d: float


def sphero_cylinder(*, sphere_d: float, cylinder_d: float, axis_deg: float = FLAT_AXIS_DEG) -> SpheroCylinder:
    """The lens in tidy form: range checked, axis on the half circle.

    Parameters: sphere_d, cylinder_d [D]; axis_deg [deg], any angle.
    Returns: the lens; its axis is 180 when the cylinder is 0.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: none; the same lens.
    Reference: iso-8429-1986.
    """
    power("sphere", sphere_d)
    power("cylinder", cylinder_d)
    axis = normalise_axis(axis_deg=axis_deg) if cylinder_d else FLAT_AXIS_DEG
    return SpheroCylinder(sphere_d + 0.0, cylinder_d + 0.0, axis)


def transpose(*, sphere_d: float, cylinder_d: float, axis_deg: float) -> SpheroCylinder:
    """The same lens written with the other sign of cylinder.

    Parameters: sphere_d, cylinder_d [D]; axis_deg [deg].
    Returns: the lens in the other form.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: S' = S + C, C' = -C, A' = A + 90 or A - 90; exact.
    Reference: nfos-transposition-answers; exam-guide-transposition.
    """
    lens = sphero_cylinder(sphere_d=sphere_d, cylinder_d=cylinder_d, axis_deg=axis_deg)
    return sphero_cylinder(
        sphere_d=lens.sphere_d + lens.cylinder_d, cylinder_d=-lens.cylinder_d, axis_deg=lens.axis_deg + 90
    )


def minus_cylinder_form(*, sphere_d: float, cylinder_d: float, axis_deg: float = FLAT_AXIS_DEG) -> SpheroCylinder:
    """The same lens with a minus cylinder, or none.

    Parameters: sphere_d, cylinder_d [D]; axis_deg [deg].
    Returns: the lens; its sphere is the more plus of the two powers.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: transposition when the cylinder is plus; exact.
    Reference: nfos-transposition-answers.
    """
    form = transpose if cylinder_d > 0 else sphero_cylinder
    return form(sphere_d=sphere_d, cylinder_d=cylinder_d, axis_deg=axis_deg)


def principal_powers(*, sphere_d: float, cylinder_d: float) -> PrincipalPowers:
    """The two powers that the lens really has: sphere and cylinder, added up.

    Parameters: sphere_d, cylinder_d [D].
    Returns: power in the direction of the axis, and across it [D].
    Raises: OutOfRange for a power beyond 40 D.
    Equation: along = S; across = S + C; exact.
    Reference: exam-guide-transposition (optical cross).
    """
    power("sphere", sphere_d)
    power("cylinder", cylinder_d)
    return PrincipalPowers(sphere_d, sphere_d + cylinder_d)


def strongest_power(*, sphere_d: float, cylinder_d: float) -> float:
    """The principal power that is greatest without regard to its sign.

    Parameters: sphere_d, cylinder_d [D].
    Returns: that power with its sign [D]; the one along the axis when both are equally strong.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: S or S + C; exact.
    Reference: ansi-z80-1-1999-tables (absolute power of the meridian of highest power).
    """
    return max(principal_powers(sphere_d=sphere_d, cylinder_d=cylinder_d), key=abs)


def mean_sphere(*, sphere_d: float, cylinder_d: float) -> float:
    """The sphere that blurs least in place of the whole lens (spherical equivalent).

    Parameters: sphere_d, cylinder_d [D].
    Returns: mean power [D].
    Raises: OutOfRange for a power beyond 40 D.
    Equation: M = S + C / 2; exact.
    Reference: nfos-mean-sphere-answers; exam-guide-spherical-equivalent.
    """
    along, across = principal_powers(sphere_d=sphere_d, cylinder_d=cylinder_d)
    return (along + across) / 2


def near_sphere(*, sphere_d: float, add_d: float) -> float:
    """The sphere for near work, so that nobody has to add it up.

    Parameters: sphere_d distance sphere [D]; add_d addition [D].
    Returns: sphere in the near part [D]; cylinder and axis stay.
    Raises: OutOfRange for an addition below 0 or above 40 D.
    Equation: S + Add; exact by the definition of the addition.
    Reference: common practice.
    """
    power("sphere", sphere_d)
    return sphere_d + within("addition", add_d, 0, 40, "D")


def quarter_steps(*, power_d: float) -> float:
    """How many quarter dioptres a power is.

    Parameters: power_d [D].
    Returns: count with the sign of the power; half counts for powers written in eighths.
    Raises: OutOfRange for a power beyond 40 D.
    Equation: F / 0.25; exact.
    Reference: common practice (spectacle powers go in steps of 0.25 D).
    """
    return power("power", power_d) / 0.25


def power_in_meridian(
    *, sphere_d: float, cylinder_d: float, axis_deg: float = FLAT_AXIS_DEG, meridian_deg: float
) -> float:
    """Power along one meridian of the lens.

    Parameters: sphere_d, cylinder_d [D]; axis_deg, meridian_deg [deg].
    Returns: curvital power [D]. Off the principal meridians the lens also bends light sideways, which this
        number leaves out; prism needs the whole matrix (formulas.power_vector.power_matrix).
    Raises: OutOfRange for a power beyond 40 D, or an angle that is no finite number.
    Equation: F = S + C sin^2(m - A).
    Reference: oblique-meridian-formula; oblique-cylinder-chart.
    """
    along, across = principal_powers(sphere_d=sphere_d, cylinder_d=cylinder_d)
    apart = math.radians(normalise_axis(axis_deg=meridian_deg) - normalise_axis(axis_deg=axis_deg))
    return along + (across - along) * math.sin(apart) ** 2
