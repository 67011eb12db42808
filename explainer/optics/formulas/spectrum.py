"""Spectra and what is computed from them: values over a wavelength grid, never used beyond that grid."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explainer.errors import OutOfRange

FloatArray = NDArray[np.float64]

VISIBLE_NM = (380.0, 780.0)
"""The range over which light is weighted with the photopic observer."""


@dataclass(frozen=True, slots=True, eq=False)
class Spectrum:
    """Values over rising wavelengths [nm], straight lines between them, nothing beyond the ends.

    Both arrays are copied and made read-only, so a Spectrum never changes.
    """

    wavelength_nm: FloatArray
    values: FloatArray

    def __post_init__(self) -> None:
        grid = np.array(self.wavelength_nm, dtype=np.float64)
        values = np.array(self.values, dtype=np.float64)
        if grid.ndim != 1 or grid.shape != values.shape or grid.size < 2:
            raise OutOfRange("points of a spectrum", values.shape, 2, np.inf, "matching pairs")
        if not (np.all(np.isfinite(grid)) and np.all(np.isfinite(values))):
            raise OutOfRange("value of a spectrum", "not finite", -np.inf, np.inf, "")
        if not np.all(np.diff(grid) > 0):
            raise OutOfRange("step of a spectrum", float(np.diff(grid).min()), 0, np.inf, "nm, rising")
        for name, array in (("wavelength_nm", grid), ("values", values)):
            array.flags.writeable = False
            object.__setattr__(self, name, array)

    @property
    def low_nm(self) -> float:
        """The shortest wavelength [nm]."""
        return float(self.wavelength_nm[0])

    @property
    def high_nm(self) -> float:
        """The longest wavelength [nm]."""
        return float(self.wavelength_nm[-1])

    def at(self, wavelength_nm: FloatArray | float) -> FloatArray:
        """The values at these wavelengths [nm], by straight lines; OutOfRange beyond either end."""
        wanted = np.asarray(wavelength_nm, dtype=np.float64)
        for outermost in (float(wanted.min()), float(wanted.max())):
            if not self.low_nm <= outermost <= self.high_nm:
                raise OutOfRange("wavelength", outermost, self.low_nm, self.high_nm, "nm")
        return np.asarray(np.interp(wanted, self.wavelength_nm, self.values))


def product(first: Spectrum, second: Spectrum, *, low_nm: float, high_nm: float) -> Spectrum:
    """Two spectra multiplied, wavelength by wavelength, on all grid points of both.

    Parameters: two spectra; low_nm, high_nm [nm], the band asked for.
    Returns: a Spectrum from low_nm to high_nm.
    Raises: OutOfRange when either spectrum does not cover the band.
    Equation: p(l) = first(l) * second(l); exact at the grid points, straight between them.
    Reference: definition.
    """
    grid = _grid_within(low_nm, high_nm, first, second)
    return Spectrum(grid, first.at(grid) * second.at(grid))


def band_integral(spectrum: Spectrum, *, low_nm: float, high_nm: float) -> float:
    """What a spectrum adds up to within a band, by the trapezium rule on its own grid.

    Parameters: a spectrum [unit/nm]; low_nm, high_nm [nm].
    Returns: the integral [unit].
    Raises: OutOfRange when the band reaches beyond the spectrum or is empty.
    Equation: integral of s(l) dl from low to high; the ends are interpolated.
    Reference: definition.
    """
    grid = _grid_within(low_nm, high_nm, spectrum)
    return float(np.trapezoid(spectrum.at(grid), grid))


def weighted_mean(spectrum: Spectrum, *, weight: Spectrum, low_nm: float, high_nm: float) -> float:
    """The mean of a spectrum over a band, each wavelength counted by a weight (a glass under a given sun).

    Parameters: a spectrum; a weight of any scale; low_nm, high_nm [nm].
    Returns: the mean, in the spectrum's unit.
    Raises: OutOfRange when either does not cover the band, or the weight adds up to nothing.
    Equation: integral of s(l) w(l) dl / integral of w(l) dl, trapezium rule on all grid points of both.
    Reference: definition (the form used by EN 410 for ultraviolet transmittance).
    """
    grid = _grid_within(low_nm, high_nm, spectrum, weight)
    shares = weight.at(grid)
    total = float(np.trapezoid(shares, grid))
    if total <= 0:
        raise OutOfRange("sum of the weight", total, 0, np.inf, "more than 0")
    return float(np.trapezoid(spectrum.at(grid) * shares, grid)) / total


def luminous_transmittance(
    transmittance: Spectrum, *, illuminant: Spectrum, observer: Spectrum, step_nm: float = 5.0
) -> float:
    """The share of light that an eye sees through a filter, from 380 to 780 nm.

    Parameters: spectral transmittance [1]; illuminant (D65 for lenses) and photopic observer, any scale;
    step_nm [nm], 5 as in the tables of the standards.
    Returns: luminous transmittance [1].
    Raises: OutOfRange when one of the three does not cover 380 to 780 nm, or the step does not divide it.
    Equation: tau_v = sum(tau S V) / sum(S V), sums at equal steps, both ends included.
    Reference: iso-13666-2019; as a formula also retinal-indexes-code.
    """
    low, high = VISIBLE_NM
    count = (high - low) / step_nm if step_nm > 0 else 0.5
    if abs(count - round(count)) > 1e-9:
        raise OutOfRange("step", step_nm, 0, high - low, "nm, a divisor of the range")
    grid = np.linspace(low, high, round(count) + 1)
    weight = illuminant.at(grid) * observer.at(grid)
    return float(np.sum(transmittance.at(grid) * weight) / np.sum(weight))


def illuminance_lx(irradiance: Spectrum, *, observer: Spectrum) -> float:
    """How bright a spectrum is to the eye: its photopic illuminance.

    Parameters: spectral irradiance [W/(m2 nm)]; photopic observer with 1 at its peak.
    Returns: illuminance [lx].
    Raises: OutOfRange when one does not cover 380 to 780 nm.
    Equation: E_v = 683 lm/W * integral of E(l) V(l) dl.
    Reference: definition of the lumen (SI).
    """
    weighted = product(irradiance, observer, low_nm=VISIBLE_NM[0], high_nm=VISIBLE_NM[1])
    return 683.0 * band_integral(weighted, low_nm=VISIBLE_NM[0], high_nm=VISIBLE_NM[1])


def _grid_within(low_nm: float, high_nm: float, *spectra: Spectrum) -> FloatArray:
    if not low_nm < high_nm:
        raise OutOfRange("band", f"{low_nm} to {high_nm}", 0, np.inf, "nm, rising")
    points = np.concatenate([s.wavelength_nm for s in spectra])
    inside = points[(points > low_nm) & (points < high_nm)]
    return np.unique(np.concatenate([[low_nm], inside, [high_nm]]))
