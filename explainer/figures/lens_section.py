"""A cut through the lens from temple to nose, to scale: this material above, the same lens in hard resin below.

Seen from above, for someone facing the wearer: the front surface looks down the page, the eye is above, and the
right lens has its nose side on the right, as in every other figure. Both lenses share one scale and a 10 mm bar.
"""

from __future__ import annotations

from bisect import bisect_right
from itertools import pairwise
from typing import NamedTuple

from explainer.errors import RenderError
from explainer.figures.drawing import Anchor, Drawing
from explainer.figures.paths import Point, polyline
from explainer.figures.style import (
    ACCENT,
    FAINT,
    HAIR_PT,
    HAIRLINE,
    LINE,
    LINE_PT,
    MIDDLE,
    THIN,
    Canvas,
    Pen,
)
from explainer.optics.spectacles import Side

WIDTH_MM = 86.0
ROOM_MM, DEPTH_MM = 50.0, 14.0  # what one lens may take: across and from front to back
LINE_MM, FOOT_MM = 4.2, 4.3  # a line of words; the line of the scale bar
ARROW_MM, CENTRE_MM, FRONT_MM = 2.8, 4.9, 2.7  # lengths of arrows from outside; what stands above and below the centre
AGREE_MM = 0.15


class Section(NamedTuple):
    """One lens cut horizontally: x toward the observer's right, z from the front vertex toward the eye [mm]."""

    x_mm: tuple[float, ...]
    front_z_mm: tuple[float, ...]
    back_z_mm: tuple[float, ...]

    def thickness(self, x_mm: float) -> float:
        """Thickness along z at x, between the given points on a straight line [mm]."""
        return self.at(self.back_z_mm, x_mm) - self.at(self.front_z_mm, x_mm)

    def at(self, row: tuple[float, ...], x_mm: float) -> float:
        """A row's value at x."""
        i = min(max(bisect_right(self.x_mm, x_mm) - 1, 0), len(self.x_mm) - 2)
        share = (x_mm - self.x_mm[i]) / (self.x_mm[i + 1] - self.x_mm[i])
        return row[i] + share * (row[i + 1] - row[i])


class Thickness(NamedTuple):
    """The thicknesses to print [mm]: nose edge, centre, temple edge."""

    nasal_mm: float
    centre_mm: float
    temporal_mm: float


def lens_section(
    *,
    lens: Section,
    reference: Section | None = None,
    lens_thickness: Thickness | None = None,
    reference_thickness: Thickness | None = None,
    centre_x_mm: float = 0.0,
    side: Side = "right",
    accent: str = ACCENT,
) -> Drawing:
    """The section of `lens`, and of `reference` below it where there is one.

    `centre_x_mm` is where the optical centre lies. Thicknesses to print are read from the section, or may be
    given; then RenderError tells when they are not those of the section.
    """
    pairs = [(_checked(Section(*lens)), lens_thickness, "this_lens")]
    if reference is not None:
        pairs.append((_checked(Section(*reference)), reference_thickness, "hard_resin_lens"))
    scale = section_scale(*(section for section, _, _ in pairs))
    places: list[Placed] = []
    foot = 0.0
    for section, _, _ in pairs:
        places.append(_below(foot, section, scale, centre_x_mm))
        foot = _reach(places[-1], centre_x_mm, front_named=len(places) == 1)[1]
    canvas = Canvas("lens_section", WIDTH_MM, foot + FOOT_MM, accent)
    for place, (section, given, key) in zip(places, pairs, strict=True):
        _lens(canvas, place, key)
        _dimensions(canvas, place, _agreed(section, given, centre_x_mm, side), centre_x_mm, side)
    _sides(canvas, places[0], centre_x_mm)
    _foot(canvas, scale, side)
    return canvas.drawing()


def section_scale(*sections: Section) -> float:
    """Page millimetres per lens millimetre: life size, or less where a lens would not fit."""
    across = max(section.x_mm[-1] - section.x_mm[0] for section in sections)
    deep = max(max(section.back_z_mm) - min(section.front_z_mm) for section in sections)
    return min(1.0, ROOM_MM / across, DEPTH_MM / deep)


