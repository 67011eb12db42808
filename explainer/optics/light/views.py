"""The bands of one lens together: under the names of the claims, as curves in time, and what moves them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from explainer.optics.formulas import photochromic
from explainer.optics.formulas.photochromic import ParameterSet
from explainer.optics.formulas.reactive import ReactiveClass
from explainer.optics.formulas.spectrum import FloatArray
from explainer.optics.light.assumptions import Departure
from explainer.optics.light.bands import (
    Band,
    changing,
    darken_half_time,
    fade_time,
    transmittance,
)
from explainer.optics.light.daylight import PLACES, Place
from explainer.optics.light.lens import LensFamily, lens_family
from explainer.optics.light.places import Exposure, exposure
from explainer.optics.spectacles import LensChoice, LensData

CELSIUS = (5.0, 23.0, 35.0)
"""The lens temperatures of a leaflet [C]; any between 0 and 40 may be asked for."""
TARGETS = (75, 80)
"""What a lens is timed to clear to [percent]: the night limit, and nearly clear."""


@lru_cache(maxsize=512)
def reactive_bands(tint: ReactiveClass, data: LensData, celsius: float) -> Mapping[str, Band]:
    """Every band of a lens that changes at one temperature, by the name of its claim.

    Kept, because most orders are of few lenses.
    """
    lens = LensChoice(tint=tint, supplied=data)
    bands = {
        f"tint.{place}.{celsius:g}.transmittance": transmittance(lens, place=place, celsius=celsius) for place in PLACES
    }
    times = {f"tint.fade.{celsius:g}.to_{t}": fade_time(lens, celsius=celsius, to_percent=t) for t in TARGETS}
    return bands | times | {f"tint.darken.{celsius:g}.half": darken_half_time(lens, celsius=celsius)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Sensitivity:
    """One row: what a band's central value becomes when one assumption goes to its ends. Infinite: never."""

    band: str
    unit: str
    central: float | None
    move: Departure

    @property
    def swing(self) -> float:
        """How far apart the two results are, in the band's unit."""
        return abs(self.move.at_high - self.move.at_low)


def sensitivity(lens: LensChoice, *, celsius: Sequence[float] = CELSIUS) -> tuple[Sensitivity, ...]:
    """Which assumption moves which band by how much, the strongest of each band first.

    Besides the assumptions that make the bands, one that is not in them: the bench lamp taken as the global and
    not the direct spectrum (both its ends are that one result).
    """
    rows = []
    kept = [reactive_bands(changing(lens), lens.supplied.of_light(), degrees) for degrees in celsius]
    for name, band in (row for bands in kept for row in bands.items()):
        moves = [*band.departures, *_other_lamp(lens, name, celsius)]
        found = [Sensitivity(band=name, unit=band.unit, central=band.central, move=move) for move in moves]
        rows += sorted(found, key=lambda row: -row.swing)
    return tuple(rows)


def _other_lamp(lens: LensChoice, name: str, celsius: Sequence[float]) -> list[Departure]:
    asked = [(p, c) for p in PLACES for c in celsius if name == f"tint.{p}.{c:g}.transmittance" and p != "bench"]
    if not asked:
        return []
    place, degrees = asked[0]
    tint, family = _family(lens)
    usual = family.usual
    direct, globe = (
        100 * float(usual.steady_transmittance(exposure(place, tint, bench=lamp).usual, degrees))
        for lamp in ("bench_direct", "bench_global")
    )
    return [Departure("light.bench.spectrum", 0.0, 1.0, direct, globe)]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Curves:
    """Transmittance [percent] against time [s]: the usual lens, and the extent one assumption at a time."""

    seconds: FloatArray
    low: FloatArray
    central: FloatArray
    high: FloatArray


def fading(lens: LensChoice, *, seconds: Sequence[float], celsius: float, place: Place = "bench") -> Curves:
    """How the lens clears without ultraviolet from its dark at a place. FactError for a tint that is fixed."""
    tint, family = _family(lens)
    times = np.array(seconds, dtype=np.float64)

    def follow(one: ParameterSet, exposed: float) -> FloatArray:
        share = photochromic.share_while_fading(
            seconds=times,
            start=one.steady_share(exposed, celsius),
            fade_rate=one.fade_rate(celsius),
            slow_share=one.slow_share,
            slow_times=one.slow_times,
        )
        return 100 * np.asarray(one.transmittance(share))

    return _curves(times, family, exposure(place, tint), follow)


def _family(lens: LensChoice) -> tuple[ReactiveClass, LensFamily]:
    tint = changing(lens)
    return tint, lens_family(tint, lens.supplied)


def _curves(
    seconds: FloatArray,
    family: LensFamily,
    there: Exposure,
    follow: Callable[[ParameterSet, float], FloatArray],
) -> Curves:
    central = follow(family.usual, there.usual)
    ends = [value for move in there.departures for value in (move.at_low, move.at_high)]
    every = [central, *(follow(one, there.usual) for one in family.one_at_a_time())]
    every += [follow(family.usual, exposed) for exposed in ends]
    stacked = np.stack(every)
    return Curves(seconds=seconds, low=stacked.min(axis=0), central=central, high=stacked.max(axis=0))
