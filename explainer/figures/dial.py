"""The dial: where each eye's cylinder axis lies, as seen by someone facing the wearer.

The scale is that of ISO 8429: 0 at the observer's right, anticlockwise, the same for both eyes. So the
wearer's right eye stands on the left of the page. The picture shows the real world and is never mirrored, in
no language.
"""

from __future__ import annotations

from explainer.errors import RenderError
from explainer.figures.drawing import Anchor, Drawing
from explainer.figures.paths import Point, arc, circle, joined, polar, polyline, spline
from explainer.figures.style import (
    ACCENT,
    FAINT,
    HAIR_PT,
    HEAVY_PT,
    LINE,
    LINE_PT,
    LONG,
    MIDDLE,
    THIN,
    Canvas,
    Pen,
    within,
)
from explainer.optics.spectacles import Side

WIDTH_MM, HEIGHT_MM = 86.0, 40.0
CENTRES: dict[Side, Point] = {"right": (22.0, 22.4), "left": (64.0, 22.4)}
LENS_MM, SCALE_MM, REACH_MM, NUMBERS_MM = 9.6, 12.2, 11.6, 16.0


def dial(
    *,
    right_axis_deg: float | None,
    left_axis_deg: float | None,
    right_cylinder_d: float | None = None,
    left_cylinder_d: float | None = None,
    accent: str = ACCENT,
) -> Drawing:
    """Both dials side by side. An eye whose axis is None or whose cylinder is 0 gets no axis line."""
    canvas = Canvas("dial", WIDTH_MM, HEIGHT_MM, accent)
    _face(canvas)
    eyes: tuple[tuple[Side, float | None, float | None], ...] = (
        ("right", right_axis_deg, right_cylinder_d),
        ("left", left_axis_deg, left_cylinder_d),
    )
    for side, axis, cylinder in eyes:
        if cylinder and axis is None:
            raise RenderError(f"the {side} eye has a cylinder of {cylinder} D but no axis")
        _scale(canvas, side)
        _axis(canvas, side, None if cylinder == 0 else axis)
    return canvas.drawing()


def axis_line_ends(*, axis_deg: float, centre: Point, reach_mm: float = REACH_MM) -> tuple[Point, Point]:
    """Both ends of the axis line on the page [mm, y downward]: first the end at axis_deg, then the opposite one."""
    within("axis_deg", axis_deg, 0, 180, "deg")
    return polar(centre, reach_mm, axis_deg), polar(centre, -reach_mm, axis_deg)


def _axis(canvas: Canvas, side: Side, axis_deg: float | None) -> None:
    centre = CENTRES[side]
    if axis_deg is None:
        canvas.label((centre[0], HEIGHT_MM - 3.9), "no_axis", width_mm=34)  # one line or two
        return
    first, second = axis_line_ends(axis_deg=axis_deg, centre=centre)
    pen = Pen(canvas.accent, HEAVY_PT, () if side == "right" else LONG)
    halves = joined((polyline((first, centre)), polyline((second, centre))))  # so that dashes match at both ends
    canvas.add(halves, pen, f"axis-{side}")
    canvas.add(circle(centre, 0.9), Pen(canvas.accent, LINE_PT, (), "#FFFFFF"))
    canvas.label((centre[0], HEIGHT_MM - 3.0), "axis", axis_deg or 180.0, unit="deg", strong=True, width_mm=34)


def _scale(canvas: Canvas, side: Side) -> None:
    centre = CENTRES[side]
    canvas.add(circle(centre, LENS_MM), Pen(width_pt=LINE_PT, fill=FAINT), f"lens-{side}")
    canvas.line(polar(centre, SCALE_MM, 180), polar(centre, SCALE_MM, 0), pen=Pen(MIDDLE, HAIR_PT))
    canvas.line(polar(centre, SCALE_MM, 90), centre, pen=Pen(MIDDLE, HAIR_PT))
    canvas.add(arc(centre, SCALE_MM, 0, 180), THIN, f"scale-{side}")
    for angle in range(0, 181, 5):
        length = 2.2 if angle % 30 == 0 else 1.5 if angle % 10 == 0 else 0.8
        pen = LINE if angle % 30 == 0 else Pen(width_pt=HAIR_PT)
        canvas.line(polar(centre, SCALE_MM, angle), polar(centre, SCALE_MM + length, angle), pen=pen)
    for angle in range(0, 181, 30):
        canvas.label(polar(centre, NUMBERS_MM, angle), "tick", angle, anchor=_anchor(angle))
    corner, next_to_it = (0.8, 5.6) if side == "right" else (WIDTH_MM - 0.8, WIDTH_MM - 5.6)
    anchor: Anchor = "start" if side == "right" else "end"
    canvas.label((corner, 2.2), f"{side}_letter", anchor=anchor, strong=True)
    canvas.label((next_to_it, 2.2), f"{side}_eye", anchor=anchor)


def _anchor(angle_deg: float) -> Anchor:
    if angle_deg == 90:
        return "middle"
    return "start" if angle_deg < 90 else "end"


def _face(canvas: Canvas) -> None:
    """A nose between the lenses, so that the reader sees a face from in front."""
    middle, top = WIDTH_MM / 2, CENTRES["right"][1] - 5.6
    side = [(2.2, 8.6), (1.8, 11.0), (2.1, 14.6), (2.9, 17.4), (4.0, 19.4), (3.9, 21.4), (2.4, 21.7)]
    for turn in (-1, 1):
        canvas.add(spline([(middle + turn * x, top + y) for x, y in side]), LINE)
    tip = [(-2.4, 21.7), (-1.4, 22.4), (0.0, 22.8), (1.4, 22.4), (2.4, 21.7)]
    canvas.add(spline([(middle + x, top + y) for x, y in tip]), LINE)
