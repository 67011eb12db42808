"""The extent of a named shape in a drawing, curves followed: control points may lie beyond what is drawn."""

from __future__ import annotations

import re

from figures.reading import MM_PER_POINT, SVG, Point, root

from explainer.figures.drawing import Drawing

_STEP = re.compile(r"([MLCZz])([^MLCZz]*)")
_FINE = 24


def trace(d: str) -> list[Point]:
    """Points along a path of moves, lines and cubic curves, in millimetres."""
    found: list[Point] = []
    for command, rest in _STEP.findall(d):
        numbers = [float(n) * MM_PER_POINT for n in rest.split()]
        places = list(zip(numbers[::2], numbers[1::2], strict=True))
        if command in "ML":
            found += places
        elif command == "C":
            for first, second, end in zip(places[::3], places[1::3], places[2::3], strict=True):
                start = found[-1]
                found += [_bezier(start, first, second, end, i / _FINE) for i in range(1, _FINE + 1)]
    return found


def _bezier(a: Point, b: Point, c: Point, d: Point, t: float) -> Point:
    s = 1 - t
    weights = (s**3, 3 * s * s * t, 3 * s * t * t, t**3)
    x, y = (sum(w * p[i] for w, p in zip(weights, (a, b, c, d), strict=True)) for i in (0, 1))
    return x, y


def shape(drawing: Drawing, name: str) -> list[Point]:
    """The points along the one path of that name."""
    found = [group for group in root(drawing).iter(f"{SVG}g") if group.get("id") == name]
    assert len(found) == 1, f"{len(found)} shapes are named {name}"
    paths = list(found[0].iter(f"{SVG}path"))
    assert len(paths) == 1
    return trace(paths[0].get("d", ""))


def style(drawing: Drawing, name: str) -> str:
    """How the one path of that name is painted."""
    group = next(group for group in root(drawing).iter(f"{SVG}g") if group.get("id") == name)
    return next(group.iter(f"{SVG}path")).get("style", "")


def extent(drawing: Drawing, name: str) -> tuple[float, float, float, float]:
    """Left, top, right, bottom [mm]."""
    xs, ys = zip(*shape(drawing, name), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def luminance_percent(colour: str) -> float:
    """By colour-science, a reference library: sRGB to CIE XYZ (IEC 61966-2-1), Y of white being 100."""
    import colour as science

    return float(science.sRGB_to_XYZ([int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)])[1] * 100)
