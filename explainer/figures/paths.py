"""Pure geometry of the figures: paths in millimetres on the page, x to the right, y downward from the top.

Angles are those of the trade: anticlockwise from the page's right, as they look. `polar` is the one place
that turns such an angle into a point of the page, so that a sign can be wrong in one place only.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

Point = tuple[float, float]

MOVE, LINE, CURVE, CLOSE = 1, 2, 4, 79  # matplotlib's own path codes
_KAPPA = 4 / 3 * math.tan(math.pi / 8)  # a quarter circle as one cubic curve


class Path(NamedTuple):
    """Points and what the pen does at each of them."""

    points: tuple[Point, ...]
    codes: tuple[int, ...]


def polar(centre: Point, radius: float, angle_deg: float) -> Point:
    """The point at that distance and angle, anticlockwise as seen."""
    angle = math.radians(angle_deg)
    return centre[0] + radius * math.cos(angle), centre[1] - radius * math.sin(angle)


def polyline(points: Iterable[Point], *, closed: bool = False) -> Path:
    """Straight pieces through all points."""
    found = tuple((float(x), float(y)) for x, y in points)
    codes = (MOVE, *(LINE,) * (len(found) - 1))
    return Path((*found, found[0]), (*codes, CLOSE)) if closed else Path(found, codes)


def spline(points: Sequence[Point], *, closed: bool = False) -> Path:
    """A smooth curve through all points (Catmull-Rom, as cubic pieces)."""
    count = len(points)
    around = [points[0], *points, points[-1]]
    if closed:
        around = [points[(i - 1) % count] for i in range(count + 3)]
    found: list[Point] = [around[1]]
    for before, start, end, after in zip(around, around[1:], around[2:], around[3:], strict=False):
        found.append((start[0] + (end[0] - before[0]) / 6, start[1] + (end[1] - before[1]) / 6))
        found.append((end[0] - (after[0] - start[0]) / 6, end[1] - (after[1] - start[1]) / 6))
        found.append(end)
    path = Path(tuple(found), (MOVE, *(CURVE,) * (len(found) - 1)))
    return Path((*path.points, found[0]), (*path.codes, CLOSE)) if closed else path


def ellipse(centre: Point, along: float, across: float, turn_deg: float = 0.0) -> Path:
    """An ellipse with half-axis `along` in the direction `turn_deg` and `across` at right angles to it."""
    k = _KAPPA
    unit = [
        (1, 0),
        (1, k),
        (k, 1),
        (0, 1),
        (-k, 1),
        (-1, k),
        (-1, 0),
        (-1, -k),
        (-k, -1),
        (0, -1),
        (k, -1),
        (1, -k),
    ]
    cosine, sine = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    turned = [
        (
            centre[0] + x * along * cosine - y * across * sine,
            centre[1] - x * along * sine - y * across * cosine,
        )
        for x, y in unit
    ]
    return Path((*turned, turned[0], turned[0]), (MOVE, *(CURVE,) * 12, CLOSE))


def circle(centre: Point, radius: float) -> Path:
    """A full circle."""
    return ellipse(centre, radius, radius)


def arc(centre: Point, radius: float, from_deg: float, to_deg: float) -> Path:
    """Part of a circle, from one angle to the other."""
    pieces = max(1, math.ceil(abs(to_deg - from_deg) / 45))
    step = math.radians((to_deg - from_deg) / pieces)
    reach = radius * 4 / 3 * math.tan(step / 4)
    found: list[Point] = [polar(centre, radius, from_deg)]
    for i in range(pieces):
        start, end = from_deg + math.degrees(step) * i, from_deg + math.degrees(step) * (i + 1)
        found.append(polar(polar(centre, radius, start), reach, start + 90))
        found.append(polar(polar(centre, radius, end), -reach, end + 90))
        found.append(polar(centre, radius, end))
    return Path(tuple(found), (MOVE, *(CURVE,) * (3 * pieces)))


def box(x: float, y: float, width: float, height: float) -> Path:
    """A rectangle from its top left corner."""
    return polyline([(x, y), (x + width, y), (x + width, y + height), (x, y + height)], closed=True)


def round_box(x: float, y: float, width: float, height: float, radius: float) -> Path:
    """A rectangle with round corners, from its top left corner."""
    r, k = radius, radius * (1 - _KAPPA)
    right, low = x + width, y + height
    points = [
        *[(x + r, y), (right - r, y), (right - k, y), (right, y + k), (right, y + r)],
        *[(right, low - r), (right, low - k), (right - k, low), (right - r, low)],
        *[(x + r, low), (x + k, low), (x, low - k), (x, low - r)],
        *[(x, y + r), (x, y + k), (x + k, y), (x + r, y), (x + r, y)],
    ]
    side = (LINE, CURVE, CURVE, CURVE)
    return Path(tuple(points), (MOVE, *side, *side, *side, *side, CLOSE))


def placed(path: Path, scale: float, dx: float, dy: float) -> Path:
    """The same path that many times as large, its old origin now at (dx, dy)."""
    return Path(tuple((dx + scale * x, dy + scale * y) for x, y in path.points), path.codes)


def joined(paths: Iterable[Path]) -> Path:
    """Several paths as one."""
    every = list(paths)
    return Path(tuple(p for path in every for p in path.points), tuple(c for path in every for c in path.codes))


def arrow_head(tip: Point, tail: Point, size: float = 1.8) -> Path:
    """A slim triangle whose tip points away from `tail`."""
    length = math.dist(tip, tail)
    ux, uy = (tip[0] - tail[0]) / length, (tip[1] - tail[1]) / length
    back = (tip[0] - size * ux, tip[1] - size * uy)
    half = 0.36 * size
    return polyline(
        [tip, (back[0] - half * uy, back[1] + half * ux), (back[0] + half * uy, back[1] - half * ux)],
        closed=True,
    )


def hatching(x: float, y: float, width: float, height: float, gap: float) -> list[Path]:
    """Lines rising to the right, `gap` apart along x, cut to the rectangle exactly."""
    lines = []
    count = int((width + height) / gap)
    for i in range(1, count + 1):
        offset = i * gap  # the line x' + y' = offset, in coordinates from the top left corner
        start = (x + max(0.0, offset - height), y + min(offset, height))
        end = (x + min(offset, width), y + max(0.0, offset - width))
        if math.dist(start, end) > 0.2:
            lines.append(polyline([start, end]))
    return lines
