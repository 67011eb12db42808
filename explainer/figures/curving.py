"""Outlines as a few cubic curves: resampled by length, moved outward or inward, cut at a height.

Points are millimetres in any direction of y; closed outlines do not repeat their first point.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence
from itertools import pairwise

from explainer.figures.paths import CLOSE, CURVE, MOVE, Path, Point

PIECES = 24  # cubic curves of one outline: no point of a usual lens is then 0.02 mm off


def smooth(points: Sequence[Point], pieces: int = PIECES) -> Path:
    """A closed curve along a dense closed outline, as that many cubic pieces with the outline's own directions."""
    nodes = [_along(points, i / pieces) for i in range(pieces)]
    found: list[Point] = [nodes[0][0]]
    for (start, leaving), (end, arriving) in pairwise([*nodes, nodes[0]]):
        reach = math.dist(start, end) / 3 * _arc_factor(leaving, arriving)
        found.append((start[0] + leaving[0] * reach, start[1] + leaving[1] * reach))
        found.append((end[0] - arriving[0] * reach, end[1] - arriving[1] * reach))
        found.append(end)
    return Path((*found, found[0]), (MOVE, *(CURVE,) * (3 * pieces), CLOSE))


def _arc_factor(leaving: Point, arriving: Point) -> float:
    """By how much a handle is longer than a third of the chord, for an arc that turns so far."""
    turn = math.acos(max(-1.0, min(1.0, leaving[0] * arriving[0] + leaving[1] * arriving[1])))
    return 2 * math.tan(turn / 4) / math.sin(turn / 2) if 1e-6 < turn < math.pi / 2 else 1.0


def _along(points: Sequence[Point], share: float) -> tuple[Point, Point]:
    """The point at that share of the way round, and the direction there."""
    lengths = _lengths(points)
    total = lengths[-1]
    place, direction = _at(points, lengths, share * total), total * 0.006
    before, after = _at(points, lengths, share * total - direction), _at(points, lengths, share * total + direction)
    size = math.dist(before, after)
    return place, ((after[0] - before[0]) / size, (after[1] - before[1]) / size)


def _lengths(points: Sequence[Point]) -> list[float]:
    found = [0.0]
    for start, end in pairwise([*points, points[0]]):
        found.append(found[-1] + math.dist(start, end))
    return found


def _at(points: Sequence[Point], lengths: Sequence[float], length: float) -> Point:
    length %= lengths[-1]
    i = min(bisect_right(lengths, length) - 1, len(points) - 1)
    start, end = points[i], points[(i + 1) % len(points)]
    step = lengths[i + 1] - lengths[i]
    share = (length - lengths[i]) / step if step else 0.0
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def moved_out(points: Sequence[Point], width: Callable[[Point], float] | float) -> list[Point]:
    """Every point moved outward at right angles to an anticlockwise outline (y up); a negative width moves it in.

    `width` may depend on the direction in which the outline faces there.
    """
    count, found = len(points), []
    for i, (x, y) in enumerate(points):
        before, after = points[(i - 2) % count], points[(i + 2) % count]
        size = math.dist(before, after)
        facing = ((after[1] - before[1]) / size, -(after[0] - before[0]) / size)
        by = width(facing) if callable(width) else width
        found.append((x + by * facing[0], y + by * facing[1]))
    return found


def reach_at(points: Sequence[Point], y: float, *, rightmost: bool) -> float:
    """The outline's farthest x to the right, or to the left, at a height; that of its box where it is not so high."""
    found = []
    for (x1, y1), (x2, y2) in pairwise([*points, points[0]]):
        if (y1 > y) != (y2 > y):
            found.append(x1 + (y - y1) * (x2 - x1) / (y2 - y1))
    if not found:
        found = [x for x, _ in points]
    return max(found) if rightmost else min(found)


def piece_of(points: Sequence[Point], keep: Callable[[Point], bool]) -> list[Point]:
    """The longest run of an outline's points that are to be kept, in their order."""
    count = len(points)
    kept = [keep(point) for point in points]
    if all(kept):
        return list(points)
    start = next(i for i in range(count) if not kept[i])
    runs: list[list[Point]] = [[]]
    for i in range(start, start + count):
        if kept[i % count]:
            runs[-1].append(points[i % count])
        elif runs[-1]:
            runs.append([])
    return max(runs, key=len)
