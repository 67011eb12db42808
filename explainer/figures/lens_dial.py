"""Where a lens's cylinder axis lies: a thick line in the lens's own outline, under a protractor.

The scale is that of ISO 8429: 0 at the observer's right, anticlockwise, the same for both eyes, seen by someone facing
the wearer. The picture shows the real world and is never mirrored, in no language.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from explainer.figures.curving import smooth
from explainer.figures.drawing import Anchor, Drawing
from explainer.figures.look import AXIS_PT, EDGE, GLASS, INK, PAPER, SECOND, STRUCTURE, pen
from explainer.figures.paths import Path, Point, arc, circle, joined, polar, polyline
from explainer.figures.style import Canvas, Pen, within
from explainer.optics.spectacles import Side

WIDTH_MM, HEIGHT_MM = 43.5, 33.0
CENTRE: Point = (WIDTH_MM / 2, 19.0)
LENS_MM, SCALE_MM, REACH_MM, NUMBERS_MM = 10.6, 12.0, 13.2, 14.2
_NEAR_DEG = 19.0  # a number of the scale nearer than this to the axis's own gives way to it


def lens_dial(*, side: Side, outline: Sequence[Point], axis_deg: float, accent: str = STRUCTURE) -> Drawing:
    """The dial of one eye; OutOfRange for an axis that is not above 0 and up to 180."""
    within("axis_deg", axis_deg, 0, 180, "deg")
    canvas = Canvas(f"dial_{side}", WIDTH_MM, HEIGHT_MM, accent)
    canvas.add(smooth(_centred(outline)), Pen(EDGE, 1.8, (), GLASS), f"lens-{side}")
    _scale(canvas, axis_deg)
    ends = polar(CENTRE, REACH_MM, axis_deg), polar(CENTRE, -REACH_MM, axis_deg)
    canvas.line(*ends, pen=pen(canvas.accent, AXIS_PT), name=f"axis-{side}")
    canvas.add(circle(CENTRE, 0.9), Pen(canvas.accent, 1.2, (), PAPER))
    shown = axis_deg or 180.0
    place = polar(CENTRE, NUMBERS_MM + 0.4 + 1.9 * math.sin(math.radians(shown)), shown)
    canvas.label(place, "axis_degrees", shown, unit="deg", anchor=_anchor(shown), strong=True)
    return canvas.drawing()


def _centred(outline: Sequence[Point]) -> list[Point]:
    """The outline about the dial's centre, as large as the scale allows; y becomes the page's."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    middle = (max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2
    shifted = [(x - middle[0], y - middle[1]) for x, y in outline]
    scale = LENS_MM / max(math.hypot(x, y) for x, y in shifted)
    return [(CENTRE[0] + scale * x, CENTRE[1] - scale * y) for x, y in shifted]


def _scale(canvas: Canvas, axis_deg: float) -> None:
    canvas.line(polar(CENTRE, SCALE_MM, 180), polar(CENTRE, SCALE_MM, 0), pen=pen(SECOND, 0.7))
    canvas.add(arc(CENTRE, SCALE_MM, 0, 180), pen(INK, 1.0), "scale")
    short: list[Path] = []
    long: list[Path] = []
    for angle in range(0, 181, 5):
        length = -2.0 if angle % 30 == 0 else -1.4 if angle % 10 == 0 else -0.8
        tick = polyline([polar(CENTRE, SCALE_MM, angle), polar(CENTRE, SCALE_MM + length, angle)])
        (long if angle % 30 == 0 else short).append(tick)
    canvas.add(joined(short), pen(INK, 0.6))
    canvas.add(joined(long), pen(INK, 1.0))
    for angle in range(0, 181, 30):
        if abs((axis_deg or 180.0) - angle) > _NEAR_DEG:
            canvas.label(polar(CENTRE, NUMBERS_MM, angle), "tick", angle, anchor=_anchor(angle))


def _anchor(angle_deg: float) -> Anchor:
    if 75 < angle_deg < 105:
        return "middle"
    return "start" if angle_deg < 90 else "end"
