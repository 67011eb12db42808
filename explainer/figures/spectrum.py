"""Why the lenses stay pale in a car: the sun's light, what a windscreen lets through, and what the dye needs.

One picture over wavelength. Shares are drawn, not amounts: the sun's curve is scaled to its own highest value in
the picture. The part of the sun that passes the glass and that the dye can use is the dark area.
"""

from __future__ import annotations

from collections.abc import Sequence

from explainer.errors import RenderError
from explainer.figures.drawing import Drawing
from explainer.figures.paths import box, polyline
from explainer.figures.style import ACCENT, BOLD_PT, DASHED, INK, LIGHT, LINE, LINE_PT, THIN, Canvas, Pen, solid, within

WIDTH_MM, HEIGHT_MM = 86.0, 34.0
LEFT_MM, RIGHT_MM, TOP_MM, FOOT_MM = 3.4, 56.0, 1.5, 23.5
KEY_MM = 8.4  # from one entry of the key to the next: two lines of words fit
TICKS_NM = (300, 350, 400, 450)


def tint_spectrum(
    *,
    wavelength_nm: Sequence[float],
    sun: Sequence[float],
    glass: Sequence[float],
    dye: Sequence[float],
    accent: str = ACCENT,
) -> Drawing:
    """The three curves, each from 0 to 1 over the same wavelengths [nm]; the shared part of all three is filled."""
    rows = {"sun": sun, "glass": glass, "dye": dye}
    if any(len(row) != len(wavelength_nm) for row in rows.values()) or len(wavelength_nm) < 2:
        raise RenderError("the rows of the spectrum picture differ in length")
    for name, row in rows.items():
        for value in row:
            within(name, value, 0, 1, "")
    canvas = Canvas("tint_spectrum", WIDTH_MM, HEIGHT_MM, accent)
    low, high = wavelength_nm[0], wavelength_nm[-1]
    across = [LEFT_MM + (nm - low) / (high - low) * (RIGHT_MM - LEFT_MM) for nm in wavelength_nm]
    used = [a * b * c for a, b, c in zip(sun, glass, dye, strict=True)]
    _area(canvas, across, sun, solid(LIGHT), "sun-area")
    _area(canvas, across, used, solid(canvas.accent), "used-area")
    for name, row, pen in (
        ("sun", sun, Pen(INK, LINE_PT)),
        ("glass", glass, Pen(INK, BOLD_PT, DASHED)),
        ("dye", dye, Pen(canvas.accent, BOLD_PT)),
    ):
        canvas.add(polyline([(x, _y(value)) for x, value in zip(across, row, strict=True)]), pen, f"curve-{name}")
    _axis(canvas, low, high)
    _key(canvas)
    return canvas.drawing()


def _y(value: float) -> float:
    return FOOT_MM - value * (FOOT_MM - TOP_MM)


def _area(canvas: Canvas, across: Sequence[float], row: Sequence[float], pen: Pen, name: str) -> None:
    top = [(x, _y(value)) for x, value in zip(across, row, strict=True)]
    canvas.add(polyline([(across[0], FOOT_MM), *top, (across[-1], FOOT_MM)], closed=True), pen, name)


def _axis(canvas: Canvas, low: float, high: float) -> None:
    canvas.line((LEFT_MM, FOOT_MM), (RIGHT_MM, FOOT_MM), pen=LINE)
    for nm in TICKS_NM:
        if low <= nm <= high:
            x = LEFT_MM + (nm - low) / (high - low) * (RIGHT_MM - LEFT_MM)
            canvas.line((x, FOOT_MM), (x, FOOT_MM + 1.2), pen=THIN)
            canvas.label((x, FOOT_MM + 3.6), "tick", nm)
    canvas.label(((LEFT_MM + RIGHT_MM) / 2, FOOT_MM + 8.0), "wavelength", width_mm=RIGHT_MM - LEFT_MM)


def _key(canvas: Canvas) -> None:
    """What each line and area is, beside the picture."""
    entries = (("sunlight", LINE_PT, ()), ("through_windscreen", BOLD_PT, DASHED), ("dye_needs", BOLD_PT, ()))
    for i, (key, width, dash) in enumerate(entries):
        y = KEY_MM * (i + 0.5)
        colour = canvas.accent if key == "dye_needs" else INK
        canvas.line((58.0, y), (62.5, y), pen=Pen(colour, width, dash))
        canvas.label((63.5, y), key, anchor="start", width_mm=22.0)
    y = KEY_MM * 3.5
    canvas.add(box(58.0, y - 1.5, 4.5, 3.0), solid(canvas.accent))
    canvas.label((63.5, y), "dye_gets", anchor="start", width_mm=22.0)
