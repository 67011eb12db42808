"""Light that an uncoated lens throws back, light that it lets through, and what one thin layer does about it.

Fractions from 0 to 1, light straight on, no absorption.
"""

from __future__ import annotations

import math

from explainer.optics.formulas.ranges import index as lens_index
from explainer.optics.formulas.ranges import within


def surface_reflectance(*, index: float) -> float:
    """Part of the light that one uncoated surface throws back.

    Parameters: index of the lens.
    Returns: fraction.
    Raises: OutOfRange for an index outside 1.4 to 2.
    Equation: R = ((n - 1) / (n + 1))^2; light straight on.
    Reference: nfos-reflections-slide; ellefsen-transmission.
    """
    return ((lens_index(index) - 1) / (index + 1)) ** 2


def transmittance_without_inner_reflections(*, index: float) -> float:
    """Part of the light that passes two uncoated surfaces, counting the straight way only.

    Parameters: index of the lens.
    Returns: fraction.
    Raises: OutOfRange for an index outside 1.4 to 2.
    Equation: T = (1 - R)^2.
    Reference: ellefsen-transmission.
    """
    return (1 - surface_reflectance(index=index)) ** 2


def transmittance(*, index: float) -> float:
    """Part of the light that passes an uncoated lens, with what goes to and fro inside.

    Parameters: index of the lens.
    Returns: fraction.
    Raises: OutOfRange for an index outside 1.4 to 2.
    Equation: T = 2n / (1 + n^2) = (1 - R) / (1 + R).
    Reference: nfos-reflections-slide; ellefsen-transmission.
    """
    return 2 * lens_index(index) / (1 + index**2)


def quarter_wave_reflectance(*, index: float, layer_index: float) -> float:
    """Part of the light that a surface with a quarter-wave layer throws back, at the layer's wavelength.

    Parameters: index of the lens; layer_index of the layer.
    Returns: fraction; none when the layer's index is the square root of the lens's.
    Raises: OutOfRange for an index outside 1.4 to 2, or a layer outside 1.2 to 2.5.
    Equation: R = ((n - m^2) / (n + m^2))^2, m the layer's index.
    Reference: memory (thin films); the tests hold it against the value of a reference library.
    """
    square = within("index of the layer", layer_index, 1.2, 2.5) ** 2
    return ((lens_index(index) - square) / (index + square)) ** 2


def critical_angle_deg(*, index: float) -> float:
    """The slant inside the lens beyond which light cannot leave it.

    Parameters: index of the lens.
    Returns: angle from the upright on the surface [deg].
    Raises: OutOfRange for an index outside 1.4 to 2.
    Equation: arcsin(1 / n).
    Reference: memory (law of refraction).
    """
    return math.degrees(math.asin(1 / lens_index(index)))
