"""Car glass: an S-shaped rise from blocking ultraviolet to clear, set by measured UV-A shares."""

from __future__ import annotations

import numpy as np

from explainer.errors import OutOfRange
from explainer.optics.formulas.spectrum import FloatArray, Spectrum

SHORTEST_HALF_NM, LONGEST_HALF_NM = 300.0, 450.0
"""Where the half-way wavelength of a car glass is looked for."""


def glass_transmittance(
    *, wavelength_nm: FloatArray | float, half_nm: float, width_nm: float, plateau: float
) -> FloatArray:
    """Spectral transmittance of a pane of car glass around its ultraviolet edge.

    Parameters: wavelength_nm [nm]; half_nm, where half the plateau is reached [nm]; width_nm, how gently
    it rises [nm]; plateau, what passes in the visible [1].
    Returns: transmittance [1].
    Raises: OutOfRange when the width is not positive or the plateau is outside 0 to 1.
    Equation: T(l) = plateau / (1 + exp(-(l - half)/width)); a model for 300 to 500 nm, without the loss of
    tinted glass at longer wavelengths.
    Reference: shape assumed; its place is set by measured UV-A totals (half_wavelength_nm).
    """
    _check_shape(width_nm, plateau)
    steps = (np.asarray(wavelength_nm, dtype=np.float64) - half_nm) / width_nm
    return np.asarray(plateau / (1.0 + np.exp(-steps)))


def half_wavelength_nm(
    *, transmitted: float, sun: Spectrum, low_nm: float, high_nm: float, width_nm: float, plateau: float
) -> float:
    """Where the edge of a glass must lie so that it passes a measured share of the sun's radiation in a band.

    Parameters: transmitted, the measured share [1]; sun, the weight; low_nm, high_nm, the band meant [nm]:
    always say which, to 380 and to 400 nm differ tenfold; width_nm [nm] and plateau [1] of the glass.
    Returns: half_nm of glass_transmittance [nm].
    Raises: OutOfRange when no edge between 300 and 450 nm gives that share.
    Equation: mean of T(l) over the band, weighted by the sun, = transmitted; solved by halving (the mean
    falls as the edge moves up).
    Reference: definition.
    """
    _check_shape(width_nm, plateau)
    grid = np.arange(low_nm, high_nm + 0.25, 0.5)
    weight = sun.at(grid)
    weight = weight / np.trapezoid(weight, grid)

    def passes(half_nm: float) -> float:
        passed = glass_transmittance(wavelength_nm=grid, half_nm=half_nm, width_nm=width_nm, plateau=plateau)
        return float(np.trapezoid(passed * weight, grid))

    below, above = SHORTEST_HALF_NM, LONGEST_HALF_NM
    least, most = passes(above), passes(below)
    if not least < transmitted < most:
        raise OutOfRange("transmitted share", transmitted, least, most, "")
    while above - below > 1e-4:
        middle = (below + above) / 2
        below, above = (middle, above) if passes(middle) > transmitted else (below, middle)
    return (below + above) / 2


def _check_shape(width_nm: float, plateau: float) -> None:
    if not width_nm > 0:
        raise OutOfRange("width of the edge", width_nm, 0, np.inf, "nm")
    if not 0 < plateau <= 1:
        raise OutOfRange("plateau", plateau, 0, 1, "")
