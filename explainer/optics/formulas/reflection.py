"""Light that an uncoated lens throws back, and light that it lets through.

Fractions from 0 to 1, light straight on, no absorption.
"""

from __future__ import annotations

from explainer.optics.formulas.ranges import index as lens_index


def surface_reflectance(*, index: float) -> float:
    """Part of the light that one uncoated surface throws back.

    Parameters: index of the lens.
    Returns: fraction.
    Raises: OutOfRange for an index outside 1.4 to 2.
    Equation: R = ((n - 1) / (n + 1))^2; light straight on.
    Reference: nfos-reflections-slide; ellefsen-transmission.
    """
    return ((lens_index(index) - 1) / (index + 1)) ** 2


def transmittance(*, index: float) -> float:
    """Part of the light that passes an uncoated lens, with what goes to and fro inside.

    Parameters: index of the lens.
    Returns: fraction.
    Raises: OutOfRange for an index outside 1.4 to 2.
    Equation: T = 2n / (1 + n^2) = (1 - R) / (1 + R).
    Reference: nfos-reflections-slide; ellefsen-transmission.
    """
    return 2 * lens_index(index) / (1 + index**2)
