"""The very pair as lines in space, to be seen from any side, standing on a table on both rims and both temples.

Millimetres: x to the right of someone facing the wearer, y up, z toward that person. Views are parallel projections.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from typing import NamedTuple

from explainer.figures.front.pair import Pair
from explainer.figures.paths import Point

Place3 = tuple[float, float, float]
Line3 = tuple[Place3, ...]
_HINGE_Z, _BEND_Z, _TIP_Z, _DROP_MM = -3.0, -97.0, -131.0, 33.0  # ordinary measures of a temple, common practice
_RIM_POINTS = 32


class Wire(NamedTuple):
    """The pair's lines; rims are closed."""

    rims: tuple[Line3, Line3]
    bridge: Line3
    temples: tuple[Line3, Line3]

    def moved(self, put: Callable[[Place3], Place3]) -> Wire:
        """The same pair with every point moved."""
        right, left = (tuple(put(place) for place in line) for line in self.rims)
        first, second = (tuple(put(place) for place in line) for line in self.temples)
        return Wire((right, left), tuple(put(place) for place in self.bridge), (first, second))


class View(NamedTuple):
    """From where it is seen: turned to the side, from above; how large; where x = y = z = 0 is on the page."""

    side_deg: float
    above_deg: float
    scale: float
    origin: Point

    def see(self, place: Place3) -> Point:
        """The page's point of a place in space."""
        x, y, _ = about_x(_about_y(place, self.side_deg), self.above_deg)
        return self.origin[0] + self.scale * x, self.origin[1] - self.scale * y

    def trace(self, line: Iterable[Place3]) -> list[Point]:
        """A line in space as points of the page."""
        return [self.see(place) for place in line]


def wire_of(pair: Pair) -> Wire:
    """The open pair."""
    y = 0.8 * pair.hinge_y_mm()
    nose = [turn * pair.nose_x_mm(turn, y) for turn in (-1, 1)]
    shoulders = [(x / 2, y + 2.6, 1.5) for x in nose]
    bridge = ((nose[0], y, 0.0), shoulders[0], (0, y + 3.4, 2.0), shoulders[1], (nose[1], y, 0.0))
    return Wire((_rim(pair, -1), _rim(pair, 1)), bridge, (_temple(pair, -1), _temple(pair, 1)))


def _rim(pair: Pair, turn: int) -> Line3:
    points = pair.lens(turn)
    step = max(1, len(points) // _RIM_POINTS)
    return tuple((x, y, 0.0) for x, y in points[::step])


def _temple(pair: Pair, turn: int) -> Line3:
    x, y = pair.temple_x_mm(turn), pair.hinge_y_mm()
    edge = x - pair.kind.lug_mm
    down = [(0.25, -110.0), (0.65, -121.0), (1.0, _TIP_Z)]
    back = [(edge, y, 0.0), (x, y, _HINGE_Z), (x + 1, y, -50.0), (x + 1.2, y, -84.0), (x + 1, y, _BEND_Z)]
    ends = [(x + 0.6 - 2.4 * share, y - _DROP_MM * share, z) for share, z in down]
    return tuple((turn * px, py, pz) for px, py, pz in (*back, *ends))


def resting(pair: Pair, *, upside_down: bool) -> Wire:
    """The pair standing on a table at y = 0, turned over if so, on both rims and both temples."""
    wire = wire_of(pair)
    if upside_down:
        wire = wire.moved(lambda place: (-place[0], -place[1], place[2]))
    low, high = -30.0, 30.0  # the tilt [deg] at which front and temples stand equally low lies between
    for _ in range(40):
        tilt = (low + high) / 2
        front, back = _lowest(_tilted(wire, tilt))
        low, high = (tilt, high) if front > back else (low, tilt)
    stands = _tilted(wire, (low + high) / 2)
    ground = min(_lowest(stands))
    return stands.moved(lambda place: (place[0], place[1] - ground, place[2]))


def _tilted(wire: Wire, degrees: float) -> Wire:
    return wire.moved(lambda place: about_x(place, degrees))


def _lowest(wire: Wire) -> tuple[float, float]:
    """The lowest height of the rims, and of the temples."""
    rims, temples = (min(y for line in lines for _, y, _ in line) for lines in (wire.rims, wire.temples))
    return rims, temples


def feet(wire: Wire) -> list[Place3]:
    """The lowest place of each rim and of each temple: where the pair touches the table."""
    return [min(line, key=lambda place: place[1]) for line in (*wire.rims, *wire.temples)]


def about_x(place: Place3, degrees: float) -> Place3:
    """Turned about the x axis: seen from above by that much, what is far away (small z) moves up."""
    angle = math.radians(degrees)
    x, y, z = place
    return x, y * math.cos(angle) - z * math.sin(angle), y * math.sin(angle) + z * math.cos(angle)


def _about_y(place: Place3, degrees: float) -> Place3:
    angle = math.radians(degrees)
    x, y, z = place
    return x * math.cos(angle) + z * math.sin(angle), y, z * math.cos(angle) - x * math.sin(angle)
