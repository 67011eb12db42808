"""Small signs in one line style, 12 mm by 10 mm: places, weather, warnings, marks.

Each is drawn in that box with x to the right and y down; white is filled in where something stands before another.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from explainer.figures.drawing import Drawing
from explainer.figures.look import BOLD_PT, INK, PAPER, SUN, VEIL, fill, outlined, pen
from explainer.figures.paths import Point, arc, circle, joined, polar, polyline, round_box, spline
from explainer.figures.style import ACCENT, Canvas

WIDTH_MM, HEIGHT_MM = 12.0, 10.0
_LINE = pen()


def sun(canvas: Canvas, centre: Point, radius: float, rays_deg: Iterable[float] = range(0, 360, 45)) -> None:
    """A sun, always outlined, with rays at those angles."""
    for angle in rays_deg:
        canvas.line(polar(centre, radius * 1.45, angle), polar(centre, radius * 2.0, angle), pen=_LINE)
    canvas.add(circle(centre, radius), outlined(SUN))


def cloud_path(x: float, y: float, size: float) -> list[Point]:
    """The outline of a cloud whose foot begins at (x, y), so many millimetres wide."""
    line = [(0.1, 0), (0.0, -0.16), (0.12, -0.26), (0.2, -0.28), (0.28, -0.48), (0.46, -0.52), (0.6, -0.4)]
    line += [(0.7, -0.44), (0.84, -0.36), (0.86, -0.24), (0.98, -0.16), (0.94, 0)]
    return [(x + size * px, y + size * py) for px, py in line]


def cloud(canvas: Canvas, x: float, y: float, size: float, colour: str = PAPER) -> None:
    """A cloud with a level foot."""
    curve = spline(cloud_path(x, y, size))
    points = (*curve.points, curve.points[0])
    canvas.add(curve._replace(points=points, codes=(*curve.codes, 2)), outlined(colour))


def _house(canvas: Canvas) -> None:
    canvas.add(polyline([(2.9, 4.8), (2.9, 9.2), (9.1, 9.2), (9.1, 4.8)]), outlined(PAPER))
    canvas.add(polyline([(5.0, 9.2), (5.0, 6.1), (7.0, 6.1), (7.0, 9.2)]), outlined(VEIL))
    canvas.line((1.5, 5.5), (6.0, 1.0), (10.5, 5.5), pen=pen(width_pt=BOLD_PT))


def _car(canvas: Canvas) -> None:
    body = [(0.6, 7.6), (0.6, 5.6), (1.4, 4.9), (2.8, 4.6), (4.2, 2.5), (4.9, 2.1), (7.4, 2.1), (8.2, 2.5)]
    body += [(9.6, 4.6), (11.0, 5.0), (11.5, 5.8), (11.5, 7.6)]
    canvas.add(polyline(body, closed=True), outlined(PAPER))
    panes = [polyline([(3.9, 4.5), (4.9, 2.9), (6.0, 2.9), (6.0, 4.5)], closed=True)]
    panes.append(polyline([(6.7, 4.5), (6.7, 2.9), (7.5, 2.9), (8.5, 4.5)], closed=True))
    canvas.add(joined(panes), pen(INK, 0.8, fill=VEIL))
    for x in (3.2, 8.9):
        canvas.add(circle((x, 7.6), 1.25), outlined(PAPER))
        canvas.add(circle((x, 7.6), 0.4), fill(INK))


def _sun(canvas: Canvas) -> None:
    sun(canvas, (6, 5), 2.25)


def _low_sun(canvas: Canvas) -> None:
    sun(canvas, (6, 7.6), 2.5, range(0, 181, 30))
    canvas.add(polyline([(0, 7.6), (12, 7.6), (12, 10), (0, 10)], closed=True), fill(PAPER))
    canvas.line((1.0, 7.6), (11.0, 7.6), pen=pen(width_pt=BOLD_PT))
    canvas.line((3.0, 9.0), (9.0, 9.0))


def _rain(canvas: Canvas) -> None:
    cloud(canvas, 1.6, 6.3, 9.0)
    for x in (3.8, 6.2, 8.6):
        canvas.line((x, 7.3), (x - 0.8, 9.4), pen=_LINE)


def _moon(canvas: Canvas) -> None:
    outer = arc((6.3, 5.0), 3.7, 60, 320)
    inner = arc((8.0, 4.2), 3.05, 287, 93)
    canvas.add(joined((outer, inner._replace(codes=(2, *inner.codes[1:])))), outlined(VEIL))


def _page(canvas: Canvas) -> None:
    canvas.add(polyline([(2.6, 0.8), (9.4, 0.8), (9.9, 9.2), (2.1, 9.2)], closed=True), outlined(PAPER))
    for i, end in enumerate((8.4, 8.5, 7.0, 8.6)):
        canvas.line((3.6, 2.6 + 1.6 * i), (end, 2.6 + 1.6 * i), pen=pen(width_pt=0.9))


def _room(canvas: Canvas) -> None:
    """A window, and a lamp beside it: things across a room."""
    canvas.add(round_box(0.9, 1.0, 5.2, 6.0, 0.3), outlined(VEIL))
    canvas.line((3.5, 1.0), (3.5, 7.0), pen=_LINE)
    canvas.line((0.9, 4.0), (6.1, 4.0), pen=_LINE)
    canvas.line((9.2, 4.4), (9.2, 9.2), pen=_LINE)
    canvas.add(polyline([(8.2, 1.6), (10.2, 1.6), (11.2, 4.6), (7.2, 4.6)], closed=True), outlined(PAPER))
    canvas.line((7.8, 9.2), (10.6, 9.2), pen=pen(width_pt=BOLD_PT))


def _stairs(canvas: Canvas) -> None:
    treads = [(1.0 + 2.5 * i, 7.2 - 2 * i) for i in range(4)]
    line = [corner for x, y in treads for corner in ((x, y), (x + 2.5, y))]
    canvas.add(polyline([(1.0, 9.2), *line, (11.0, 9.2)], closed=True), outlined(VEIL))


def _triangle(canvas: Canvas) -> None:
    corners = [(6.0, 1.1), (11.0, 9.2), (1.0, 9.2)]
    canvas.add(polyline(corners, closed=True), outlined(SUN, 1.9))
    canvas.line((6.0, 4.0), (6.0, 6.5), pen=pen(width_pt=2.0))
    canvas.add(circle((6.0, 7.9), 0.5), fill(INK))


def _clock(canvas: Canvas) -> None:
    canvas.add(circle((6, 5), 4.0), outlined(PAPER, 1.4))
    canvas.line((6, 2.5), (6, 5), (7.9, 6.1), pen=pen(width_pt=1.4))


def _eye(canvas: Canvas) -> None:
    lids = [(1.0, 5.0), (3.4, 2.6), (6.0, 1.9), (8.6, 2.6), (11.0, 5.0), (8.6, 7.4), (6.0, 8.1), (3.4, 7.4)]
    canvas.add(spline(lids, closed=True), outlined(PAPER, 1.4))
    canvas.add(circle((6, 5), 1.8), fill(INK))


def _exchange(canvas: Canvas) -> None:
    canvas.arrow((1.2, 3.4), (10.8, 3.4), pen(width_pt=1.4), 2.4)
    canvas.arrow((10.8, 6.8), (1.2, 6.8), pen(width_pt=1.4), 2.4)


def _book(canvas: Canvas) -> None:
    edge = [(6, 2.4), (1.2, 1.4), (1.2, 7.9), (6, 8.9), (10.8, 7.9), (10.8, 1.4)]
    canvas.add(polyline(edge, closed=True), outlined(PAPER, 1.4))
    canvas.line((6, 2.4), (6, 8.9), pen=pen(width_pt=1.4))
    for y in (3.5, 5.1):
        canvas.line((2.4, y), (4.8, y + 0.5), pen=pen(width_pt=0.8))
        canvas.line((7.2, y + 0.5), (9.6, y), pen=pen(width_pt=0.8))


def _calendar(canvas: Canvas) -> None:
    canvas.add(round_box(1.6, 1.6, 8.8, 7.6, 0.9), outlined(PAPER, 1.4))
    canvas.line((1.6, 3.9), (10.4, 3.9), pen=pen(width_pt=1.4))
    canvas.line((3.8, 0.7), (3.8, 2.5), pen=pen(width_pt=1.4))
    canvas.line((8.2, 0.7), (8.2, 2.5), pen=pen(width_pt=1.4))
    canvas.line((4.0, 6.4), (5.5, 7.8), (8.2, 5.2), pen=pen(width_pt=1.6))


def _snow(canvas: Canvas) -> None:
    for angle in range(0, 360, 60):
        canvas.line((6, 5), polar((6, 5), 4.2, angle + 90), pen=pen(width_pt=1.3))
        fork = polar((6, 5), 2.7, angle + 90)
        for turn in (-48, 48):
            canvas.line(fork, polar(fork, 1.3, angle + 90 + turn), pen=pen(width_pt=1.1))


def _nose(canvas: Canvas) -> None:
    """A head from above, and an arrow where its nose points."""
    canvas.add(polyline([(5.6, 3.6), (8.0, 5.0), (5.6, 6.4)], closed=True), outlined(PAPER, 1.3))
    canvas.add(circle((3.9, 5.0), 2.9), outlined(PAPER, 1.4))
    canvas.arrow((8.8, 5.0), (11.8, 5.0), pen(width_pt=1.4), 2.2)


def _distance(canvas: Canvas) -> None:
    """A page that is moved to and fro."""
    canvas.add(polyline([(7.2, 1.0), (10.8, 1.8), (10.8, 9.0), (7.2, 8.2)], closed=True), outlined(PAPER))
    for i in range(3):
        canvas.line((8.0, 3.0 + 1.7 * i), (10.0, 3.4 + 1.7 * i), pen=pen(width_pt=0.8))
    canvas.arrow((3.6, 5.0), (0.8, 5.0), pen(width_pt=1.3), 2.0)
    canvas.arrow((3.2, 5.0), (6.0, 5.0), pen(width_pt=1.3), 2.0)


def _scales(canvas: Canvas) -> None:
    """A strong lens and a weak one: two lenses that differ."""
    thick = joined((arc((9.4, 5.0), 6.6, 142, 218), arc((-1.6, 5.0), 6.6, -38, 38)))
    canvas.add(thick, pen(width_pt=1.3))
    thin = joined((arc((18.2, 5.0), 10.0, 156, 204), arc((0.0, 5.0), 10.0, -24, 24)))
    canvas.add(thin, pen(width_pt=1.3))


def _tick(canvas: Canvas) -> None:
    canvas.add(circle((6, 5), 3.2), outlined(INK, 1.4))
    canvas.line((4.4, 5.1), (5.6, 6.4), (7.8, 3.7), pen=pen(PAPER, 1.9))


def _cross(canvas: Canvas) -> None:
    canvas.add(circle((6, 5), 3.2), outlined(PAPER, 1.5))
    canvas.line((4.7, 3.7), (7.3, 6.3), pen=pen(width_pt=1.6))
    canvas.line((7.3, 3.7), (4.7, 6.3), pen=pen(width_pt=1.6))


def _phone(canvas: Canvas) -> None:
    canvas.add(round_box(3.4, 0.6, 5.2, 8.8, 0.9), outlined(PAPER, 1.3))
    canvas.line((5.3, 8.3), (6.7, 8.3), pen=pen(width_pt=1.1))
    for i in range(3):
        canvas.line((4.5, 2.4 + 1.5 * i), (7.5, 2.4 + 1.5 * i), pen=pen(width_pt=0.8))


SIGNS: dict[str, Callable[[Canvas], None]] = {
    **{"house": _house, "car": _car, "sun": _sun, "low_sun": _low_sun, "rain": _rain, "moon": _moon, "page": _page},
    **{"room": _room, "stairs": _stairs, "triangle": _triangle, "clock": _clock, "eye": _eye, "exchange": _exchange},
    **{"book": _book, "calendar": _calendar, "snow": _snow, "nose": _nose, "distance": _distance, "unequal": _scales},
    **{"tick": _tick, "cross": _cross, "phone": _phone},
}


def icon(*, sign: str, accent: str = ACCENT) -> Drawing:
    """One of SIGNS."""
    canvas = Canvas(f"icon_{sign}", WIDTH_MM, HEIGHT_MM, accent)
    SIGNS[sign](canvas)
    return canvas.drawing()
