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

WIDTH_MM, ROW_MM = 84.0, 4.9
TOP_MM, BOTTOM_MM = 13.6, 62.0
RAILS_MM: dict[Side, tuple[float, float]] = {"right": (22.0, 31.0), "left": (53.0, 62.0)}
MIDDLE_MM = WIDTH_MM / 2
LABEL_GAP_MM = 4.6
LIMIT_D, STEP_D = 30.0, 0.25


class Scale(NamedTuple):
    """The whole dioptres at the lower and upper end of the ladders."""

    low_d: int
    high_d: int

    def y(self, power_d: float) -> float:
        """Where that power stands on the page [mm from the top]."""
        return BOTTOM_MM - (power_d - self.low_d) / (self.high_d - self.low_d) * (BOTTOM_MM - TOP_MM)


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
    legend = ("along", "across") if with_cylinder else ()
    canvas = Canvas("ladder", WIDTH_MM, BOTTOM_MM + 3.6 + ROW_MM * (len(legend) + 1), accent)
    scale = ladder_scale(powers)
    _numbers(canvas, scale)
    eyes: tuple[tuple[Side, float, float], ...] = (
        ("right", right_along_d, right_across_d),
        ("left", left_along_d, left_across_d),
    )
    for side, along, across in eyes:
        _rungs(canvas, scale, side, along)
        _marks(canvas, scale, side, along, across)
    _legend(canvas, legend)
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
    per_dioptre = (BOTTOM_MM - TOP_MM) / (scale.high_d - scale.low_d)
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
        canvas.line((x, TOP_MM - 1.2), (x, BOTTOM_MM + 1.2), pen=LINE)
    middle = (inner + outer) / 2
    canvas.label((middle, 3.4), f"{side}_letter", strong=True)
    canvas.label((middle, 8.2), f"{side}_eye", width_mm=30)


def _marks(canvas: Canvas, scale: Scale, side: Side, along_d: float, across_d: float) -> None:
    rail = RAILS_MM[side][0 if side == "right" else 1]
    away = -1.0 if side == "right" else 1.0
    anchor: Anchor = "end" if side == "right" else "start"
    shown = [("along", along_d)] if along_d == across_d else [("along", along_d), ("across", across_d)]
    places = spread([scale.y(power) for _, power in shown], gap=LABEL_GAP_MM, low=TOP_MM, high=BOTTOM_MM + 1)
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


def _legend(canvas: Canvas, marks: tuple[str, ...]) -> None:
    """What the marks and the rungs mean, a line each."""
    left = 6.0
    for i, which in enumerate(marks):
        y = BOTTOM_MM + 3.6 + ROW_MM * (i + 0.5)
        canvas.add(_mark(which, (left, y)), _mark_pen(canvas, which))
        canvas.label((left + 3.6, y), f"{which}_axis", anchor="start", width_mm=WIDTH_MM - left - 4)
    y = canvas.height_mm - ROW_MM / 2
    for turn in (-1, 1):
        canvas.line((left - 1.6, y + turn * 0.9), (left + 1.6, y + turn * 0.9), pen=Pen(MIDDLE, HAIR_PT))
        canvas.line((left + turn * 1.6, y - 1.7), (left + turn * 1.6, y + 1.7), pen=LINE)
    canvas.label((left + 3.6, y), "one_rung", anchor="start", width_mm=WIDTH_MM - left - 4)
