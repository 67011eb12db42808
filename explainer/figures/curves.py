"""How fast a self-tinting lens darkens and clears, at several temperatures, as two pictures one above the other.

Each temperature has its own line style and its name at the line's end, so that the curves can be told apart
in grey. The area between the low and the high estimate is shaded where `low` and `high` are given.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from explainer.errors import RenderError
from explainer.figures.drawing import Drawing
from explainer.figures.paths import Path, polyline
from explainer.figures.scales import nice_step, steps
from explainer.figures.spread import spread
from explainer.figures.style import (
    ACCENT,
    BOLD_PT,
    DASHED,
    DOTTED,
    FAINT,
    HAIR_PT,
    INK,
    LINE,
    LINE_PT,
    MIDDLE,
    THIN,
    Canvas,
    Pen,
    within,
)

WIDTH_MM, HEIGHT_MM = 86.0, 79.0
LEFT_MM, RIGHT_MM = 8.4, 65.0  # where both pictures' time begins and ends
DEEP_MM = 25.2  # from all light to none
TOPS_MM, ONE_HIGH_MM = (10.8, 48.2), 41.6  # where all light stands, one picture below the other
LABEL_GAP_MM = 4.2

Way = Literal["darkening", "fading"]


class Course(NamedTuple):
    """One curve: temperature, times [s], light let through [percent]; low and high estimates may be empty."""

    celsius: float
    times_s: tuple[float, ...]
    central: tuple[float, ...]
    low: tuple[float, ...] = ()
    high: tuple[float, ...] = ()


class Field(NamedTuple):
    """One picture's upper edge [mm] and the end of its time axis [s]; light runs from 0 to 100 percent."""

    top_mm: float
    end_s: float

    @property
    def foot_mm(self) -> float:
        """Where no light stands [mm from the top]."""
        return self.top_mm + DEEP_MM

    def x(self, time_s: float) -> float:
        """Where that time stands [mm]."""
        return LEFT_MM + time_s / self.end_s * (RIGHT_MM - LEFT_MM)

    def y(self, percent: float) -> float:
        """Where that much light stands [mm from the top]."""
        return self.foot_mm - within("light", percent, 0, 100, "percent") / 100 * DEEP_MM


def tint_curves(*, darkening: Sequence[Course] = (), fading: Sequence[Course] = (), accent: str = ACCENT) -> Drawing:
    """One picture or both, one above the other; each takes up to three courses."""
    asked: dict[Way, Sequence[Course]] = {"darkening": darkening, "fading": fading}
    ways = {way: given for way, given in asked.items() if given}
    if not ways:
        raise RenderError("the tint curves need at least one curve")
    canvas = Canvas("tint_curves", WIDTH_MM, HEIGHT_MM if len(ways) > 1 else ONE_HIGH_MM, accent)
    for place, (way, given) in enumerate(ways.items()):
        courses = [_checked(Course(*course)) for course in given]
        if not 1 <= len(courses) <= 3:
            raise RenderError(f"the {way} picture takes one to three curves, not {len(courses)}")
        field = Field(TOPS_MM[place], max(course.times_s[-1] for course in courses))
        _curves(canvas, field, way, courses)
        _axes(canvas, field, way, scale_named=place == 0)
    return canvas.drawing()


def _checked(course: Course) -> Course:
    count = len(course.times_s)
    if (
        count < 2
        or len(course.central) != count
        or len(course.low) != len(course.high)
        or len(course.low) not in (0, count)
    ):
        raise RenderError(f"the curve for {course.celsius:g} celsius has rows of unequal length")
    if any(b <= a for a, b in pairwise(course.times_s)):
        raise RenderError(f"the times of the curve for {course.celsius:g} celsius do not grow")
    return course


def _axes(canvas: Canvas, field: Field, way: Way, *, scale_named: bool) -> None:
    """Both axes with their numbers; the unit of time stands behind the last number."""
    foot = field.foot_mm
    canvas.line((LEFT_MM, field.top_mm), (LEFT_MM, foot), (RIGHT_MM, foot), pen=LINE)
    for percent in range(0, 101, 20):
        y = field.y(percent)
        canvas.line((LEFT_MM - 1.2, y), (LEFT_MM, y), pen=THIN)
        canvas.label((LEFT_MM - 1.8, y), "tick", percent, anchor="end")
    minutes = field.end_s > 240
    unit_s = 60.0 if minutes else 1.0
    for time in steps(field.end_s / unit_s, 5):
        x = field.x(time * unit_s)
        canvas.line((x, foot), (x, foot + 1.2), pen=THIN)
        canvas.label((x, foot + 3.4), "tick", time, digits=0 if nice_step(field.end_s / unit_s, 5) >= 1 else 1)
    canvas.label((RIGHT_MM + 4.2, foot + 3.4), "minutes" if minutes else "seconds", anchor="start")
    lines = ((way, True), ("light_scale", False)) if scale_named else ((way, True),)
    for up, (key, strong) in enumerate(reversed(lines)):
        canvas.label((0, field.top_mm - 4.4 - 4.2 * up), key, anchor="start", strong=strong, width_mm=WIDTH_MM)


def _curves(canvas: Canvas, field: Field, way: Way, courses: Sequence[Course]) -> None:
    pens = (
        Pen(INK, LINE_PT, DASHED),
        Pen(canvas.accent, BOLD_PT),
        Pen(INK, BOLD_PT, DOTTED),
    )
    for course in courses:
        if course.low:
            canvas.add(_band(field, course), Pen(MIDDLE, HAIR_PT, (), FAINT))
    ends = spread(
        [field.y(course.central[-1]) for course in courses], gap=LABEL_GAP_MM, low=field.top_mm, high=field.foot_mm - 1
    )
    for course, pen, label_y in zip(courses, pens, ends, strict=False):
        points = [(field.x(t), field.y(p)) for t, p in zip(course.times_s, course.central, strict=True)]
        canvas.add(polyline(points), pen, f"{way}-{course.celsius:g}")
        canvas.line(points[-1], (RIGHT_MM + 3, label_y), pen=Pen(INK, HAIR_PT))
        canvas.label((RIGHT_MM + 3.8, label_y), "at_celsius", course.celsius, unit="celsius", anchor="start")


def _band(field: Field, course: Course) -> Path:
    upper = [(field.x(t), field.y(p)) for t, p in zip(course.times_s, course.high, strict=True)]
    lower = [(field.x(t), field.y(p)) for t, p in zip(course.times_s, course.low, strict=True)]
    return polyline([*upper, *reversed(lower)], closed=True)
