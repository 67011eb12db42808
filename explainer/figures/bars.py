"""Bars: one value a row, or one range a row in front of bands.

Told apart by length, words and pattern, not by colour.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from explainer.errors import RenderError
from explainer.figures.drawing import Drawing
from explainer.figures.paths import box, hatching
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

WIDTH_MM = 150.0
NAMES_MM, END_MM = 44.0, 146.0  # the bars' field, left and right
ROW_MM, BAR_MM = 9.2, 4.6
VALUE_ROOM_MM = 18.0


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
    canvas = Canvas(name, WIDTH_MM, len(rows) * ROW_MM + 3, accent)
    per_unit = (END_MM - VALUE_ROOM_MM - NAMES_MM) / top
    for i, bar in enumerate(rows):
        middle = 1.5 + ROW_MM * (i + 0.5)
        _value_bar(canvas, bar, middle, bar.value * per_unit)
        place = (NAMES_MM + bar.value * per_unit + 2, middle)
        canvas.label(place, "amount", bar.value, unit=unit, digits=digits, anchor="start", strong=bar.chosen)
    canvas.line((NAMES_MM, 1.0), (NAMES_MM, canvas.height_mm - 1.0), pen=LINE)
    return canvas.drawing()


def _value_bar(canvas: Canvas, bar: Bar, middle: float, length: float) -> None:
    left, top = NAMES_MM, middle - BAR_MM / 2
    canvas.label((left - 2, middle), bar.key, anchor="end", strong=bar.chosen, width_mm=left - 3)
    if bar.chosen:
        canvas.add(box(left, top, length, BAR_MM), Pen(INK, HAIR_PT, (), canvas.accent), f"bar-{bar.key}")
        return
    canvas.add(box(left, top, length, BAR_MM), solid(PAPER))
    for path in hatching(left, top, length, BAR_MM, 1.8):
        canvas.add(path, Pen(MIDDLE, HAIR_PT))
    canvas.add(box(left, top, length, BAR_MM), HAIRLINE, f"bar-{bar.key}")


def range_bars(
    *,
    rows: Sequence[Range],
    bands: Sequence[Band] = (),
    low: float = 0.0,
    high: float = 100.0,
    unit: str = "percent",
    axis_key: str = "light_let_through",
    bands_key: str = "tint_category",
    name: str = "tint_bars",
    accent: str = ACCENT,
) -> Drawing:
    """Ranges on one scale from low to high, a tick at the middle value, in front of named bands."""
    ranges, behind = [Range(*row) for row in rows], [Band(*band) for band in bands]
    if not ranges:
        raise RenderError(f"the figure {name} needs at least one range")
    head = 11.0 if behind else 2.0
    foot = head + len(ranges) * ROW_MM + 1.0
    canvas = Canvas(name, WIDTH_MM, foot + 12.0, accent)
    field = Field(low, high, head, foot)
    _bands(canvas, field, behind, bands_key)
    _axis(canvas, field, unit, axis_key)
    for i, row in enumerate(ranges):
        _range(canvas, field, row, head + 0.5 + ROW_MM * (i + 0.5), unit)
    return canvas.drawing()


class Field(NamedTuple):
    """The ends of the scale and the upper and lower edge of the field [mm]."""

    low: float
    high: float
    head_mm: float
    foot_mm: float

    def x(self, value: float) -> float:
        """Where that value stands [mm]; OutOfRange beyond the scale."""
        within("value", value, self.low, self.high, "")
        return NAMES_MM + (value - self.low) / (self.high - self.low) * (END_MM - NAMES_MM)


def _bands(canvas: Canvas, field: Field, bands: Sequence[Band], bands_key: str) -> None:
    if bands:
        canvas.label((NAMES_MM - 2, field.head_mm - 4.5), bands_key, anchor="end", width_mm=NAMES_MM - 3)
    for i, band in enumerate(bands):
        left, right = field.x(band.low), field.x(band.high)
        canvas.add(
            box(left, field.head_mm, right - left, field.foot_mm - field.head_mm),
            solid(LIGHT if i % 2 else FAINT),
            f"band-{band.key}",
        )
        canvas.line((left, field.head_mm - 1.5), (left, field.foot_mm), pen=Pen(MIDDLE, HAIR_PT))
        canvas.label(((left + right) / 2, field.head_mm - 4.5), band.key, width_mm=max(right - left, 8.0))


def _axis(canvas: Canvas, field: Field, unit: str, axis_key: str) -> None:
    canvas.line((NAMES_MM, field.foot_mm), (END_MM, field.foot_mm), pen=LINE)
    step = nice_step(field.high - field.low, 6)
    value = field.low
    while value <= field.high + 1e-9:
        canvas.line((field.x(value), field.foot_mm), (field.x(value), field.foot_mm + 1.2), pen=THIN)
        canvas.label((field.x(value), field.foot_mm + 3.6), "tick", value)
        value += step
    canvas.label(((NAMES_MM + END_MM) / 2, field.foot_mm + 8.6), axis_key, width_mm=END_MM - NAMES_MM)


def _range(canvas: Canvas, field: Field, row: Range, middle: float, unit: str) -> None:
    if row.low > row.high:
        raise RenderError(f"the range {row.key} ends ({row.high}) before it starts ({row.low})")
    left, right = field.x(row.low), field.x(row.high)
    canvas.label((NAMES_MM - 2, middle), row.key, anchor="end", width_mm=NAMES_MM - 3)
    canvas.add(
        box(left, middle - BAR_MM / 2, max(right - left, 0.6), BAR_MM),
        Pen(INK, HAIR_PT, (), canvas.accent),
        f"range-{row.key}",
    )
    if row.central is not None:
        x = field.x(row.central)
        tick = Pen(PAPER, BOLD_PT)
        canvas.line((x, middle - BAR_MM / 2 + 0.6), (x, middle + BAR_MM / 2 - 0.6), pen=tick, name=f"middle-{row.key}")
