"""What the wearer sees: one picture, blurred by the part of the prescription that is not corrected.

The model of the blur is that of blur.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from explainer.errors import RenderError
from explainer.figures.blur import blur_kernel, blurred, printed
from explainer.figures.drawing import Drawing
from explainer.figures.paths import box
from explainer.figures.style import ACCENT, LINE, Canvas, Picture, within

PANEL_MM, GAP_MM, WORDS_MM = 19.8, 1.6, 12.4  # three lines of words fit
PIXELS_PER_MM = 8


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
