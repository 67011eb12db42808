"""Six places of a day, and this very pair worn there in the shade that it takes: tiles of 27.5 mm by 26 mm.

The lenses have the luminance of the middle of the band; the pair below each tile shows the band's ends.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from explainer.figures.drawing import Drawing
from explainer.figures.front.drawn import Place, draw_small
from explainer.figures.front.pair import SMALL, Pair, pair_of
from explainer.figures.icons import cloud, sun
from explainer.figures.look import (
    CLOTH,
    EDGE,
    HAIR,
    INK,
    MIST,
    PANEL,
    PAPER,
    SKIN,
    STRUCTURE,
    SUN,
    VEIL,
    fill,
    outlined,
    pen,
)
from explainer.figures.paths import Path, Point, circle, ellipse, joined, polar, polyline, round_box, spline
from explainer.figures.people import FRAME_BELOW_MM, draw_face
from explainer.figures.style import Canvas, Pen
from explainer.figures.tones import tone

WIDTH_MM, HEIGHT_MM = 27.5, 26.0
TILE = round_box(0.2, 0.2, WIDTH_MM - 0.4, HEIGHT_MM - 0.4, 1.8)
_FACE = Place(WIDTH_MM / 2, 14.2, 0.066)
_GROUND_MM = 22.0


def scene(
    *,
    name: str,
    right: Sequence[Point],
    left: Sequence[Point],
    dbl_mm: float,
    kind: str | None = None,
    pd_mm: float | None = None,
    percent: float,
    colour: str = "grey",
    accent: str = STRUCTURE,
) -> Drawing:
    """One of PLACES, in which the lenses let `percent` of the light through."""
    canvas = Canvas(f"scene_{name}", WIDTH_MM, HEIGHT_MM, accent)
    PLACES[name](canvas, _Wearer(pair_of(right, left, dbl_mm, kind, pieces=SMALL), pd_mm, tone(percent, colour)))
    canvas.add(TILE, pen(EDGE, 1.0))
    return canvas.drawing()


class _Wearer(NamedTuple):
    """The pair, the distance of the pupils and the tone of the lenses."""

    pair: Pair
    pd_mm: float | None
    shade: str

    def stand(self, canvas: Canvas, place: Place = _FACE) -> None:
        """Head and shoulders, the pair on the nose."""
        shoulders = [
            (-128, -260),
            (-120, -178),
            (-84, -148),
            (-28, -134),
            (-24, -92),
            (24, -92),
            (28, -134),
            (84, -148),
        ]
        body = place.put(spline([*shoulders, (120, -178), (128, -260)]))
        canvas.add(body, outlined(CLOTH), clip=TILE)
        draw_face(canvas, place, self.pd_mm)
        worn = place._replace(y=place.y + FRAME_BELOW_MM * place.scale)
        draw_small(canvas, self.pair, worn, tones=(self.shade, self.shade), width_pt=1.2)


def _backdrop(canvas: Canvas, above: str, below: str) -> None:
    canvas.add(TILE, fill(above))
    ground = polyline([(0, _GROUND_MM), (WIDTH_MM, _GROUND_MM), (WIDTH_MM, HEIGHT_MM), (0, HEIGHT_MM)], closed=True)
    canvas.add(ground, fill(below), clip=TILE)


def _indoors(canvas: Canvas, wearer: _Wearer) -> None:
    _backdrop(canvas, PANEL, VEIL)
    canvas.add(round_box(2.4, 3.2, 6.6, 7.4, 0.3), outlined(PAPER, 1.0))
    canvas.add(joined((polyline([(5.7, 3.2), (5.7, 10.6)]), polyline([(2.4, 6.9), (9.0, 6.9)]))), pen(INK, 0.9))
    canvas.line((22.8, 0.4), (22.8, 3.6), pen=pen(INK, 1.0))
    lamp = polyline([(21.7, 3.6), (23.9, 3.6), (25.4, 6.8), (20.2, 6.8)], closed=True)
    canvas.add(lamp, outlined(SUN, 1.0))
    wearer.stand(canvas)


def _cloudy(canvas: Canvas, wearer: _Wearer) -> None:
    _backdrop(canvas, VEIL, MIST)
    cloud(canvas, 14.6, 8.6, 11.4, MIST)
    cloud(canvas, 1.6, 7.2, 11.0, PAPER)
    wearer.stand(canvas)


def _sunny(canvas: Canvas, wearer: _Wearer) -> None:
    _backdrop(canvas, PANEL, VEIL)
    sun(canvas, (5.6, 5.6), 2.3)
    wearer.stand(canvas)


def _snow(canvas: Canvas, wearer: _Wearer) -> None:
    canvas.add(TILE, fill(VEIL))
    hills = [(0, 18.0), (5.4, 9.0), (9.2, 14.0), (20.4, 7.0), (WIDTH_MM, 16.6), (WIDTH_MM, HEIGHT_MM), (0, HEIGHT_MM)]
    canvas.add(polyline(hills, closed=True), Pen(INK, 0.9, (), PAPER), clip=TILE)
    sun(canvas, (4.9, 4.9), 1.9)
    for x, y in ((21.6, 3.6), (25.0, 10.6)):
        canvas.add(joined(_flake((x, y), 1.5)), pen(INK, 0.9))
    wearer.stand(canvas)
    hat = [(-78, 44), (-74, 84), (-48, 118), (0, 130), (48, 118), (74, 84), (78, 44)]
    canvas.add(_FACE.put(spline(hat)), outlined(CLOTH))
    band = [(-84, 42), (-82, 66), (0, 74), (82, 66), (84, 42), (0, 50)]
    canvas.add(_FACE.put(spline(band, closed=True)), outlined(PAPER))
    canvas.add(circle(_FACE.at((0, 138)), 1.25), outlined(PAPER))


def _flake(centre: Point, size: float) -> list[Path]:
    return [polyline([polar(centre, size, angle), polar(centre, -size, angle)]) for angle in (30, 90, 150)]


def _car_ahead(canvas: Canvas, wearer: _Wearer) -> None:
    """A car from the side; the low sun shines in through the windscreen."""
    _backdrop(canvas, PANEL, VEIL)
    sun(canvas, (4.6, 7.0), 1.9)
    canvas.line((8.2, 8.9), (13.4, 11.6), pen=Pen(INK, 1.0, (1.6, 1.4)))
    front = [(3.0, 20.6), (3.0, 17.4), (4.4, 16.0), (10.4, 14.6), (14.6, 9.4), (16.2, 8.6), (24.6, 8.6)]
    body = [*front, (WIDTH_MM + 1, 11.0), (WIDTH_MM + 1, 20.6)]
    canvas.add(polyline(body, closed=True), outlined(MIST), clip=TILE)
    glass = polyline([(12.4, 14.6), (15.9, 10.0), (23.0, 10.0), (23.8, 14.6)], closed=True)
    canvas.add(glass, Pen(INK, 0.9, (), PAPER))
    _driver_from_side(canvas, (18.4, 12.7), wearer.shade, glass)
    canvas.line((12.2, 14.6), (WIDTH_MM, 14.6), pen=pen(INK, 0.9))
    for x in (8.2, 24.6):
        canvas.add(circle((x, 20.8), 2.3), outlined(PAPER, 1.3), clip=TILE)
        canvas.add(circle((x, 20.8), 0.8), fill(INK), clip=TILE)
    canvas.line((0.3, 23.1), (WIDTH_MM - 0.3, 23.1), pen=pen(INK, 0.9))


def _driver_from_side(canvas: Canvas, place: Point, shade: str, glass: Path) -> None:
    x, y = place
    back = spline([(x - 2.6, y + 3), (x - 1.0, y + 1.8), (x + 2.0, y + 1.9), (x + 3.2, y + 3)])
    canvas.add(back, Pen(INK, 0.9, (), CLOTH), clip=glass)
    canvas.add(ellipse((x, y), 1.55, 1.85), Pen(INK, 0.9, (), SKIN), clip=glass)
    hair = [(x - 1.1, y - 1.5), (x + 0.2, y - 2.1), (x + 1.6, y - 1.2), (x + 1.7, y + 0.6)]
    hair += [(x + 0.6, y + 0.4), (x + 0.4, y - 0.8)]
    canvas.add(spline(hair, closed=True), fill(HAIR), clip=glass)
    canvas.line((x - 1.0, y - 0.2), (x + 1.0, y - 0.3), pen=pen(INK, 0.8))
    canvas.add(ellipse((x - 1.35, y + 0.15), 0.5, 0.8), Pen(INK, 0.8, (), shade))


def _car_side(canvas: Canvas, wearer: _Wearer) -> None:
    """A car from in front; the sun shines in through the side window."""
    _backdrop(canvas, PANEL, VEIL)
    sun(canvas, (22.8, 4.8), 1.9)
    canvas.line((21.0, 7.8), (17.9, 11.4), pen=Pen(INK, 1.0, (1.6, 1.4)))
    x = 12.2
    for side in (-1, 1):
        canvas.add(round_box(x + side * 6.2 - 1.2, 20.4, 2.4, 3.4, 0.5), fill(HAIR))
    half = [(5.0, 7.4), (6.9, 13.6), (8.2, 15.2), (8.2, 22.0)]
    body = [(x + away, y) for away, y in half] + [(x - away, y) for away, y in reversed(half)]
    canvas.add(polyline(body, closed=True), outlined(MIST))
    glass = polyline([(x - 4.3, 8.6), (x + 4.3, 8.6), (x + 5.9, 13.6), (x - 5.9, 13.6)], closed=True)
    canvas.add(glass, Pen(INK, 0.9, (), PAPER))
    _driver_from_front(canvas, (x + 2.2, 11.4), wearer.shade, glass)
    canvas.add(glass, pen(INK, 0.9))
    canvas.add(joined(round_box(x + at, 16.0, 3.0, 1.8, 0.7) for at in (-6.9, 3.9)), outlined(PAPER, 0.9))
    canvas.add(round_box(x - 2.6, 18.6, 5.2, 1.7, 0.3), Pen(INK, 0.9, (), VEIL))
    canvas.line((0.3, 23.8), (WIDTH_MM - 0.3, 23.8), pen=pen(INK, 0.9))


def _driver_from_front(canvas: Canvas, place: Point, shade: str, glass: Path) -> None:
    x, y = place
    shoulders = spline([(x - 3.2, y + 3.2), (x - 1.6, y + 1.9), (x + 1.6, y + 1.9), (x + 3.2, y + 3.2)])
    canvas.add(shoulders, Pen(INK, 0.9, (), CLOTH), clip=glass)
    canvas.add(ellipse((x, y), 1.55, 1.9), Pen(INK, 0.9, (), SKIN), clip=glass)
    hair = [(x - 1.5, y - 0.7), (x - 0.9, y - 1.9), (x, y - 2.1), (x + 0.9, y - 1.9), (x + 1.5, y - 0.7), (x, y - 1.2)]
    canvas.add(spline(hair, closed=True), fill(HAIR), clip=glass)
    for side in (-1, 1):
        canvas.add(ellipse((x + side * 0.72, y), 0.6, 0.5), Pen(INK, 0.7, (), shade))


PLACES: dict[str, Callable[[Canvas, _Wearer], None]] = {
    **{"indoors": _indoors, "cloudy": _cloudy, "summer": _sunny, "cold": _snow},
    **{"windscreen": _car_ahead, "side": _car_side},
}
