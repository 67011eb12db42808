"""Bars in a column of the page: one value a row, or one range a row on a strip of bands.

The name of a row stands above its bar, so that it may be long in every language. Bars are told apart by length, words
and pattern, not by colour.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from explainer.errors import RenderError
from explainer.figures.drawing import Drawing
from explainer.figures.paths import box, hatching, joined
from explainer.figures.scales import nice_step
from explainer.figures.style import (
    ACCENT,
    BOLD_PT,
    FAINT,
    HAIR_PT,
    HAIRLINE,
    INK,
    LIGHT,
    LINE,
    MIDDLE,
    PAPER,
    THIN,
    Canvas,
    Pen,
    solid,
    within,
)
from explainer.optics.claim import Interval

WIDTH_MM = 86.0
LEFT_MM, RIGHT_MM = 7.0, 79.0  # the scale of ranges; a number fits beyond either end
ROW_MM, NAME_MM, BAR_MM = 8.1, 4.5, 3.1  # a row, the line of its name, its bar
LINE_MM = 4.05  # between the lines of a name and of the numbers beside its bar
KEY_MM, HEAD_MM, FOOT_MM = 4.0, 8.5, 9.8  # the strip of bands' names, all above the rows, all below them
VALUE_LEFT_MM, VALUE_ROOM_MM = 0.6, 19.0


class Bar(NamedTuple):
    """One row: its label key, its value, and whether it is the one this leaflet is about."""

    key: str
    value: float
    chosen: bool = False


class Range(NamedTuple):
    """One row: its label key, the range, and the middle value where there is one."""

    key: str
    low: float
    high: float
    central: float | None = None


class Band(NamedTuple):
    """A band behind the rows: its label key and its ends."""

    key: str
    low: float
    high: float


def value_bars(
    *, bars: Sequence[Bar], unit: str, digits: int, name: str = "weight_bars", accent: str = ACCENT
) -> Drawing:
    """Horizontal bars from zero, each with its value; the chosen one is solid, the others hatched."""
    rows = [Bar(*bar) for bar in bars]
    if not rows:
        raise RenderError(f"the figure {name} needs at least one bar")
    top = max(within("value", bar.value, 0, 1e6, unit) for bar in rows) or 1.0
    canvas = Canvas(name, WIDTH_MM, len(rows) * ROW_MM + 0.6, accent)
    per_unit = (WIDTH_MM - VALUE_ROOM_MM - VALUE_LEFT_MM) / top
    for i, bar in enumerate(rows):
        length, bar_top = bar.value * per_unit, ROW_MM * i + NAME_MM
        canvas.label((0, bar_top + BAR_MM / 2 - LINE_MM), bar.key, anchor="start", strong=bar.chosen, width_mm=WIDTH_MM)
        _value_bar(canvas, bar, bar_top, length)
        place = (VALUE_LEFT_MM + length + 1.6, bar_top + BAR_MM / 2)
        canvas.label(place, "amount", bar.value, unit=unit, digits=digits, anchor="start", strong=bar.chosen)
    return canvas.drawing()


def _value_bar(canvas: Canvas, bar: Bar, top: float, length: float) -> None:
    left = VALUE_LEFT_MM
    if bar.chosen:
        canvas.add(box(left, top, length, BAR_MM), Pen(INK, HAIR_PT, (), canvas.accent), f"bar-{bar.key}")
    else:
        for path in hatching(left, top, length, BAR_MM, 1.8):
            canvas.add(path, Pen(MIDDLE, HAIR_PT))
        canvas.add(box(left, top, length, BAR_MM), HAIRLINE, f"bar-{bar.key}")
    canvas.line((left, top - 0.3), (left, top + BAR_MM + 0.3), pen=LINE)


def range_bars(
    *,
    rows: Sequence[Range],
    bands: Sequence[Band] = (),
    low: float = 0.0,
    high: float = 100.0,
    axis_key: str = "light_let_through",
    bands_key: str = "tint_category",
    name: str = "tint_bars",
    accent: str = ACCENT,
) -> Drawing:
    """Ranges on one scale from low to high, their ends in numbers, a tick at the middle value, on strips of bands."""
    ranges, behind = [Range(*row) for row in rows], [Band(*band) for band in bands]
    if not ranges:
        raise RenderError(f"the figure {name} needs at least one range")
    head = HEAD_MM if behind else 0.0
    foot = head + len(ranges) * ROW_MM + 0.4
    canvas = Canvas(name, WIDTH_MM, foot + FOOT_MM, accent)
    scale = Scale(low, high)
    tops = [head + ROW_MM * i + NAME_MM for i in range(len(ranges))]
    _bands(canvas, scale, behind, bands_key, tops)
    _axis(canvas, scale, foot, axis_key)
    for row, top in zip(ranges, tops, strict=True):
        _range(canvas, scale, row, top)
    return canvas.drawing()


class Scale(NamedTuple):
    """The values at both ends of the scale."""

    low: float
    high: float

    def x(self, value: float) -> float:
        """Where that value stands [mm]; OutOfRange beyond the scale."""
        within("value", value, self.low, self.high, "")
        return LEFT_MM + (value - self.low) / (self.high - self.low) * (RIGHT_MM - LEFT_MM)


def _bands(canvas: Canvas, scale: Scale, bands: Sequence[Band], bands_key: str, tops: Sequence[float]) -> None:
    """The bands' names on a strip above the rows, and their greys behind every bar."""
    if not bands:
        for top in tops:
            canvas.add(box(LEFT_MM, top, RIGHT_MM - LEFT_MM, BAR_MM), solid(FAINT))
        return
    key_top = HEAD_MM - KEY_MM - 0.3
    canvas.label((0, key_top / 2), bands_key, anchor="start", width_mm=WIDTH_MM)
    for i, band in enumerate(bands):
        left, right = scale.x(band.low), scale.x(band.high)
        strips = [box(left, key_top, right - left, KEY_MM)]
        strips += [box(left, top, right - left, BAR_MM) for top in tops]
        canvas.add(joined(strips), solid(LIGHT if i % 2 else FAINT), f"band-{band.key}")
        canvas.add(strips[0], Pen(MIDDLE, HAIR_PT))
        canvas.label(((left + right) / 2, key_top + KEY_MM / 2), band.key)


