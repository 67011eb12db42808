"""Tints: category, driving, lens and pane together. Transmittances are luminous, from 0 to 1."""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

from explainer.errors import OutOfRange
from explainer.optics.formulas.reactive import is_reactive

DayVerdict = Literal["yes", "no", "not-when-darkest"]
NightVerdict = Literal["yes", "no", "when-clear"]


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


def _check(transmittance: float) -> None:
    if not 0 <= transmittance <= 1:
        raise OutOfRange("transmittance", transmittance, 0, 1, "")
