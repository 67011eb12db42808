"""Both lenses cut level, in life size, over the same lenses in ordinary plastic, which are dashed.

Seen from above by someone facing the wearer: the wearer's right lens is on the left, the noses' sides meet in the
middle, the front looks down the page and the eye is above. One millimetre on paper is one millimetre of the lens.
"""

from __future__ import annotations

from typing import NamedTuple

from explainer.errors import RenderError
from explainer.figures.drawing import Anchor, Drawing
from explainer.figures.look import PAPER, SECOND, STRUCTURE, mixed
from explainer.figures.paths import CLOSE, LINE, Path, Point, spline
from explainer.figures.style import Canvas, Pen

LEAST_WIDE_MM, NOSE_MM, EDGE_MM = 128.0, 16.0, 1.0
WORDS_MM, SIDES_MM, PIECES = 10.6, 5.4, 12
BOTH_MM = 52.0  # a lens less wide has room for the comparison at its thicker end alone


class Section(NamedTuple):
    """One cut: x to the observer's right, z from the front vertex toward the eye [mm], from one edge to the other."""

    x_mm: tuple[float, ...]
    front_z_mm: tuple[float, ...]
    back_z_mm: tuple[float, ...]


class Cut(NamedTuple):
    """One lens: its section, the same in ordinary plastic if that is compared, and the thicknesses to print [mm].

    `shown` names the places whose thickness is printed, with the value and that in ordinary plastic.
    """

    section: Section
    reference: Section | None
    shown: tuple[tuple[str, float, float | None], ...]


def sections(*, right: Cut, left: Cut, accent: str = STRUCTURE) -> Drawing:
    """The pair's sections; RenderError for one that has no thickness."""
    cuts = {"right": _checked(right), "left": _checked(left)}
    wide = {side: cut.section.x_mm[-1] - cut.section.x_mm[0] for side, cut in cuts.items()}
    width = max(LEAST_WIDE_MM, sum(wide.values()) + NOSE_MM + 2 * EDGE_MM)
    deep = max(_depth(cut) for cut in cuts.values())
    canvas = Canvas("sections", round(width, 1), round(WORDS_MM + deep + SIDES_MM + 1.0, 1), accent)
    starts = {"right": EDGE_MM, "left": width - EDGE_MM - wide["left"]}
    for side, cut in cuts.items():
        lowest = min(min(each.front_z_mm) for each in (cut.section, cut.reference or cut.section))
        place = _Placed(starts[side] - cut.section.x_mm[0], WORDS_MM + deep + lowest)
        _lens(canvas, place, cut, side)
        _thicknesses(canvas, place, cut, side)
        _sides(canvas, place, cut, side)
    return canvas.drawing()


class _Placed(NamedTuple):
    left_mm: float
    vertex_mm: float  # the page's height of z = 0

    def at(self, x: float, z: float) -> Point:
        return self.left_mm + x, self.vertex_mm - z


def _checked(cut: Cut) -> Cut:
    found = Cut(*cut)
    section = Section(*found.section)
    reference = None if found.reference is None else Section(*found.reference)
    for each in (section, *([reference] if reference else [])):
        if any(back <= front for front, back in zip(each.front_z_mm, each.back_z_mm, strict=True)):
            raise RenderError("a lens section has no thickness somewhere")
    return Cut(section, reference, found.shown)


def _depth(cut: Cut) -> float:
    every = (cut.section, cut.reference or cut.section)
    return max(max(each.back_z_mm) for each in every) - min(min(each.front_z_mm) for each in every)


def outline(section: Section, place: _Placed) -> Path:
    """The cut as a closed shape of a few curves: along the front, and back along the eye's side."""
    last = len(section.x_mm) - 1
    steps = [round(i * last / PIECES) for i in range(PIECES + 1)]
    front = spline([place.at(section.x_mm[i], section.front_z_mm[i]) for i in steps])
    back = spline([place.at(section.x_mm[i], section.back_z_mm[i]) for i in reversed(steps)])
    points = (*front.points, *back.points, front.points[0])
    return Path(points, (*front.codes, LINE, *back.codes[1:], CLOSE))


def _lens(canvas: Canvas, place: _Placed, cut: Cut, side: str) -> None:
    if cut.reference is not None:
        path = outline(cut.reference, place)
        canvas.add(path, Pen(SECOND, 1.0, (2.6, 1.8)), f"ordinary-{side}")
    path = outline(cut.section, place)
    canvas.add(path, Pen(canvas.accent, 1.3, (), mixed(PAPER, canvas.accent, 0.34)), f"section-{side}")


def _thicknesses(canvas: Canvas, place: _Placed, cut: Cut, side: str) -> None:
    """The thickness over the place that it is of, and that in ordinary plastic below it."""
    x = cut.section.x_mm
    narrow = x[-1] - x[0] < BOTH_MM
    thickest = max(value for _, value, _ in cut.shown)
    for where, value, compared in cut.shown:
        ordinary = None if narrow and value < thickest else compared
        left_end = (where == "temporal") == (side == "right")
        at, anchor = (0.0, "middle") if where == "centre" else ((x[0], "start") if left_end else (x[-1], "end"))
        top = _highest(cut, at)
        spot = place.at(at, top)
        _over(canvas, (spot[0], spot[1] - 3.2), anchor, value, ordinary)


def _over(canvas: Canvas, place: Point, anchor: str, value: float, ordinary: float | None) -> None:
    way: Anchor = "start" if anchor == "start" else "end" if anchor == "end" else "middle"
    x, y = place
    if ordinary is not None:
        canvas.label((x, y), "instead_of", ordinary, digits=1, anchor=way)
        y -= 4.6
    canvas.label((x, y), "thickness_here", value, unit="mm", digits=1, anchor=way, strong=True)


def _highest(cut: Cut, x: float) -> float:
    """The highest point of either cut within a word's reach of x."""
    every = (cut.section, cut.reference or cut.section)
    near = [z for each in every for px, z in zip(each.x_mm, each.back_z_mm, strict=True) if abs(px - x) < 9]
    return max(near)


def _sides(canvas: Canvas, place: _Placed, cut: Cut, side: str) -> None:
    """Which lens it is, and which end is toward the ear and toward the nose."""
    first, last = cut.section.x_mm[0], cut.section.x_mm[-1]
    y = canvas.height_mm - SIDES_MM / 2
    canvas.label((place.at((first + last) / 2, 0)[0], y), f"lens_{side}", strong=True)
    ear, nose = (first, last) if side == "right" else (last, first)
    ear_anchor: Anchor = "start" if side == "right" else "end"
    nose_anchor: Anchor = "end" if side == "right" else "start"
    canvas.label((place.at(ear, 0)[0], y), "toward_ear", anchor=ear_anchor)
    canvas.label((place.at(nose, 0)[0], y), "toward_nose", anchor=nose_anchor)
