"""The one guard of the plain formulas: a value outside its stated range is refused by name, never clamped."""

from __future__ import annotations

from explainer.errors import OutOfRange

POWER_D = 40.0
"""Greatest sphere, cylinder or addition that the formulas accept [D], well beyond any spectacle lens."""


def within(name: str, value: float, low: float, high: float, unit: str = "") -> float:
    """The value itself when low <= value <= high; OutOfRange otherwise, also for what is not a number."""
    if not low <= value <= high:
        raise OutOfRange(name, value, low, high, unit)
    return value


def power(name: str, value_d: float) -> float:
    """The power itself when it may belong to a spectacle lens; OutOfRange otherwise."""
    return within(name, value_d, -POWER_D, POWER_D, "D")


def index(value: float) -> float:
    """The refractive index itself when a lens material can have it; OutOfRange otherwise."""
    return within("refractive index", value, 1.4, 2.0)
