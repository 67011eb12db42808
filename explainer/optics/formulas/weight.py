"""What a lens weighs."""

from __future__ import annotations

from explainer.optics.formulas import ranges


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
