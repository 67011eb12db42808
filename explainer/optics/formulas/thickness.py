"""How thick the finished lens is: over the whole outline, so that centre and edge keep their minimum."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import NamedTuple

import numpy as np

from explainer.errors import OutOfRange
from explainer.optics.formulas import ranges
from explainer.optics.formulas.dial import Side
from explainer.optics.formulas.lens_body import LensBody, LensForm, lens_body
from explainer.optics.formulas.shape import (
    Outline,
    centred_on_pupil,
    horizontal_reach_mm,
    minimum_uncut_mm,
    swept_mm2,
)
from explainer.optics.formulas.surface import Array

# Gauss-Legendre nodes from centre to edge: more than the volume needs, but they find the thinnest place too.
_RINGS = 12
_SECTION_POINTS = 81


@dataclass(frozen=True, slots=True)
class Section:
    """The horizontal cut through the point before the pupil: places and depths [mm], for a drawing.

    x runs to the observer's right from that point; depths run from the front vertex towards the eye.
    """

    x_mm: tuple[float, ...]
    front_mm: tuple[float, ...]
    back_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLens:
    """One finished lens: thicknesses along the axis [mm] before bevel or groove, curves [D], volume [cm3].

    The nasal and temporal edge are the ends of the horizontal section. minimum_uncut_mm is without any
    allowance. Back curves are those along and across the axis of the cylinder.
    """

    side: Side
    centre_mm: float
    thinnest_edge_mm: float
    thickest_edge_mm: float
    nasal_edge_mm: float
    temporal_edge_mm: float
    thinnest_mm: float
    thickest_mm: float
    minimum_uncut_mm: float
    volume_cm3: float
    front_curve_d: float
    back_curve_along_axis_d: float
    back_curve_across_axis_d: float
    axis_deg: float
    section: Section


class _Grid(NamedTuple):
    """Places ring by ring, the last ring the edge itself, and the area that each stands for [mm2]."""

    x: Array
    y: Array
    area: Array


def cut_lens(
    *,
    outline: Outline,
    form: LensForm,
    minimum_centre_mm: float,
    minimum_edge_mm: float,
    inward_mm: float = 0.0,
    above_datum_mm: float = 0.0,
) -> CutLens:
    """The thinnest lens that keeps both minimum thicknesses.

    Parameters: outline of the lens; form prescription, index, front curve; minimum_centre_mm before the pupil
        and minimum_edge_mm anywhere [mm]; inward_mm, above_datum_mm where the pupil stands from the box
        centre [mm].
    Returns: the cut lens.
    Raises: OutOfRange when a surface does not reach the edge, or the pupil stands outside the lens.
    Equation: t = s_back - s_front + centre + tilt at every place; the centre is raised until min(t) is kept,
        and because the back curve depends on the centre this is repeated until it no longer moves (1e-6 mm).
        One rule serves plus, minus, mixed and prismatic lenses. With strong prism a minus lens may be thinner
        than minimum_centre_mm beside the centre: that is thinnest_mm, and never below minimum_edge_mm.
    Reference: forum-exact-thickness (the iteration); loomis-2011 (edge from centre and sags).
    """
    ranges.within("minimum centre thickness", minimum_centre_mm, 0.1, 20, "mm")
    ranges.within("minimum edge thickness", minimum_edge_mm, 0.1, 20, "mm")
    shape = centred_on_pupil(outline, side=form.side, inward_mm=inward_mm, above_datum_mm=above_datum_mm)
    grid = _grid(shape)
    centre = float(minimum_centre_mm)
    front = lens_body(form=form, centre_mm=centre).front_mm(grid.x, grid.y)  # the same for every centre thickness
    for _ in range(100):
        body = lens_body(form=form, centre_mm=centre)
        thickness = body.back_mm(grid.x, grid.y) - front
        wanted = max(minimum_centre_mm, centre + minimum_edge_mm - float(thickness.min()))
        if wanted == centre:
            return _measure(shape, grid, form.side, body, thickness)
        if abs(wanted - centre) < 1e-6:
            body = lens_body(form=form, centre_mm=wanted)
            return _measure(shape, grid, form.side, body, body.back_mm(grid.x, grid.y) - front)
        centre = wanted
    # Met by no lens tried, two thousand random ones among them; a loop must still not run for ever.
    raise OutOfRange("centre thickness", centre, minimum_centre_mm, math.inf, "mm")  # pragma: no cover


@cache
def _rings() -> tuple[Array, Array]:
    """Radii between 0 and 1 with their weights for an integral over r dr, and the edge with weight 0."""
    nodes, weights = np.polynomial.legendre.leggauss(_RINGS)
    radii = (nodes + 1) / 2
    return np.append(radii, 1.0), np.append(weights / 2 * radii, 0.0)


@lru_cache(maxsize=16)
def _grid(shape: Outline) -> _Grid:
    x, y = shape.points()
    swept = swept_mm2(x, y)
    radii, weights = _rings()
    per_ray = (swept + np.roll(swept, 1)) / 2
    return _Grid(np.outer(radii, x), np.outer(radii, y), np.outer(weights, per_ray))


def _measure(shape: Outline, grid: _Grid, side: Side, body: LensBody, thickness: Array) -> CutLens:
    centre_mm, edge = body.centre_mm, thickness[-1]
    section = _section(body, *horizontal_reach_mm(shape))
    ends = [section.back_mm[i] - section.front_mm[i] for i in (0, -1)]
    temporal, nasal = ends if side == "right" else reversed(ends)
    return CutLens(
        side=side,
        centre_mm=centre_mm,
        thinnest_edge_mm=float(edge.min()),
        thickest_edge_mm=float(edge.max()),
        nasal_edge_mm=nasal,
        temporal_edge_mm=temporal,
        thinnest_mm=min(centre_mm, float(thickness.min())),
        thickest_mm=max(centre_mm, float(thickness.max())),
        minimum_uncut_mm=minimum_uncut_mm(shape),
        volume_cm3=float(np.sum(grid.area * thickness)) / 1000,
        front_curve_d=body.front_power_d,
        back_curve_along_axis_d=body.back_along_d,
        back_curve_across_axis_d=body.back_across_d,
        axis_deg=body.axis_deg,
        section=section,
    )


def _section(body: LensBody, left_mm: float, right_mm: float) -> Section:
    x = np.linspace(left_mm, right_mm, _SECTION_POINTS)
    level = np.zeros_like(x)
    front, back = body.front_mm(x, level), body.back_mm(x, level)
    return Section(tuple(x.tolist()), tuple(front.tolist()), tuple(back.tolist()))
