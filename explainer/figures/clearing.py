"""How long a light-reactive lens takes to clear: for each temperature a bar from the shortest to the longest time."""

from __future__ import annotations

import math
from collections.abc import Sequence

from explainer.figures.drawing import Drawing
from explainer.figures.look import EDGE, STRUCTURE, fill, pen
from explainer.figures.paths import round_box
from explainer.figures.scales import nice_step
from explainer.figures.style import Canvas, within

WIDTH_MM = 180.0
_LEFT_MM, _RIGHT_MM, _ROW_MM, _TOP_MM, _BAR_MM, _FOOT_MM = 104.0, 172.0, 6.6, 1.0, 3.8, 6.0
_LEAST_MM = 1.2


def clearing(*, rows: Sequence[tuple[str, float, float]], accent: str = STRUCTURE) -> Drawing:
    """`rows` are names of temperatures with the shortest and longest time [min]; the page writes both beside them."""
    most = max(high for _, _, high in rows)
    within("longest time", most, 0.1, 24 * 60, "min")
    foot = _TOP_MM + _ROW_MM * len(rows)
    canvas = Canvas("clearing", WIDTH_MM, foot + _FOOT_MM, accent)
    step = 30 if 60 < most <= 150 else nice_step(most, 5)
    count = math.ceil(most / step - 0.05)  # a bar may reach a little beyond the last line

    def x(minutes: float) -> float:
        return _LEFT_MM + (_RIGHT_MM - _LEFT_MM) * minutes / (count * step)

    for i in range(count + 1):
        canvas.line((x(i * step), 0.2), (x(i * step), foot + 0.6), pen=pen(EDGE, 0.8))
        canvas.label((x(i * step), foot + 3.4), "minute_tick" if i else "minute_zero", i * step)
    for i, (name, low, high) in enumerate(rows):
        y = _TOP_MM + _ROW_MM * (i + 0.5)
        wide = max(x(high) - x(low), _LEAST_MM)
        canvas.add(round_box(x(low), y - _BAR_MM / 2, wide, _BAR_MM, 0.5), fill(canvas.accent), f"time-{name}")
        canvas.slot((0.0, y - 2.5), f"slot_place_{name}", anchor="start", width_mm=33.0)
        canvas.slot((_LEFT_MM - 4.0, y - 2.5), f"slot_time_{name}", anchor="end", width_mm=66.0)
    return canvas.drawing()
