"""Values for every figure: ordinary ones and the most awkward ones."""

from __future__ import annotations

import math

from explainer.figures.bars import Band, Bar, Range
from explainer.figures.curves import Course
from explainer.figures.lens_section import Section
from explainer.figures.outline import LensShape
from explainer.figures.sight import Panel

CATEGORIES = (
    Band("category_4", 3, 8),
    Band("category_3", 8, 18),
    Band("category_2", 18, 43),
    Band("category_1", 43, 80),
    Band("category_0", 80, 100),
)


def oval(wide: float, high: float, count: int = 72) -> tuple[tuple[float, float], ...]:
    """An ellipse as a lens shape."""
    turns = [math.tau * i / count for i in range(count)]
    return tuple((wide / 2 * math.cos(t), high / 2 * math.sin(t)) for t in turns)


def meniscus(*, front_mm: float, back_mm: float, centre_mm: float, reach_mm: tuple[float, float]) -> Section:
    """A lens with two spherical surfaces of those radii [mm] about x = 0, from one reach to the other."""
    low, high = reach_mm
    xs = tuple(low + (high - low) * i / 80 for i in range(81))

    def sag(radius: float, x: float) -> float:
        return radius - math.sqrt(radius**2 - x**2)

    return Section(
        xs,
        tuple(sag(front_mm, x) for x in xs),
        tuple(centre_mm + sag(back_mm, x) for x in xs),
    )


def course(celsius: float, end_s: float, half_s: float, *, start: float, final: float, spare: float) -> Course:
    times = tuple(end_s * i / 40 for i in range(41))

    def light(half: float, shift: float) -> tuple[float, ...]:
        return tuple(final + (start - final) * 0.5 ** (t / half) + shift for t in times)

    return Course(celsius, times, light(half_s, 0), light(half_s, -spare), light(half_s, spare))


NANOMETRES = tuple(float(nm) for nm in range(300, 461, 4))
SPECTRUM: dict[str, object] = {  # a ramp, an edge and a hump, for want of real spectra
    "wavelength_nm": NANOMETRES,
    "sun": tuple((nm - 300) / 160 for nm in NANOMETRES),
    "glass": tuple(min(max((nm - 370) / 20, 0.0), 0.9) for nm in NANOMETRES),
    "dye": tuple(math.exp(-(((nm - 370) / 25) ** 2)) for nm in NANOMETRES),
}
STRONG_MINUS = meniscus(front_mm=500, back_mm=62, centre_mm=1.5, reach_mm=(-25, 25))
STRONG_MINUS_RESIN = meniscus(front_mm=480, back_mm=46, centre_mm=2.0, reach_mm=(-25, 25))
PLUS = meniscus(front_mm=50, back_mm=70, centre_mm=4.2, reach_mm=(-24, 21))
STRONGEST_MINUS = meniscus(front_mm=900, back_mm=31, centre_mm=2.0, reach_mm=(-25, 25))
NEARLY_FLAT = meniscus(front_mm=900, back_mm=800, centre_mm=2.0, reach_mm=(-25, 25))
LARGE = meniscus(front_mm=120, back_mm=75, centre_mm=1.8, reach_mm=(-36, 30))


def panels(sphere_d: float, cylinder_d: float, axis_deg: float) -> tuple[Panel, ...]:
    return (
        Panel("nothing", sphere_d, cylinder_d, axis_deg),
        Panel("sphere_only", 0.0, cylinder_d, axis_deg),
        Panel("both", 0.0),
        Panel("turned", 0.174 * abs(cylinder_d), -0.347 * abs(cylinder_d), (axis_deg + 140) % 180, 10, "deg"),
    )


