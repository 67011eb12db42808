"""The outline of one lens as it sits in the frame: from the boxing system or from a trace.

The picture is that of someone facing the wearer: x to the observer's right, y up, angles anticlockwise from x.
The nose is at the observer's right of the wearer's right lens (+x) and at the left of the left lens (-x).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np

from explainer.errors import FactError, OutOfRange
from explainer.optics.formulas import ranges
from explainer.optics.formulas.dial import Side, nasal_sign
from explainer.optics.formulas.surface import Array, as_array

FEWEST_POINTS = 36

BoxRule = Literal["superellipse"]
"""How an outline that nobody traced is drawn through its box."""


@dataclass(frozen=True, slots=True)
class Outline:
    """A closed line through points [mm], anticlockwise, measured from the point that it is centred on."""

    x_mm: tuple[float, ...]
    y_mm: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.x_mm) != len(self.y_mm) or len(self.x_mm) < FEWEST_POINTS:
            raise OutOfRange("outline points", len(self.x_mm), FEWEST_POINTS, math.inf, "")
        area = self.area_mm2
        if not (math.isfinite(area) and area > 0):
            raise OutOfRange("outline area (anticlockwise)", area, 0, math.inf, "mm2")

    def points(self) -> tuple[Array, Array]:
        """The points as two arrays, x and y [mm]."""
        return as_array(self.x_mm), as_array(self.y_mm)

    @property
    def a_mm(self) -> float:
        """Width of the box around the outline [mm]."""
        return max(self.x_mm) - min(self.x_mm)

    @property
    def b_mm(self) -> float:
        """Height of the box around the outline [mm]."""
        return max(self.y_mm) - min(self.y_mm)

    @property
    def box_centre_mm(self) -> tuple[float, float]:
        """Where the middle of the box lies, from the present centre [mm]."""
        return (max(self.x_mm) + min(self.x_mm)) / 2, (max(self.y_mm) + min(self.y_mm)) / 2

    @property
    def circumference_mm(self) -> float:
        """Length of the outline in the plane of the picture [mm]; the bevel of a curved lens is longer."""
        x, y = self.points()
        return float(np.sum(np.hypot(np.roll(x, -1) - x, np.roll(y, -1) - y)))

    @property
    def ed_mm(self) -> float:
        """Effective diameter: twice the distance from the box centre to the farthest edge point [mm]."""
        return 2 * _farthest_mm(centred_on_box(self))

    @property
    def area_mm2(self) -> float:
        """Area inside the outline [mm2]."""
        return float(np.sum(swept_mm2(*self.points()))) / 2


@lru_cache(maxsize=16)
def outline_from_box(
    *, a_mm: float, b_mm: float, ed_mm: float | None = None, exponent: float = 3.0, rule: BoxRule = "superellipse"
) -> Outline:
    """Smooth outline that touches a box on all four sides and reaches out to half the effective diameter.

    Parameters: a_mm, b_mm width and height of the box [mm]; ed_mm effective diameter [mm]; exponent used
        without it; rule the kind of line assumed, of which there is one.
    Returns: outline centred on the box.
    Raises: OutOfRange for a size outside 10 to 100 mm, or an ED below the longer side or above the diagonal;
        FactError for another rule.
    Equation: superellipse |2x/A|^p + |2y/B|^p = 1. It reaches out to the s-norm of (A/2, B/2), where
        s = 2p / (p - 2), so every possible ED belongs to one p: 2 the ellipse (ED is the longer side),
        infinite the rectangle (ED is the diagonal).
    Reference: derived (Hoelder's inequality). The real shape is not known from its box: symmetry and, without
        an ED, p = 3 are assumptions of ours.
    """
    if rule != "superellipse":
        raise FactError(f"no formula knows an outline by {rule}")
    for name, size in (("box width", a_mm), ("box height", b_mm)):
        ranges.within(name, size, 10, 100, "mm")
    p = exponent if ed_mm is None else _exponent(a_mm, b_mm, ed_mm)
    ranges.within("exponent of the outline", p, 2, math.inf)
    corner = _farthest_angle(a_mm, b_mm, p)
    corners = [corner, math.pi - corner, math.pi + corner, 2 * math.pi - corner]
    angles = np.union1d(np.arange(360) * (math.pi / 180), as_array(corners))
    cosine, sine = np.cos(angles), np.sin(angles)
    wide, high = np.abs(cosine) * (2 / a_mm), np.abs(sine) * (2 / b_mm)
    larger, smaller = np.maximum(wide, high), np.minimum(wide, high)
    radii = 1 / (larger * (1 + (smaller / larger) ** p) ** (1 / p))
    return _outline(radii * cosine, radii * sine)


def outline_from_radii(*, radii_mm: Sequence[float]) -> Outline:
    """Outline traced in a frame, centred on its box (the tracer's own centre lies a little beside it).

    Parameters: radii_mm radii at equal angles [mm], the first at 0 deg (the observer's right), anticlockwise.
    Returns: outline centred on the box.
    Raises: OutOfRange for fewer than 36 radii, or a radius outside 5 to 60 mm.
    Equation: x = r cos t, y = r sin t, then the box centre becomes the origin; straight lines between the
        points.
    Reference: memory (the trade's trace records).
    """
    radii = as_array(radii_mm)
    if radii.ndim != 1 or len(radii) < FEWEST_POINTS:
        raise OutOfRange("traced radii", radii.size, FEWEST_POINTS, math.inf, "")
    wrong = radii[~((radii >= 5) & (radii <= 60))]
    if wrong.size:
        raise OutOfRange("traced radius", float(wrong[0]), 5, 60, "mm")
    angles = np.arange(len(radii)) * (2 * math.pi / len(radii))
    return centred_on_box(_outline(radii * np.cos(angles), radii * np.sin(angles)))


def centred_on_box(outline: Outline) -> Outline:
    """The same outline, measured from the middle of its box."""
    x, y = outline.box_centre_mm
    return recentred(outline, x_mm=x, y_mm=y)


@lru_cache(maxsize=16)
def centred_on_pupil(outline: Outline, *, side: Side, inward_mm: float, above_datum_mm: float = 0.0) -> Outline:
    """The same outline, measured from the point before the pupil (the optical centre if there is no prism).

    Parameters: side of the wearer; inward_mm from the box centre towards the nose [mm]; above_datum_mm above
        the horizontal middle line of the box [mm].
    Returns: outline centred on that point.
    Raises: OutOfRange when the point lies outside the lens.
    Equation: the nose is at +x for the right lens, -x for the left.
    Reference: iso-8429-1986 (the observer's view); memory (boxing system).
    """
    middle_x, middle_y = outline.box_centre_mm
    moved = recentred(outline, x_mm=middle_x + nasal_sign(side) * inward_mm, y_mm=middle_y + above_datum_mm)
    if not _holds_origin(moved):
        distance = math.hypot(inward_mm, above_datum_mm)
        raise OutOfRange("distance of the optical centre from the box centre", distance, 0, _reach(moved), "mm")
    return moved


def above_datum_mm(*, height_mm: float, b_mm: float) -> float:
    """Height above the middle line of the box, from the height above the lowest point of the rim.

    Parameters: height_mm above the lowest rim point [mm]; b_mm box height [mm].
    Returns: height above the datum line [mm], negative below it.
    Raises: OutOfRange when the height lies outside the box.
    Equation: h - B / 2.
    Reference: decentration-quiz (segment height against the datum line).
    """
    return ranges.within("height above the lowest rim point", height_mm, 0, b_mm, "mm") - b_mm / 2


def minimum_uncut_mm(outline: Outline, *, allowance_mm: float = 0.0) -> float:
    """Smallest round lens blank that covers the outline, centred on the outline's present centre.

    Parameters: outline centred on the pupil; allowance_mm added for edging [mm].
    Returns: diameter [mm].
    Raises: nothing.
    Equation: twice the farthest edge distance from the optical centre; exact, where ED + 2 x decentration is
        a bound.
    Reference: memory; many books add 2 mm (minimum-blank-exam-item).
    """
    return 2 * _farthest_mm(outline) + allowance_mm


def recentred(outline: Outline, *, x_mm: float, y_mm: float) -> Outline:
    """The same outline, measured from another point [mm]."""
    x, y = outline.points()
    return _outline(x - x_mm, y - y_mm)


def horizontal_reach_mm(outline: Outline) -> tuple[float, float]:
    """Where the horizontal line through the centre leaves the lens: left (negative) and right [mm]."""
    x, y = outline.points()
    x_next, y_next = _next(x), _next(y)
    crosses = (y >= 0) != (y_next >= 0)
    share = y[crosses] / (y[crosses] - y_next[crosses])
    places = x[crosses] + share * (x_next[crosses] - x[crosses])
    return float(np.max(places[places < 0])), float(np.min(places[places >= 0]))


def swept_mm2(x_mm: Array, y_mm: Array) -> Array:
    """Twice the area that the ray from the centre sweeps between each point and the next [mm2]."""
    swept: Array = x_mm * _next(y_mm) - _next(x_mm) * y_mm
    return swept


def _next(values: Array) -> Array:
    """For each point of a closed line the value at the point after it."""
    return np.concatenate((values[1:], values[:1]))


def _outline(x: Array, y: Array) -> Outline:
    return Outline(tuple(x.tolist()), tuple(y.tolist()))


def _farthest_mm(outline: Outline) -> float:
    x, y = outline.points()
    return float(np.max(np.hypot(x, y)))


def _reach(outline: Outline) -> float:
    """How far from the box centre a lens point may lie at most [mm]."""
    return _farthest_mm(centred_on_box(outline))


def _holds_origin(outline: Outline) -> bool:
    """Whether the outline goes once round its centre."""
    x, y = outline.points()
    angle = np.arctan2(y, x)
    turns = np.diff(np.append(angle, angle[0]))
    return bool(abs(np.sum((turns + math.pi) % (2 * math.pi) - math.pi)) > math.pi)


def _exponent(a_mm: float, b_mm: float, ed_mm: float) -> float:
    longer, diagonal = max(a_mm, b_mm), math.hypot(a_mm, b_mm)
    ranges.within(f"ED of a box of {a_mm:g} x {b_mm:g} mm", ed_mm, longer, diagonal, "mm")
    wanted, ratio = math.log(ed_mm / longer), min(a_mm, b_mm) / longer
    low, high = 0.0, 0.5
    for _ in range(60):  # k = 1/s; the norm grows with k, and 60 halvings end below the rounding of floats
        k = (low + high) / 2
        low, high = (k, high) if k * math.log1p(ratio ** (1 / k)) < wanted else (low, k)
    return math.inf if high == 0.5 else 2 / (1 - 2 * high)


def _farthest_angle(a_mm: float, b_mm: float, p: float) -> float:
    """Direction of the farthest point of the superellipse in the first quarter [rad]."""
    if p == 2:
        return 0.0 if a_mm >= b_mm else math.pi / 2
    s = 2.0 if math.isinf(p) else 2 * p / (p - 2)
    share = 1 / (1 + math.exp(min(s * math.log(b_mm / a_mm), 700.0)))
    across = a_mm * share ** (1 / p)
    up = b_mm * (1 - share) ** (1 / p)
    return math.atan2(up, across)
