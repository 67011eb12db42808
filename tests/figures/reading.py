"""Reading drawn lines back from a figure's SVG, in millimetres from the top left corner."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET

from explainer.figures.drawing import Drawing

Point = tuple[float, float]

MM_PER_POINT = 25.4 / 72
SVG = "{http://www.w3.org/2000/svg}"
_NUMBER = re.compile(r"[-+]?[0-9.]+(?:e[-+]?[0-9]+)?")


def root(drawing: Drawing) -> ET.Element:
    return ET.fromstring(drawing.svg)


def names(drawing: Drawing) -> set[str]:
    return {group.get("id", "") for group in root(drawing).iter(f"{SVG}g")}


def points(drawing: Drawing, name: str) -> list[Point]:
    """All points of the path in the group of that name, control points of curves included."""
    found = [group for group in root(drawing).iter(f"{SVG}g") if group.get("id") == name]
    assert len(found) == 1, f"{len(found)} groups are named {name}"
    paths = list(found[0].iter(f"{SVG}path"))
    assert len(paths) == 1
    numbers = [float(n) * MM_PER_POINT for n in _NUMBER.findall(paths[0].get("d", ""))]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def all_points(drawing: Drawing) -> list[Point]:
    """The points of every path, control points included."""
    numbers = [
        [float(n) * MM_PER_POINT for n in _NUMBER.findall(path.get("d", ""))]
        for path in root(drawing).iter(f"{SVG}path")
    ]
    return [point for row in numbers for point in zip(row[::2], row[1::2], strict=True)]


def centre(drawing: Drawing, name: str) -> Point:
    """The middle of the box round a path."""
    left, top, right, bottom = box(drawing, name)
    return (left + right) / 2, (top + bottom) / 2


def box(drawing: Drawing, name: str) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of a path."""
    xs, ys = zip(*points(drawing, name), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def angle_deg(start: Point, end: Point) -> float:
    """The direction of a line as an axis, 0 to 180, anticlockwise as seen: the page's y runs downward."""
    return math.degrees(math.atan2(start[1] - end[1], end[0] - start[0])) % 180


def apart_deg(first: float, second: float) -> float:
    """How far two axes are apart."""
    return abs((first - second + 90) % 180 - 90)