def _axis(canvas: Canvas, scale: Scale, foot: float, axis_key: str) -> None:
    canvas.line((LEFT_MM, foot), (RIGHT_MM, foot), pen=LINE)
    step = nice_step(scale.high - scale.low, 6)
    value = scale.low
    while value <= scale.high + 1e-9:
        canvas.line((scale.x(value), foot), (scale.x(value), foot + 1.2), pen=THIN)
        canvas.label((scale.x(value), foot + 3.3), "tick", value)
        value += step
    canvas.label((WIDTH_MM / 2, foot + 7.5), axis_key, width_mm=WIDTH_MM)


def _range(canvas: Canvas, scale: Scale, row: Range, top: float) -> None:
    """One bar with its name above and its ends beside it, rounded outward as the tables do."""
    if row.low > row.high:
        raise RenderError(f"the range {row.key} ends ({row.high}) before it starts ({row.low})")
    left, right = scale.x(row.low), scale.x(row.high)
    middle, long = top + BAR_MM / 2, max(right - left, 0.6)
    canvas.label((0, middle - LINE_MM), row.key, anchor="start", width_mm=WIDTH_MM)
    canvas.add(box(left, top, long, BAR_MM), Pen(INK, HAIR_PT, (), canvas.accent), f"range-{row.key}")
    if row.central is not None:
        x = scale.x(row.central)
        canvas.line((x, top + 0.6), (x, top + BAR_MM - 0.6), pen=Pen(PAPER, BOLD_PT), name=f"middle-{row.key}")
    shown = Interval(row.low, row.high).outward(0)
    if shown.low != shown.high:
        canvas.label((left - 0.8, middle), "amount", round(shown.low), anchor="end")
    canvas.label((left + long + 0.8, middle), "amount", round(shown.high), anchor="start")
