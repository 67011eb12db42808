"""How dark the lens of an order is at each place and temperature, and how fast it changes, as computed bands.

Two bands are given. `interval` takes each assumption alone to the ends of what is published (the others usual)
and is the extent of all results: for printing. `outer` is the extent with all assumptions at their ends at
once: what cannot be excluded, for cautions.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from explainer.errors import FactError
from explainer.optics.claim import Interval
from explainer.optics.formulas import photochromic
from explainer.optics.formulas.dye import REFERENCE_CELSIUS, Real, check_celsius, share_for
from explainer.optics.formulas.photochromic import ParameterSet
from explainer.optics.formulas.reactive import ReactiveClass, is_reactive
from explainer.optics.formulas.spectrum import FloatArray
from explainer.optics.light.assumptions import Assumption, Departure, departures, usual_of
from explainer.optics.light.daylight import Place
from explainer.optics.light.lens import LensFamily, lens_family
from explainer.optics.light.places import exposure
from explainer.optics.spectacles import LensChoice

_DARKEN = "darken_half_s"


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """One computed result with what it rests on.

    `interval` and `outer` as said at the head of this file; `central` with every value usual. For a time, each
    is None when a lens of that band never gets there. `formula` is None when nothing was computed: the value was
    supplied. `facts` are ids of facts; `supplied` names fields of LensData.
    """

    interval: Interval | None
    outer: Interval | None
    central: float | None = None
    unit: str
    formula: Callable[..., Any] | None
    facts: tuple[str, ...]
    supplied: tuple[str, ...] = ()
    departures: tuple[Departure, ...] = ()


def transmittance(lens: LensChoice, *, place: Place, celsius: float) -> Band:
    """What the lens alone lets through [percent] after long enough at a place, at a lens temperature [C]."""
    check_celsius(celsius)
    tint = changing(lens)
    family, there = lens_family(tint, lens.supplied), exposure(place, tint)
    supplied = dict(lens.supplied.dark_percent_by_celsius)
    if place == "bench" and celsius in supplied:
        return _looked_up(supplied[celsius], supplied="dark_percent_by_celsius")

    def percent(of: ParameterSet, exposed: Real) -> FloatArray:
        return 100 * np.asarray(of.steady_transmittance(exposed, celsius))

    tints = percent(family.tints, there.usual)
    lens_moves = departures(family.tint_assumptions, tints)
    light = [(d, percent(family.usual, np.array([d.at_low, d.at_high]))) for d in there.departures]
    moves = [Departure(d.assumption, d.low_end, d.high_end, *map(float, ends)) for d, ends in light]
    return _band(
        (*lens_moves, *moves),
        usual_of(tints),
        extremes=np.stack([percent(family.tints, e) for e in (there.lowest, there.highest)]),
        unit="percent",
        formula=ParameterSet.steady_transmittance,
        assumptions=(*family.tint_assumptions, *there.assumptions),
        settled=there.facts,
    )


def fade_time(lens: LensChoice, *, celsius: float, to_percent: float) -> Band:
    """How long the lens takes to clear from its bench dark to a transmittance [percent], in seconds.

    Dark and clearing are both at that lens temperature [C].
    """
    family = lens_family(changing(lens), lens.supplied)
    spread = family.times
    seconds = photochromic.fade_time_s(
        start=spread.steady_share(1.0, celsius),
        target=share_for(clear=spread.clear, density=spread.density, wanted=to_percent / 100),
        fade_rate=spread.fade_rate(celsius),
        slow_share=spread.slow_share,
        slow_times=spread.slow_times,
    )
    return _time_band(family, np.asarray(seconds), photochromic.fade_time_s, settled=family.settled)


def darken_half_time(lens: LensChoice, *, celsius: float) -> Band:
    """How long the clear lens takes on the bench to half its density there, in seconds, at a temperature [C].

    A supplied half-time holds at 23 C; the model carries it to other temperatures.
    """
    family = lens_family(changing(lens), lens.supplied)
    spread = family.times
    supplied = lens.supplied.darken_half_s
    if supplied is not None and celsius == REFERENCE_CELSIUS:
        return _looked_up(supplied, unit="s", supplied=_DARKEN)

    def at(degrees: float) -> FloatArray:
        rates = {"colouring_rate": spread.colouring_rate(1.0, degrees), "fade_rate": spread.fade_rate(degrees)}
        return np.asarray(photochromic.half_darkened_s(**rates))

    seconds = at(celsius)
    if supplied is not None:
        seconds = seconds / at(REFERENCE_CELSIUS) * supplied
    return _time_band(family, seconds, photochromic.half_darkened_s, supplied=() if supplied is None else (_DARKEN,))


def changing(lens: LensChoice) -> ReactiveClass:
    """The class of dye; FactError for a tint that does not change."""
    if not is_reactive(lens.tint):
        raise FactError(f"a lens with tint {lens.tint} does not change with light")
    return lens.tint


def _looked_up(value: float, *, supplied: str, unit: str = "percent") -> Band:
    extent = Interval(value, value)
    return Band(interval=extent, outer=extent, central=value, unit=unit, formula=None, facts=(), supplied=(supplied,))


def _time_band(
    family: LensFamily,
    seconds: FloatArray,
    formula: Callable[..., Any],
    *,
    settled: tuple[str, ...] = (),
    supplied: tuple[str, ...] = (),
) -> Band:
    lengths = [len(a.values) for a in family.assumptions]
    every = np.broadcast_to(seconds, lengths)
    return _band(
        departures(family.assumptions, every),
        usual_of(every),
        extremes=every,
        unit="s",
        formula=formula,
        assumptions=family.assumptions,
        settled=settled,
        supplied=supplied,
    )


def _band(
    moves: Sequence[Departure],
    central: float,
    *,
    extremes: FloatArray,
    unit: str,
    formula: Callable[..., Any],
    assumptions: Sequence[Assumption],
    settled: tuple[str, ...],
    supplied: tuple[str, ...] = (),
) -> Band:
    """Puts a band together; what does not move the result at all is not said to carry it."""
    felt = tuple(d for d in moves if max(abs(d.at_low - central), abs(d.at_high - central)) > _NOTHING)
    ends = [central, *(value for d in felt for value in (d.at_low, d.at_high))]
    names = {d.assumption for d in felt}
    used = [f for a in assumptions if a.name in names for f in a.facts]
    return Band(
        interval=_extent(ends),
        outer=_extent([float(extremes.min()), float(extremes.max())]),
        central=central if math.isfinite(central) else None,
        unit=unit,
        formula=formula,
        facts=tuple(dict.fromkeys([*used, *settled])),
        supplied=tuple(a.name for a in assumptions if not a.facts) + supplied,
        departures=felt,
    )


def _extent(values: Sequence[float]) -> Interval | None:
    return Interval(min(values), max(values)) if all(map(math.isfinite, values)) else None


_NOTHING = 1e-9
"""Rounding: a change no greater than this is none."""
