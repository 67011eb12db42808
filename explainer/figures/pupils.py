"""Where the lenses are centred: the pair, a line before each pupil, and the distances."""

from __future__ import annotations

from collections.abc import Sequence

from explainer.figures.drawing import Anchor, Drawing
from explainer.figures.front.drawn import Place, draw_full
from explainer.figures.front.pair import pair_of
from explainer.figures.look import GLASS, LINE_PT, PAPER, STRUCTURE, pen
from explainer.figures.paths import Point, circle, joined, polyline
from explainer.figures.style import Canvas, Pen

WIDTH_MM = 86.0
_HEAD_MM, _FOOT_MM, _SIDE_MM = 3.4, 11.2, 11.5


def pupils(
    *,
    right: Sequence[Point],
    left: Sequence[Point],
    dbl_mm: float,
    kind: str | None = None,
    centres_mm: tuple[float, float],
    heights_mm: tuple[float | None, float | None] = (None, None),
    each: bool,
    accent: str = STRUCTURE,
) -> Drawing:
    """The right and the left centre's distance from the middle of the nose, and their heights where measured.

    Heights are above the middle of the box. `each` prints both distances, else the whole one is printed.
    """
    pair = pair_of(right, left, dbl_mm, kind, pieces=16)
    scale = (WIDTH_MM - 2 * _SIDE_MM) / (2 * pair.half_width_mm)
    foot = _HEAD_MM + scale * (pair.top_mm - pair.bottom_mm)
    canvas = Canvas("pupils", WIDTH_MM, foot + _FOOT_MM, accent)
    place = Place(WIDTH_MM / 2, _HEAD_MM + scale * pair.top_mm, scale)
    draw_full(canvas, pair, place, (GLASS, GLASS))
    level = foot + 4.4
    for turn, side, away, height in zip((-1, 1), ("right", "left"), centres_mm, heights_mm, strict=True):
        x = place.at((turn * away, 0))[0]
        dashed = Pen(canvas.accent, LINE_PT, (2.6, 1.8))
        canvas.line((x, 0.6), (x, level + 1.4), pen=dashed, name=f"pupil-{side}")
        if height is not None:
            canvas.add(circle(place.at((turn * away, height)), 1.1), Pen(PAPER, 0.8, (), canvas.accent))
        canvas.label((WIDTH_MM / 2 + turn * (WIDTH_MM / 2 - _SIDE_MM / 2), place.y), f"side_{side}", strong=True)
    _distances(canvas, place, centres_mm, level, each=each)
    return canvas.drawing()


def _distances(canvas: Canvas, place: Place, centres_mm: tuple[float, float], level: float, *, each: bool) -> None:
    ends = place.at((-centres_mm[0], 0))[0], place.at((centres_mm[1], 0))[0]
    ticks = [polyline([(x, level - 1.2), (x, level + 1.2)]) for x in ((*ends, place.x) if each else ends)]
    canvas.add(joined((polyline([(ends[0], level), (ends[1], level)]), *ticks)), pen(canvas.accent, 0.9))
    if not each:
        spot = ((ends[0] + ends[1]) / 2, level + 3.8)
        canvas.label(spot, "from_nose", sum(centres_mm), unit="mm", digits=1, strong=True)
        return
    anchors: tuple[Anchor, Anchor] = ("end", "start")
    for turn, away, anchor in zip((-1, 1), centres_mm, anchors, strict=True):
        spot = (place.x + turn * 1.2, level + 3.8)
        canvas.label(spot, "from_nose", away, unit="mm", digits=1, anchor=anchor, strong=True)
