"""A middling head from the side, facing the left of the page, with this very frame on it.

Millimetres of its own: x backward from the front of the eye (negative before it), y up from the pupil.
"""

from __future__ import annotations

from explainer.figures.front.drawn import Place
from explainer.figures.front.pair import Pair
from explainer.figures.look import BOLD_PT, CLOTH, HAIR, INK, LINE_PT, PAPER, SKIN, fill, outlined, pen, points_of
from explainer.figures.paths import CLOSE, LINE, Path, Point, circle, polyline, spline
from explainer.figures.style import Canvas, Pen

VERTEX_MM, FRAME_BELOW_MM = 12.0, 3.0  # the lens before the eye; the middle of its box below the pupil
EAR_TOP: Point = (96.0, 15.0)
_FACE = (
    *((2, 96), (-7, 60), (-8.5, 40), (-9, 22), (-5.5, 9), (-7.5, 1), (-17, -14), (-27, -29), (-30, -36), (-26.5, -41)),
    *((-19, -42.5), (-16, -44), (-16.5, -51), (-20, -56), (-18.5, -60), (-14.5, -62), (-17.5, -66), (-15.5, -71)),
    *((-10.5, -76), (-12, -86), (-13, -95), (-7, -103), (8, -107), (34, -101), (62, -84), (78, -60), (84, -40)),
)
_NECK = ((84, -40), (86, -84), (82, -130), (66, -180), (50, -210))
_NAPE_DOWN = ((134, -62), (137, -100), (146, -140), (160, -190))
_COLLAR = ((150, -150), (128, -170), (98, -176), (76, -162))
_CHEST = ((76, -162), (40, -192), (2, -220), (-14, -262), (-18, -340))
_BACK_DOWN = ((240, -340), (236, -260), (222, -206), (186, -172), (150, -150))
_HAIRLINE = ((-6, 66), (14, 62), (40, 56), (60, 44), (70, 24), (71, 4), (74, -8), (78, 0), (82, 16), (92, 25))
_NAPE = ((92, 25), (106, 20), (114, 2), (112, -22), (118, -48), (134, -66))
_BACK = ((134, -66), (158, -54), (174, -20), (178, 24), (160, 76), (118, 110), (64, 122), (20, 112), (-4, 84), (-6, 66))
_EAR = ((84, 0), (87, 12), (97, 16), (107, 8), (108, -9), (101, -24), (96, -37), (88, -42), (83, -34), (84, -16))
_INNER_EAR = ((90, 4), (97, 8), (102, 0), (100, -12), (93, -22), (93, -30))


def draw_profile(canvas: Canvas, place: Place, *, clip: Path | None = None) -> None:
    """The head, without glasses."""
    face = spline(_FACE)
    skin = _area(face, spline(_NECK), spline(_NAPE_DOWN[::-1]), polyline([(134, -62), (120, 60), (2, 96)]))
    canvas.add(place.put(skin), fill(SKIN), clip=clip)
    canvas.add(place.put(face), pen(INK, LINE_PT), clip=clip)
    for neck in (_NECK, _NAPE_DOWN):
        canvas.add(place.put(spline(neck)), pen(INK, LINE_PT), clip=clip)
    garment = _area(spline(_COLLAR), spline(_CHEST), spline(_BACK_DOWN))
    canvas.add(place.put(garment), outlined(CLOTH), clip=clip)
    canvas.add(place.put(_area(spline(_HAIRLINE), spline(_NAPE), spline(_BACK))), outlined(HAIR), clip=clip)
    canvas.add(place.put(spline(_EAR, closed=True)), outlined(SKIN), clip=clip)
    canvas.add(place.put(spline(_INNER_EAR)), pen(INK, 0.8), clip=clip)
    _eye(canvas, place)


def _eye(canvas: Canvas, place: Place) -> None:
    lids = [(1.5, -5.5), (0.2, 0), (2.2, 5.5), (9, 4.6), (17, 0)]
    canvas.add(place.put(spline(lids)), Pen(INK, 1.0, (), PAPER))
    canvas.add(circle(place.at((3.4, 0.2)), 3.0 * place.scale), fill(INK))
    canvas.add(place.put(spline([(1.5, -5.5), (8, -5), (14, -1.8)])), pen(INK, 0.8))
    canvas.add(place.put(spline([(-3.5, 20), (8, 24.5), (22, 21)])), pen(INK, 1.5))
    canvas.add(place.put(spline([(-14, -41), (-11, -36), (-14, -31)])), pen(INK, 0.8))


def draw_worn(canvas: Canvas, place: Place, pair: Pair, *, clip: Path | None = None) -> None:
    """The frame from the side: lens edge, lug, temple, and the bend down behind the ear."""
    for path, wide in worn(pair):
        least = 1.3 if wide < 3 else BOLD_PT
        canvas.add(place.put(path), pen(INK, max(least, points_of(wide * place.scale))), clip=clip)


def worn(pair: Pair) -> list[tuple[Path, float]]:
    """The lines of the frame from the side and their widths [mm]: the front, and one temple."""
    high, low = pair.top_mm - FRAME_BELOW_MM, pair.bottom_mm - FRAME_BELOW_MM
    hinge = pair.hinge_y_mm() - FRAME_BELOW_MM
    x = -VERTEX_MM - 1.5
    front = spline([(x + 1.5, high), (x - 1.2, high * 0.4), (x - 0.6, low * 0.4), (x + 5.5, low)])
    ear_x, ear_y = EAR_TOP
    bend = [(ear_x, ear_y + 1.5), (ear_x + 9, ear_y - 1.5), (ear_x + 15, ear_y - 13), (ear_x + 15.5, ear_y - 32)]
    temple = spline([(x, hinge), (x + 8, hinge + 0.2), (ear_x * 0.5, (hinge + ear_y) / 2 + 0.6), *bend])
    return [(front, max(pair.kind.rim_mm, 1.2) * 1.2), (temple, pair.kind.temple_mm * 0.8)]


def lens_point(y: float) -> Point:
    """Where the lens is before the eye at a height [mm]; it is tilted with its lower edge nearer."""
    return -VERTEX_MM - 1.5 + 0.12 * max(-y, 0), y


def _area(*lines: Path) -> Path:
    """A closed area along lines that follow each other."""
    points = tuple(point for line in lines for point in line.points)
    codes = tuple(code if code != 1 or i == 0 else LINE for i, code in _numbered(lines))
    return Path((*points, points[0]), (*codes, CLOSE))


def _numbered(lines: tuple[Path, ...]) -> list[tuple[int, int]]:
    return list(enumerate(code for line in lines for code in line.codes))
