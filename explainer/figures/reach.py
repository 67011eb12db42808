"""Where print is clear: the distances from the eye at which it is, as a bar."""

from __future__ import annotations

from explainer.figures.drawing import Drawing
from explainer.figures.look import INK, STRUCTURE, VEIL, fill, outlined, pen
from explainer.figures.paths import box, circle, joined, polyline, spline
from explainer.figures.style import Canvas, within

WIDTH_MM, HEIGHT_MM = 86.0, 16.0
_EYE_MM, _END_MM, _LINE_MM, _STEP_CM = 9.0, 78.0, 5.6, 20


def near_range(*, nearest_cm: float, farthest_cm: float, accent: str = STRUCTURE) -> Drawing:
    """From the nearest to the farthest clear distance; the scale ends at a metre, or at two if need be."""
    within("farthest_cm", farthest_cm, nearest_cm, 200, "cm")
    canvas = Canvas("near_range", WIDTH_MM, HEIGHT_MM, accent)
    end = 100 if farthest_cm <= 96 else 200
    step = _STEP_CM if end == 100 else 2 * _STEP_CM

    def x(distance_cm: float) -> float:
        return _EYE_MM + (_END_MM - _EYE_MM) * distance_cm / end

    canvas.add(box(x(0), _LINE_MM - 2.2, x(end) - x(0), 4.4), fill(VEIL))
    wide = max(x(farthest_cm) - x(nearest_cm), 0.8)
    canvas.add(box(x(nearest_cm), _LINE_MM - 2.2, wide, 4.4), fill(canvas.accent), "clear")
    marks = range(0, end + 1, step)
    canvas.add(joined(polyline([(x(d), _LINE_MM - 3.0), (x(d), _LINE_MM + 3.0)]) for d in marks), pen(INK, 0.8))
    for distance in marks:
        if distance:
            canvas.label((x(distance), _LINE_MM + 6.2), "distance", distance, unit="cm")
    _eye(canvas, 4.4, _LINE_MM)
    return canvas.drawing()


def _eye(canvas: Canvas, x: float, y: float) -> None:
    lids = [(x - 3.2, y), (x - 1.0, y - 1.8), (x + 1.6, y - 1.9), (x + 3.2, y), (x + 1.6, y + 1.9), (x - 1.0, y + 1.8)]
    canvas.add(spline(lids, closed=True), outlined("#FFFFFF"))
    canvas.add(circle((x + 0.9, y), 1.15), fill(INK))
