"""Words for the labels of figures. `%(value)s` takes the label's number, with its unit."""

from __future__ import annotations

from explainer.render.labels import PLACES, WORDS


def _(message: str) -> str:
    """Marks a message for extraction."""
    return message


BARE = "%(value)s"

FIGURE_WORDS: dict[str, str] = {
    **dict.fromkeys(
        ("tick", "power_tick", "power", "amount", "thickness_nasal", "thickness_temporal", "from_nose", "step"), BARE
    ),
    **dict.fromkeys(("thickness_centre", "scale_bar", "at_celsius", "rule_zero", "rule_end", "axis_degrees"), BARE),
    **dict.fromkeys(("distance", "minute_tick", "thickness_here"), BARE),
    **{f"category_{number}": str(number) for number in range(5)},
    **{f"material_{key.partition('=')[2]}": words for key, words in WORDS.items() if key.startswith("lens.material")},
    **PLACES,
    "bench": _("Test bench"),
    "right_letter": _("R"),
    "left_letter": _("L"),
    "right_eye": _("right eye"),
    "left_eye": _("left eye"),
    "axis": _("axis %(value)s"),
    "no_axis": _("no axis on this side"),
    "along_axis": _("along the axis"),
    "across_axis": _("across the axis"),
    "one_rung": _("One rung is a quarter dioptre."),
    "light_let_through": _("parts of light let through, of a hundred"),
    "tint_category": _("tint category"),
    "darkening": _("Getting dark in the sun"),
    "fading": _("Clearing out of the sun"),
    "seconds": _("seconds"),
    "minutes": _("minutes"),
    "light_scale": _("light let through, of a hundred parts"),
    "wavelength": _("wavelength in nanometres"),
    "sunlight": _("sunlight"),
    "through_windscreen": _("passes the glass"),
    "dye_needs": _("the tint needs"),
    "dye_gets": _("left for the tint"),
    "this_lens": _("Your lens"),
    "with_windscreen": _("Your lens behind a windscreen"),
    "hard_resin_lens": _("In hard resin, the usual plastic"),
    "nose_side": _("nose side"),
    "temple_side": _("temple side"),
    "eye_side": _("eye side"),
    "front_side": _("front"),
    "shift_in": _("%(value)s inward"),
    "shift_out": _("%(value)s outward"),
    "shift_none": _("not moved"),
    "shift_up": _("%(value)s up"),
    "shift_down": _("%(value)s down"),
    "middle_of_lens": _("middle of the lens opening"),
    "optical_centre": _("optical centre, before your pupil"),
    "right_way_up": _("right way up"),
    "upside_down": _("upside down"),
    "nothing": _("without glasses"),
    "sphere_only": _("sphere only"),
    "both": _("with your lens"),
    "turned": _("lens turned by %(value)s"),
    "eye_right": _("Right eye"),
    "eye_left": _("Left eye"),
    "zone_far": _("far"),
    "zone_middle": _("arm’s length"),
    "zone_near": _("reading"),
    "zone_side": _("less clear"),
    "day_number": _("day %(value)s"),
    "side_right": _("right"),
    "side_left": _("left"),
    "minute_zero": _("%(value)s minutes"),
    "instead_of": _("instead of %(value)s"),
    "lens_right": _("right lens"),
    "lens_left": _("left lens"),
    "toward_ear": _("ear"),
    "toward_nose": _("nose"),
    "grams_both": _("%(value)s both lenses"),
    "grams_ordinary": _("%(value)s in ordinary plastic"),
    "care_rinse": _("Rinse"),
    "care_soap": _("A drop of soap"),
    "care_rub": _("Rub with fingers"),
    "care_dry": _("Rinse again, dry"),
}
