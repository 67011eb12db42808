"""Where one looks through a bifocal or a progressive lens, drawn on the pair.

Schematic: the place of the zones comes from the pupils and the fitting heights, their shape is that of any such lens.
A segment is a straight-topped one, 28 mm wide (common practice); its upper line stands at its true height.
"""

from __future__ import annotations

from typing import NamedTuple

from explainer.figures.front import parts
from explainer.figures.front.drawn import NAMES, Place
from explainer.figures.front.pair import Pair
from explainer.figures.front.parts import SIDES
from explainer.figures.look import EDGE, FINE_PT, INK, LINE_PT, MIST, PANEL, PAPER
from explainer.figures.paths import CLOSE, CURVE, LINE, MOVE, Path, Point, circle, spline
from explainer.figures.style import Canvas, Pen

SEGMENT_MM, SEGMENT_RADIUS_MM = 28.0, 14.5
_SIDE = ((30.0, 2.4), (13.0, 0.4), (5.4, -4.0), (3.8, -9.0), (5.8, -14.5), (8.6, -21.0), (11.0, -34.0))
_ROOM_MM = 7.0  # between the words arm's length and reading, for less clear to stand beside both
_LEVELS_MM = (7.0, -6.2, -15.0)  # where the words far, arm's length and reading stand, from the fitting cross


class Zones(NamedTuple):
    """Kind of lens, and for the right and the left eye [mm]: the pupil's distance from the nose's middle, far and near.

    `height_mm` is that of the fitting cross, or of the segment's upper line, above the middle of the box.
    """

    design: str
    far_mm: tuple[float, float]
    near_mm: tuple[float, float]
    height_mm: tuple[float, float]


def draw_zones(canvas: Canvas, pair: Pair, place: Place, zones: Zones) -> None:
    """The zones of both lenses, inside their outlines."""
    for i, turn in enumerate(SIDES):
        edge = place.put(parts.lens(pair, turn))
        if zones.design == "bifocal":
            path = place.put(segment(turn * zones.near_mm[i], zones.height_mm[i]))
            canvas.add(path, Pen(INK, LINE_PT, (), PANEL), f"segment-{NAMES[turn]}", clip=edge)
            continue
        for side in (-1, 1):
            blurred = place.put(_soft(turn, side, zones.far_mm[i], zones.near_mm[i], zones.height_mm[i]))
            canvas.add(blurred, Pen(EDGE, FINE_PT, (), MIST), clip=edge)


def segment(x: float, top: float) -> Path:
    """A straight-topped segment: its upper line, and a part of a circle below."""
    half, r = SEGMENT_MM / 2, SEGMENT_RADIUS_MM
    centre = top - (r * r - half * half) ** 0.5
    k = 0.5523 * r
    points = [
        *[(x - half, top), (x + half, top), (x + r, top), (x + r, centre), (x + r, centre)],
        *[(x + r, centre - k), (x + k, centre - r), (x, centre - r)],
        *[(x - k, centre - r), (x - r, centre - k), (x - r, centre)],
        *[(x - r, centre), (x - r, top), (x - half, top), (x - half, top)],
    ]
    codes = (MOVE, LINE, CURVE, CURVE, CURVE, *(CURVE,) * 9, CLOSE)
    return Path(tuple(points), codes)


def _soft(turn: int, side: int, far: float, near: float, height: float) -> Path:
    """The less clear area on one side of the corridor, out to beyond the lens; side -1 is the observer's left."""
    inset = far - near
    line: list[Point] = []
    for away, down in _SIDE:
        share = min(max(-down / 14.0, 0.0), 1.0)  # the corridor leans toward the nose on its way down
        line.append((turn * (far - inset * share) + side * away, height + down))
    curve = spline(line)
    corner = (line[0][0], line[-1][1])
    return Path((*curve.points, corner, curve.points[0]), (*curve.codes, LINE, CLOSE))


def label_zones(canvas: Canvas, pair: Pair, place: Place, zones: Zones) -> None:
    """The words of the zones, and the fitting cross as a small ring."""
    for i, turn in enumerate(SIDES):
        x, near, height = turn * zones.far_mm[i], turn * zones.near_mm[i], zones.height_mm[i]
        low = min(y for _, y in pair.lens(turn))
        if zones.design == "bifocal":
            canvas.label(place.at((x, (height + max(y for _, y in pair.lens(turn))) / 2)), "zone_far", strong=True)
            canvas.label(place.at((near, max((height + low) / 2, low + 4.0))), "zone_near", strong=True)
            continue
        canvas.add(circle(place.at((x, height)), 0.7), Pen(INK, FINE_PT, (), PAPER), f"cross-{NAMES[turn]}")
        far, middle, reading = (height + level for level in _LEVELS_MM)
        reading = max(reading, low + 3.6)
        canvas.label(place.at((x, far)), "zone_far", strong=True)
        canvas.label(place.at(((x + near) / 2, max(middle, reading + 4.4))), "zone_middle")
        canvas.label(place.at((near, reading)), "zone_near", strong=True)
        beyond = x + turn * 8.0
        outer = turn * abs(max((px for px, _ in pair.lens(turn)), key=abs))
        room = abs(outer - beyond)
        if middle - reading < _ROOM_MM or room < 2 * _ROOM_MM:
            continue  # a low lens has no room for these words; the area is seen
        canvas.label(place.at(((beyond + outer) / 2, (middle + reading) / 2)), "zone_side", width_mm=room)
