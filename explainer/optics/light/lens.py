"""The light-reactive lens of an order as parameter sets: generic, or narrowed by what the workshop supplied."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np

from explainer.errors import OutOfRange
from explainer.optics import facts
from explainer.optics.formulas import dye
from explainer.optics.formulas.dye import REFERENCE_CELSIUS, Real
from explainer.optics.formulas.photochromic import ParameterSet
from explainer.optics.formulas.reactive import ReactiveClass
from explainer.optics.light.assumptions import Assumption, Looked, axes, from_facts, settled
from explainer.optics.spectacles import LensData

MOST_COLOURED = 0.97
"""No dye colours completely: data that ask for a greater share mean that there is more dye."""

_TINT_AXES = 4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LensFamily:
    """All the lenses that this lens may be, as far as is known.

    `assumptions`: clear, dark, coloured share, energy (these four decide how dark it gets), fading half-time and
    slow share. `usual`: the lens with every value usual. `tints`: every combination of the first four, one array
    axis each. `times`: every combination of all. `bench`: supplied dark transmittances [1] by temperature [C].
    `settled`: the facts in it that are taken as settled.
    """

    assumptions: tuple[Assumption, ...]
    usual: ParameterSet
    tints: ParameterSet
    times: ParameterSet
    bench: tuple[tuple[float, float], ...]
    settled: tuple[str, ...]

    @property
    def clear(self) -> Assumption:
        """The clear transmittance [1]."""
        return self.assumptions[0]

    @property
    def tint_assumptions(self) -> tuple[Assumption, ...]:
        """The assumptions that decide how dark the lens gets; speed takes no part in that."""
        return self.assumptions[:_TINT_AXES]

    def one_at_a_time(self) -> tuple[ParameterSet, ...]:
        """The lenses in which one assumption alone is at an end."""
        sets = []
        for index, assumption in enumerate(self.assumptions):
            for end in assumption.values[1:]:
                values = [a.usual for a in self.assumptions]
                values[index] = end
                sets.append(self.with_values(values))
        return tuple(sets)

    def with_values(self, values: Sequence[float]) -> ParameterSet:
        """The one lens with these values, in the order of the assumptions."""
        return _parameters(self.bench, values, self.usual.slow_times)


@lru_cache(maxsize=64)
def lens_family(tint: ReactiveClass, data: LensData) -> LensFamily:
    """The generic lens of a class, with the workshop's data in place of the assumptions that they settle.

    Raises OutOfRange for data that contradict themselves: dark not darker than clear, or darker when warmer.
    """
    clear = from_facts(f"light.{tint}.clear", scale=0.01)
    dark = from_facts(f"light.{tint}.dark", scale=0.01)
    half = from_facts("light.dye.fade_half")
    if data.clear_percent is not None:
        clear = settled("clear_percent", data.clear_percent / 100)
    if data.fade_half_s is not None:
        half = settled("fade_half_s", data.fade_half_s)
    bench = tuple(sorted((celsius, percent / 100) for celsius, percent in data.dark_percent_by_celsius))
    if bench:
        dark = settled("dark_percent_by_celsius", bench[0][1])
        _check_bench(bench, clear.low)
    share, slow = from_facts("light.dye.coloured_share"), from_facts("light.dye.slow_share")
    assumptions = (clear, dark, share, _energy(), half, slow)
    usual = [a.usual for a in assumptions]
    known = Looked()
    slow_times = known.number("light.dye.slow_times")
    return LensFamily(
        assumptions=assumptions,
        usual=_parameters(bench, usual, slow_times),
        tints=_parameters(bench, [*axes(assumptions[:_TINT_AXES]), *usual[_TINT_AXES:]], slow_times),
        times=_parameters(bench, axes(assumptions), slow_times),
        bench=bench,
        settled=known.ids,
    )


def _energy() -> Assumption:
    """The activation energy; its ends are those that the measured slowing in the cold implies."""
    usual, ratio = facts.get("light.dye.energy.usual"), facts.get("light.dye.cold_fade_ratio")
    cold, warm = facts.get("light.dye.cold_celsius"), facts.get("light.dye.warm_celsius")
    low, high = (
        dye.activation_energy_kj_mol(times_slower=times, cold_celsius=cold.number, warm_celsius=warm.number)
        for times in (ratio.interval.low, ratio.interval.high)
    )
    return Assumption("light.dye.energy", (usual.id, ratio.id, cold.id, warm.id), usual.number, low, high)


def _check_bench(bench: tuple[tuple[float, float], ...], clear: float) -> None:
    for celsius, dark in bench:
        dye.check_celsius(celsius)
        if not 0 < dark < clear:
            raise OutOfRange(f"dark transmittance at {celsius:g} C", dark * 100, 0, clear * 100, "percent")
    for (cold, darker), (warm, lighter) in pairwise(bench):
        if cold == warm or lighter < darker:
            raise OutOfRange(f"dark transmittance at {warm:g} C", lighter * 100, darker * 100, 100, "percent")


def _parameters(bench: tuple[tuple[float, float], ...], values: Sequence[Real], slow_times: float) -> ParameterSet:
    """The parameter set of these values in the order of LensFamily.assumptions.

    The coloured share is that of the bench at 23 C. Where the workshop measured at other temperatures, the one
    nearest to 23 C is carried there by Arrhenius, and the others then say what share they must hold.
    """
    clear, dark, share, energy, half, slow = values
    known = bench or ((REFERENCE_CELSIUS, None),)
    celsius = tuple(each for each, _ in known)
    darks = [dark if each is None else each for _, each in known]
    nearest = min(range(len(known)), key=lambda i: abs(celsius[i] - REFERENCE_CELSIUS))
    faster = dye.warmth_factor(celsius=celsius[nearest], activation_kj_mol=energy)
    balance = np.asarray(share) / (1 - np.asarray(share)) / faster
    density = dye.full_density(clear=clear, dark=darks[nearest], coloured_share=balance / (1 + balance))
    needed = [dye.full_density(clear=clear, dark=each, coloured_share=MOST_COLOURED) for each in darks]
    density = np.maximum.reduce(np.broadcast_arrays(density, *needed))
    shares = [dye.share_for(clear=clear, density=density, wanted=each) for each in darks]
    return ParameterSet(
        clear=clear,
        density=density,
        bench_celsius=celsius,
        bench_balance=tuple(np.asarray(each) / (1 - np.asarray(each)) for each in shares),
        activation_kj_mol=energy,
        fade_half_s=half,
        slow_share=slow,
        slow_times=slow_times,
    )
