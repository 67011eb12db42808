"""English words for every label, to measure whether labels fit and do not run into each other.

These are the tests' own; the words that are printed live with the renderer.
"""

from __future__ import annotations

from explainer.figures.drawing import Label

WORDS: dict[str, str] = {
    "tick": "{value}",
    "right_letter": "R",
    "left_letter": "L",
    "right_eye": "right eye",
    "left_eye": "left eye",
    "axis": "axis {value}",
    "no_axis": "no axis on this side",
    "seen_from_front": "seen by someone facing you",
    "power_tick": "{value}",
    "power": "{value}",
    "along_axis": "along the axis line",
    "across_axis": "across the axis line",
    "one_rung": "One rung is a quarter dioptre.",
    "amount": "{value}",
    "light_let_through": "parts of light let through, out of 100",
    "tint_category": "tint category",
    "category_0": "0",
    "category_1": "1",
    "category_2": "2",
    "category_3": "3",
    "category_4": "4",
    "material_hard-resin": "hard resin",
    "material_polycarbonate": "polycarbonate",
    "material_urethane-1.53": "urethane 1.53",
    "material_high-index-1.60": "high-index 1.60",
    "material_high-index-1.67": "high-index 1.67",
    "material_high-index-1.74": "high-index 1.74",
    "material_crown-glass": "crown glass",
    "bench": "test bench",
    "summer_noon": "summer noon",
    "open_shade": "open shade",
    "overcast": "overcast day",
    "snow": "snow in sun",
    "windscreen_low_sun": "windscreen, low sun",
    "windscreen_shaded": "windscreen, shaded",
    "side_window_clear": "side window, clear",
    "side_window_green": "side window, green",
    "convertible": "open car",
    "darkening": "Going dark outdoors",
    "fading": "Clearing indoors",
    "seconds": "seconds",
    "minutes": "minutes",
    "at_celsius": "{value}",
    "light_scale": "light let through, out of 100",
    "this_lens": "Your lens",
    "hard_resin_lens": "The same lens in hard resin",
    "thickness_nasal": "{value}",
    "thickness_temporal": "{value}",
    "thickness_centre": "{value}",
    "scale_bar": "{value}",
    "nose_side": "nose side",
    "temple_side": "temple side",
    "eye_side": "eye side",
    "front_side": "front",
    "shift_in": "{value} inward",
    "shift_out": "{value} outward",
    "shift_none": "not moved",
    "shift_up": "{value} up",
    "shift_down": "{value} down",
    "from_nose": "{value}",
    "middle_of_lens": "middle of the lens opening",
    "optical_centre": "optical centre, in front of your pupil",
    "right_way_up": "right way up",
    "upside_down": "upside down",
    "nothing": "without glasses",
    "sphere_only": "sphere alone",
    "both": "sphere and cylinder",
    "turned": "lens turned by {value}",
    "step": "{value}",
    "care_rinse": "Rinse",
    "care_soap": "One drop of soap",
    "care_rub": "Rub with fingertips",
    "care_dry": "Dry with a soft cloth",
}
UNITS = {
    "D": " D",
    "mm": " mm",
    "deg": "°",
    "g": " g",
    "percent": " %",
    "s": " s",
    "min": " min",
    "celsius": " °C",
}
SIGNED_KEYS = frozenset({"power", "power_tick"})

CHARACTER_MM = 1.75  # mean advance at 9.5 pt, rather wide
LINE_MM = 4.3


def words(label: Label) -> str:
    """What the label says in English."""
    text = WORDS[label.key]
    if label.value is None:
        return text
    sign = "+" if label.key in SIGNED_KEYS and label.value > 0 else ""
    number = f"{sign}{label.value:.{label.digits}f}".replace("-", "−")
    return text.replace("{value}", number + UNITS.get(label.unit, label.unit))
