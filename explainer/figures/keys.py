"""Every label that a figure may carry.

For each key the renderer has words; {value} in them takes the label's value.
"""

from __future__ import annotations

from typing import get_args

from explainer.optics.spectacles import Material

_EYES = ("right_letter", "left_letter", "right_eye", "left_eye")
_DIAL = ("tick", "axis", "no_axis")
_LADDER = ("power_tick", "power", "along_axis", "across_axis", "one_rung")
_SECTION = (
    *("this_lens", "hard_resin_lens", "thickness_nasal", "thickness_centre", "thickness_temporal"),
    *("scale_bar", "nose_side", "temple_side", "eye_side", "front_side"),
)
_OUTLINE = (
    *("shift_in", "shift_out", "shift_up", "shift_down", "shift_none"),
    *("from_nose", "middle_of_lens", "optical_centre"),
)
_WEIGHTS = ("amount", *(f"material_{name}" for name in get_args(Material)))
_PLACES = (
    *("bench", "summer_noon", "open_shade", "overcast", "snow", "windscreen_low_sun", "windscreen_shaded"),
    *("side_window_clear", "side_window_green", "convertible", "with_windscreen"),
)
_TINT = (
    *("light_let_through", "tint_category", *(f"category_{i}" for i in range(5))),
    *_PLACES,
    *("darkening", "fading", "light_scale", "seconds", "minutes", "at_celsius"),
)
_SPECTRUM = ("wavelength", "sunlight", "through_windscreen", "dye_needs", "dye_gets")
_SIGHT = ("nothing", "sphere_only", "both", "turned")
_STEPS = ("right_way_up", "upside_down", "step", "care_rinse", "care_soap", "care_rub", "care_dry")
_PAIR = (
    "eye_right",
    "eye_left",
    "zone_far",
    "zone_middle",
    "zone_near",
    "zone_side",
    "rule_zero",
    "rule_end",
    "axis_degrees",
)
_NEW = (
    "day_number",
    "side_right",
    "side_left",
    "distance",
    "minute_tick",
    "minute_zero",
    "instead_of",
    "thickness_here",
)
_BODIES = ("lens_right", "lens_left", "toward_ear", "toward_nose", "grams_both", "grams_ordinary")
_ROWS = tuple(f"slot_{part}_{name}" for part in ("place", "time") for name in ("hot", "mild", "cold"))

SLOTS: tuple[str, ...] = (
    *("slot_material", "slot_tint", "slot_under_right", "slot_under_left"),
    *("slot_today", "slot_settling", "slot_recheck"),
    *("slot_far", "slot_screen", "slot_page"),
    *_ROWS,
)
"""Places in a figure that the page fills with words of its own."""

KEYS: tuple[str, ...] = (
    *_EYES,
    *_DIAL,
    *_LADDER,
    *_SECTION,
    *_OUTLINE,
    *_WEIGHTS,
    *_TINT,
    *_SPECTRUM,
    *_SIGHT,
    *_STEPS,
    *_PAIR,
    *_NEW,
    *_BODIES,
)
