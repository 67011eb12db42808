"""How to clean the glasses, in four steps: rinse, one drop of soap, rub with the fingertips, dry with a soft cloth."""

from __future__ import annotations

import math

from explainer.figures.drawing import Drawing
from explainer.figures.paths import LINE as STRAIGHT
from explainer.figures.paths import (
    MOVE,
    Path,
    Point,
    arc,
    arrow_head,
    circle,
    ellipse,
    polar,
    polyline,
    round_box,
    spline,
)
from explainer.figures.style import (
    ACCENT,
    BOLD,
    BOLD_PT,
    FAINT,
    HAIRLINE,
    INK,
    LIGHT,
    LINE_PT,
    PAPER,
    Canvas,
    Pen,
    solid,
)
from explainer.figures.wireframe import View, glasses

STEP_MM, PICTURE_MM = 40.0, 30.0  # the sheet that a step is drawn on
SCALE, CELL_MM, ROW_MM, WORDS_MM = 0.54, 21.5, 17.0, 9.0  # how it stands on the page: in a row as wide as a column
FRAME = Pen(INK, BOLD_PT)


def care_steps(*, accent: str = ACCENT) -> Drawing:
    """All four steps in a row, each numbered, with two lines of words below."""
    steps = (("care_rinse", _rinse), ("care_soap", _soap), ("care_rub", _rub), ("care_dry", _dry))
    canvas = Canvas("care_steps", 4 * CELL_MM, ROW_MM + WORDS_MM, accent)
    for i, (key, draw) in enumerate(steps):
        left = i * CELL_MM
        sheet = Canvas(f"care_step_{i}", STEP_MM, PICTURE_MM, accent)
        draw(sheet, 0.0)
        canvas.paste(sheet, SCALE, left, ROW_MM - SCALE * PICTURE_MM)
        canvas.add(circle((left + 2.6, 2.6), 2.2), Pen(INK, LINE_PT, (), PAPER))
        canvas.label((left + 2.6, 2.6), "step", i + 1, strong=True)
        canvas.label((left + CELL_MM / 2, ROW_MM + WORDS_MM / 2), key, width_mm=CELL_MM - 1)
    return canvas.drawing()


def _pair(canvas: Canvas, place: Point, scale: float = 0.25, fill: str = FAINT) -> None:
    """The glasses from in front."""
    view, pair = View(scale=scale, origin=place), glasses()
    for rim in pair.rims:
        canvas.add(spline(view.trace(rim), closed=True), Pen(INK, BOLD_PT, (), fill))
    for line in (*pair.ends, pair.bridge):
        canvas.add(spline(view.trace(line)), FRAME)


def _drop(canvas: Canvas, place: Point, size: float) -> None:
    x, y = place
    shape = [(x, y - 1.7 * size), (x + 0.75 * size, y), (x, y + 0.8 * size), (x - 0.75 * size, y)]
    canvas.add(spline(shape, closed=True), Pen(canvas.accent, 0.9, (), canvas.accent))


def _rinse(canvas: Canvas, left: float) -> None:
    spout = [
        (16.0, 3.8),
        (26.4, 3.8),
        (28.6, 4.6),
        (29.6, 6.6),
        (29.6, 9.4),
        (26.2, 9.4),
        (26.2, 7.6),
        (16.0, 7.6),
    ]
    canvas.line((left + 21.4, 3.8), (left + 21.4, 1.4), pen=BOLD)
    canvas.line((left + 19.0, 1.3), (left + 23.8, 1.3), pen=Pen(INK, 2.4))
    canvas.add(polyline([(left + x, y) for x, y in spout], closed=True), Pen(INK, LINE_PT, (), LIGHT))
    canvas.add(round_box(left + 14.2, 2.4, 2.2, 6.6, 0.5), Pen(INK, LINE_PT, (), LIGHT))
    _pair(canvas, (left + 20.0, 20.4))
    for x in (26.8, 27.9, 29.0):
        canvas.line((left + x, 10.4), (left + x, 19.0), pen=Pen(canvas.accent, 1.1))
    for x, y, size in ((25.6, 28.0, 0.9), (31.0, 28.4, 0.9), (11.4, 28.2, 0.9)):
        _drop(canvas, (left + x, y), size)


