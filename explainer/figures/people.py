"""A middling head from in front, in its own millimetres: x to the observer's right, y up, y = 0 at the pupils.

The pupils are as far apart as the wearer's; everything else is nobody's (common practice: ordinary sizes of a head).
"""

from __future__ import annotations

from explainer.figures.front.drawn import Place
from explainer.figures.look import CLOTH, FINE_PT, HAIR, INK, LINE_PT, PAPER, SKIN, fill, outlined, pen
from explainer.figures.paths import CLOSE, LINE, Path, Point, circle, ellipse, round_box, spline
from explainer.figures.style import Canvas, Pen

FRAME_BELOW_MM = 3.0  # the middle of the lens boxes below the pupils, common practice
USUAL_PD_MM = 62.0
_HEAD = ((0, 113), (36, 107), (60, 80), (70, 40), (71, 4), (68, -28), (59, -60), (42, -90), (18, -107), (0, -109))
_EAR = ((69, 14), (75, 20), (81.5, 12), (80, -10), (74, -29), (67, -31))
_HAIRLINE = ((67, 34), (58, 56), (34, 66), (4, 60), (-22, 66), (-46, 60), (-60, 48), (-67, 34))
_CROWN = ((-74, 36), (-72, 66), (-54, 98), (-24, 118), (6, 121), (36, 115), (60, 95), (73, 64), (74, 36))


def draw_face(canvas: Canvas, place: Place, pd_mm: float | None = None, *, clip: Path | None = None) -> None:
    """The whole head, from the hair to the chin."""
    for turn in (-1, 1):
        canvas.add(place.put(spline([(turn * x, y) for x, y in _EAR])), outlined(SKIN), clip=clip)
    head = [*_HEAD, *((-x, y) for x, y in reversed(_HEAD[1:-1]))]
    canvas.add(place.put(spline(head, closed=True)), outlined(SKIN), clip=clip)
    canvas.add(place.put(_loop(spline(_CROWN), spline(_HAIRLINE))), Pen(INK, LINE_PT, (), HAIR), clip=clip)
    _features(canvas, place, clip)
    draw_eyes(canvas, place, pd_mm)


def _loop(first: Path, second: Path) -> Path:
    """An area between two lines, the second beginning where the first ends."""
    points = (*first.points, *second.points, first.points[0])
    return Path(points, (*first.codes, LINE, *second.codes[1:], CLOSE))


def _features(canvas: Canvas, place: Place, clip: Path | None) -> None:
    thin = pen(INK, 0.9)
    for turn in (-1, 1):
        brow = spline([(turn * x, y) for x, y in ((19, 20), (33, 25), (47, 19))])
        canvas.add(place.put(brow), pen(INK, 1.5), clip=clip)
    nose = [(-7, -14), (-10.5, -30), (-13.5, -37), (-10, -43), (-4, -42), (0, -44), (4, -42), (10, -43), (13.5, -37)]
    canvas.add(place.put(spline(nose[1:])), thin, clip=clip)
    canvas.add(place.put(spline([(-21, -67), (-8, -70), (0, -71), (8, -70), (21, -67)])), pen(INK, LINE_PT), clip=clip)
    canvas.add(place.put(spline([(-8, -80), (0, -81.5), (8, -80)])), thin, clip=clip)


def draw_eyes(canvas: Canvas, place: Place, pd_mm: float | None) -> None:
    """Both eyes, open, the pupils in the middle of them."""
    half = (pd_mm or USUAL_PD_MM) / 2
    for turn in (-1, 1):
        x = turn * half
        lids = [(x - 14, -1), (x - 7, 5), (x, 6.6), (x + 7, 5), (x + 14, -1), (x + 7, -5), (x, -6), (x - 7, -5)]
        canvas.add(place.put(spline(lids, closed=True)), Pen(INK, 0.8, (), PAPER))
        canvas.add(circle(place.at((x, 0)), 5.6 * place.scale), fill(CLOTH))
        canvas.add(circle(place.at((x, 0)), 2.7 * place.scale), fill(INK))


def draw_hand(canvas: Canvas, place: Place, palm: Point, *, clip: Path | None = None) -> None:
    """A hand with its fingers upward, seen from its back; the palm's middle at that point."""
    x, y = palm
    fingers = [(-17.5, 40, 9.5), (-7.0, 48, 10.0), (3.8, 46, 10.0), (14.0, 36, 9.0)]
    shapes = [round_box(x + left, y, wide, high, wide / 2 - 0.2) for left, high, wide in fingers]
    shapes.append(round_box(x - 18, y - 36, 41.5, 44, 11))
    shapes.append(ellipse((x - 22, y - 8), 7.5, 17, 28))
    for shape in shapes:
        canvas.add(place.put(shape), pen(INK, 2 * LINE_PT), clip=clip)
    for shape in shapes:
        canvas.add(place.put(shape), fill(SKIN), clip=clip)
    for left, high, wide in fingers[:-1]:
        gap = x + left + wide + 0.4
        canvas.line(place.at((gap, y - 2)), place.at((gap, y + high - 9)), pen=pen(INK, FINE_PT + 0.2))
