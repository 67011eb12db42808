"""The first days as a line: today, the days within which most people settle, and the last day of the free re-check.

A line of time follows the reading direction: it alone is mirrored for languages that run from right to left.
"""

from __future__ import annotations

from explainer.figures.drawing import Anchor, Drawing
from explainer.figures.look import INK, STRUCTURE, SUN, VEIL, fill, pen
from explainer.figures.paths import box, circle, joined, polyline
from explainer.figures.style import Canvas, Pen, within

WIDTH_MM, HEIGHT_MM = 180.0, 17.0
_START, _END, _LINE, _ABOVE, _BELOW = 3.0, 175.5, 13.2, 6.4, 2.8


def days(
    *,
    settle_from: float,
    settle_to: float,
    last_day: float,
    recheck: bool = True,
    mirrored: bool = False,
    accent: str = STRUCTURE,
) -> Drawing:
    """Days from 0 (today) to `last_day`, with a flag there if a re-check is offered until then."""
    within("settle_to", settle_to, settle_from, last_day, "days")
    canvas = Canvas("days", WIDTH_MM, HEIGHT_MM, accent)

    def x(day: float) -> float:
        along = _START + (_END - _START) * day / last_day
        return WIDTH_MM - along if mirrored else along

    first, last = sorted((x(settle_from), x(settle_to)))
    canvas.add(box(first, _LINE - _ABOVE, last - first, _ABOVE + _BELOW), fill(VEIL), "settling")
    canvas.line((x(0), _LINE), (x(last_day), _LINE), pen=pen(INK, 1.7), name="line")
    every = 1 if last_day <= 31 else 7
    ticks = [polyline([(x(d), _LINE - 1.1), (x(d), _LINE + 1.1)]) for d in range(every, int(last_day), every)]
    canvas.add(joined(ticks), pen(INK, 0.8))
    edges = [polyline([(x(d), _LINE - _ABOVE), (x(d), _LINE + _BELOW)]) for d in (settle_from, settle_to)]
    canvas.add(joined(edges), pen(canvas.accent, 1.6))
    canvas.add(circle((x(0), _LINE), 1.7), fill(canvas.accent))
    if recheck:
        _flag(canvas, x(last_day), -1 if mirrored else 1)
    _words(canvas, (x(0), (first + last) / 2, x(last_day)), mirrored)
    inward = -1 if mirrored else 1
    ends: tuple[Anchor, Anchor] = ("end", "start") if mirrored else ("start", "end")
    for day, way, anchor in ((settle_from, inward, ends[0]), (settle_to, -inward, ends[1])):
        canvas.label((x(day) + way * 1.4, _LINE - 3.7), "day_number", day, anchor=anchor)
    return canvas.drawing()


def _flag(canvas: Canvas, x: float, forward: int) -> None:
    canvas.line((x, _LINE + 2.0), (x, _LINE - 6.2), pen=pen(INK, 1.7))
    flag = polyline([(x, _LINE - 6.2), (x - forward * 5.0, _LINE - 4.4), (x, _LINE - 2.6)], closed=True)
    canvas.add(flag, Pen(INK, 1.1, (), SUN), "flag")


def _words(canvas: Canvas, places: tuple[float, float, float], mirrored: bool) -> None:
    """The page's own words over the line: today, the settling days, the re-check."""
    start, end = (WIDTH_MM, 0.0) if mirrored else (0.0, WIDTH_MM)
    first: Anchor = "end" if mirrored else "start"
    last: Anchor = "start" if mirrored else "end"
    canvas.slot((start, 0.0), "slot_today", anchor=first, width_mm=40.0)
    canvas.slot((min(max(places[1], 45.0), 135.0), 0.0), "slot_settling", width_mm=84.0)
    canvas.slot((end, 0.0), "slot_recheck", anchor=last, width_mm=60.0)
