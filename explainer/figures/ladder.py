"""The ladder: each eye's power counted in quarter steps from zero, along the axis line and across it.

Plus is up, minus is down, one rung is a quarter dioptre. Right stands on the left of the page, as in every
figure.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

from explainer.figures.drawing import Anchor, Drawing
from explainer.figures.paths import Path, Point, box, circle, polyline
from explainer.figures.spread import spread
from explainer.figures.style import (
    ACCENT,
    BOLD,
    HAIR_PT,
    HAIRLINE,
    INK,
    LIGHT,
    LINE,
    LINE_PT,
    MIDDLE,
    PAPER,
    Canvas,
    Pen,
    solid,
    within,
)
from explainer.optics.spectacles import Side

WIDTH_MM, ROW_MM = 86.0, 4.3
TOP_MM, BELOW_MM = 7.2, 3.2  # above the highest rung, and between the lowest and the words
RAILS_MM: dict[Side, tuple[float, float]] = {"right": (23.0, 32.0), "left": (54.0, 63.0)}
MIDDLE_MM = WIDTH_MM / 2
LABEL_GAP_MM = 4.2
LIMIT_D, STEP_D = 30.0, 0.25
USUAL_MM, LONGEST_MM = 32.0, 48.4  # how long a ladder usually is at most, and at the very most
WIDEST_RUNG_MM, CLOSEST_RUNG_MM = 2.0, 0.6


class Scale(NamedTuple):
    """The whole dioptres at the lower and upper end of the ladders."""

    low_d: int
    high_d: int

    @property
    def long_mm(self) -> float:
        """How long the ladders are: short when there are few rungs, longer when they would run together."""
        rungs = (self.high_d - self.low_d) / STEP_D
        wanted = max(min(USUAL_MM, WIDEST_RUNG_MM * rungs), CLOSEST_RUNG_MM * rungs)
        return min(wanted, LONGEST_MM)

    @property
    def foot_mm(self) -> float:
        """Where the lowest rung stands on the page [mm from the top]."""
        return TOP_MM + self.long_mm

    def y(self, power_d: float) -> float:
        """Where that power stands on the page [mm from the top]."""
        return self.foot_mm - (power_d - self.low_d) / (self.high_d - self.low_d) * self.long_mm


def ladder(
    *,
    right_along_d: float,
    right_across_d: float,
    left_along_d: float,
    left_across_d: float,
    accent: str = ACCENT,
) -> Drawing:
    """Both eyes' two principal powers [D] on ladders of quarter steps; equal powers get one mark."""
    powers = (right_along_d, right_across_d, left_along_d, left_across_d)
    for power in powers:
        within("power_d", power, -LIMIT_D, LIMIT_D, "D")
    with_cylinder = right_along_d != right_across_d or left_along_d != left_across_d
    scale = ladder_scale(powers)
    lines = 2 if with_cylinder else 1
    canvas = Canvas("ladder", WIDTH_MM, scale.foot_mm + BELOW_MM + ROW_MM * lines, accent)
    _numbers(canvas, scale)
    eyes: tuple[tuple[Side, float, float], ...] = (
        ("right", right_along_d, right_across_d),
        ("left", left_along_d, left_across_d),
    )
    for side, along, across in eyes:
        _rungs(canvas, scale, side, along)
        _marks(canvas, scale, side, along, across)
    if with_cylinder:
        _what_marks_mean(canvas)
    _what_a_rung_is(canvas)
    return canvas.drawing()


def ladder_scale(powers_d: Iterable[float]) -> Scale:
    """Whole dioptres around zero and all powers, two dioptres at least."""
    every = (0.0, *powers_d)
    low, high = math.floor(min(every)), math.ceil(max(every))
    if high - low < 2:
        low, high = min(low, -1), max(high, 1)
    return Scale(low, high)