class Placed(NamedTuple):
    """A section on the page: its scale, where its line of words and its highest point stand from the top [mm]."""

    section: Section
    scale: float
    words_mm: float
    top_mm: float

    def point(self, x_mm: float, z_mm: float) -> Point:
        """The page's point for a point of the lens; the eye is above, so z runs up the page."""
        ends = self.section.x_mm[0] + self.section.x_mm[-1]
        return (
            WIDTH_MM / 2 + (x_mm - ends / 2) * self.scale,
            self.top_mm + (max(self.section.back_z_mm) - z_mm) * self.scale,
        )

    def front(self, x_mm: float) -> Point:
        """The front surface at x."""
        return self.point(x_mm, self.section.at(self.section.front_z_mm, x_mm))

    def back(self, x_mm: float) -> Point:
        """The back surface at x."""
        return self.point(x_mm, self.section.at(self.section.back_z_mm, x_mm))


def _below(top_mm: float, section: Section, scale: float, centre_x_mm: float) -> Placed:
    """The section with its line of words, as close below that height as what stands round the lens allows."""
    words = top_mm + LINE_MM / 2
    tried = Placed(section, scale, words, top_mm + LINE_MM)
    highest = _reach(tried, centre_x_mm, front_named=False)[0]
    return tried._replace(top_mm=tried.top_mm + (top_mm + LINE_MM - highest))


def _reach(place: Placed, centre_x_mm: float, *, front_named: bool) -> tuple[float, float]:
    """The highest and the lowest height that the lens, its arrows and its numbers take."""
    section = place.section
    high, low = [place.top_mm - 0.9], [place.point(0, min(section.front_z_mm))[1] + 0.6]
    for x in (section.x_mm[0], section.x_mm[-1]):
        upper, lower = place.back(x)[1], place.front(x)[1]
        arrow = 0.0 if _is_long(upper, lower) else ARROW_MM
        high += [upper - arrow, (upper + lower - LINE_MM) / 2]
        low += [lower + arrow, (upper + lower + LINE_MM) / 2]
    upper, lower = place.back(centre_x_mm)[1], place.front(centre_x_mm)[1]
    high.append(upper - CENTRE_MM - LINE_MM / 2)
    low.append(lower + (FRONT_MM + LINE_MM / 2 if front_named else ARROW_MM))
    return min(high), max(low)


def _checked(section: Section) -> Section:
    x, front, back = section
    if len(x) < 3 or len(front) != len(x) or len(back) != len(x):
        raise RenderError("a lens section needs at least three points and rows of equal length")
    if any(b <= a for a, b in pairwise(x)):
        raise RenderError("the points of a lens section do not run from one edge to the other")
    if any(b <= f for f, b in zip(front, back, strict=True)):
        raise RenderError("a lens section has no thickness somewhere")
    return section


def _agreed(section: Section, given: Thickness | None, centre_x_mm: float, side: Side) -> Thickness:
    """The thicknesses to print; what is given must be what is drawn."""
    right_end, left_end = section.thickness(section.x_mm[-1]), section.thickness(section.x_mm[0])
    nasal, temporal = (right_end, left_end) if side == "right" else (left_end, right_end)
    drawn = Thickness(nasal, section.thickness(centre_x_mm), temporal)
    if given is None:
        return drawn
    for name, printed, shown in zip(Thickness._fields, Thickness(*given), drawn, strict=True):
        if abs(printed - shown) > AGREE_MM:
            raise RenderError(f"lens section: {name} {printed:.2f} to print, but {shown:.2f} is drawn")
    return Thickness(*given)


def _lens(canvas: Canvas, place: Placed, key: str) -> None:
    section = place.section
    front = [place.point(x, z) for x, z in zip(section.x_mm, section.front_z_mm, strict=True)]
    back = [place.point(x, z) for x, z in zip(section.x_mm, section.back_z_mm, strict=True)]
    shape = polyline([*front, *reversed(back)], closed=True)
    this = key == "this_lens"
    canvas.add(shape, Pen(None, 0, (), FAINT if this else "#FFFFFF"))
    if not this:
        x, count = section.x_mm[0], int((section.x_mm[-1] - section.x_mm[0]) * place.scale / 1.6)
        for i in range(1, count + 1):
            at = x + i * 1.6 / place.scale
            if at < section.x_mm[-1]:
                canvas.line(place.front(at), place.back(at), pen=Pen(MIDDLE, HAIR_PT))
    pen = Pen(canvas.accent, 1.4) if this else LINE
    canvas.add(shape, pen, f"section-{key}")
    canvas.label((0, place.words_mm), key, anchor="start", strong=this, width_mm=58 if this else WIDTH_MM)


