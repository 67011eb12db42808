"""What an order's eyes must look like on paper, worked out here and not by the program."""

from __future__ import annotations

import math
from typing import NamedTuple

from explainer.optics.spectacles import Eye, Spectacles

MINUS = "\N{MINUS SIGN}"


class Power(NamedTuple):
    """A lens in sphere, cylinder, axis; no axis without a cylinder."""

    sphere_d: float
    cylinder_d: float
    axis_deg: float | None


def received(eye: Eye) -> Power:
    """The power as it was written."""
    return Power(eye.sphere_d, eye.cylinder_d, eye.axis_deg if eye.cylinder_d else None)


def made(eye: Eye, *, for_near: bool) -> Power:
    """The lens in minus-cylinder form; reading glasses hold the addition already."""
    sphere = eye.sphere_d + (eye.add_d or 0.0 if for_near else 0.0)
    if not eye.cylinder_d or eye.axis_deg is None:
        return Power(sphere, 0.0, None)
    if eye.cylinder_d > 0:
        return Power(sphere + eye.cylinder_d, -eye.cylinder_d, (eye.axis_deg + 90 - 1) % 180 + 1)
    return Power(sphere, eye.cylinder_d, eye.axis_deg)


def near_sphere(eye: Eye) -> float | None:
    """The sphere for reading: that of the minus-cylinder form and the addition, summed."""
    return None if eye.add_d is None else made(eye, for_near=False).sphere_d + eye.add_d


def is_for_near(spectacles: Spectacles) -> bool:
    return spectacles.lens.design == "reading"


def power_text(value_d: float, decimal: str) -> str:
    """Sign, two decimals (three for eighths), the true minus, the language's decimal mark."""
    hundredths = abs(value_d) * 100
    digits = 2 if math.isclose(hundredths, round(hundredths), abs_tol=1e-6) else 3
    sign = MINUS if value_d < 0 else "+" if value_d > 0 else ""
    return f"{sign}{abs(value_d):.{digits}f} D".replace(".", decimal)


def axis_text(axis_deg: float) -> str:
    return f"{axis_deg:g}°"


def prism_amounts(eye: Eye, decimal: str) -> list[tuple[str, str]]:
    """Amount and base of each prescribed prism."""
    found = []
    if eye.prism_in_pd:
        found.append((eye.prism_in_pd, "in" if eye.prism_in_pd > 0 else "out"))
    if eye.prism_up_pd:
        found.append((eye.prism_up_pd, "up" if eye.prism_up_pd > 0 else "down"))
    return [(f"{abs(amount):.2f} Δ".replace(".", decimal), base) for amount, base in found]


def vector(power: Power) -> tuple[float, float, float]:
    """M, J0, J45 (Thibos, Wheeler and Horner 1997, Optometry and Vision Science 74: 367; formulas from memory)."""
    double = math.radians(2 * (power.axis_deg or 0.0))
    half = -power.cylinder_d / 2
    return power.sphere_d + power.cylinder_d / 2, half * math.cos(double), half * math.sin(double)


def change(before: Eye, now: Eye) -> tuple[float, float]:
    """The length of the change of the power vector, and its slanting part as a cylinder at 45 degrees [D]."""
    old, new = vector(received(before)), vector(received(now))
    return math.dist(old, new), 2 * abs(new[2] - old[2])