def _numbers(canvas: Canvas, scale: Scale) -> None:
    """Whole dioptres between the ladders; zero is a line through both."""
    per_dioptre = scale.long_mm / (scale.high_d - scale.low_d)
    every = next(step for step in (1, 2, 5, 10, 20) if step * per_dioptre >= LABEL_GAP_MM)
    for power in range(scale.low_d, scale.high_d + 1):
        if power % every == 0:
            canvas.label((MIDDLE_MM, scale.y(power)), "power_tick", power, unit="D")
    canvas.line((RAILS_MM["right"][0] - 2, scale.y(0)), (MIDDLE_MM - 6, scale.y(0)), pen=BOLD, name="zero-right")
    canvas.line((MIDDLE_MM + 6, scale.y(0)), (RAILS_MM["left"][1] + 2, scale.y(0)), pen=BOLD, name="zero-left")


def _rungs(canvas: Canvas, scale: Scale, side: Side, along_d: float) -> None:
    inner, outer = RAILS_MM[side]
    top, bottom = sorted((scale.y(0), scale.y(along_d)))
    canvas.add(box(inner, top, outer - inner, bottom - top), solid(LIGHT), f"climb-{side}")
    for quarter in range(scale.low_d * 4, scale.high_d * 4 + 1):
        y = scale.y(quarter * STEP_D)
        whole = quarter % 4 == 0
        canvas.line((inner, y), (outer, y), pen=LINE if whole else Pen(MIDDLE, HAIR_PT))
    for x in (inner, outer):
        canvas.line((x, TOP_MM - 1.2), (x, scale.foot_mm + 1.2), pen=LINE)
    middle = (inner + outer) / 2
    canvas.label((middle - 6.5, 2.2), f"{side}_letter", anchor="end", strong=True)
    canvas.label((middle - 5.3, 2.2), f"{side}_eye", anchor="start")


def _marks(canvas: Canvas, scale: Scale, side: Side, along_d: float, across_d: float) -> None:
    rail = RAILS_MM[side][0 if side == "right" else 1]
    away = -1.0 if side == "right" else 1.0
    anchor: Anchor = "end" if side == "right" else "start"
    shown = [("along", along_d)] if along_d == across_d else [("along", along_d), ("across", across_d)]
    places = spread([scale.y(power) for _, power in shown], gap=LABEL_GAP_MM, low=TOP_MM, high=scale.foot_mm + 0.8)
    for (which, power), label_y in zip(shown, places, strict=True):
        y = scale.y(power)
        canvas.line((rail, y), (rail + away * 3.2, label_y), (rail + away * 4.2, label_y), pen=HAIRLINE)
        canvas.add(_mark(which, (rail, y)), _mark_pen(canvas, which), f"{which}-{side}")
        canvas.label((rail + away * 5.0, label_y), "power", power, unit="D", digits=2, anchor=anchor, strong=True)


def _mark(which: str, place: Point) -> Path:
    if which == "along":
        return circle(place, 1.3)
    x, y = place
    return polyline([(x, y - 1.75), (x + 1.75, y), (x, y + 1.75), (x - 1.75, y)], closed=True)


def _mark_pen(canvas: Canvas, which: str) -> Pen:
    return Pen(INK, HAIR_PT, (), canvas.accent) if which == "along" else Pen(INK, LINE_PT, (), PAPER)


def _what_marks_mean(canvas: Canvas) -> None:
    """Both marks with their words, on one line."""
    y = canvas.height_mm - 1.5 * ROW_MM
    for which, x in (("along", 3.0), ("across", MIDDLE_MM + 3.0)):
        canvas.add(_mark(which, (x, y)), _mark_pen(canvas, which))
        canvas.label((x + 3.2, y), f"{which}_axis", anchor="start", width_mm=MIDDLE_MM - 6.4)


def _what_a_rung_is(canvas: Canvas) -> None:
    """A rung between its rails, with words, on the last line."""
    x, y = 3.0, canvas.height_mm - ROW_MM / 2
    for turn in (-1, 1):
        canvas.line((x - 1.6, y + turn * 0.9), (x + 1.6, y + turn * 0.9), pen=Pen(MIDDLE, HAIR_PT))
        canvas.line((x + turn * 1.6, y - 1.7), (x + turn * 1.6, y + 1.7), pen=LINE)
    canvas.label((x + 3.2, y), "one_rung", anchor="start", width_mm=WIDTH_MM - x - 3.2)
