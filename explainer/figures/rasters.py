"""Scenes made of areas with known luminance, as rasters in linear light and as drawn shapes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from explainer.figures.paths import Point, box, polyline
from explainer.figures.style import Canvas, solid
from explainer.figures.tones import tone

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array = npt.NDArray[np.float64]

Polygon = tuple[Point, ...]
_OVERSAMPLING = 4


class Area(NamedTuple):
    """A polygon in the scene's own units, y downward, and its luminance against white paper, 0 to 1."""

    polygon: Polygon
    luminance: float


class Scene(NamedTuple):
    """Areas, later ones over earlier ones, in a box from its left top corner; what lies between them is `ground`."""

    left: float
    top: float
    width: float
    height: float
    areas: tuple[Area, ...]
    ground: float = 1.0


@lru_cache(maxsize=6)  # every blur of a scene begins with the same one; it is not to be written to
def rastered(scene: Scene, pixels: float, margin: int = 0) -> Array:
    """Luminances, so many pixels a unit, rows from the top, smoothed at edges; `margin` more pixels on every side."""
    import numpy as np

    fine = pixels * _OVERSAMPLING
    wide, high = round(scene.width * pixels) + 2 * margin, round(scene.height * pixels) + 2 * margin
    columns = scene.left - margin / pixels + (np.arange(wide * _OVERSAMPLING) + 0.5) / fine
    rows = scene.top - margin / pixels + (np.arange(high * _OVERSAMPLING) + 0.5) / fine
    luminance = np.full((rows.size, columns.size), scene.ground)
    for polygon, value in scene.areas:
        xs, ys = [x for x, _ in polygon], [y for _, y in polygon]
        down = slice(*np.searchsorted(rows, (min(ys), max(ys))))
        across = slice(*np.searchsorted(columns, (min(xs), max(xs))))
        part = luminance[down, across]
        part[_inside(polygon, *np.meshgrid(columns[across], rows[down]))] = value
    cells = (high, _OVERSAMPLING, wide, _OVERSAMPLING)
    smooth: Array = luminance.reshape(cells).mean(axis=(1, 3))
    smooth.flags.writeable = False
    return smooth


def _inside(polygon: Polygon, x: Array, y: Array) -> npt.NDArray[np.bool_]:
    """Which points lie inside: those from which a line to the right crosses the polygon an odd number of times."""
    import numpy as np

    found = np.zeros(x.shape, dtype=bool)
    for (x1, y1), (x2, y2) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        if y1 == y2:
            continue
        crosses = (y1 > y) != (y2 > y)
        found ^= crosses & (x < x1 + (y - y1) * (x2 - x1) / (y2 - y1))
    return found


def draw_sharp(canvas: Canvas, scene: Scene, width_mm: float) -> None:
    """The scene as shapes, from the canvas's left top corner: sharp at any size."""
    scale = width_mm / scene.width
    sheet = box(0, 0, width_mm, scene.height * scale)
    canvas.add(sheet, solid(tone(100 * scene.ground)))
    for polygon, luminance in scene.areas:
        points = [((x - scene.left) * scale, (y - scene.top) * scale) for x, y in polygon]
        canvas.add(polyline(points, closed=True), solid(tone(100 * luminance)), clip=sheet)


def rectangle(left: float, top: float, width: float, height: float) -> Polygon:
    """A rectangle from its left top corner."""
    return ((left, top), (left + width, top), (left + width, top + height), (left, top + height))


def disc(centre: Point, radius: float, count: int = 40) -> Polygon:
    """A circle."""
    turns = [math.tau * i / count for i in range(count)]
    return tuple((centre[0] + radius * math.cos(t), centre[1] + radius * math.sin(t)) for t in turns)


def rounded(left: float, top: float, width: float, height: float, radius: float) -> Polygon:
    """A rectangle with round corners."""
    found: list[Point] = []
    near, far = left + radius, left + width - radius
    high, low = top + radius, top + height - radius
    corners = ((far, high, -90), (far, low, 0), (near, low, 90), (near, high, 180))
    for x, y, start in corners:
        turns = [math.radians(start + 15 * i) for i in range(7)]
        found += [(x + radius * math.cos(t), y + radius * math.sin(t)) for t in turns]
    return tuple(found)


def stroke(start: Point, end: Point, width: float) -> Polygon:
    """A straight bar."""
    length = math.dist(start, end)
    ax, ay = -(end[1] - start[1]) / length * width / 2, (end[0] - start[0]) / length * width / 2
    return (
        (start[0] + ax, start[1] + ay),
        (end[0] + ax, end[1] + ay),
        (end[0] - ax, end[1] - ay),
        (start[0] - ax, start[1] - ay),
    )


def arrow(start: Point, tip: Point, width: float) -> tuple[Polygon, Polygon]:
    """A shaft and a broad head."""
    length = math.dist(start, tip)
    ux, uy = (tip[0] - start[0]) / length, (tip[1] - start[1]) / length
    neck, half = (tip[0] - 1.9 * width * ux, tip[1] - 1.9 * width * uy), 1.5 * width
    head = (tip, (neck[0] - half * uy, neck[1] + half * ux), (neck[0] + half * uy, neck[1] - half * ux))
    return stroke(start, neck, width), head


_LETTERS: dict[str, Sequence[Point]] = {  # in a box four wide and five high; strokes one wide
    "E": ((0, 0), (4, 0), (4, 1), (1, 1), (1, 2), (3.5, 2), (3.5, 3), (1, 3), (1, 4), (4, 4), (4, 5), (0, 5)),
    "F": ((0, 0), (4, 0), (4, 1), (1, 1), (1, 2), (3.5, 2), (3.5, 3), (1, 3), (1, 5), (0, 5)),
    "H": ((0, 0), (1, 0), (1, 2), (3, 2), (3, 0), (4, 0), (4, 5), (3, 5), (3, 3), (1, 3), (1, 5), (0, 5)),
    "L": ((0, 0), (1, 0), (1, 4), (4, 4), (4, 5), (0, 5)),
    "T": ((0, 0), (4, 0), (4, 1), (2.5, 1), (2.5, 5), (1.5, 5), (1.5, 1), (0, 1)),
}


def letter(name: str, left: float, top: float, height: float) -> Polygon:
    """One of a few plain letters, four fifths as wide as high, of strokes a fifth of the height."""
    unit = height / 5
    return tuple((left + unit * x, top + unit * y) for x, y in _LETTERS[name])
