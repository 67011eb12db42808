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
    outline_from_box,
    swept_mm2,
)
from explainer.optics.formulas.surface import Array, sag_of_curvature_mm

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


def cut_lens_with_centre(
    *,
    outline: Outline,
    form: LensForm,
    centre_mm: float,
    inward_mm: float = 0.0,
    above_datum_mm: float = 0.0,
) -> CutLens:
    """The lens with a centre thickness that is known, for example measured at the bench.

    Parameters: outline, form, inward_mm, above_datum_mm as in cut_lens; centre_mm thickness before the pupil
        [mm].
    Returns: the cut lens.
    Raises: OutOfRange as cut_lens, and when the edge would be sharper than nothing.
    Equation: as in cut_lens, without solving.
    Reference: loomis-2011 (edge from centre and sags).
    """
    shape = centred_on_pupil(outline, side=form.side, inward_mm=inward_mm, above_datum_mm=above_datum_mm)
    grid, body = _grid(shape), lens_body(form=form, centre_mm=centre_mm)
    lens = _measure(shape, grid, form.side, body, body.thickness_mm(grid.x, grid.y))
    if lens.thinnest_mm <= 0:
        raise OutOfRange("thinnest place of the lens", lens.thinnest_mm, 0, math.inf, "mm")
    return lens


def round_lens(
    *,
    diameter_mm: float,
    sphere_d: float,
    index: float,
    front_power_d: float,
    minimum_centre_mm: float,
    minimum_edge_mm: float,
) -> CutLens:
    """A round, centred, spherical lens: what textbooks and laboratory tables calculate.

    Parameters: diameter_mm [mm]; sphere_d back vertex power [D]; the others as in cut_lens.
    Returns: the cut lens; side and axis mean nothing.
    Raises: OutOfRange as cut_lens.
    Equation: as in cut_lens, over a circle.
    Reference: forum-exact-thickness (the iteration).
    """
    return cut_lens(
        outline=outline_from_box(a_mm=diameter_mm, b_mm=diameter_mm, ed_mm=diameter_mm),
        form=LensForm(side="right", sphere_d=sphere_d, index=index, front_power_d=front_power_d),
        minimum_centre_mm=minimum_centre_mm,
        minimum_edge_mm=minimum_edge_mm,
    )


def edge_thickness_mm(
    *, centre_mm: float, front_curvature_per_mm: float, back_curvature_per_mm: float, height_mm: float
) -> float:
    """Edge thickness of a centred lens with two spherical surfaces.

    Parameters: centre_mm [mm]; front_curvature_per_mm, back_curvature_per_mm [1/mm], both positive for a
        meniscus with its hollow side to the eye; height_mm of the edge above the axis [mm].
    Returns: edge thickness along the axis [mm].
    Raises: OutOfRange when a surface does not reach the edge, or the surfaces cross before it.
    Equation: e = t - s1 + s2; exact.
    Reference: loomis-2011.
    """
    front = sag_of_curvature_mm(curvature_per_mm=front_curvature_per_mm, height_mm=height_mm)
    back = sag_of_curvature_mm(curvature_per_mm=back_curvature_per_mm, height_mm=height_mm)
    edge = centre_mm - front + back
    if edge < 0:
        raise OutOfRange("edge thickness", edge, 0, math.inf, "mm")
    return edge


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
