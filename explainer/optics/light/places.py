"""How strongly each place colours the dye, relative to the test bench: daylight, car glass, activation."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import product
from typing import Literal

import numpy as np

from explainer.optics.facts import spectra
from explainer.optics.formulas import car_glass, dye
from explainer.optics.formulas.reactive import ReactiveClass
from explainer.optics.formulas.spectrum import FloatArray, Spectrum
from explainer.optics.light.assumptions import Assumption, Departure, Looked, departures, from_facts, usual_of
from explainer.optics.light.daylight import Place, daylight

Pane = Literal["windscreen", "side_window_clear", "side_window_green"]
PANES: dict[Place, Pane] = {
    "windscreen_low_sun": "windscreen",
    "windscreen_shaded": "windscreen",
    "side_window_clear": "side_window_clear",
    "side_window_green": "side_window_green",
}
"""The glass between the daylight of a place and the lens, where there is one."""

GRID_NM = np.arange(300.0, 501.0)
"""Where a dye may react: below, air leaves nothing; above, no class reacts."""
GRID_NM.flags.writeable = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Exposure:
    """What colours the dye at a place, with the bench as 1: usual, one assumption at a time, all at once.

    `facts` are those that are taken as settled; the assumptions name their own.
    """

    usual: float
    lowest: float
    highest: float
    departures: tuple[Departure, ...]
    assumptions: tuple[Assumption, ...]
    facts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Curves:
    """Spectral curves on the grid: one row for each combination of values of their assumptions."""

    assumptions: tuple[Assumption, ...]
    rows: FloatArray
    facts: tuple[str, ...] = ()


@cache
def exposure(place: Place, tint: ReactiveClass, *, bench: str = "bench_direct") -> Exposure:
    """The exposure of a place for a class of dye; `bench` names the lamp spectrum that counts as 1."""
    sun = daylight(place)
    if place == "bench":
        return Exposure(usual=1.0, lowest=1.0, highest=1.0, departures=(), assumptions=(), facts=sun.facts)
    lights = _Curves(sun.assumptions, _rows(sun.assumptions, lambda *at: sun.build(*at).at(GRID_NM)), sun.facts)
    panes = _pane_curves(PANES[place]) if place in PANES else _Curves((), np.ones((1, GRID_NM.size)))
    dyes = _activations(tint)
    on_bench = np.trapezoid(dyes.rows * spectra.load("sky", bench).at(GRID_NM), GRID_NM, axis=-1)
    behind = lights.rows[:, None, None, :] * panes.rows[None, :, None, :] * dyes.rows[None, None, :, :]
    parts = (lights, panes, dyes)
    assumptions = tuple(a for part in parts for a in part.assumptions)
    results = np.trapezoid(behind, GRID_NM, axis=-1) / on_bench
    results = results.reshape([len(a.values) for a in assumptions])
    return Exposure(
        usual=usual_of(results),
        lowest=float(results.min()),
        highest=float(results.max()),
        departures=departures(assumptions, results),
        assumptions=assumptions,
        facts=tuple(dict.fromkeys(f for part in parts for f in part.facts)),
    )


def pane_spectrum(pane: Pane) -> Spectrum:
    """The usual spectral transmittance of a pane, 300 to 500 nm, for drawing."""
    return Spectrum(GRID_NM, _pane_curves(pane).rows[0])


def activation_spectrum(tint: ReactiveClass) -> Spectrum:
    """The usual activation of a class of dye, 300 to 500 nm, for drawing."""
    return Spectrum(GRID_NM, _activations(tint).rows[0])


@cache
def pane_edge(pane: Pane) -> Assumption:
    """Where the ultraviolet edge of a pane lies [nm]: usual, passing most, passing least, from published shares.

    Windscreen: usual from the share to 400 nm; the ends from the study of 29 cars. The band of its meter is not
    known, so its greatest share is taken to 380 nm and its least to 400 nm. Side windows: shares to 400 nm.
    """
    known = Looked()
    if pane == "side_window_clear":
        passed = known.parts("light.side_window_clear.uva_transmitted.range")
        usual, most, least = passed.middle, passed.high, passed.low
    else:
        kind = "windscreen" if pane == "windscreen" else "side_window"
        middle = "light.windscreen.uva400_blocked" if pane == "windscreen" else f"light.{kind}.uva_blocked.mean"
        blocked = known.parts(f"light.{kind}.uva_blocked.range")
        usual, most, least = 1 - known.part(middle), 1 - blocked.low, 1 - blocked.high
    most_to_nm = 380.0 if pane == "windscreen" else 400.0
    return Assumption(
        f"light.{pane}.edge",
        known.ids,
        _edge_nm(pane, usual, 400.0),
        _edge_nm(pane, most, most_to_nm),
        _edge_nm(pane, least, 400.0),
    )


def _edge_nm(pane: Pane, transmitted: float, high_nm: float) -> float:
    width, plateau = _shape(pane, Looked())
    return car_glass.half_wavelength_nm(
        transmitted=transmitted,
        sun=spectra.load("astm_g173", "global"),
        low_nm=315.0,
        high_nm=high_nm,
        width_nm=width,
        plateau=plateau,
    )


@cache
def _pane_curves(pane: Pane) -> _Curves:
    known = Looked()
    width, plateau = _shape(pane, known)

    def build(half_nm: float) -> FloatArray:
        return car_glass.glass_transmittance(wavelength_nm=GRID_NM, half_nm=half_nm, width_nm=width, plateau=plateau)

    edge = (pane_edge(pane),)
    return _Curves(edge, _rows(edge, build), known.ids)


def _shape(pane: Pane, known: Looked) -> tuple[float, float]:
    """Width of the ultraviolet edge [nm] and what passes above it [1]."""
    kind = "windscreen" if pane == "windscreen" else "side_window"
    return known.number(f"light.{kind}.edge_width"), known.part(f"light.{pane}.plateau")


@cache
def _activations(tint: ReactiveClass) -> _Curves:
    known = Looked()
    shape = {"peak_nm": known.number("light.activation.peak"), "below_nm": known.number("light.activation.below")}
    assumptions = [from_facts("light.activation.above")]
    if tint == "photochromic-visible":
        assumptions.append(from_facts("light.activation.visible_share"))
        shape["visible_peak_nm"] = known.number("light.activation.visible_peak")
        shape["visible_width_nm"] = known.number("light.activation.visible_width")

    def build(above_nm: float, visible_share: float = 0.0) -> FloatArray:
        return dye.activation(wavelength_nm=GRID_NM, above_nm=above_nm, visible_share=visible_share, **shape)

    return _Curves(tuple(assumptions), _rows(assumptions, build), known.ids)


def _rows(assumptions: Sequence[Assumption], build: Callable[..., FloatArray]) -> FloatArray:
    """One row for each combination of values, the last assumption changing fastest; the usual ones come first."""
    return np.stack([build(*values) for values in product(*(a.values for a in assumptions))])
