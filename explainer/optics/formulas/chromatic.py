"""Colour: how far a lens spreads white light, and from where that is seen."""

from __future__ import annotations

from explainer.optics.formulas.ranges import power, within


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


def _abbe(value: float) -> float:
    return within("Abbe number", value, 20, 70)
