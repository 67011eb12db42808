"""What both lenses weigh: a dot a gram, beside the same lenses in ordinary plastic."""

from __future__ import annotations

from explainer.figures.drawing import Drawing
from explainer.figures.look import INK, PAPER, STRUCTURE, fill
from explainer.figures.paths import circle
from explainer.figures.style import Canvas, Pen, within

WIDTH_MM = 48.0
_ROW, _STEP_MM, _DOT_MM, _WORDS_MM = 10, 4.7, 1.65, 5.6


def weight_dots(*, grams: float, ordinary_grams: float | None = None, accent: str = STRUCTURE) -> Drawing:
    """Filled dots for the pair, open ones for ordinary plastic; rows of ten."""
    within("weight", grams, 0.1, 400, "g")
    groups = [("grams_both", grams, True)]
    if ordinary_grams is not None:
        groups.append(("grams_ordinary", ordinary_grams, False))
    height = sum(_WORDS_MM + _STEP_MM * _rows(weight) for _, weight, _ in groups) + 1.0 * (len(groups) - 1)
    canvas = Canvas("weight_dots", WIDTH_MM, round(height, 2), accent)
    top = 0.0
    for key, weight, own in groups:
        canvas.label((0.0, top + _WORDS_MM / 2), key, round(weight), unit="g", anchor="start", strong=own)
        _dots(canvas, round(weight), top + _WORDS_MM, own=own)
        top += _WORDS_MM + _STEP_MM * _rows(weight) + 1.0
    return canvas.drawing()


def _rows(weight: float) -> int:
    return max(1, -(-round(weight) // _ROW))


def _dots(canvas: Canvas, count: int, top: float, *, own: bool) -> None:
    for i in range(count):
        place = (_DOT_MM + 0.3 + _STEP_MM * (i % _ROW), top + _DOT_MM + 0.3 + _STEP_MM * (i // _ROW))
        pen = fill(canvas.accent) if own else Pen(INK, 1.0, (), PAPER)
        canvas.add(circle(place, _DOT_MM), pen)
