"""What a lens weighs, and the closed formulas for round lenses that the numerical volume is held against."""

from __future__ import annotations

import math

from explainer.errors import OutOfRange
from explainer.optics.formulas import ranges
from explainer.optics.formulas.surface import curvature_from_power, sag_mm
from explainer.optics.formulas.thickness import edge_thickness_mm


def mass_g(*, volume_cm3: float, density_g_cm3: float) -> float:
    """Mass of a lens.

    Parameters: volume_cm3 [cm3]; density_g_cm3 of the material [g/cm3].
    Returns: mass [g]; coatings weigh nothing in comparison.
    Raises: OutOfRange for a density outside 0.9 to 5 g/cm3 or a volume outside 0 to 100 cm3.
    Equation: m = V rho; exact.
    Reference: memory (definition of density).
    """
    ranges.within("density of a lens material", density_g_cm3, 0.9, 5, "g/cm3")
    return ranges.within("volume of a lens", volume_cm3, 0, 100, "cm3") * density_g_cm3


def cap_volume_mm3(*, height_mm: float, half_diameter_mm: float) -> float:
    """Volume of a spherical cap.

    Parameters: height_mm depth of the cap [mm], negative for a hollow; half_diameter_mm radius of its rim
        [mm].
    Returns: volume [mm3], with the sign of the height.
    Raises: OutOfRange for a rim that is not positive.
    Equation: V = pi h (3 y^2 + h^2) / 6; exact.
    Reference: memory (geometry); the tests hold it against numerical integration.
    """
    if half_diameter_mm <= 0:
        raise OutOfRange("half diameter", half_diameter_mm, 0, math.inf, "mm")
    return math.pi * height_mm * (3 * half_diameter_mm**2 + height_mm**2) / 6


def meniscus_volume_cm3(
    *, front_power_d: float, back_power_d: float, index: float, centre_mm: float, diameter_mm: float
) -> float:
    """Volume of a round, centred lens with two spherical surfaces, of any form.

    Parameters: front_power_d, back_power_d surface powers [D]; index; centre_mm, diameter_mm [mm].
    Returns: volume [cm3].
    Raises: OutOfRange when a surface does not reach the edge or the surfaces cross before it.
    Equation: cylinder of the edge thickness, plus the front cap, minus the back cap; exact.
    Reference: derived.
    """
    half = diameter_mm / 2
    edge = edge_thickness_mm(
        centre_mm=centre_mm,
        front_curvature_per_mm=curvature_from_power(power_d=front_power_d, index=index),
        back_curvature_per_mm=-curvature_from_power(power_d=back_power_d, index=index),
        height_mm=half,
    )
    front_sag = sag_mm(power_d=front_power_d, index=index, height_mm=half)
    hollow_sag = -sag_mm(power_d=back_power_d, index=index, height_mm=half)
    front_cap = cap_volume_mm3(height_mm=front_sag, half_diameter_mm=half)
    hollow = cap_volume_mm3(height_mm=hollow_sag, half_diameter_mm=half)
    return (math.pi * half**2 * edge + front_cap - hollow) / 1000
