"""How to see that the pair sits well: five small pictures with this very frame, on pale tiles of 33.6 mm by 23 mm."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from explainer.figures.drawing import Drawing
from explainer.figures.front.drawn import Place, draw_small
from explainer.figures.front.pair import SMALL, Pair, pair_of
from explainer.figures.front.wire import View, Wire, feet, resting
from explainer.figures.look import EDGE, GLASS, INK, MIST, PANEL, PAPER, STRUCTURE, fill, outlined, pen
from explainer.figures.paths import Point, circle, joined, polyline, round_box, spline
from explainer.figures.people import FRAME_BELOW_MM, draw_face
from explainer.figures.profile import EAR_TOP, draw_profile, draw_worn
from explainer.figures.style import Canvas, Pen

WIDTH_MM, HEIGHT_MM, CORNER_MM = 33.6, 23.0, 1.8
TILE = round_box(0, 0, WIDTH_MM, HEIGHT_MM, CORNER_MM)
CROOKED_DEG = 7.0
_FACE = Place(WIDTH_MM / 2, 11.4, 0.172)


def sitting(
    *,
    name: str,
    right: Sequence[Point],
    left: Sequence[Point],
    dbl_mm: float,
    kind: str | None = None,
    pd_mm: float | None = None,
    accent: str = STRUCTURE,
) -> Drawing:
    """One of SITTING: on a middling face, at the ear, on a table."""
    canvas = Canvas(f"sit_{name}", WIDTH_MM, HEIGHT_MM, accent)
    canvas.add(TILE, fill(PANEL))
    SITTING[name](canvas, pair_of(right, left, dbl_mm, kind, pieces=SMALL), pd_mm)
    return canvas.drawing()


def _on_face(canvas: Canvas, pair: Pair, pd_mm: float | None, roll_deg: float) -> None:
    draw_face(canvas, _FACE, pd_mm, clip=TILE)
    place = _FACE._replace(y=_FACE.y + FRAME_BELOW_MM * _FACE.scale, roll_deg=roll_deg)
    draw_small(canvas, pair, place, tones=(None, None), width_pt=2.0 if pair.kind.plastic else 1.5)
    canvas.line((0.8, _FACE.y), (WIDTH_MM - 0.8, _FACE.y), pen=Pen(canvas.accent, 1.1, (3.0, 2.0)))
    _verdict(canvas, good=not roll_deg)


def _verdict(canvas: Canvas, *, good: bool) -> None:
    x, y = WIDTH_MM - 4.2, HEIGHT_MM - 4.0
    canvas.add(circle((x, y), 2.9), outlined(INK if good else PAPER, 1.4))
    if good:
        canvas.line((x - 1.4, y + 0.1), (x - 0.4, y + 1.2), (x + 1.5, y - 1.2), pen=pen(PAPER, 1.8))
        return
    for turn in (-1, 1):
        canvas.line((x - 1.2, y - turn * 1.2), (x + 1.2, y + turn * 1.2), pen=pen(INK, 1.6))


def _ear(canvas: Canvas, pair: Pair, _pd: float | None) -> None:
    place = Place(8.6, 11.4, 0.172)
    draw_profile(canvas, place, clip=TILE)
    draw_worn(canvas, place, pair, clip=TILE)
    x, y = place.at((EAR_TOP[0] + 10, EAR_TOP[1] - 3))
    canvas.add(circle((x, y), 2.9), pen(canvas.accent, 1.6))


def _table(canvas: Canvas, pair: Pair, *, upside_down: bool) -> None:
    wire = resting(pair, upside_down=upside_down)
    scale = 0.160 * 62.0 / max(pair.half_width_mm, 56.0)
    view = View(side_deg=-28, above_deg=22, scale=scale, origin=(12.8, 17.4))
    half = pair.half_width_mm + 12
    corners = [(-half, 0, 26), (half, 0, 26), (half, 0, -146), (-half, 0, -146)]
    canvas.add(polyline(view.trace(corners), closed=True), Pen(EDGE, 0.9, (), PAPER), clip=TILE)
    shadows = [spline(view.trace([(x, 0.0, z) for x, _, z in line[1:]])) for line in wire.temples]
    canvas.add(joined(shadows), pen(MIST, 1.8), clip=TILE)
    _wires(canvas, wire, view, 2.0 if pair.kind.plastic else 1.4)
    for foot in feet(wire):
        canvas.add(circle(view.see(foot), 1.5), pen(canvas.accent, 1.3))


def _wires(canvas: Canvas, wire: Wire, view: View, width_pt: float) -> None:
    for line in wire.temples:
        canvas.add(spline(view.trace(line)), pen(INK, width_pt))
    for line in wire.rims:
        canvas.add(spline(view.trace(line), closed=True), outlined(GLASS, width_pt))
    canvas.add(spline(view.trace(wire.bridge)), pen(INK, width_pt))


SITTING: dict[str, Callable[[Canvas, Pair, float | None], None]] = {
    "level": lambda canvas, pair, pd_mm: _on_face(canvas, pair, pd_mm, 0.0),
    "crooked": lambda canvas, pair, pd_mm: _on_face(canvas, pair, pd_mm, CROOKED_DEG),
    "ear": _ear,
    "table": lambda canvas, pair, _: _table(canvas, pair, upside_down=False),
    "upside_down": lambda canvas, pair, _: _table(canvas, pair, upside_down=True),
}
