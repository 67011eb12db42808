"""Light-reactive lenses: ultraviolet colours the dye, warmth clears it, and the balance is the tint.

One population of dye, coloured share d between 0 and 1:  dd/dt = a (1 - d) - k d,  with a the colouring
rate under this ultraviolet [1/s] and k(T) the clearing rate at this lens temperature [1/s]. Left out:
shading of ultraviolet inside the dye layer, bleaching by visible light, colour, several dyes. Arguments
named Real may be numbers or numpy arrays that fit each other.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from itertools import pairwise
from math import log

import numpy as np

from explainer.errors import OutOfRange
from explainer.optics.formulas import dye
from explainer.optics.formulas.dye import KELVIN, Real
from explainer.optics.formulas.spectrum import FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ParameterSet:
    """One photochromic lens, or with arrays many at once.

    `clear` transmittance [1]; `density` of fully coloured dye [1]; `bench_balance`, a/k on the bench at each
    of `bench_celsius` (rising); `activation_kj_mol` [kJ/mol] of clearing; `fade_half_s`, the time in which half the
    density goes at 23 C [s]; `slow_share` of the dye fades `slow_times` slower.
    """

    clear: Real
    density: Real
    bench_celsius: tuple[float, ...]
    bench_balance: tuple[Real, ...]
    activation_kj_mol: Real
    fade_half_s: Real
    slow_share: Real = 0.0
    slow_times: float = 6.0

    def balance(self, celsius: float) -> Real:
        """a/k on the bench at this lens temperature [C]."""
        return bench_balance(
            celsius=celsius,
            bench_celsius=self.bench_celsius,
            bench_balances=self.bench_balance,
            activation_kj_mol=self.activation_kj_mol,
        )

    def fade_rate(self, celsius: float) -> Real:
        """The clearing rate k at this lens temperature [1/s], by Arrhenius from the half-time at 23 C."""
        faster = dye.warmth_factor(celsius=celsius, activation_kj_mol=self.activation_kj_mol)
        return log(2) / np.asarray(self.fade_half_s) * faster

    def colouring_rate(self, exposure: Real, celsius: float) -> Real:
        """The colouring rate a under an exposure given relative to the bench [1/s].

        It does not depend on warmth unless dark values known at several temperatures ask for it.
        """
        return exposure * np.asarray(self.balance(celsius)) * self.fade_rate(celsius)

    def steady_share(self, exposure: Real, celsius: float) -> Real:
        """The coloured share after long enough in this exposure (bench = 1) at this temperature [C]."""
        return steady_share(colouring_rate=exposure * self.balance(celsius), fade_rate=1.0)

    def steady_transmittance(self, exposure: Real, celsius: float) -> Real:
        """Transmittance [1] after long enough in this exposure (bench = 1) at this temperature [C]."""
        return self.transmittance(self.steady_share(exposure, celsius))

    def transmittance(self, share: Real) -> Real:
        """Transmittance [1] with this coloured share."""
        return dye.transmittance(clear=self.clear, density=self.density, share=share)


def bench_balance(
    *,
    celsius: float,
    bench_celsius: tuple[float, ...],
    bench_balances: tuple[Real, ...],
    activation_kj_mol: Real,
) -> Real:
    """Colouring over clearing on the bench, a/k, at a temperature between or beyond the known ones.

    Parameters: celsius, of the lens [C], 0 to 40; bench_celsius, known temperatures, rising [C];
    bench_balances, a/k there [1]; activation_kj_mol [kJ/mol], used outside the known temperatures.
    Returns: a/k [1].
    Raises: OutOfRange outside 0 to 40 C, or when the temperatures do not rise or match the balances.
    Equation: ln(a/k) is a straight line in 1/T between known temperatures (Arrhenius, with a independent of
    T), and has slope Ea/R beyond them.
    Reference: Arrhenius; that a does not depend on warmth is assumed.
    """
    rises = all(low < high for low, high in pairwise(bench_celsius))
    if len(bench_celsius) != len(bench_balances) or not bench_celsius or not rises:
        raise OutOfRange("known bench temperatures", bench_celsius, 0, 40, "C, rising")
    above = bisect_left(bench_celsius, celsius)
    if 0 < above < len(bench_celsius):
        low, high = bench_celsius[above - 1], bench_celsius[above]
        dye.check_celsius(celsius)
        part = (_inverse_k(low) - _inverse_k(celsius)) / (_inverse_k(low) - _inverse_k(high))
        first, second = np.log(bench_balances[above - 1]), np.log(bench_balances[above])
        return np.exp(first + part * (second - first))
    nearest = min(above, len(bench_celsius) - 1)
    there = dye.warmth_factor(celsius=bench_celsius[nearest], activation_kj_mol=activation_kj_mol)
    here = dye.warmth_factor(celsius=celsius, activation_kj_mol=activation_kj_mol)
    return bench_balances[nearest] * np.asarray(there) / here


def steady_share(*, colouring_rate: Real, fade_rate: Real) -> Real:
    """The coloured share at which colouring and clearing balance.

    Parameters: colouring_rate a, 0 or more, fade_rate k, more than 0 [1/s] (or both in any one unit).
    Returns: d [1].
    Raises: OutOfRange for rates outside these.
    Equation: d = a / (a + k).
    Reference: zero of the rate equation at the head of this file.
    """
    _check_rates(colouring_rate, fade_rate)
    return np.asarray(colouring_rate) / (np.asarray(colouring_rate) + fade_rate)


def half_darkened_s(*, colouring_rate: Real, fade_rate: Real) -> Real:
    """The time in which half the density that this light can give has come.

    Parameters: colouring_rate a, 0 or more, fade_rate k, more than 0 [1/s].
    Returns: time [s].
    Raises: OutOfRange for rates outside these.
    Equation: t = ln 2 / (a + k), for a lens that starts clear.
    Reference: solution of the rate equation at the head of this file.
    """
    _check_rates(colouring_rate, fade_rate)
    return log(2) / (np.asarray(colouring_rate) + fade_rate)


def share_while_fading(
    *, seconds: Real, start: Real, fade_rate: Real, slow_share: Real = 0.0, slow_times: float = 6.0
) -> Real:
    """The coloured share left after fading without ultraviolet, with the slow tail.

    Parameters: seconds [s]; start, the share at the beginning [1]; fade_rate k [1/s]; slow_share of the dye
    that fades slow_times slower [1].
    Returns: d [1].
    Raises: OutOfRange for negative time, k not above 0, slow_share outside 0 to 1 or slow_times below 1.
    Equation: d = d_0 ((1 - s) exp(-k t) + s exp(-k t/m)).
    Reference: decay in two speeds, ijps-2011; the sizes of s and m are assumed.
    """
    _check_seconds(seconds)
    _check_fading(fade_rate, slow_share, slow_times)
    left = np.exp(-np.asarray(fade_rate) * seconds / slow_times)
    return start * _two_speeds(left, np.asarray(slow_share), slow_times)


def fade_time_s(*, start: Real, target: Real, fade_rate: Real, slow_share: Real = 0.0, slow_times: float = 6.0) -> Real:
    """How long the dye takes to fade from one coloured share to a smaller one, with the slow tail.

    Parameters: start and target shares [1]; fade_rate k [1/s]; slow_share [1] and slow_times [1] of the tail.
    Returns: time [s]: 0 when the start is no darker than the target, infinite when the target is 0 or less.
    Raises: OutOfRange for k not above 0, slow_share outside 0 to 1 or slow_times below 1.
    Equation: (1 - s) y^m + s y = target/start, t = -m ln(y)/k; Newton's steps from y = 1 fall towards the
    root and never pass it, as the left side rises and curves upward.
    Reference: inverse of share_while_fading.
    """
    _check_fading(fade_rate, slow_share, slow_times)
    with np.errstate(divide="ignore", invalid="ignore"):
        wanted = np.clip(np.where(np.asarray(start) > 0, np.asarray(target) / start, 1.0), 0.0, 1.0)
        slow = np.asarray(slow_share)
        left = np.ones(np.broadcast(wanted, slow).shape)
        for _ in range(60):
            slope = (1.0 - slow) * slow_times * left ** (slow_times - 1.0) + slow
            step = np.where(slope > 0, (_two_speeds(left, slow, slow_times) - wanted) / slope, 0.0)
            left = left - step
            if np.all(np.abs(step) <= 1e-13 * left):
                break
        seconds = -slow_times * np.log(np.where(wanted > 0, left, 0.0)) / np.asarray(fade_rate)
    return np.asarray(seconds) + 0.0


def _two_speeds(left: FloatArray, slow_share: FloatArray, slow_times: float) -> FloatArray:
    return np.asarray((1.0 - slow_share) * left**slow_times + slow_share * left)


def _inverse_k(celsius: float) -> float:
    return 1 / (celsius + KELVIN)


def _check_rates(colouring_rate: Real, fade_rate: Real) -> None:
    if not np.all(np.asarray(colouring_rate) >= 0):
        raise OutOfRange("colouring rate", colouring_rate, 0, np.inf, "1/s")
    if not np.all(np.asarray(fade_rate) > 0):
        raise OutOfRange("fading rate", fade_rate, 0, np.inf, "1/s")


def _check_seconds(seconds: Real) -> None:
    if not np.all(np.asarray(seconds) >= 0):
        raise OutOfRange("time", seconds, 0, np.inf, "s")


def _check_fading(fade_rate: Real, slow_share: Real, slow_times: float) -> None:
    _check_rates(0.0, fade_rate)
    if not (np.all(np.asarray(slow_share) >= 0) and np.all(np.asarray(slow_share) <= 1)):
        raise OutOfRange("slow share", slow_share, 0, 1, "")
    if slow_times < 1:
        raise OutOfRange("times slower", slow_times, 1, np.inf, "")
