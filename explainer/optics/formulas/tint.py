"""Tints: category, driving, signal lights, density. Transmittances are luminous, from 0 to 1."""

from __future__ import annotations

from itertools import pairwise
from math import log10
from typing import Literal

import numpy as np

from explainer.errors import OutOfRange
from explainer.optics.formulas.reactive import is_reactive
from explainer.optics.formulas.spectrum import Spectrum, luminous_transmittance

ROAD_NM = (475.0, 650.0)
"""Where a tint for the road must let every colour through."""

DayVerdict = Literal["yes", "no", "not-when-darkest"]
NightVerdict = Literal["yes", "no", "when-clear"]
SignalVerdict = Literal["inside", "inside-by-one-edition", "outside"]


def category(*, transmittance: float, upper_bounds: tuple[float, ...], darkest: float) -> int | None:
    """The filter category: 0 is clear, 4 is darkest.

    Parameters: luminous transmittance [1]; upper_bounds of categories 0, 1, 2 ... falling [1]; darkest, the
    transmittance at and below which there is no category [1].
    Returns: the number; None for a filter darker than the last category (not an ordinary sunglass).
    Raises: OutOfRange for a transmittance outside 0 to 1 or bounds that do not fall.
    Equation: "over lower, up to upper": a value on a bound belongs to the darker category.
    Reference: ISO 12312-1 as quoted by college-tints-driving.
    """
    _check(transmittance)
    edges = (*upper_bounds, darkest)
    if any(upper <= lower for upper, lower in pairwise(edges)):
        raise OutOfRange("category bounds", edges, 0, 1, "falling")
    if transmittance <= darkest:
        return None
    return max(i for i, upper in enumerate(upper_bounds) if transmittance <= upper)


def drives_by_day(*, transmittance: float, darkest: float) -> bool:
    """Whether the tint is light enough for driving in daylight.

    Parameters: luminous transmittance [1]; darkest, the upper bound of category 4 [1].
    Returns: True or False; glare, tunnels and the wearer's eyes are not judged.
    Raises: OutOfRange for a transmittance outside 0 to 1.
    Equation: tau > darkest (categories 0 to 3).
    Reference: college-tints-driving.
    """
    _check(transmittance)
    return transmittance > darkest


def drives_by_night(*, transmittance: float, lightest: float) -> bool:
    """Whether the tint is light enough for driving at dusk and at night.

    Parameters: luminous transmittance as it is at that moment [1]; lightest, the least allowed [1].
    Returns: True or False.
    Raises: OutOfRange for a transmittance outside 0 to 1.
    Equation: tau >= lightest (0.75); on the lens alone, the windscreen dims further.
    Reference: college-tints-driving, night-glasses-test.
    """
    _check(transmittance)
    return transmittance >= lightest


def day_verdict(*, light_enough: bool, tint: str) -> DayVerdict:
    """What the light of a tint at its darkest means for driving by day.

    Parameters: light_enough whether it is light enough at its darkest; tint the kind of tint.
    Returns: yes; no; not-when-darkest for a lens that changes.
    Raises: nothing.
    Equation: a lens that changes is at its darkest for a part of the day only.
    Reference: common practice.
    """
    if light_enough:
        return "yes"
    return "not-when-darkest" if is_reactive(tint) else "no"


def night_verdict(*, light_enough: bool, tint: str) -> NightVerdict:
    """What the light of a tint at its lightest means for driving at dusk and at night.

    Parameters: light_enough whether it is light enough at its lightest; tint the kind of tint.
    Returns: yes; no; when-clear for a lens that changes.
    Raises: nothing.
    Equation: a lens that changes needs minutes to become its lightest.
    Reference: common practice.
    """
    if not light_enough:
        return "no"
    return "when-clear" if is_reactive(tint) else "yes"


def part_of_hundred(*, percent: float) -> float:
    """A percentage as a part of one.

    Parameters: percent.
    Returns: part [1].
    Raises: nothing.
    Equation: p / 100.
    Reference: definition.
    """
    return percent / 100


def through_both(*, lens: float, glass: float) -> float:
    """What passes a lens and a pane one behind the other.

    Parameters: luminous transmittances [1].
    Returns: luminous transmittance of the pair [1].
    Raises: OutOfRange for a transmittance outside 0 to 1.
    Equation: tau = tau_lens * tau_glass; no reflections between them, colours not counted.
    Reference: definition.
    """
    _check(lens)
    _check(glass)
    return lens * glass


