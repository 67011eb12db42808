"""Drawing the front: in full, with rims as they look, or small, in lines alone."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from explainer.figures.front import parts
from explainer.figures.front.pair import Pair
from explainer.figures.front.parts import SIDES
from explainer.figures.look import FINE_PT, GLASS, INK, LINE_PT, PAPER, SHINE, SLATE, STEEL, fill, mixed, pen, points_of
from explainer.figures.paths import Path, Point, circle, joined
from explainer.figures.style import Canvas, Pen

NAMES = {-1: "right", 1: "left"}


class Place(NamedTuple):
    """Where on the page the middle of the nose stands [mm], and how many page millimetres a frame millimetre takes."""

    x: float
    y: float
    scale: float = 1.0
    roll_deg: float = 0.0  # turned about the middle of the nose, anticlockwise as seen
    mirrored: bool = False  # for a head from the side that faces the right of the page

    def at(self, point: Point) -> Point:
        """The page's point for one of the pair."""
        if self.mirrored:
            return self.x - self.scale * point[0], self.y - self.scale * point[1]
        if not self.roll_deg:
            return self.x + self.scale * point[0], self.y - self.scale * point[1]
        cosine, sine = math.cos(math.radians(self.roll_deg)), math.sin(math.radians(self.roll_deg))
        right, up = point[0] * cosine - point[1] * sine, point[0] * sine + point[1] * cosine
        return self.x + self.scale * right, self.y - self.scale * up

    def put(self, path: Path) -> Path:
        """A path of the pair, on the page."""
        return Path(tuple(self.at(point) for point in path.points), path.codes)


def draw_full(canvas: Canvas, pair: Pair, place: Place, tones: tuple[str, str] = (GLASS, GLASS)) -> None:
    """The pair with its rims; `tones` fill the lens on the observer's left, and the one on the right."""
    draw_lenses(canvas, pair, place, tones)
    draw_seen_through(canvas, pair, place, tones)
    draw_frame(canvas, pair, place)


def draw_lenses(canvas: Canvas, pair: Pair, place: Place, tones: tuple[str, str]) -> None:
    """Both lenses as areas, named so that they can be found on the finished page."""
    for turn, tone in zip(SIDES, tones, strict=True):
        canvas.add(place.put(parts.lens(pair, turn)), fill(tone), f"lens-{NAMES[turn]}")


def draw_seen_through(canvas: Canvas, pair: Pair, place: Place, tones: tuple[str, str]) -> None:
    """The temples behind the lenses, and the light on them."""
    for turn, tone in zip(SIDES, tones, strict=True):
        _behind(canvas, pair, place, turn, tone)


def _behind(canvas: Canvas, pair: Pair, place: Place, turn: int, tone: str) -> None:
    """What shows through the lens or lies on it: the temple, and two streaks of light."""
    edge = place.put(parts.lens(pair, turn))
    wide = points_of(pair.kind.temple_mm * 0.72 * place.scale)
    canvas.add(place.put(parts.temple_behind(pair, turn)), pen(mixed(tone, SLATE, 0.22), wide), clip=edge)
    light = mixed(tone, PAPER, 0.9 if tone == GLASS else 0.22)
    for streak, width_mm in zip(parts.reflections(pair, turn), (1.5, 0.9), strict=True):
        canvas.add(place.put(streak), pen(light, points_of(width_mm * place.scale)), clip=edge)


def draw_frame(canvas: Canvas, pair: Pair, place: Place) -> None:
    """Rims, bridge, lugs and pads over the lenses."""
    if pair.kind.plastic:
        _plastic(canvas, pair, place)
        return
    for turn in SIDES:
        if pair.kind.pads:
            canvas.add(place.put(parts.pad_arm(pair, turn)), pen(INK, points_of(0.55 * place.scale)))
            pad = Pen(INK, points_of(0.35 * place.scale), (), mixed(GLASS, STEEL, 0.35))
            canvas.add(place.put(parts.pad(pair, turn)), pad)
    _metal(canvas, pair, place)


