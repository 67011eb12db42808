"""The parts of the front as paths, in the pair's own millimetres: rims, bridge, lugs, pads, screws, temples.

`turn` is -1 for the side on the observer's left, which is the wearer's right, and 1 for the other.
"""

from __future__ import annotations

from explainer.figures.curving import moved_out, piece_of, smooth
from explainer.figures.front.pair import Pair
from explainer.figures.paths import CLOSE, LINE, Path, Point, ellipse, polyline, round_box, spline

SIDES = (-1, 1)
_SEEN_FROM_MM, _BEND_MM, _TIP_MM = 620.0, 96.0, 134.0  # the observer; how far behind the front the temple bends, ends


def lens(pair: Pair, turn: int) -> Path:
    """The lens as it is cut."""
    return smooth(pair.lens(turn), pair.pieces)


def rim_outside(pair: Pair, turn: int) -> Path:
    """The outer edge of a plastic rim: wider above and at the nose's side below, where it rests."""
    kind = pair.kind

    def width(facing: Point) -> float:
        above, nasal = max(facing[1], 0.0), max(-turn * facing[0], 0.0)
        rest = 1.1 * nasal * max(-facing[1], 0.0) * 2
        return kind.rim_mm + kind.top_mm * above + rest

    return smooth(moved_out(pair.lens(turn), width), pair.pieces)


def rim_middle(pair: Pair, turn: int) -> Path:
    """The middle line of a metal rim, all round the lens."""
    return smooth(moved_out(pair.lens(turn), pair.kind.rim_mm / 2), pair.pieces)


def bar(pair: Pair, turn: int) -> Path:
    """The upper bar of a half-rim frame, from hinge height to hinge height."""
    line = moved_out(pair.lens(turn), pair.kind.rim_mm / 2)
    level = 0.12 * pair.hinge_y_mm()
    return _few(piece_of(line, lambda point: point[1] >= level), 14)


def _few(run: list[Point], pieces: int) -> Path:
    """A smooth curve through evenly chosen points of a run."""
    return spline([run[round(i * (len(run) - 1) / pieces)] for i in range(pieces + 1)])


def bridge_line(pair: Pair) -> Path:
    """A metal bridge: an arch from rim to rim."""
    y = 0.42 * pair.hinge_y_mm() / 0.52
    beyond = 2.2 if pair.kind.screws else -0.6 * pair.kind.rim_mm
    left, right = (turn * (pair.nose_x_mm(turn, y) + beyond) for turn in SIDES)
    rise = 0.09 * pair.dbl_mm + 1.2
    shoulder = y + 0.78 * rise
    return spline([(left, y), (0.62 * left, shoulder), (0, y + rise), (0.62 * right, shoulder), (right, y)])


def bridge_body(pair: Pair) -> Path:
    """A plastic bridge: from rim to rim, arched over the nose."""
    high = max(y for _, y in pair.right)
    top, low = 0.60 * high, 0.60 * high - 6.4
    deep = pair.kind.rim_mm * 0.55
    left_top, right_top = (turn * (pair.nose_x_mm(turn, top) - 0.4) for turn in SIDES)
    left_low, right_low = (turn * (pair.nose_x_mm(turn, low - 5.5) - deep) for turn in SIDES)
    dip = [(0.5 * right_top, top - 0.7), (0, top - 1.0), (0.5 * left_top, top - 0.7)]
    upper = spline([(right_top, top + 0.6), *dip, (left_top, top + 0.6)])
    arch = [(left_low, low - 6.5), (left_low * 0.93, low - 2.2), (left_low * 0.52, low + 1.0), (0, low + 1.9)]
    far = right_low / left_low
    lower = spline([*arch, *((x * far, y) for x, y in reversed(arch[:-1]))])
    points = (*upper.points, *lower.points, upper.points[0])
    codes = (*upper.codes, LINE, *lower.codes[1:], CLOSE)
    return Path(points, codes)


def lug(pair: Pair, turn: int) -> Path:
    """What carries the hinge: a block at the outer end of a plastic rim, a slim one of metal."""
    kind, y = pair.kind, pair.hinge_y_mm()
    outer = pair.temple_x_mm(turn)
    inner = outer - kind.lug_mm + (kind.rim_mm * 0.4 if not kind.screws else -2.6)
    if kind.plastic:
        high = 9.4
        return round_box(min(turn * inner, turn * outer), y - high * 0.46, outer - inner, high, 1.6)
    root, end = (1.5, 1.1) if not kind.screws else (0.9, 0.8)  # half heights: it grows slimmer outward
    edge = [
        (inner, y - root),
        (inner, y + root),
        (outer - 2, y + end),
        (outer, y + end),
        (outer, y - end),
        (outer - 2, y - end),
    ]
    return polyline([(turn * px, py) for px, py in edge], closed=True)