def optical_density(*, transmittance: float) -> float:
    """The optical density of a filter.

    Parameters: transmittance [1], more than 0.
    Returns: density [1].
    Raises: OutOfRange for a transmittance outside 0 to 1, or 0.
    Equation: D = log10(1/tau).
    Reference: ansi-z80-3-extract.
    """
    _check(transmittance)
    if transmittance == 0:
        raise OutOfRange("transmittance", transmittance, 0, 1, "more than 0")
    return -log10(transmittance) + 0.0


def photochromic_response(*, clear: float, dark: float) -> float:
    """How many times more light the lens lets through clear than dark.

    Parameters: clear and dark luminous transmittance [1].
    Returns: ratio [1].
    Raises: OutOfRange unless 0 < dark <= clear <= 1.
    Equation: tau_V0 / tau_V1.
    Reference: photochromic-test-note.
    """
    _check(clear)
    if not 0 < dark <= clear:
        raise OutOfRange("dark transmittance", dark, 0, clear, "")
    return clear / dark


def times_over(*, transmittance: float, limit: float) -> float:
    """How many times more light a filter lets through than a limit allows (sunglass against eclipse filter).

    Parameters: transmittance and limit [1]; the limit more than 0.
    Returns: ratio [1].
    Raises: OutOfRange for values outside these.
    Equation: tau / limit.
    Reference: definition.
    """
    _check(transmittance)
    if not 0 < limit <= 1:
        raise OutOfRange("limit", limit, 0, 1, "")
    return transmittance / limit


def passes_all_road_colours(spectrum: Spectrum, *, luminous: float, least_share: float) -> bool:
    """Whether no colour between 475 and 650 nm is cut away too far for the road.

    Parameters: spectral transmittance [1]; luminous transmittance [1]; least_share of that [1].
    Returns: True or False.
    Raises: OutOfRange when the spectrum does not cover 475 to 650 nm.
    Equation: min of tau(l), 475 to 650 nm, >= least_share * tau_v.
    Reference: college-tints-driving.
    """
    _check(luminous)
    inside = (spectrum.wavelength_nm >= ROAD_NM[0]) & (spectrum.wavelength_nm <= ROAD_NM[1])
    least = min(*spectrum.at(np.array(ROAD_NM)).tolist(), *spectrum.values[inside].tolist())
    return bool(least >= least_share * luminous)


def signal_quotient(
    spectrum: Spectrum, *, signal: Spectrum, illuminant: Spectrum, observer: Spectrum, step_nm: float = 5.0
) -> float:
    """The relative visual attenuation quotient: how a signal light keeps up with its surroundings.

    Parameters: spectral transmittance [1]; signal, the light as it comes from the lamp; illuminant D65 and
    photopic observer, any scale; step_nm [nm].
    Returns: Q [1]; below 1 the signal is dimmed more than the scene.
    Raises: OutOfRange when one of them does not cover 380 to 780 nm.
    Equation: Q = tau_signal / tau_v, the first weighted with signal and observer.
    Reference: retinal-indexes-code.
    """
    seen = luminous_transmittance(spectrum, illuminant=signal, observer=observer, step_nm=step_nm)
    scene = luminous_transmittance(spectrum, illuminant=illuminant, observer=observer, step_nm=step_nm)
    if scene <= 0:
        raise OutOfRange("luminous transmittance", scene, 0, 1, "more than 0")
    return seen / scene


def signal_verdict(*, quotient: float, mildest: float, strictest: float) -> SignalVerdict:
    """Whether a signal light stays visible enough, where editions of a standard may differ.

    Parameters: quotient Q [1]; mildest and strictest of the published minima [1].
    Returns: inside, inside-by-one-edition (warn), outside.
    Raises: OutOfRange for a negative quotient or minima that do not rise.
    Equation: Q >= strictest; Q >= mildest; neither.
    Reference: minima of college-tints-driving and, from memory, of two editions.
    """
    if quotient < 0:
        raise OutOfRange("attenuation quotient", quotient, 0, np.inf, "")
    if mildest > strictest:
        raise OutOfRange("mildest minimum", mildest, 0, strictest, "")
    if quotient >= strictest:
        return "inside"
    return "inside-by-one-edition" if quotient >= mildest else "outside"


def _check(transmittance: float) -> None:
    if not 0 <= transmittance <= 1:
        raise OutOfRange("transmittance", transmittance, 0, 1, "")
