"""The test picture of the sight figure: letters and a road sign of our own, as polygons and as a raster.

Letters are built from strokes a fifth of their height, as in charts for testing sight. The sign has upright,
level and slanting strokes, because a cylinder blurs strokes of one direction more than those of another.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache

import numpy as np
import numpy.typing as npt

from explainer.figures.paths import Point

Array = npt.NDArray[np.float64]
Polygon = tuple[Point, ...]

WIDE_MM, HIGH_MM = 40.0, 36.0
LETTER_MM = 10.0
BLACK, WHITE = 0.01, 1.0  # luminance of ink and paper, relative
_OVERSAMPLING = 4


def letter(name: str, left: float, top: float, height: float) -> Polygon:
    """E, F or H as one polygon in a box four fifths as wide as high, of strokes a fifth of the height."""
    unit = height / 5
    corners: dict[str, Sequence[tuple[float, float]]] = {
        "E": [
            (0, 0),
            (4, 0),
            (4, 1),
            (1, 1),
            (1, 2),
            (3.5, 2),
            (3.5, 3),
            (1, 3),
            (1, 4),
            (4, 4),
            (4, 5),
            (0, 5),
        ],
        "F": [(0, 0), (4, 0), (4, 1), (1, 1), (1, 2), (3.5, 2), (3.5, 3), (1, 3), (1, 5), (0, 5)],
        "H": [(0, 0), (1, 0), (1, 2), (3, 2), (3, 0), (4, 0), (4, 5), (3, 5), (3, 3), (1, 3), (1, 5), (0, 5)],
    }
    return tuple((left + unit * x, top + unit * y) for x, y in corners[name])


def scene() -> tuple[tuple[Polygon, float], ...]:
    """Polygons in millimetres, y downward, each with its luminance; later ones cover earlier ones."""
    letters = [letter(name, 5.0 + 11.0 * i, 2.0, LETTER_MM) for i, name in enumerate("EHF")]
    board: Polygon = ((5, 16), (35, 16), (35, 34), (5, 34))
    inside: Polygon = ((6.6, 17.6), (33.4, 17.6), (33.4, 32.4), (6.6, 32.4))
    fork = [
        _stroke((20, 31.5), (20, 25.9)),
        *_arrow((20, 26.3), (13.2, 19.5)),
        *_arrow((20, 26.3), (26.8, 19.5)),
    ]
    black = [*letters, board]
    return (*((p, BLACK) for p in black), (inside, WHITE), *((p, BLACK) for p in fork))


@cache
def raster(pixels_per_mm: int) -> Array:
    """The scene as luminances, rows from the top, smoothed at the edges of strokes; made once, not to be written to."""
    fine = pixels_per_mm * _OVERSAMPLING
    high, wide = round(HIGH_MM * fine), round(WIDE_MM * fine)
    luminance = np.full((high, wide), WHITE)
    places = (np.arange(max(high, wide)) + 0.5) / fine
    for polygon, value in scene():
        xs, ys = [x for x, _ in polygon], [y for _, y in polygon]
        rows = slice(*np.searchsorted(places, (min(ys), max(ys))))
        columns = slice(*np.searchsorted(places, (min(xs), max(xs))))
        part = luminance[rows, columns]
        part[inside(polygon, *np.meshgrid(places[columns], places[rows]))] = value
    cells = (high // _OVERSAMPLING, _OVERSAMPLING, wide // _OVERSAMPLING, _OVERSAMPLING)
    smooth: Array = luminance.reshape(cells).mean(axis=(1, 3))
    smooth.flags.writeable = False
    return smooth


def inside(polygon: Polygon, x: Array, y: Array) -> npt.NDArray[np.bool_]:
    """Which points lie inside a polygon: those from which a line to the right crosses it an odd number of times."""
    found = np.zeros(x.shape, dtype=bool)
    for (x1, y1), (x2, y2) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        if y1 == y2:
            continue
        crosses = (y1 > y) != (y2 > y)
        found ^= crosses & (x < x1 + (y - y1) * (x2 - x1) / (y2 - y1))
    return found


def _stroke(start: Point, end: Point, width: float = 2.0) -> Polygon:
    length = math.dist(start, end)
    across = (-(end[1] - start[1]) / length * width / 2, (end[0] - start[0]) / length * width / 2)
    return (
        (start[0] + across[0], start[1] + across[1]),
        (end[0] + across[0], end[1] + across[1]),
        (end[0] - across[0], end[1] - across[1]),
        (start[0] - across[0], start[1] - across[1]),
    )


def _arrow(start: Point, tip: Point) -> tuple[Polygon, Polygon]:
    """A shaft and a broad head."""
    length = math.dist(start, tip)
    ux, uy = (tip[0] - start[0]) / length, (tip[1] - start[1]) / length
    neck = (tip[0] - 3.6 * ux, tip[1] - 3.6 * uy)
    head = (tip, (neck[0] - 2.8 * uy, neck[1] + 2.8 * ux), (neck[0] + 2.8 * uy, neck[1] - 2.8 * ux))
    return _stroke(start, neck), head