def _plastic(canvas: Canvas, pair: Pair, place: Place) -> None:
    """The silhouette first as a line round everything, then filled, so that no seam shows between its parts."""
    bodies = [parts.rim_outside(pair, turn) for turn in SIDES]
    bodies += [parts.bridge_body(pair), *(parts.lug(pair, turn) for turn in SIDES)]
    openings = [parts.lens(pair, turn) for turn in SIDES]
    edge = points_of(0.45 * place.scale)
    outside = [place.put(body) for body in bodies]
    rings = [place.put(_ring(body, opening)) for body, opening in zip(bodies, openings, strict=False)]
    canvas.add(joined(outside), pen(INK, 2 * edge))
    for path in (*rings, *outside[2:]):
        canvas.add(path, fill(SLATE))
    for turn, opening in zip(SIDES, openings, strict=True):
        canvas.add(place.put(opening), pen(INK, edge))
        light = place.put(parts.shine(pair, turn))
        canvas.add(light, pen(SHINE, points_of(0.5 * place.scale)))
        canvas.add(place.put(joined(parts.rivets(pair, turn))), fill(SHINE))


def _ring(outer: Path, inner: Path) -> Path:
    """An area with a hole: the inner line runs the other way round."""
    points, codes = inner.points[:-1], inner.codes[:-1]
    return joined((outer, Path((*reversed(points), points[-1]), (*codes, inner.codes[-1]))))


def _metal(canvas: Canvas, pair: Pair, place: Place) -> None:
    kind = pair.kind
    wires: list[tuple[Path, float]] = [(place.put(parts.bridge_line(pair)), max(kind.rim_mm, 1.1))]
    for turn in SIDES:
        canvas.add(place.put(parts.temple_end(pair, turn)), fill(INK))
        if kind.screws or kind.thread:
            canvas.add(place.put(parts.lens(pair, turn)), pen(INK, points_of(0.32 * place.scale)))
        if not kind.screws:
            rim = parts.bar(pair, turn) if kind.thread else parts.rim_middle(pair, turn)
            wires.append((place.put(rim), kind.rim_mm + kind.top_mm))
    for path, wide in wires:
        canvas.add(path, pen(INK, points_of(wide * place.scale)))
    for turn in SIDES:
        canvas.add(place.put(parts.lug(pair, turn)), fill(INK))
    for path, wide in wires:
        canvas.add(path, pen(STEEL, points_of(wide * 0.36 * place.scale)))
    if kind.screws:
        _screws(canvas, pair, place)


def _screws(canvas: Canvas, pair: Pair, place: Place) -> None:
    for turn in SIDES:
        for point in parts.screws(pair, turn):
            canvas.add(circle(place.at(point), 0.95 * place.scale), Pen(INK, points_of(0.4 * place.scale), (), STEEL))


def draw_small(
    canvas: Canvas,
    pair: Pair,
    place: Place,
    *,
    tones: Sequence[str | None] = (PAPER, PAPER),
    width_pt: float = LINE_PT,
    ink: str = INK,
) -> None:
    """The pair in lines, for sizes at which rims are lines; a rimless lens is drawn finer. No tone is no filling."""
    rim = width_pt if not pair.kind.screws else max(FINE_PT, 0.7 * width_pt)
    for turn, tone in zip(SIDES, tones, strict=True):
        canvas.add(place.put(parts.lens(pair, turn)), Pen(ink, rim, (), tone), f"lens-{NAMES[turn]}")
    draw_small_links(canvas, pair, place, width_pt, ink)


def draw_small_links(canvas: Canvas, pair: Pair, place: Place, width_pt: float = LINE_PT, ink: str = INK) -> None:
    """Bridge and hinges of the pair in lines."""
    links = [parts.bridge_line(pair)]
    for turn in SIDES:
        links.append(parts.hinge_line(pair, turn))
    canvas.add(joined(place.put(link) for link in links), pen(ink, width_pt * 1.15))
