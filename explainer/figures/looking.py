"""Where to look through: a head from the side with this frame, and the lines of sight to far, arm's length and a page.

Drawn to one scale: the angles are those of ordinary looking (far level, a screen 15 degrees and a page 30 degrees down,
common practice), the page and the screen stand at their distances. Lines begin at the eye.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from explainer.figures.drawing import Drawing
from explainer.figures.front.drawn import Place
from explainer.figures.front.pair import pair_of
from explainer.figures.look import INK, LINE_PT, PANEL, PAPER, STRUCTURE, VEIL, fill, outlined, pen
from explainer.figures.paths import Point, joined, polyline, round_box
from explainer.figures.profile import draw_profile, draw_worn
from explainer.figures.style import Canvas, Pen

WIDTH_MM, HEIGHT_MM, SCALE = 180.0, 51.0, 0.122
TILE = round_box(0, 0, 34.0, HEIGHT_MM, 1.8)
EYE = Place(27.0, 11.4, SCALE, mirrored=True)
TURNS_ABOUT_MM = 13.5  # the eye turns about a point so far behind its front, common practice
ANGLES_DEG = {"far": 0.0, "screen": 15.0, "page": 30.0}


def looking(
    *,
    right: Sequence[Point],
    left: Sequence[Point],
    dbl_mm: float,
    kind: str | None = None,
    page_cm: float,
    screen_cm: float | None = None,
    far: bool = True,
    accent: str = STRUCTURE,
) -> Drawing:
    """Lines of sight to what is clear through some part of the lens; `screen_cm` is None where no part is for it."""
    canvas = Canvas("where_to_look", WIDTH_MM, HEIGHT_MM, accent)
    canvas.add(TILE, fill(PANEL))
    draw_profile(canvas, EYE, clip=TILE)
    draw_worn(canvas, EYE, pair_of(right, left, dbl_mm, kind), clip=TILE)
    if far:
        _far(canvas)
    if screen_cm is not None:
        _screen(canvas, screen_cm)
    _page(canvas, page_cm)
    return canvas.drawing()


def seen_at(name: str, distance_mm: float) -> Point:
    """The page's point at a distance from the eye in the direction of that target."""
    angle = math.radians(ANGLES_DEG[name])
    along = TURNS_ABOUT_MM + distance_mm
    return EYE.at((TURNS_ABOUT_MM - along * math.cos(angle), -along * math.sin(angle)))


def _sight_line(canvas: Canvas, name: str, end: Point) -> None:
    start = seen_at(name, 0.0)
    canvas.line(start, end, pen=Pen(canvas.accent, 1.3, (3.0, 2.0)), name=f"sight-{name}")


def _far(canvas: Canvas) -> None:
    """Hills at the right edge: farther than any picture reaches."""
    level = seen_at("far", 0)[1]
    x = 140.0
    _sight_line(canvas, "far", (x - 2.5, level))
    ridge = ((0.0, 4.4), (5.2, -4.2), (8.4, 0.4), (11.0, -2.2), (16.0, 4.4))
    hills = [(x + across, level + down) for across, down in ridge]
    canvas.add(polyline(hills, closed=True), outlined(VEIL))
    canvas.slot((x + 18.0, level - 4.6), "slot_far", anchor="start", width_mm=WIDTH_MM - x - 18.0)


def _screen(canvas: Canvas, distance_cm: float) -> None:
    x, y = seen_at("screen", 10 * distance_cm)
    _sight_line(canvas, "screen", (x - 0.8, y - 0.2))
    panel = [(x, y - 6.4), (x + 1.5, y - 6.0), (x + 1.5, y + 5.4), (x, y + 5.0)]
    canvas.add(polyline(panel, closed=True), outlined(VEIL))
    canvas.line((x + 0.9, y + 5.2), (x + 3.4, y + 9.0), pen=pen(INK, 1.6))
    canvas.line((x + 0.4, y + 9.0), (x + 6.0, y + 9.0), pen=pen(INK, 1.6))
    canvas.slot((x + 5.0, y - 5.0), "slot_screen", anchor="start", width_mm=WIDTH_MM - x - 5.0)


def _page(canvas: Canvas, distance_cm: float) -> None:
    """A page at right angles to the line of sight."""
    x, y = seen_at("page", 10 * distance_cm)
    angle = math.radians(ANGLES_DEG["page"])
    along, across = (math.cos(angle), math.sin(angle)), (math.sin(angle), -math.cos(angle))

    def corner(up: float, deep: float) -> Point:
        return x + up * across[0] + deep * along[0], y + up * across[1] + deep * along[1]

    _sight_line(canvas, "page", corner(0, -0.8))
    page = [corner(6.2, 0), corner(6.2, 0.9), corner(-6.2, 0.9), corner(-6.2, 0)]
    canvas.add(polyline(page, closed=True), outlined(PAPER))
    rows = [polyline([corner(up, -0.1), corner(up + 1.5, -0.1)]) for up in (-5.0, -2.4, 0.8, 3.4)]
    canvas.add(joined(rows), pen(INK, LINE_PT * 1.5))
    canvas.slot((x + 7.0, y + 4.2), "slot_page", anchor="start", width_mm=WIDTH_MM - x - 7.0)
