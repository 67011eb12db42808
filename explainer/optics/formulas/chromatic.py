"""Colour: how a lens spreads white light, and the numbers that describe a material in this."""

from __future__ import annotations

import math

from explainer.optics.formulas.ranges import power, within

SULTANOVA = (1.4182, 0.021304)
"""Polycarbonate, one term: strength, and squared resonance wavelength [um2] (sultanova-2009)."""


def transverse_spread_pd(*, prism_pd: float, abbe: float) -> float:
    """Width of the colour fringe where the lens acts as a prism.

    Parameters: prism_pd prism at the point looked through, size [prism dioptre]; abbe number of the material.
    Returns: spread between blue (F) and red (C) light [prism dioptre].
    Raises: OutOfRange for a prism outside 0 to 100, or an Abbe number outside 20 to 70.
    Equation: P / V.
    Reference: exam-guide-aberrations.
    """
    return within("prism", prism_pd, 0, 100, "prism dioptre") / _abbe(abbe)


def fringe_at_distance_pd(*, power_d: float, distance_mm: float, abbe: float) -> float:
    """Width of the colour fringe at a distance from the optical centre.

    Parameters: power_d power along that line [D]; distance_mm from the optical centre [mm]; abbe number.
    Returns: spread [prism dioptre], never negative.
    Raises: OutOfRange for a distance outside 0 to 50 mm, or an Abbe number outside 20 to 70.
    Equation: c |F| / V, c in centimetres.
    Reference: exam-guide-aberrations (with Prentice's rule).
    """
    prism = abs(power("power", power_d)) * within("distance", distance_mm, 0, 50, "mm") / 10
    return transverse_spread_pd(prism_pd=prism, abbe=abbe)


def axial_spread_d(*, power_d: float, abbe: float) -> float:
    """Difference of the power of a lens for blue and for red light.

    Parameters: power_d [D]; abbe number of the material.
    Returns: F-light power less C-light power [D], with the sign of the power.
    Raises: OutOfRange for an Abbe number outside 20 to 70.
    Equation: F / V.
    Reference: chromatic-aberration-2020-magazine.
    """
    return power("power", power_d) / _abbe(abbe)


def threshold_distance_mm(*, power_d: float, abbe: float, threshold_pd: float) -> float:
    """Distance from the optical centre at which the colour fringe reaches a given width.

    Parameters: power_d power along that line [D]; abbe number; threshold_pd width of the fringe [prism
        dioptre].
    Returns: distance [mm].
    Raises: OutOfRange for a power below 0.01 D, which spreads no colours, or a threshold outside 0 to 1.
    Equation: 10 threshold V / |F|.
    Reference: exam-guide-aberrations (P / V, solved for the distance).
    """
    size = within("size of the power", abs(power_d), 0.01, 40, "D")
    return 10 * within("threshold", threshold_pd, 0, 1, "prism dioptre") * _abbe(abbe) / size


def arcmin_of_prism(*, prism_pd: float) -> float:
    """The angle by which a prism turns light.

    Parameters: prism_pd [prism dioptre].
    Returns: angle [arcmin]; 0.1 prism dioptre is 3.44.
    Raises: OutOfRange for a prism outside 0 to 100.
    Equation: arctan(P / 100); the definition of the prism dioptre.
    Reference: definition.
    """
    return 60 * math.degrees(math.atan(within("prism", prism_pd, 0, 100, "prism dioptre") / 100))


def abbe_number(*, index_d: float, index_f: float, index_c: float) -> float:
    """How little a material spreads colours.

    Parameters: index_d, index_f, index_c at 587.56, 486.13 and 656.27 nm.
    Returns: Abbe number; small for strong colours.
    Raises: OutOfRange unless index_f > index_d > index_c > 1.
    Equation: (nd - 1) / (nF - nC).
    Reference: definition.
    """
    within("index at the C line", index_c, 1.0001, index_d)
    within("index at the F line", index_f, index_d, 3)
    within("difference of the indices F and C", index_f - index_c, 1e-6, 1)
    return (index_d - 1) / (index_f - index_c)


def polycarbonate_index(*, wavelength_nm: float) -> float:
    """Refractive index of polycarbonate for one wavelength, at 20 degrees Celsius.

    Parameters: wavelength_nm [nm].
    Returns: index.
    Raises: OutOfRange outside 436.8 to 1052 nm, where nothing was measured.
    Equation: n^2 - 1 = 1.4182 L^2 / (L^2 - 0.021304), L in micrometres.
    Reference: sultanova-2009. Another study (zhang-2020) finds about 0.005 more: the lens material is not
        one.
    """
    square = (within("wavelength", wavelength_nm, 436.8, 1052, "nm") / 1000) ** 2
    strength, resonance = SULTANOVA
    return math.sqrt(1 + strength * square / (square - resonance))


def _abbe(value: float) -> float:
    return within("Abbe number", value, 20, 70)
