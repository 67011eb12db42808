"""The arithmetic behind the ball tests of lenses."""

from __future__ import annotations

import math

from explainer.optics.formulas.ranges import within

STANDARD_GRAVITY = 9.80665
"""Metres per second squared, by definition."""


def drop_speed(*, height_m: float) -> float:
    """Speed of a ball that fell freely.

    Parameters: height_m of the fall [m].
    Returns: speed [m/s].
    Raises: OutOfRange for a height outside 0 to 10 m.
    Equation: sqrt(2 g h), without air.
    Reference: definition (standard gravity); memory (law of fall).
    """
    return math.sqrt(2 * STANDARD_GRAVITY * within("height", height_m, 0, 10, "m"))


def impact_energy(*, mass_g: float, speed_m_s: float) -> float:
    """Energy of a ball.

    Parameters: mass_g [g]; speed_m_s [m/s].
    Returns: energy [J].
    Raises: OutOfRange for a mass outside 0 to 2000 g, or a speed outside 0 to 500 m/s.
    Equation: m v^2 / 2.
    Reference: definition.
    """
    within("speed", speed_m_s, 0, 500, "m/s")
    return within("mass", mass_g, 0, 2000, "g") / 1000 * speed_m_s**2 / 2


def ball_mass(*, diameter_mm: float, density_g_cm3: float) -> float:
    """Mass of a full ball.

    Parameters: diameter_mm [mm]; density_g_cm3 [g/cm3].
    Returns: mass [g].
    Raises: OutOfRange for a diameter outside 0 to 100 mm, or a density outside 0.5 to 25 g/cm3.
    Equation: pi d^3 / 6 times the density.
    Reference: definition.
    """
    diameter_cm = within("diameter", diameter_mm, 0, 100, "mm") / 10
    return math.pi * diameter_cm**3 / 6 * within("density", density_g_cm3, 0.5, 25, "g/cm3")
