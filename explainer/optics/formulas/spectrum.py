"""Spectra: values over a wavelength grid, never used beyond that grid."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explainer.errors import OutOfRange

FloatArray = NDArray[np.float64]


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
