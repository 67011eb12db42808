"""Both lens shapes from in front, to scale: the boxes round them, their middles, and where the optical centres stand.

Seen by someone facing the wearer: the right lens is on the left of the page and its nose side on the right.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from explainer.errors import RenderError
from explainer.figures.drawing import Drawing
from explainer.figures.paths import Path, Point, box, circle, joined, polyline, spline
from explainer.figures.style import (
    ACCENT,
    BOLD_PT,
    FAINT,
    GUIDE,
    HAIR_PT,
    HAIRLINE,
    THIN,
    Canvas,
    Pen,
    within,
)
from explainer.optics.spectacles import Side

WIDTH_MM, HEAD_MM = 86.0, 5.2
ROOM_WIDE_MM, ROOM_HIGH_MM = 84.0, 40.0
LINE_MM, LEGEND_MM, DISTANCE_MM = 4.2, 4.4, 8.6  # a line of words; a line of the legend; the dimension lines
WORDS_MM = 5.0  # from the middle of the lens to a line of words
AGREE_MM = 0.15


class LensShape(NamedTuple):
    """One lens [mm].

    Its outline (x to the observer's right, y up, measured from any point), how far the optical centre stands inward
    and upward from the middle of the box, and its distance from the middle of the nose to print, where that is known.
    """

    outline_mm: tuple[Point, ...]
    inward_mm: float = 0.0
    upward_mm: float = 0.0
    from_nose_mm: float | None = None


class Box(NamedTuple):
    """The outline's boxed size and the middle of the box [mm]."""

    width_mm: float
    height_mm: float
    middle: Point


class Placed(NamedTuple):
    """One lens on the page: its side, shape and box, where the middle of the box is, and the scale."""

    side: Side
    shape: LensShape
    box: Box
    middle: Point
    scale: float

    def point(self, x_mm: float, y_mm: float) -> Point:
        """The page's point for a point from the middle of the box, y up."""
        return self.middle[0] + x_mm * self.scale, self.middle[1] - y_mm * self.scale

    @property
    def optical_centre(self) -> Point:
        """Inward is toward the nose: to the observer's right for the right eye, to the left for the left eye."""
        inward = self.shape.inward_mm
        return self.point(inward if self.side == "right" else -inward, self.shape.upward_mm)


def outline(*, right: LensShape, left: LensShape, dbl_mm: float, accent: str = ACCENT) -> Drawing:
    """The pair with its boxes; shifts and distances as labels.

    RenderError when a printed distance is not the drawn one.
    """
    within("dbl_mm", dbl_mm, 5, 40, "mm")
    shapes: dict[Side, LensShape] = {"right": LensShape(*right), "left": LensShape(*left)}
    boxes = {side: boxed(shape.outline_mm) for side, shape in shapes.items()}
    wide = sum(b.width_mm for b in boxes.values()) + dbl_mm
    high = max(b.height_mm for b in boxes.values())
    scale = min(1.0, ROOM_WIDE_MM / wide, ROOM_HIGH_MM / high)
    foot = HEAD_MM + high * scale
    distances = any(shape.from_nose_mm is not None for shape in shapes.values())
    height = foot + (DISTANCE_MM if distances else 0) + 1.0 + 2 * LEGEND_MM
    canvas = Canvas("outline", WIDTH_MM, height, accent)
    for side, shape in shapes.items():
        away = box_from_nose(side=side, width_mm=boxes[side].width_mm, dbl_mm=dbl_mm)
        middle = (WIDTH_MM / 2 + away * scale, HEAD_MM + high / 2 * scale)
        lens = Placed(side, shape, boxes[side], middle, scale)
        _lens(canvas, lens)
        _centre(canvas, lens)
        _distance(canvas, lens, foot)
    _bridge(canvas, dbl_mm * scale, foot, foot + (4.6 if distances else 0.0))
    _legend(canvas)
    return canvas.drawing()


def boxed(points: Sequence[Point]) -> Box:
    """The box round an outline, after the boxing system."""
    if len(points) < 8:
        raise RenderError("a lens outline needs at least eight points")
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Box(max(xs) - min(xs), max(ys) - min(ys), ((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2))


def box_from_nose(*, side: Side, width_mm: float, dbl_mm: float) -> float:
    """Where that side's box centre lies from the middle of the nose, to the observer's right [mm]."""
    away = (dbl_mm + width_mm) / 2
    return -away if side == "right" else away


def _lens(canvas: Canvas, lens: Placed) -> None:
    from_x, from_y = lens.box.middle
    points = [lens.point(x - from_x, y - from_y) for x, y in lens.shape.outline_mm]
    canvas.add(spline(points, closed=True), Pen(width_pt=BOLD_PT, fill=FAINT), f"outline-{lens.side}")
    left, top = lens.point(-lens.box.width_mm / 2, lens.box.height_mm / 2)
    frame = box(left, top, lens.box.width_mm * lens.scale, lens.box.height_mm * lens.scale)
    canvas.add(frame, GUIDE, f"box-{lens.side}")
    canvas.label((lens.middle[0] - 6.5, 2.2), f"{lens.side}_letter", anchor="end", strong=True)
    canvas.label((lens.middle[0] - 5.3, 2.2), f"{lens.side}_eye", anchor="start")


def _centre(canvas: Canvas, lens: Placed) -> None:
    (x, y), shape = lens.middle, lens.shape
    canvas.add(_cross(lens.middle), THIN, f"box-centre-{lens.side}")
    dot = Pen(canvas.accent, HAIR_PT, (), canvas.accent)
    canvas.add(circle(lens.optical_centre, 1.1), dot, f"optical-centre-{lens.side}")
    inward, upward = round(shape.inward_mm, 1), round(shape.upward_mm, 1)
    way = -1.0 if upward < 0 else 1.0
    if inward:  # on the side to which the centre has not moved
        key = "shift_in" if inward > 0 else "shift_out"
        canvas.label((x, y + way * WORDS_MM), key, abs(shape.inward_mm), unit="mm", digits=1)
    if upward:  # on the other side, beyond the centre, unless that is free
        key = "shift_up" if upward > 0 else "shift_down"
        beyond = abs(lens.optical_centre[1] - y) + 1.3 + LINE_MM / 2
        place = -max(WORDS_MM, beyond) if inward else WORDS_MM
        canvas.label((x, y + way * place), key, abs(shape.upward_mm), unit="mm", digits=1)
    if not inward and not upward:
        canvas.label((x, y + WORDS_MM), "shift_none", width_mm=34)


def _cross(place: Point) -> Path:
    x, y = place
    return joined((polyline([(x - 1.9, y), (x + 1.9, y)]), polyline([(x, y - 1.9), (x, y + 1.9)])))


def _distance(canvas: Canvas, lens: Placed, foot: float) -> None:
    """The optical centre's distance from the middle of the nose, as a dimension line under the boxes."""
    printed, centre = lens.shape.from_nose_mm, lens.optical_centre
    if printed is None:
        return
    nose, y = WIDTH_MM / 2, foot + 3.2
    drawn = abs(centre[0] - nose) / lens.scale
    if abs(drawn - printed) > AGREE_MM:
        raise RenderError(f"outline: {lens.side} distance {printed:.2f} to print, but {drawn:.2f} is drawn")
    canvas.line((centre[0], y - 2.4), (centre[0], y + 1.2), pen=GUIDE)
    between = (centre[0] + nose) / 2
    for end in (centre[0], nose):
        canvas.arrow((between, y), (end, y), HAIRLINE, 1.8)
    canvas.label((between, y + 3.0), "from_nose", printed, unit="mm", digits=1)


def _bridge(canvas: Canvas, wide: float, foot: float, line_end: float) -> None:
    nose, half = WIDTH_MM / 2, wide / 2
    y = HEAD_MM + 0.36 * (foot - HEAD_MM)
    canvas.add(spline([(nose - half, y), (nose, y - 2.4), (nose + half, y)]), Pen(width_pt=BOLD_PT))
    canvas.line((nose, HEAD_MM + 1), (nose, line_end), pen=GUIDE)


def _legend(canvas: Canvas) -> None:
    """What the cross and the dot are, a line each."""
    x, last = 3.0, canvas.height_mm - LEGEND_MM / 2
    canvas.add(_cross((x, last - LEGEND_MM)), THIN)
    canvas.add(circle((x, last), 1.1), Pen(canvas.accent, HAIR_PT, (), canvas.accent))
    for key, y in (("middle_of_lens", last - LEGEND_MM), ("optical_centre", last)):
        canvas.label((x + 3.6, y), key, anchor="start", width_mm=WIDTH_MM - x - 3.6)