def temple_end(pair: Pair, turn: int) -> Path:
    """The front end of a metal temple, seen end on beside the lug."""
    y, outer, high = pair.hinge_y_mm(), pair.temple_x_mm(turn), pair.kind.temple_mm + 0.9
    return round_box(min(turn * (outer - 1.3), turn * (outer + 0.5)), y + 1.1 - high, 1.8, high, 0.5)


def temple_behind(pair: Pair, turn: int) -> Path:
    """The temple as it runs back to the ear, smaller with its distance from the observer."""
    x, y = pair.temple_x_mm(turn) - 1.2, pair.hinge_y_mm()
    bend, tip = (_SEEN_FROM_MM / (_SEEN_FROM_MM + away) for away in (_BEND_MM, _TIP_MM))
    points = [(x, y), (x * (1 + bend) / 2, y * (1 + bend) / 2), (x * bend, y * bend - 0.6)]
    points += [(x * (bend + tip) / 2 - 0.8, y * bend - 15.0), (x * tip - 2.0, (y - 36.0) * tip)]
    return spline([(turn * px, py) for px, py in points])


def pad(pair: Pair, turn: int) -> Path:
    """A nose pad, seen slantwise."""
    x, y = _pad_place(pair, turn)
    return ellipse((x, y), 5.2, 2.5, 90 - turn * 16)


def pad_arm(pair: Pair, turn: int) -> Path:
    """The wire that carries a nose pad."""
    x, y = _pad_place(pair, turn)
    top = y + 6.8
    root = turn * (pair.nose_x_mm(turn, top) - pair.kind.rim_mm * 0.5)
    return spline([(root, top), (root - turn * 1.7, top + 0.7), (x - turn * 0.3, y + 3.4), (x, y + 0.6)])


def _pad_place(pair: Pair, turn: int) -> Point:
    y = -0.16 * max(py for _, py in pair.right)
    return turn * max(pair.nose_x_mm(turn, y) - 2.3, 3.9), y


def screws(pair: Pair, turn: int) -> list[Point]:
    """Where a rimless lens is drilled: at the nose, and below the hinge."""
    nose_y, hinge_y = 0.42 * pair.hinge_y_mm() / 0.52, pair.hinge_y_mm()
    outer = pair.temple_x_mm(turn) - pair.kind.lug_mm
    return [(turn * (pair.nose_x_mm(turn, nose_y) + 2.2), nose_y), (turn * (outer - 2.6), hinge_y)]


def reflections(pair: Pair, turn: int) -> list[Path]:
    """Two slanting streaks of light on a lens."""
    points = pair.lens(turn)
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, high = min(y for _, y in points), max(y for _, y in points)
    x, y, size = left + 0.33 * (right - left), low + 0.68 * (high - low), 0.2 * (high - low)
    return [
        polyline([(x - size, y - size), (x + size * 0.5, y + size * 0.5)]),
        polyline([(x - size * 0.28, y - size), (x + size * 0.45, y - size * 0.27)]),
    ]


def shine(pair: Pair, turn: int) -> Path:
    """A line of light along the upper part of a plastic rim."""
    line = moved_out(pair.lens(turn), pair.kind.rim_mm * 0.62)
    high = max(y for _, y in line)
    return _few(piece_of(line, lambda point: point[1] > 0.84 * high), 11)


def rivets(pair: Pair, turn: int) -> list[Path]:
    """Two small rivets that hold the hinge in a plastic front."""
    x, y = turn * (pair.temple_x_mm(turn) - 2.6), pair.hinge_y_mm()
    return [ellipse((x, y + up), 0.75, 0.75) for up in (1.9, -0.9)]


def hinge_line(pair: Pair, turn: int) -> Path:
    """The lug and the end of the temple as one short line, for small sizes."""
    y, outer = pair.hinge_y_mm(), pair.temple_x_mm(turn)
    return polyline([(turn * (outer - pair.kind.lug_mm), y), (turn * outer, y), (turn * outer, y - 2.6)])
