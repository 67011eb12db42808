"""What the wearer sees: one picture, blurred by the part of the prescription that is not corrected.

The model is geometric optics. Light from one far point fills the pupil; the light that enters at the pupil's
point p [mm] lands F p [mrad] away from where it should, F being the power matrix [D] of what remains
uncorrected. So the point becomes an ellipse with extents pupil x |S| along the axis and pupil x |S + C|
across it, evenly filled; a missing cylinder alone gives a line. The picture is convolved with that ellipse in
linear light.

The picture is the wearer's own view. There the axis appears mirrored (180 - axis), because prescriptions
count it as seen by someone facing the wearer.

Limits: no diffraction, no colour fringes, no aberrations of the eye, no lens magnification, a round pupil of
stated size, no accommodation. A young eye that needs plus focuses part of this blur away, and the brain
sharpens what it knows; the picture shows the optics, not the experience.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from explainer.errors import RenderError
from explainer.figures.drawing import Drawing
from explainer.figures.paths import box
from explainer.figures.style import ACCENT, LINE, Canvas, Picture, within
from explainer.optics.formulas.dial import mirrored_axis
from explainer.optics.formulas.power_vector import power_matrix

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array = npt.NDArray[np.float64]

PANEL_MM, GAP_MM, WORDS_MM = 19.8, 1.6, 12.4  # three lines of words fit
PIXELS_PER_MM = 8
GREYS = 63  # steps between black and white that the file keeps


class Panel(NamedTuple):
    """One picture: its label key, what remains uncorrected [D, deg], and a number for the label where it has one."""

    key: str
    sphere_d: float
    cylinder_d: float = 0.0
    axis_deg: float | None = None
    value: float | None = None
    unit: str = ""


def sight(*, panels: Sequence[Panel], pupil_mm: float, letter_height_mrad: float, accent: str = ACCENT) -> Drawing:
    """Up to four pictures side by side; letter_height_mrad is how large the letters are to the eye."""
    from explainer.figures.scene import HIGH_MM, LETTER_MM, WIDE_MM, raster

    shown = [Panel(*panel) for panel in panels]
    if not 1 <= len(shown) <= 4:
        raise RenderError(f"the sight figure takes one to four pictures, not {len(shown)}")
    within("letter_height_mrad", letter_height_mrad, 1, 200, "mrad")
    pixel_mrad = letter_height_mrad / (LETTER_MM * PIXELS_PER_MM)
    high = PANEL_MM * HIGH_MM / WIDE_MM
    width = len(shown) * PANEL_MM + (len(shown) - 1) * GAP_MM + 2
    canvas = Canvas("sight", width, high + WORDS_MM + 1, accent)
    sharp = raster(PIXELS_PER_MM)
    for i, panel in enumerate(shown):
        left = 1 + i * (PANEL_MM + GAP_MM)
        kernel = blur_kernel(
            sphere_d=panel.sphere_d,
            cylinder_d=panel.cylinder_d,
            axis_deg=panel.axis_deg,
            pupil_mm=pupil_mm,
            pixel_mrad=pixel_mrad,
        )
        canvas.picture(Picture(printed(blurred(sharp, kernel)), left, 1, PANEL_MM, high))
        canvas.add(box(left, 1, PANEL_MM, high), LINE)
        place = (left + PANEL_MM / 2, 1 + high + WORDS_MM / 2)
        canvas.label(place, panel.key, panel.value, unit=panel.unit, width_mm=PANEL_MM + 1.4)
    return canvas.drawing()


def blur_kernel(
    *, sphere_d: float, cylinder_d: float, axis_deg: float | None, pupil_mm: float, pixel_mrad: float
) -> Array:
    """Where the light of one point goes, in the wearer's view: an odd square, rows from the top, sum 1.

    The pupil is cut into equal patches, more than two a pixel; each one's light is shared between the four
    pixels nearest to where it lands, so no light is lost and a line stays a line.
    """
    import numpy as np

    within("pupil_mm", pupil_mm, 0.5, 9, "mm")
    if cylinder_d and axis_deg is None:
        raise RenderError("what remains uncorrected has a cylinder but no axis")
    seen = mirrored_axis(axis_deg=axis_deg or 180.0)
    f = power_matrix(sphere_d=sphere_d, cylinder_d=cylinder_d, axis_deg=seen)
    widest = pupil_mm * max(abs(sphere_d), abs(sphere_d + cylinder_d)) / pixel_mrad
    count = max(32, int(2.5 * widest))
    across = ((np.arange(count) + 0.5) / count - 0.5) * pupil_mm
    x, y = np.meshgrid(across, across)
    kept = np.hypot(x, y) <= pupil_mm / 2
    to_right = (f.fxx_d * x + f.fxy_d * y)[kept] / pixel_mrad
    upward = (f.fxy_d * x + f.fyy_d * y)[kept] / pixel_mrad
    return _gathered(to_right, -upward, int(widest / 2) + 2)


def _gathered(columns: Array, rows: Array, half: int) -> Array:
    """Points, counted from the middle, gathered into pixels; each shared between its four neighbours."""
    import numpy as np

    size = 2 * half + 1
    left, top = np.floor(columns).astype(int), np.floor(rows).astype(int)
    right_share, lower_share = columns - left, rows - top
    kernel = np.zeros(size * size)
    for dy, row_share in ((0, 1 - lower_share), (1, lower_share)):
        for dx, column_share in ((0, 1 - right_share), (1, right_share)):
            places = (top + dy + half) * size + left + dx + half
            kernel += np.bincount(places, weights=row_share * column_share, minlength=size * size)
    gathered: Array = (kernel / kernel.sum()).reshape(size, size)
    return gathered


def blurred(luminance: Array, kernel: Array) -> Array:
    """The picture convolved with the kernel; beyond its edge everything is white paper."""
    import numpy as np

    half = kernel.shape[0] // 2
    rows, columns = luminance.shape
    shape = (quick_length(rows + 2 * half), quick_length(columns + 2 * half))
    dark = np.fft.irfft2(np.fft.rfft2(1.0 - luminance, shape) * np.fft.rfft2(kernel, shape), shape)
    result: Array = 1.0 - dark[half : half + rows, half : half + columns]
    return np.clip(result, 0.0, 1.0)


def quick_length(least: int) -> int:
    """The next even length that falls into factors two, three and five, over which transforms are quick."""
    length = least + least % 2
    while _rest(length) != 1:
        length += 2
    return length


def _rest(length: int) -> int:
    for factor in (2, 3, 5):
        while length % factor == 0:
            length //= factor
    return length


def printed(luminance: Array) -> npt.NDArray[np.uint8]:
    """Linear light as the grey values of a picture file (the sRGB curve), in few steps to keep the file small."""
    import numpy as np

    curve = np.where(luminance <= 0.0031308, 12.92 * luminance, 1.055 * luminance ** (1 / 2.4) - 0.055)
    return np.asarray(np.round(np.round(curve * GREYS) / GREYS * 255), dtype=np.uint8)
