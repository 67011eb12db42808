"""What a turned lens does to a sign: three invented letters and an arrow, blurred by what is then uncorrected."""

from __future__ import annotations

from explainer.figures.blur import blur_kernel, blurred, printed
from explainer.figures.drawing import Drawing
from explainer.figures.look import EDGE, FINE_PT, STRUCTURE, pen
from explainer.figures.paths import round_box
from explainer.figures.rasters import Area, Scene, arrow, draw_sharp, letter, rastered, rounded
from explainer.figures.style import Canvas, Picture

WIDTH_MM, HEIGHT_MM = 28.0, 11.0
LETTER_MM, PIXELS_PER_MM = 4.2, 10.0
BLACK = 0.02
_SIGN = Scene(
    *(0.0, 0.0, WIDTH_MM, HEIGHT_MM),
    areas=(
        Area(rounded(1.0, 1.0, WIDTH_MM - 2.0, HEIGHT_MM - 2.0, 1.8), BLACK),
        Area(rounded(1.7, 1.7, WIDTH_MM - 3.4, HEIGHT_MM - 3.4, 1.2), 1.0),
        *(Area(letter(name, 3.6 + 4.7 * i, 3.4, LETTER_MM), BLACK) for i, name in enumerate("EFH")),
        *(Area(part, BLACK) for part in arrow((18.8, 7.9), (24.3, 2.9), 1.0)),
    ),
)


def turned_sign(
    *,
    name: str,
    sphere_d: float,
    cylinder_d: float,
    axis_deg: float,
    pupil_mm: float,
    letter_mrad: float,
    accent: str = STRUCTURE,
) -> Drawing:
    """The sign as seen with that power left uncorrected; its letters are `letter_mrad` high to the eye."""
    canvas = Canvas(name, WIDTH_MM, HEIGHT_MM, accent)
    if sphere_d or cylinder_d:
        kernel = blur_kernel(
            sphere_d=sphere_d,
            cylinder_d=cylinder_d,
            axis_deg=axis_deg,
            pupil_mm=pupil_mm,
            pixel_mrad=letter_mrad / (LETTER_MM * PIXELS_PER_MM),
        )
        pixels = printed(blurred(rastered(_SIGN, PIXELS_PER_MM), kernel))
        canvas.picture(Picture(pixels, 0, 0, WIDTH_MM, HEIGHT_MM))
    else:
        draw_sharp(canvas, _SIGN, WIDTH_MM)
    canvas.add(round_box(0.15, 0.15, WIDTH_MM - 0.3, HEIGHT_MM - 0.3, 1.2), pen(EDGE, FINE_PT))
    return canvas.drawing()
