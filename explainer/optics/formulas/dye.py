"""The dye of light-reactive lenses: which light colours it, how warmth clears it, how dark it makes the lens.

Arguments named Real may be numbers or numpy arrays that fit each other.
"""

from __future__ import annotations

from math import log

import numpy as np

from explainer.errors import OutOfRange
from explainer.optics.formulas.spectrum import FloatArray

Real = float | FloatArray

GAS_CONSTANT = 8.314462618  # J/(mol K), exact in the SI of 2019
KELVIN = 273.15
REFERENCE_CELSIUS = 23.0
"""The bench temperature at which lenses are tested."""
COLDEST_CELSIUS, HOTTEST_CELSIUS = 0.0, 40.0
"""Studies and patents cover about 5 to 35; five degrees beyond is as far as the model is asked."""


def activation(
    *,
    wavelength_nm: FloatArray,
    peak_nm: float,
    below_nm: float,
    above_nm: float,
    visible_share: float = 0.0,
    visible_peak_nm: float = 400.0,
    visible_width_nm: float = 25.0,
) -> FloatArray:
    """How well each wavelength colours the dye, relative to the peak.

    Parameters: wavelength_nm [nm]; peak_nm; widths below_nm and above_nm the peak [nm]; for the class that
    also reacts to violet light visible_share [1], visible_peak_nm, visible_width_nm [nm].
    Returns: activation [1], 1 at the peak of the ultraviolet class.
    Raises: OutOfRange when a width is not positive or the share is negative.
    Equation: A(l) = exp(-((l - peak)/s)^2), s = below or above; plus
    share * exp(-((l - visible peak)/width)^2).
    Reference: peak naphthopyran-page; widths and the visible part assumed (see the facts light.activation.*).
    """
    for name, width in (("width", below_nm), ("width", above_nm), ("visible width", visible_width_nm)):
        _check_positive(name, width, "nm")
    if visible_share < 0:
        raise OutOfRange("visible share", visible_share, 0, np.inf, "")
    side = np.where(wavelength_nm < peak_nm, below_nm, above_nm)
    ultraviolet = np.exp(-(((wavelength_nm - peak_nm) / side) ** 2))
    violet = visible_share * np.exp(-(((wavelength_nm - visible_peak_nm) / visible_width_nm) ** 2))
    return np.asarray(ultraviolet + violet)


def warmth_factor(*, celsius: float, activation_kj_mol: Real) -> Real:
    """How many times faster the dye clears than at 23 degrees Celsius.

    Parameters: celsius, temperature of the lens [C], 0 to 40; activation_kj_mol [kJ/mol].
    Returns: k(T)/k(23 C) [1].
    Raises: OutOfRange outside 0 to 40 C or for a negative energy.
    Equation: Arrhenius, exp(-(Ea/R)(1/T - 1/T0)), T0 = 296.15 K.
    Reference: ijps-2011, moon-2020 (see the facts light.dye.*).
    """
    check_celsius(celsius)
    if np.any(np.asarray(activation_kj_mol) < 0):
        raise OutOfRange("activation energy", activation_kj_mol, 0, np.inf, "kJ/mol")
    step = 1 / (celsius + KELVIN) - 1 / (REFERENCE_CELSIUS + KELVIN)
    return np.exp(-activation_kj_mol * 1000.0 / GAS_CONSTANT * step)


def activation_energy_kj_mol(*, times_slower: float, cold_celsius: float, warm_celsius: float) -> float:
    """The activation energy that a measured slowing in the cold implies.

    Parameters: times_slower, half-life cold over half-life warm [1], at least 1; both
    temperatures [C], 0 to 40.
    Returns: Ea [kJ/mol].
    Raises: OutOfRange for other arguments.
    Equation: Ea = R ln(ratio) / (1/T_cold - 1/T_warm).
    Reference: Arrhenius; ratios of moon-2020.
    """
    check_celsius(warm_celsius)
    if not COLDEST_CELSIUS <= cold_celsius < warm_celsius:
        raise OutOfRange("colder temperature", cold_celsius, COLDEST_CELSIUS, warm_celsius, "C")
    if times_slower < 1:
        raise OutOfRange("times slower", times_slower, 1, np.inf, "")
    step = 1 / (cold_celsius + KELVIN) - 1 / (warm_celsius + KELVIN)
    return GAS_CONSTANT * log(times_slower) / step / 1000.0


def full_density(*, clear: Real, dark: Real, coloured_share: Real) -> Real:
    """The optical density that the dye would have if all of it were coloured.

    Parameters: clear and dark luminous transmittance [1]; coloured_share of the dye in that dark state [1].
    Returns: D [1].
    Raises: OutOfRange unless 0 < dark < clear <= 1 and 0 < share <= 1.
    Equation: D = log10(clear/dark) / d.
    Reference: definition of density, ansi-z80-3-extract.
    """
    _check_between("clear transmittance", clear, 0, 1)
    if not (np.all(np.asarray(dark) > 0) and np.all(np.asarray(dark) < np.asarray(clear))):
        raise OutOfRange("dark transmittance", dark, 0, float(np.min(clear)), "below the clear one")
    _check_between("coloured share", coloured_share, 0, 1)
    return np.log10(np.asarray(clear) / dark) / coloured_share


def transmittance(*, clear: Real, density: Real, share: Real) -> Real:
    """Luminous transmittance of the lens with a share of its dye coloured.

    Parameters: clear transmittance [1]; density of fully coloured dye [1]; coloured share [1].
    Returns: transmittance [1].
    Raises: OutOfRange for a share outside 0 to 1.
    Equation: tau = clear * 10^(-D d) (neutral dye).
    Reference: Beer-Lambert.
    """
    if not (np.all(np.asarray(share) >= 0) and np.all(np.asarray(share) <= 1)):
        raise OutOfRange("coloured share", share, 0, 1, "")
    return clear * 10.0 ** (-np.asarray(density) * share)


def share_for(*, clear: Real, density: Real, wanted: Real) -> Real:
    """The coloured share at which the lens lets a wanted part of the light through.

    Parameters: clear transmittance, density of fully coloured dye, wanted transmittance [1].
    Returns: d [1]; 0 or less when the clear lens is no lighter than wanted.
    Raises: OutOfRange when wanted is not within 0 to 1.
    Equation: d = log10(clear/wanted) / D.
    Reference: Beer-Lambert.
    """
    _check_between("wanted transmittance", wanted, 0, 1)
    return np.log10(np.asarray(clear) / wanted) / density


def check_celsius(celsius: float) -> None:
    """OutOfRange unless the model may be asked at this lens temperature [C]."""
    if not COLDEST_CELSIUS <= celsius <= HOTTEST_CELSIUS:
        raise OutOfRange("lens temperature", celsius, COLDEST_CELSIUS, HOTTEST_CELSIUS, "C")


def _check_positive(name: str, value: float, unit: str) -> None:
    if not value > 0:
        raise OutOfRange(name, value, 0, np.inf, unit)


def _check_between(name: str, value: Real, low: float, high: float) -> None:
    array = np.asarray(value)
    if not (np.all(array > low) and np.all(array <= high)):
        raise OutOfRange(name, value, low, high, "")
