"""What to check on the first day, a small picture each, on a pale tile of 18 mm by 11 mm."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from explainer.figures.drawing import Drawing
from explainer.figures.front.drawn import Place, draw_small
from explainer.figures.front.pair import SMALL, Pair, pair_of
from explainer.figures.look import HELP, INK, PANEL, PAPER, STRUCTURE, SUN, VEIL, fill, outlined, pen
from explainer.figures.paths import Point, joined, polyline, round_box
from explainer.figures.people import FRAME_BELOW_MM, draw_face, draw_hand
from explainer.figures.style import Canvas, Pen

WIDTH_MM, HEIGHT_MM, CORNER_MM = 18.0, 11.0, 1.4
TILE = round_box(0, 0, WIDTH_MM, HEIGHT_MM, CORNER_MM)
_FACE = Place(WIDTH_MM / 2, 5.4, 0.084)


def check(
    *,
    name: str,
    right: Sequence[Point],
    left: Sequence[Point],
    dbl_mm: float,
    kind: str | None = None,
    pd_mm: float | None = None,
    accent: str = STRUCTURE,
) -> Drawing:
    """One of CHECKS, with this very pair where a pair is in it."""
    canvas = Canvas(f"check_{name}", WIDTH_MM, HEIGHT_MM, accent)
    canvas.add(TILE, fill(PANEL))
    CHECKS[name](canvas, pair_of(right, left, dbl_mm, kind, pieces=SMALL), pd_mm)
    return canvas.drawing()


def _label(canvas: Canvas, _pair: Pair, _pd: float | None) -> None:
    """A parcel with its label."""
    front = polyline([(3.4, 4.0), (11.6, 4.0), (11.6, 9.6), (3.4, 9.6)], closed=True)
    top = polyline([(3.4, 4.0), (6.2, 1.6), (14.6, 1.6), (11.6, 4.0)], closed=True)
    side = polyline([(11.6, 4.0), (14.6, 1.6), (14.6, 7.0), (11.6, 9.6)], closed=True)
    for shape, colour in ((front, PAPER), (top, PAPER), (side, VEIL)):
        canvas.add(shape, outlined(colour, 1.0))
    canvas.add(round_box(4.6, 5.2, 5.8, 3.3, 0.3), outlined(SUN, 0.8))
    canvas.line((5.5, 6.3), (9.5, 6.3), pen=pen(INK, 1.2))
    canvas.line((5.5, 7.5), (8.3, 7.5), pen=pen(INK, 1.2))


def _whole(canvas: Canvas, pair: Pair, _pd: float | None) -> None:
    """The pair with a crack."""
    place = _fitted(pair, 0.9)
    draw_small(canvas, pair, place, width_pt=1.2)
    xs, ys = zip(*pair.left, strict=True)
    x, y, wide, high = max(xs), max(ys), max(xs) - min(xs), max(ys) - min(ys)
    steps = [(0.16, 0.10), (0.30, 0.34), (0.24, 0.46), (0.46, 0.58), (0.42, 0.72), (0.62, 0.86)]
    canvas.line(*(place.at((x - a * wide, y - b * high)) for a, b in steps), pen=pen(HELP, 1.3))
    branch = [(0.46, 0.58), (0.62, 0.54), (0.70, 0.62)]
    canvas.line(*(place.at((x - a * wide, y - b * high)) for a, b in branch), pen=pen(HELP, 1.0))


def _fitted(pair: Pair, share: float) -> Place:
    scale = share * min(WIDTH_MM / 2 / pair.half_width_mm, HEIGHT_MM / (pair.top_mm - pair.bottom_mm))
    return Place(WIDTH_MM / 2, HEIGHT_MM / 2 + scale * (pair.top_mm + pair.bottom_mm) / 2, scale)


def _level(canvas: Canvas, pair: Pair, pd_mm: float | None) -> None:
    """On the face, level with the eyes."""
    draw_face(canvas, _FACE, pd_mm, clip=TILE)
    _worn(canvas, pair)
    canvas.line((1.0, _FACE.y), (WIDTH_MM - 1.0, _FACE.y), pen=Pen(canvas.accent, 1.0, (2.4, 1.6)))


def _worn(canvas: Canvas, pair: Pair) -> None:
    place = _FACE._replace(y=_FACE.y + FRAME_BELOW_MM * _FACE.scale)
    draw_small(canvas, pair, place, tones=(None, None), width_pt=1.3)


def _one_eye(canvas: Canvas, pair: Pair, pd_mm: float | None) -> None:
    """One eye behind a hand."""
    draw_face(canvas, _FACE, pd_mm, clip=TILE)
    _worn(canvas, pair)
    draw_hand(canvas, _FACE, (35, -20), clip=TILE)


def _single(canvas: Canvas, _pair: Pair, _pd: float | None) -> None:
    """One lamp; two of it, crossed out."""
    _lamp(canvas, 4.6, SUN, INK)
    _lamp(canvas, 13.6, PAPER, INK)
    _lamp(canvas, 12.0, SUN, INK)
    canvas.line((9.4, 9.8), (16.4, 1.4), pen=pen(HELP, 1.7))


def _lamp(canvas: Canvas, x: float, shade: str, ink: str) -> None:
    canvas.line((x, 5.4), (x, 9.2), pen=pen(ink, 1.1))
    canvas.line((x - 1.3, 9.2), (x + 1.3, 9.2), pen=pen(ink, 1.6))
    lamp = polyline([(x - 1.0, 1.7), (x + 1.0, 1.7), (x + 2.0, 5.4), (x - 2.0, 5.4)], closed=True)
    canvas.add(lamp, Pen(ink, 1.1, (), shade))


def _print(canvas: Canvas, _pair: Pair, _pd: float | None) -> None:
    """A page of small print."""
    canvas.add(polyline([(4.2, 1.2), (13.8, 1.2), (14.8, 9.8), (3.2, 9.8)], closed=True), outlined(PAPER))
    ends = (12.6, 13.0, 9.6, 13.2, 13.4, 11.0)
    rows = [polyline([(5.2 - 0.1 * i, 2.5 + 1.2 * i), (end, 2.5 + 1.2 * i)]) for i, end in enumerate(ends)]
    canvas.add(joined(rows), pen(INK, 0.9))


def _lines(canvas: Canvas, pair: Pair, _pd: float | None) -> None:
    """The pair with the upper lines of both segments level."""
    place = _fitted(pair, 0.9)
    draw_small(canvas, pair, place, width_pt=1.2)
    low = min(min(y for _, y in lens) for lens in (pair.right, pair.left))
    for turn in (-1, 1):
        middle = turn * (pair.dbl_mm / 2 + 0.46 * (pair.half_width_mm - pair.dbl_mm / 2))
        ends = [place.at((middle + side * 10, low * 0.28)) for side in (-1, 1)]
        canvas.line(*ends, pen=pen(INK, 1.2))
    level = place.at((0, low * 0.28))[1]
    canvas.line((0.8, level), (WIDTH_MM - 0.8, level), pen=Pen(canvas.accent, 0.9, (2.2, 1.6)))


CHECKS: dict[str, Callable[[Canvas, Pair, float | None], None]] = {
    **{"label": _label, "whole": _whole, "level": _level, "one_eye": _one_eye, "single": _single},
    **{"print": _print, "lines": _lines},
}