def _dimensions(canvas: Canvas, place: Placed, mm: Thickness, centre_x_mm: float, side: Side) -> None:
    first, last = place.section.x_mm[0], place.section.x_mm[-1]
    ends = ((last, 1.0), (first, -1.0)) if side == "right" else ((first, -1.0), (last, 1.0))
    for (x, away), name, value in zip(ends, ("nasal", "temporal"), (mm.nasal_mm, mm.temporal_mm), strict=True):
        front, back = place.front(x), place.back(x)
        at = front[0] + away * 2.0
        for y in (front[1], back[1]):
            canvas.line((front[0] + away * 0.6, y), (at + away * 0.9, y), pen=HAIRLINE)
        _span(canvas, at, back[1], front[1])
        middle = (front[1] + back[1]) / 2
        anchor: Anchor = "start" if away > 0 else "end"
        canvas.label((at + away * 1.5, middle), f"thickness_{name}", value, unit="mm", digits=1, anchor=anchor)
    front, back = place.front(centre_x_mm), place.back(centre_x_mm)
    _outside(canvas, front[0], back[1], front[1])
    canvas.label((front[0], back[1] - CENTRE_MM), "thickness_centre", mm.centre_mm, unit="mm", digits=1)


def _sides(canvas: Canvas, place: Placed, centre_x_mm: float) -> None:
    """Which side of the lens is which, said once."""
    canvas.label((WIDTH_MM, place.words_mm), "eye_side", anchor="end", width_mm=26)
    front = place.front(centre_x_mm)
    to_left = front[0] > WIDTH_MM / 2 + 1  # the words stand toward the farther edge
    anchor: Anchor = "end" if to_left else "start"
    place_x = front[0] + (-1.6 if to_left else 1.6)
    canvas.label((place_x, front[1] + FRONT_MM), "front_side", anchor=anchor, width_mm=26)


def _span(canvas: Canvas, x: float, upper: float, lower: float) -> None:
    """A dimension between two heights; its arrows come from outside where the room is small."""
    if not _is_long(upper, lower):
        _outside(canvas, x, upper, lower)
        return
    middle = (upper + lower) / 2
    canvas.arrow((x, middle), (x, upper), HAIRLINE, 1.6)
    canvas.arrow((x, middle), (x, lower), HAIRLINE, 1.6)


def _is_long(upper: float, lower: float) -> bool:
    """Whether both arrows of a dimension fit between its ends."""
    return lower - upper >= 4.2


def _outside(canvas: Canvas, x: float, upper: float, lower: float) -> None:
    canvas.arrow((x, upper - ARROW_MM), (x, upper), HAIRLINE, 1.6)
    canvas.arrow((x, lower + ARROW_MM), (x, lower), HAIRLINE, 1.6)


def _foot(canvas: Canvas, scale: float, side: Side) -> None:
    y = canvas.height_mm - FOOT_MM / 2
    middle = canvas.width_mm / 2 - 1
    start, end = middle - 5 * scale - 5, middle + 5 * scale - 5
    canvas.line((start, y), (end, y), pen=Pen(width_pt=LINE_PT), name="scale-bar")
    for x in (start, end):
        canvas.line((x, y - 1.2), (x, y + 1.2), pen=THIN)
    canvas.label((end + 1.6, y), "scale_bar", 10, unit="mm", anchor="start")
    left, right = ("temple_side", "nose_side") if side == "right" else ("nose_side", "temple_side")
    canvas.label((0, y), left, anchor="start", width_mm=28)
    canvas.label((canvas.width_mm, y), right, anchor="end", width_mm=28)