SAMPLES: tuple[tuple[str, dict[str, object]], ...] = (
    ("dial", {"right_axis_deg": 172, "left_axis_deg": 8, "right_cylinder_d": -1.25, "left_cylinder_d": -0.5}),
    ("dial", {"right_axis_deg": 45, "left_axis_deg": None}),
    ("dial", {"right_axis_deg": None, "left_axis_deg": 90}),
    ("ladder", {"right_along_d": -3.25, "right_across_d": -4.5, "left_along_d": -2.75, "left_across_d": -3.25}),
    ("ladder", {"right_along_d": 0.0, "right_across_d": 0.0, "left_along_d": 0.0, "left_across_d": 0.0}),
    ("ladder", {"right_along_d": -12.0, "right_across_d": -12.25, "left_along_d": 8.0, "left_across_d": 7.75}),
    ("ladder", {"right_along_d": 0.25, "right_across_d": -0.25, "left_along_d": 0.5, "left_across_d": 0.25}),
    ("ladder", {"right_along_d": -20.0, "right_across_d": -20.0, "left_along_d": -18.0, "left_across_d": -22.0}),
    ("lens_section", {"lens": STRONG_MINUS, "reference": STRONG_MINUS_RESIN}),
    ("lens_section", {"lens": PLUS, "reference": PLUS, "side": "left"}),
    ("lens_section", {"lens": LARGE, "reference": LARGE}),
    ("lens_section", {"lens": LARGE}),
    ("lens_section", {"lens": STRONG_MINUS_RESIN, "reference": STRONGEST_MINUS, "side": "left"}),
    ("lens_section", {"lens": NEARLY_FLAT, "reference": NEARLY_FLAT, "centre_x_mm": 8.0}),
    (
        "outline",
        {
            "right": LensShape(oval(50, 38), 3.5, 0.0, 31.0),
            "left": LensShape(oval(50, 38), 2.0, 3.0, 32.5),
            "dbl_mm": 19.0,
        },
    ),
    (
        "outline",
        {
            "right": LensShape(oval(42, 26), 0.0, 0.0, 31.0),
            "left": LensShape(oval(42, 26), -2.0, -2.0),
            "dbl_mm": 20.0,
        },
    ),
    ("outline", {"right": LensShape(oval(62, 54), 6.0), "left": LensShape(oval(62, 54), 6.0), "dbl_mm": 14.0}),
    (
        "weight_bars",
        {
            "bars": (
                Bar("material_polycarbonate", 7.4, True),
                Bar("material_hard-resin", 10.3),
                Bar("material_crown-glass", 119.6),
            ),
            "unit": "g",
            "digits": 1,
        },
    ),
    ("weight_bars", {"bars": (Bar("material_high-index-1.74", 0.0, True),), "unit": "g", "digits": 1}),
    (
        "tint_bars",
        {
            "rows": (
                Range("summer_noon", 12, 22, 17),
                Range("windscreen_shaded", 72, 88, 80),
                Range("side_window_green", 30, 70),
                Range("convertible", 15, 15),
            ),
            "bands": CATEGORIES,
        },
    ),
    ("tint_bars", {"rows": (Range("overcast", 0, 100),)}),
    (
        "tint_curves",
        {
            "darkening": (
                course(5, 180, 32, start=88, final=9, spare=3),
                course(23, 180, 24, start=88, final=17, spare=4),
                course(35, 180, 16, start=88, final=31, spare=5),
            ),
            "fading": (
                course(5, 2400, 700, start=9, final=88, spare=3),
                course(23, 2400, 120, start=17, final=88, spare=3),
                course(35, 2400, 40, start=31, final=88, spare=3),
            ),
        },
    ),
    (
        "tint_curves",
        {
            "darkening": (course(23, 90, 20, start=88, final=20, spare=0),),
            "fading": (course(23, 200, 90, start=20, final=88, spare=0),),
        },
    ),
    (
        "tint_curves",
        {
            "darkening": (),
            "fading": (
                course(5, 1200, 700, start=9, final=88, spare=3),
                course(23, 1200, 120, start=17, final=88, spare=3),
                course(35, 1200, 40, start=31, final=88, spare=3),
            ),
        },
    ),
    ("tint_spectrum", SPECTRUM),
    ("sight", {"panels": panels(-3.25, -1.25, 172), "pupil_mm": 4.0, "letter_height_mrad": 20.0}),
    ("sight", {"panels": panels(2.0, -3.0, 60), "pupil_mm": 4.0, "letter_height_mrad": 11.6}),
    ("sight", {"panels": panels(-18.0, -4.0, 35), "pupil_mm": 6.0, "letter_height_mrad": 20.0}),
    ("sight", {"panels": panels(0.25, -0.25, 90)[:2], "pupil_mm": 3.0, "letter_height_mrad": 8.0}),
    ("fit_table", {}),
    ("fit_folded", {}),
    ("fit_level", {}),
    ("fit_pads", {}),
    ("fit_bend", {}),
    ("care_steps", {}),
)
