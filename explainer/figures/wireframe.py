"""A pair of glasses as lines in space, so that every small drawing shows the same pair, rightly seen from any side.

Millimetres: x to the right of someone facing the wearer, y up, z toward that person; the middle of the bridge is at
x = 0. Views are parallel projections.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

from explainer.figures.paths import Point

Place = tuple[float, float, float]
Line3 = tuple[Place, ...]

LENS_X, LENS_WIDE, LENS_HIGH = 34.5, 25.0, 19.0
HINGE: Place = (65.0, 9.0, -3.0)
BEND: Place = (66.0, 9.0, -98.0)
TIP: Place = (64.0, -24.0, -132.0)


class Glasses(NamedTuple):
    """The pair's parts; rims are closed."""

    rims: tuple[Line3, Line3]
    bridge: Line3
    ends: tuple[Line3, Line3]
    temples: tuple[Line3, Line3]


class View(NamedTuple):
    """From where it is seen: turned to the side, from above, rolled on the page; how large; where x = y = z = 0 is."""

    side_deg: float = 0.0
    above_deg: float = 0.0
    scale: float = 0.2
    origin: Point = (0.0, 0.0)
    roll_deg: float = 0.0

    def see(self, place: Place) -> Point:
        """The page's point of a place in space."""
        x, y, _ = _about_x(_about_y(place, self.side_deg), self.above_deg)
        cosine, sine = math.cos(math.radians(self.roll_deg)), math.sin(math.radians(self.roll_deg))
        right, up = x * cosine - y * sine, x * sine + y * cosine
        return self.origin[0] + self.scale * right, self.origin[1] - self.scale * up

    def trace(self, line: Iterable[Place]) -> list[Point]:
        """A line in space as points of the page."""
        return [self.see(place) for place in line]


def rim(side: float) -> Line3:
    """One rim, as a soft rectangle that is a little wider above; side is -1 or 1."""
    points = []
    for i in range(48):
        angle = math.tau * i / 48
        cosine, sine = math.cos(angle), math.sin(angle)
        x = LENS_WIDE * math.copysign(abs(cosine) ** 0.68, cosine)
        y = LENS_HIGH * math.copysign(abs(sine) ** 0.68, sine)
        points.append((side * (LENS_X + x * (1 + 0.05 * y / LENS_HIGH)), y, 0.0))
    return tuple(points)


def glasses() -> Glasses:
    """The pair, open."""
    nose = LENS_X - LENS_WIDE
    return Glasses(
        rims=(rim(-1), rim(1)),
        bridge=(
            (-nose + 0.5, 5.0, 0.0),
            (-nose * 0.5, 8.2, 1.5),
            (0, 9.2, 2.0),
            (nose * 0.5, 8.2, 1.5),
            (nose - 0.5, 5.0, 0.0),
        ),
        ends=(_mirrored(_END), _END),
        temples=(_mirrored(_TEMPLE), _TEMPLE),
    )


_END: Line3 = ((LENS_X + LENS_WIDE, 9.0, 0.0), (63.0, 9.4, 0.2), HINGE)
_TEMPLE: Line3 = (
    HINGE,
    (66.0, 9.0, -50.0),
    (66.2, 9.0, -84.0),
    BEND,
    (65.6, 2.0, -111.0),
    (64.8, -11.0, -122.0),
    TIP,
)


def posed(pair: Glasses, *, tilt_deg: float = 0.0, upside_down: bool = False, lift_mm: float = 0.0) -> Glasses:
    """The pair turned over about the line of sight, tilted about the x axis, and lifted."""

    def put(line: Line3) -> Line3:
        turned = [(-x, -y, z) if upside_down else (x, y, z) for x, y, z in line]
        tilted = [_about_x(place, tilt_deg) for place in turned]
        return tuple((x, y + lift_mm, z) for x, y, z in tilted)

    return Glasses(
        rims=(put(pair.rims[0]), put(pair.rims[1])),
        bridge=put(pair.bridge),
        ends=(put(pair.ends[0]), put(pair.ends[1])),
        temples=(put(pair.temples[0]), put(pair.temples[1])),
    )


def resting(*, upside_down: bool) -> Glasses:
    """The pair standing on a table at y = 0, on both rims and both temples."""
    front_y = LENS_HIGH if upside_down else -LENS_HIGH
    _, back_y, back_z = BEND if upside_down else TIP
    turn = -1.0 if upside_down else 1.0
    slope = math.degrees(math.atan(turn * (back_y - front_y) / back_z))
    pair = posed(glasses(), tilt_deg=slope, upside_down=upside_down)
    lowest = min(y for line in (*pair.rims, *pair.temples) for _, y, _ in line)
    return posed(pair, lift_mm=-lowest)


def feet(pair: Glasses) -> list[Place]:
    """The lowest place of each rim and of each temple: where the pair touches the table."""
    return [min(line, key=lambda place: place[1]) for line in (*pair.rims, *pair.temples)]


def _mirrored(line: Line3) -> Line3:
    return tuple((-x, y, z) for x, y, z in line)


def _about_x(place: Place, degrees: float) -> Place:
    """Seen from above by that much: what is far away (small z) moves up."""
    angle = math.radians(degrees)
    x, y, z = place
    return x, y * math.cos(angle) - z * math.sin(angle), y * math.sin(angle) + z * math.cos(angle)


def _about_y(place: Place, degrees: float) -> Place:
    angle = math.radians(degrees)
    x, y, z = place
    return x * math.cos(angle) + z * math.sin(angle), y, z * math.cos(angle) - x * math.sin(angle)
