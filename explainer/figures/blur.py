"""A picture blurred by a power that is not corrected, as the wearer would see it.

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

from typing import TYPE_CHECKING

from explainer.errors import RenderError
from explainer.figures.style import within
from explainer.optics.formulas.dial import mirrored_axis
from explainer.optics.formulas.power_vector import power_matrix

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array = npt.NDArray[np.float64]

GREYS = 63  # steps between black and white that the file keeps


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
