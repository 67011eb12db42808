"""The four steps of cleaning, with this very lens: rinse, a drop of soap, rub with fingers, rinse and dry."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from explainer.figures.curving import smooth
from explainer.figures.drawing import Drawing
from explainer.figures.look import CLOTH, GLASS, INK, PAPER, SKIN, STRUCTURE, VEIL, mixed, outlined, pen
from explainer.figures.paths import Point, circle, joined, polyline, round_box, spline
from explainer.figures.style import Canvas, Pen

WIDTH_MM, HEIGHT_MM = 20.0, 16.0
_LENS_WIDE_MM, _LENS_HIGH_MM, _CENTRE = 12.4, 9.0, (10.0, 10.4)


def cleaning(*, name: str, outline: Sequence[Point], accent: str = STRUCTURE) -> Drawing:
    """One of STEPS."""
    canvas = Canvas(f"clean_{name}", WIDTH_MM, HEIGHT_MM, accent)
    _lens(canvas, outline)
    STEPS[name](canvas)
    return canvas.drawing()


def _lens(canvas: Canvas, outline: Sequence[Point]) -> None:
    """The wearer's right lens in its rim, with the beginning of the bridge and of the temple."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    scale = min(_LENS_WIDE_MM / (max(xs) - min(xs)), _LENS_HIGH_MM / (max(ys) - min(ys)))
    across, up = (max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2
    points = [(_CENTRE[0] + scale * (x - across), _CENTRE[1] - scale * (y - up)) for x, y in outline]
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    level = _CENTRE[1] - scale * 0.42 * (max(ys) - up)
    canvas.add(spline([(right - 0.1, level), (right + 1.2, level - 1.0), (right + 2.6, level - 1.2)]), pen(INK, 1.6))
    canvas.line((left + 0.1, level), (left - 1.5, level), (left - 1.5, level + 1.5), pen=pen(INK, 1.6))
    canvas.add(smooth(points), outlined(GLASS, 1.6))


def _drop(x: float, y: float, size: float) -> Sequence[Point]:
    return [(x, y - size), (x + 0.55 * size, y + 0.1 * size), (x, y + 0.65 * size), (x - 0.55 * size, y + 0.1 * size)]


def _rinse(canvas: Canvas) -> None:
    """A tap, and water over the lens."""
    tap = [(3.2, 1.2), (9.6, 1.2), (10.8, 1.9), (11.0, 3.4), (8.9, 3.4), (8.7, 3.0), (3.2, 3.0)]
    canvas.add(polyline(tap, closed=True), outlined(VEIL))
    canvas.line((5.6, 1.2), (5.6, 0.4), pen=pen(INK, 1.6))
    canvas.line((4.4, 0.4), (6.8, 0.4), pen=pen(INK, 1.6))
    water = [polyline([(x, 4.2), (x, end)]) for x, end in ((9.2, 11.4), (9.9, 12.6), (10.6, 11.0))]
    canvas.add(joined(water), pen(canvas.accent, 1.0))
    splash = [spline([(9.0, 12.4), (7.8, 13.4), (6.8, 13.2)]), spline([(10.9, 12.2), (12.2, 13.2), (13.2, 12.9)])]
    canvas.add(joined(splash), pen(canvas.accent, 0.9))


def _soap(canvas: Canvas) -> None:
    """A bottle, and one drop."""
    canvas.add(round_box(8.1, 0.4, 3.8, 3.2, 0.5), outlined(PAPER))
    canvas.add(polyline([(9.2, 3.6), (10.8, 3.6), (10.4, 5.0), (9.6, 5.0)], closed=True), outlined(VEIL))
    pale = mixed(PAPER, canvas.accent, 0.35)
    canvas.add(spline(_drop(10.0, 8.0, 1.5), closed=True), Pen(canvas.accent, 1.1, (), pale))


def _rub(canvas: Canvas) -> None:
    """Two fingers and suds on the lens."""
    for x, y, r in ((6.6, 12.4, 0.75), (8.2, 13.2, 0.5), (7.2, 10.6, 0.5), (12.6, 13.0, 0.55), (5.6, 10.6, 0.4)):
        canvas.add(circle((x, y), r), Pen(canvas.accent, 0.8, (), PAPER))
    for x in (0.0, 2.5):
        finger = [(16.6 + x, 0.0), (11.0 + x * 0.94, 8.2), (10.1 + x * 0.9, 10.3), (10.6 + x * 0.9, 11.5)]
        finger += [(11.9 + x * 0.9, 11.3), (13.2 + x * 0.9, 9.4), (18.9 + x * 0.6, 1.2)]
        inside = [(min(px, WIDTH_MM - 0.4), max(py, 0.4)) for px, py in finger]
        canvas.add(spline(inside), Pen(INK, 1.1, (), SKIN))
    canvas.add(spline([(4.0, 14.6), (7.0, 15.4), (10.0, 14.9)]), pen(canvas.accent, 1.0))
    canvas.arrow((6.0, 15.3), (3.4, 14.3), pen(canvas.accent, 1.0), 1.7)


def _dry(canvas: Canvas) -> None:
    """A soft cloth on the lens."""
    cloth = [(8.6, 4.6), (12.4, 5.2), (17.8, 4.4), (18.6, 9.2), (18.0, 14.8), (13.4, 14.0), (9.2, 15.2), (9.6, 9.6)]
    canvas.add(spline(cloth, closed=True), outlined(mixed(PAPER, CLOTH, 0.45)))
    folds = [spline([(11.6, 6.4), (12.2, 9.6), (11.5, 13.2)]), spline([(14.8, 6.0), (15.6, 9.6), (15.0, 13.0)])]
    canvas.add(joined(folds), pen(INK, 0.8))
    canvas.arrow((10.0, 2.4), (5.6, 2.4), pen(canvas.accent, 1.3), 2.0)
    canvas.arrow((10.0, 2.4), (14.4, 2.4), pen(canvas.accent, 1.3), 2.0)


STEPS: dict[str, Callable[[Canvas], None]] = {"rinse": _rinse, "soap": _soap, "rub": _rub, "dry": _dry}