def _soap(canvas: Canvas, left: float) -> None:
    bottle = [(24.6, 0.8), (33.0, 0.8), (33.0, 7.0), (31.0, 9.0), (26.6, 9.0), (24.6, 7.0)]
    nozzle = [(26.9, 9.0), (30.7, 9.0), (29.5, 11.2), (28.1, 11.2)]
    canvas.add(polyline([(left + x, y) for x, y in bottle], closed=True), Pen(INK, LINE_PT, (), PAPER))
    canvas.add(polyline([(left + x, y) for x, y in nozzle], closed=True), Pen(INK, LINE_PT, (), LIGHT))
    canvas.add(round_box(left + 26.4, 2.4, 4.8, 3.8, 0.6), HAIRLINE)
    _pair(canvas, (left + 20.0, 21.6))
    _drop(canvas, (left + 28.8, 15.0), 1.3)


def _rub(canvas: Canvas, left: float) -> None:
    _finger(canvas, (left + 39.4, 28.6), (left + 30.0, 17.4), 4.6, nail=False)
    _pair(canvas, (left + 20.0, 15.5))
    for x, y, size in ((24.4, 11.4, 1.0), (26.4, 19.4, 0.8), (24.0, 15.2, 0.6), (33.2, 19.2, 0.9)):
        canvas.add(circle((left + x, y), size), Pen(canvas.accent, 0.8, (), PAPER))
    _finger(canvas, (left + 38.6, 11.2), (left + 30.4, 16.2), 4.0)
    _finger(canvas, (left + 37.6, 3.6), (left + 27.8, 12.8), 4.0)
    turn = (left + 28.4, 15.6)
    canvas.add(arc(turn, 8.2, 200, 262), Pen(canvas.accent, LINE_PT))
    canvas.add(arrow_head(polar(turn, 8.2, 275), polar(turn, 8.2, 262), 2.2), solid(canvas.accent))


def _finger(canvas: Canvas, knuckle: Point, tip: Point, width: float, *, nail: bool = True) -> None:
    """A finger from knuckle to tip, open at the knuckle."""
    half = width / 2
    pointing = math.degrees(math.atan2(knuckle[1] - tip[1], tip[0] - knuckle[0]))
    end = polar(tip, -half, pointing)
    round_tip = arc(end, half, pointing - 90, pointing + 90)
    roots = polar(knuckle, half, pointing - 90), polar(knuckle, half, pointing + 90)
    shape = Path((roots[0], *round_tip.points, roots[1]), (MOVE, STRAIGHT, *round_tip.codes[1:], STRAIGHT))
    canvas.add(shape, Pen(INK, LINE_PT, (), PAPER))
    if nail:
        canvas.add(ellipse(polar(end, half * 0.15, pointing), half * 0.62, half * 0.5, pointing), HAIRLINE)


def _dry(canvas: Canvas, left: float) -> None:
    _pair(canvas, (left + 20.0, 15.5))
    cloth = [
        (24.6, 7.4),
        (29.0, 9.0),
        (34.0, 7.0),
        (38.4, 8.8),
        (37.2, 14.0),
        (38.8, 20.0),
        (35.0, 24.6),
        (30.6, 23.0),
        (26.0, 25.4),
        (22.6, 21.0),
        (24.4, 14.4),
    ]
    canvas.add(spline([(left + x, y) for x, y in cloth], closed=True), Pen(INK, LINE_PT, (), PAPER))
    for fold in (((27.4, 15.0), (28.0, 18.4), (27.0, 22.0)), ((32.0, 18.4), (31.6, 20.4), (32.2, 22.0))):
        canvas.add(spline([(left + x, y) for x, y in fold]), HAIRLINE)
    _finger(canvas, (left + 38.6, 12.0), (left + 31.4, 16.4), 4.0)
    _finger(canvas, (left + 37.6, 3.6), (left + 28.6, 12.6), 4.0)
    canvas.arrow((left + 30.6, 27.8), (left + 25.0, 27.8), Pen(canvas.accent, LINE_PT), 2.2)
    canvas.arrow((left + 30.6, 27.8), (left + 36.2, 27.8), Pen(canvas.accent, LINE_PT), 2.2)
