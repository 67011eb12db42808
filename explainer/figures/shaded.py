"""The pair small, its lenses in the true shade of a state: one shade, or two beside a slant.

Where the light let through is a band, the part left of the slant is as pale and the part right of it as dark as is to
be expected. A fixed tint has one shade and no slant.
"""

from __future__ import annotations

from collections.abc import Sequence

from explainer.figures.drawing import Drawing
from explainer.figures.front import parts
from explainer.figures.front.drawn import NAMES, Place, draw_small_links
from explainer.figures.front.pair import SMALL, Pair, pair_of
from explainer.figures.front.parts import SIDES
from explainer.figures.look import INK, LINE_PT, fill, pen
from explainer.figures.paths import Point, polyline
from explainer.figures.style import ACCENT, Canvas
from explainer.figures.tones import tone

WIDTH_MM, HEIGHT_MM = 30.0, 11.0
SLANT = 0.42  # how far the slant leans to the right, per unit of height
NARROW = 2.0  # per cent of light: a band no wider than this is one shade


def shaded(
    *,
    right: Sequence[Point],
    left: Sequence[Point],
    dbl_mm: float,
    kind: str | None = None,
    name: str,
    low: float,
    high: float,
    colour: str = "grey",
    width_mm: float = WIDTH_MM,
    accent: str = ACCENT,
) -> Drawing:
    """The pair in a state in which `low` to `high` per cent of the light pass."""
    canvas = Canvas(name, width_mm, HEIGHT_MM * width_mm / WIDTH_MM, accent)
    glasses = pair_of(right, left, dbl_mm, kind, pieces=SMALL)
    draw_shaded(canvas, glasses, (0.0, 0.0, canvas.width_mm, canvas.height_mm), (low, high), colour=colour)
    return canvas.drawing()


def draw_shaded(
    canvas: Canvas,
    glasses: Pair,
    room: tuple[float, float, float, float],
    percent: tuple[float, float],
    *,
    colour: str,
    width_pt: float = LINE_PT,
) -> None:
    """The pair in the middle of a room (left, top, width, height) on the canvas."""
    left, top, wide, high = room
    spare = 0.8
    tall = glasses.top_mm - glasses.bottom_mm
    scale = min((wide - 2 * spare) / (2 * glasses.half_width_mm), (high - 2 * spare) / tall)
    middle = top + high / 2 + scale * (glasses.top_mm + glasses.bottom_mm) / 2
    place = Place(left + wide / 2, middle, scale)
    low, pale = min(percent), max(percent)
    one = pale - low <= NARROW
    for turn in SIDES:
        edge = place.put(parts.lens(glasses, turn))
        first = (low + pale) / 2 if one else pale
        canvas.add(edge, fill(tone(first, colour)), f"shade-{NAMES[turn]}-palest")
        if not one:
            dark = place.put(polyline(_right_of_slant(glasses, turn), closed=True))
            canvas.add(dark, fill(tone(low, colour)), f"shade-{NAMES[turn]}-darkest", clip=edge)
        canvas.add(edge, pen(INK, width_pt))
    draw_small_links(canvas, glasses, place, width_pt)


def _right_of_slant(glasses: Pair, turn: int) -> list[Point]:
    """A shape over the part of a lens that lies right of a slant through its middle."""
    points = glasses.lens(turn)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    middle, half = (min(xs) + max(xs)) / 2, (max(ys) - min(ys)) / 2 + 2
    lean = SLANT * half
    return [(middle + lean, half), (max(xs) + 2, half), (max(xs) + 2, -half), (middle - lean, -half)]
