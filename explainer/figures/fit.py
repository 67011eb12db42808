"""Five small drawings: how to see that the glasses are straight and sit well.

One line style, one pair of glasses.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from explainer.figures.drawing import Drawing
from explainer.figures.paths import Point, circle, ellipse, polyline, spline
from explainer.figures.style import (
    ACCENT,
    BOLD_PT,
    FAINT,
    GUIDE,
    HAIRLINE,
    INK,
    LIGHT,
    LINE,
    LINE_PT,
    MIDDLE,
    PAPER,
    THIN,
    Canvas,
    Pen,
    solid,
)
from explainer.figures.wireframe import Glasses, View, feet, glasses, resting

WIDTH_MM, HEIGHT_MM = 40.0, 28.0
SHEET_MM = (40.0, 30.0)  # what the small drawings are drawn on, before they are put on the page a little smaller
TABLE_MM, WORDS_MM = 21.0, 4.6  # the table with the pair on it; the line of words below
FRAME = Pen(INK, BOLD_PT)
FAR = Pen(INK, LINE_PT)


def fit_table(*, accent: str = ACCENT) -> Drawing:
    """The table test: right way up and upside down, all four feet on the table."""
    canvas = Canvas("fit_table", 2 * WIDTH_MM + 6, TABLE_MM + WORDS_MM, accent)
    for i, (upside_down, key) in enumerate(((False, "right_way_up"), (True, "upside_down"))):
        left = i * (WIDTH_MM + 3.6)
        view = View(side_deg=-28, above_deg=20, scale=0.195, origin=(left + 16.2, 16.6))
        _table(canvas, view)
        pair = resting(upside_down=upside_down)
        for foot in feet(pair):
            canvas.add(circle(view.see(foot), 1.25), Pen(canvas.accent, 1.0, (), PAPER))
        draw_glasses(canvas, pair, view)
        for foot in feet(pair):
            canvas.add(circle(view.see(foot), 0.55), solid(canvas.accent))
        canvas.label((left + WIDTH_MM / 2 + 1, TABLE_MM + WORDS_MM / 2), key, width_mm=WIDTH_MM)
    return canvas.drawing()


def _table(canvas: Canvas, view: View) -> None:
    corners = [(-76, 0, 24), (76, 0, 24), (76, 0, -142), (-76, 0, -142)]
    canvas.add(polyline(view.trace(corners), closed=True), solid(FAINT))
    canvas.line(*view.trace(corners[:2]), pen=Pen(MIDDLE, LINE_PT))


def draw_glasses(canvas: Canvas, pair: Glasses, view: View) -> None:
    """The pair as lines, the far parts first."""
    for line in pair.temples:
        canvas.add(spline(view.trace(line)), FAR)
    for line in (*pair.ends, pair.bridge):
        canvas.add(spline(view.trace(line)), FRAME)
    for line in pair.rims:
        canvas.add(spline(view.trace(line), closed=True), FRAME)


def _small(name: str, draw: Callable[[Canvas], None], accent: str) -> Drawing:
    """A small drawing without words, two of which stand side by side in a column."""
    sheet, canvas = Canvas(name, *SHEET_MM, accent), Canvas(name, WIDTH_MM, HEIGHT_MM, accent)
    draw(sheet)
    scale = HEIGHT_MM / SHEET_MM[1]
    canvas.paste(sheet, scale, (WIDTH_MM - scale * SHEET_MM[0]) / 2, 0)
    return canvas.drawing()


def fit_folded(*, accent: str = ACCENT) -> Drawing:
    """Folded and seen from behind: the temples cross in the middle, equally high."""
    return _small("fit_folded", _folded, accent)


def _folded(canvas: Canvas) -> None:
    view = View(scale=0.265, origin=(WIDTH_MM / 2, 14.5))
    pair = glasses()
    for line in (*pair.ends, pair.bridge):
        canvas.add(spline(view.trace(line)), FRAME)
    for rim in pair.rims:
        canvas.add(spline(view.trace(rim), closed=True), Pen(INK, BOLD_PT, (), FAINT))
    canvas.line((WIDTH_MM / 2, 3.0), (WIDTH_MM / 2, 26.0), pen=GUIDE)
    for side in (-1, 1):
        folded = [(66, 9), (30, 6.8), (0, 5.0), (-28, 3.4), (-41, -1.0), (-48, -13.5)]
        temple = spline(view.trace([(side * x, y, 0) for x, y in folded]))
        canvas.add(temple, Pen(PAPER, 3.6))
        canvas.add(temple, FRAME)
    canvas.add(circle(view.see((0, 5.0, 0)), 2.2), Pen(canvas.accent, 1.4))


def fit_level(*, accent: str = ACCENT) -> Drawing:
    """On the face: level (tick), and crooked (cross)."""
    return _small("fit_level", _level, accent)


def _level(canvas: Canvas) -> None:
    for centre, roll, good in ((10.0, 0.0, True), (30.0, 8.0, False)):
        _face(canvas, centre)
        canvas.line((centre - 9.4, 11.1), (centre + 9.4, 11.1), pen=GUIDE)
        view = View(scale=0.098, origin=(centre, 13.6), roll_deg=roll)
        pair = glasses()
        for line in (*pair.ends, pair.bridge):
            canvas.add(spline(view.trace(line)), FAR)
        for rim in pair.rims:
            canvas.add(spline(view.trace(rim), closed=True), Pen(INK, 1.5))
        _verdict(canvas, (centre + 7.6, 26.4), good)


def _face(canvas: Canvas, centre: float) -> None:
    head = [(0, 2.2), (4.6, 3.4), (7.0, 8.0), (6.9, 14.5), (6.0, 20.0), (3.4, 24.4), (0, 25.8)]
    outline = [(centre + x, y) for x, y in head]
    back = [(centre - x, y) for x, y in reversed(head[1:-1])]
    for turn in (-1, 1):
        ear = [(6.9, 11.6), (8.5, 11.2), (8.6, 14.2), (7.7, 16.8), (6.5, 16.6)]
        canvas.add(spline([(centre + turn * x, y) for x, y in ear]), Pen(INK, 0.8, (), PAPER))
    canvas.add(spline([*outline, *back], closed=True), Pen(INK, LINE_PT, (), PAPER))
    hair = [(centre + x, y) for x, y in ((-6.9, 9.8), (-5.2, 7.0), (-2.2, 6.2), (1.8, 7.2), (5.2, 6.4), (6.9, 9.8))]
    top = [(centre + x, y) for x, y in ((6.9, 6.9), (4.6, 3.4), (0, 2.2), (-4.6, 3.4), (-6.9, 6.9))]
    canvas.add(spline([*hair, *top], closed=True), Pen(INK, LINE_PT, (), LIGHT))
    for turn in (-1, 1):
        canvas.add(circle((centre + turn * 3.3, 13.4), 0.5), solid(INK))
    canvas.add(spline([(centre + 0.4, 14.4), (centre - 0.9, 17.9), (centre + 0.5, 18.2)]), THIN)
    canvas.add(spline([(centre - 2.2, 21.2), (centre, 21.8), (centre + 2.2, 21.2)]), THIN)


def _verdict(canvas: Canvas, place: Point, good: bool) -> None:
    """A tick or a cross in a small disc."""
    x, y = place
    canvas.add(circle(place, 2.4), Pen(INK, LINE_PT, (), canvas.accent if good else PAPER))
    if good:
        canvas.line((x - 1.2, y + 0.1), (x - 0.3, y + 1.1), (x + 1.3, y - 1.0), pen=Pen(PAPER, 1.5))
        return
    for turn in (-1, 1):
        canvas.line((x - 1.0, y - turn * 1.0), (x + 1.0, y + turn * 1.0), pen=Pen(INK, 1.5))


def fit_pads(*, accent: str = ACCENT) -> Drawing:
    """The nose from in front: both pads lie flat on it, equally high."""
    return _small("fit_pads", _pads, accent)


def _pads(canvas: Canvas) -> None:
    middle = WIDTH_MM / 2
    view = View(scale=0.8, origin=(middle, 10.0))
    pair = glasses()
    side = [
        (4.3, 1.5),
        (3.9, 5.0),
        (4.4, 9.5),
        (5.5, 14.5),
        (7.0, 19.0),
        (8.6, 22.6),
        (8.2, 25.6),
        (5.4, 25.8),
    ]
    tip = [(-5.4, 25.8), (-3.2, 27.4), (0, 28.2), (3.2, 27.4), (5.4, 25.8)]
    for turn in (-1, 1):
        canvas.add(spline([(middle + turn * x, y) for x, y in side]), LINE)
    canvas.add(spline([(middle + x, y) for x, y in tip]), LINE)
    for turn, rim in zip((-1, 1), pair.rims, strict=True):
        inner = [point for point in view.trace(rim) if abs(point[0] - middle) < 17.0 and point[1] > 0.5]
        canvas.add(spline(sorted(inner, key=_around(middle + turn * 20, 10.0, turn))), Pen(INK, 2.4))
        arm = [(7.5, 8.0), (6.2, 8.4), (6.4, 10.6), (6.6, 12.4)]
        canvas.add(spline([(middle + turn * x, y) for x, y in arm]), LINE)
        pad = ellipse((middle + turn * 6.35, 13.3), 3.3, 1.15, turn_deg=-turn * 75.0)
        canvas.add(pad, Pen(INK, LINE_PT, (), canvas.accent))
    canvas.add(spline(view.trace(pair.bridge)), Pen(INK, 2.4))


def _around(x: float, y: float, turn: int) -> Callable[[Point], float]:
    """Orders the points of an arc about a place, from the top to the bottom."""
    return lambda point: math.atan2(point[1] - y, turn * (x - point[0]))


def fit_bend(*, accent: str = ACCENT) -> Drawing:
    """From the side: the bend begins just behind the top of the ear."""
    return _small("fit_bend", _bend, accent)


def _bend(canvas: Canvas) -> None:
    profile = [
        (12.0, 1.0),
        (8.6, 4.0),
        (8.0, 8.0),
        (8.6, 10.4),
        (6.6, 14.0),
        (4.6, 17.4),
        (6.0, 18.8),
        (7.6, 19.0),
    ]
    canvas.add(spline([*profile, (6.9, 21.0), (7.6, 22.2), (7.2, 24.0), (7.8, 26.0), (8.6, 29.0)]), LINE)
    canvas.add(spline([(26.0, 29.0), (27.0, 24.0), (28.0, 20.5)]), LINE)
    _ear(canvas)
    canvas.add(spline([(10.0, 12.0), (11.4, 11.4), (12.6, 11.9)]), LINE)
    canvas.add(spline([(10.0, 12.0), (11.2, 12.7), (12.4, 12.3)]), THIN)
    canvas.add(spline([(9.6, 8.0), (11.4, 7.0), (13.6, 7.4)]), LINE)
    rim = ellipse((7.4, 12.4), 4.4, 1.0, turn_deg=84)
    canvas.add(rim, Pen(INK, BOLD_PT, (), FAINT))
    temple = [(8.2, 10.2), (18.0, 9.9), (25.8, 9.6)]
    bend = [(25.8, 9.6), (28.8, 9.9), (31.0, 12.6), (32.0, 16.6), (32.4, 19.4)]
    canvas.line(*temple, pen=FRAME)
    canvas.add(spline(bend), FRAME)
    canvas.add(circle((28.2, 9.8), 2.2), Pen(canvas.accent, 1.4))


def _ear(canvas: Canvas) -> None:
    outer = [
        (25.2, 15.6),
        (24.6, 12.2),
        (26.0, 9.9),
        (28.6, 10.0),
        (30.4, 12.4),
        (29.8, 16.0),
        (28.2, 18.4),
        (27.6, 20.6),
        (26.0, 21.0),
        (25.0, 19.4),
    ]
    canvas.add(spline(outer), Pen(INK, LINE_PT, (), PAPER))
    canvas.add(spline([(26.2, 13.2), (27.4, 11.9), (28.8, 13.0), (28.4, 15.2), (27.0, 16.6), (26.6, 18.6)]), HAIRLINE)
