"""A street with a car at a stated distance: sharp, and as each eye sees it without glasses.

The scene is measured in metres at the car, from the height of the eyes, so that the blur is as large against the car
as it is in the street. It is grey: blur is the same in every colour.
"""

from __future__ import annotations

from functools import cache

from explainer.figures.blur import blur_kernel, blurred, printed
from explainer.figures.drawing import Drawing
from explainer.figures.look import EDGE, FINE_PT, STRUCTURE, pen
from explainer.figures.paths import box
from explainer.figures.rasters import Area, Scene, arrow, disc, draw_sharp, letter, rastered, rectangle, rounded, stroke
from explainer.figures.style import Canvas, Picture

WIDTH_MM, HEIGHT_MM, PIXELS_PER_MM = 56.0, 28.0, 6.0
WIDE_M, HIGH_M, EYES_M = 7.4, 3.7, 1.6  # what the picture shows at the car; the eyes above the road
_TOP_M = -1.9
SKY, WALL, DARK_WALL, ROAD, VERGE, LINE, TREE = 0.80, 0.42, 0.26, 0.22, 0.34, 0.85, 0.17
MARGINS = (24, 64, 160, 400, 1200)  # pixels; in few steps, so that eyes of like power begin with one raster
BODY, PANE, LAMP, PLATE, BLACK = 0.075, 0.42, 0.30, 0.92, 0.02


def street(
    *,
    name: str,
    sphere_d: float,
    cylinder_d: float,
    axis_deg: float,
    pupil_mm: float,
    distance_m: float,
    accent: str = STRUCTURE,
) -> Drawing:
    """The street with that power left uncorrected; a power of 0 leaves it sharp."""
    canvas = Canvas(name, WIDTH_MM, HEIGHT_MM, accent)
    if sphere_d or cylinder_d:
        canvas.picture(_blurred((sphere_d, cylinder_d, axis_deg), pupil_mm, distance_m))
    else:
        draw_sharp(canvas, scene(), WIDTH_MM)
    canvas.add(box(0.1, 0.1, WIDTH_MM - 0.2, HEIGHT_MM - 0.2), pen(EDGE, FINE_PT))
    return canvas.drawing()


def _blurred(power: tuple[float, float, float], pupil_mm: float, distance_m: float) -> Picture:
    pixels_per_m = PIXELS_PER_MM * WIDTH_MM / WIDE_M
    kernel = blur_kernel(
        sphere_d=power[0],
        cylinder_d=power[1],
        axis_deg=power[2],
        pupil_mm=pupil_mm,
        pixel_mrad=1000 / (pixels_per_m * distance_m),
    )
    half = kernel.shape[0] // 2  # light from beyond the picture's edge is blurred into it too
    margin = next(size for size in MARGINS if size >= half)
    whole = blurred(rastered(scene(), pixels_per_m, margin), kernel)
    rows, columns = whole.shape
    pixels = printed(whole[margin : rows - margin, margin : columns - margin])
    return Picture(pixels, 0, 0, WIDTH_MM, HEIGHT_MM)


@cache
def scene() -> Scene:
    """Houses and trees, the road, a car from behind, somebody at the kerb, a sign; it goes on beyond the picture."""
    areas = (*_background(), *_road(), *_sign(2.85), *_car(0.35), *_person(-2.35))
    return Scene(-WIDE_M / 2, _TOP_M, WIDE_M, HIGH_M, areas, ground=SKY)


def _background() -> list[Area]:
    found = [Area(rectangle(-60, -1.5, 57.4, 1.6), WALL), Area(rectangle(2.3, -1.15, 60, 1.3), DARK_WALL)]
    found.append(Area(((-3.9, -1.5), (-2.6, -1.5), (-3.25, -2.0)), DARK_WALL))
    found += [Area(rectangle(x, -1.15, 0.36, 0.46), 0.16) for x in (-4.05, -3.45, -2.98)]
    for x, y, r in ((-1.75, -0.85, 0.5), (-1.35, -0.6, 0.38), (1.75, -0.8, 0.46), (2.1, -0.55, 0.36)):
        found.append(Area(disc((x, y), r), TREE))
    found += [Area(rectangle(x, -0.5, 0.09, 0.6), 0.10) for x in (-1.62, 1.86)]
    return found


def _road() -> list[Area]:
    found = [Area(rectangle(-60, 0.02, 120, 60), VERGE)]
    found.append(Area(((-0.5, 0.02), (0.5, 0.02), (160, 60), (-160, 60)), ROAD))
    for x in (-2.45, 2.45):  # a line on the road runs from the horizon through the place level with the car
        near = x * 40 / EYES_M
        found.append(Area(((0.10 * x, 0.02), (0.12 * x, 0.02), (near * 1.03, 40), (near * 0.97, 40)), LINE))
    return found


def _car(x: float) -> list[Area]:
    low = EYES_M
    body = ((-0.9, low - 0.3), (-0.92, low - 0.82), (-0.80, low - 0.98), (-0.64, low - 1.42), (-0.5, low - 1.49))
    outline = (*body, *((-px, py) for px, py in reversed(body)))
    pane = ((-0.68, low - 0.98), (-0.54, low - 1.38), (0.54, low - 1.38), (0.68, low - 0.98))
    parts = [(rounded(-0.98, low - 0.06, 1.96, 0.14, 0.06), 0.12)]
    parts += [(rectangle(side - 0.12, low - 0.36, 0.24, 0.38), BLACK) for side in (-0.7, 0.7)]
    parts += [(outline, BODY), (pane, PANE), (rectangle(-0.92, low - 0.44, 1.84, 0.16), 0.035)]
    parts += [(rounded(side - 0.13, low - 0.82, 0.26, 0.2, 0.05), LAMP) for side in (-0.72, 0.72)]
    parts.append((rounded(-0.27, low - 0.66, 0.54, 0.125, 0.02), PLATE))
    parts += [(letter(name, -0.215 + 0.09 * i, low - 0.635, 0.075), BLACK) for i, name in enumerate("LTFHE")]
    return [Area(tuple((x + px, py) for px, py in polygon), value) for polygon, value in parts]


def _person(x: float) -> list[Area]:
    low = EYES_M - 0.04
    parts = [(stroke((side, low - 0.85), (1.55 * side, low), 0.17), 0.05) for side in (-0.1, 0.1)]
    parts.append((rounded(-0.25, low - 1.46, 0.5, 0.72, 0.13), 0.12))
    parts += [(stroke((side, low - 1.36), (1.35 * side, low - 0.85), 0.11), 0.12) for side in (-0.24, 0.24)]
    parts += [(disc((0, low - 1.65), 0.125), 0.06), (disc((0.0, low - 1.58), 0.105), 0.38)]
    parts.append((rectangle(0.24, low - 0.86, 0.26, 0.32), 0.88))
    return [Area(tuple((x + px, py) for px, py in polygon), value) for polygon, value in parts]


def _sign(x: float) -> list[Area]:
    parts = [(rectangle(-0.035, -0.9, 0.07, EYES_M + 0.9), 0.10)]
    parts += [(disc((0, -1.2), 0.46), 0.06), (disc((0, -1.2), 0.36), 0.93)]
    parts += [(part, BLACK) for part in arrow((0, -0.97), (0, -1.46), 0.1)]
    return [Area(tuple((x + px, py) for px, py in polygon), value) for polygon, value in parts]
