"""Pictures of the numbers: axes on their dials, signs through a turned lens, a street without glasses."""

from __future__ import annotations

import math

from explainer.compose.document import FigureRequest
from explainer.compose.pictures.frame import Pictures, Values
from explainer.optics.claims.ledger import ClaimSet
from explainer.optics.formulas.power_vector import subtract
from explainer.optics.formulas.prescription import SpheroCylinder
from explainer.optics.spectacles import SIDES, Side, Spectacles

_ROUND = tuple(
    (round(25 * math.cos(math.tau * i / 48), 2), round(25 * math.sin(math.tau * i / 48), 2)) for i in range(48)
)
SHARP = SpheroCylinder(0.0, 0.0, 180.0)
TURNS = ("small", "large")
_LEAST_BLUR_D = 0.5  # a street blurred by less than this looks like a sharp one


def power_pictures(spectacles: Spectacles, claims: ClaimSet, frame: Values | None) -> Pictures:
    """Dial and signs for each eye with a cylinder, the axis as made; the street for lenses that are for far away.

    Where the frame is not known, the dial stands over a round lens.
    """
    found: Pictures = {}
    for side in SIDES:
        lens = _made(claims, side)
        if lens.cylinder_d:
            outline = _ROUND if frame is None else frame[side]
            values: Values = {"side": side, "outline": outline, "axis_deg": lens.axis_deg}
            found[f"dial_{side}"] = FigureRequest("lens_dial", values)
            if spectacles.lens.design != "reading":  # through these no sign far off is sharp, turned or not
                found |= _signs(claims, side, lens)
    return found | _street(spectacles, claims)


def _made(claims: ClaimSet, side: Side) -> SpheroCylinder:
    axis = f"{side}.made.axis"
    return SpheroCylinder(
        claims.number(f"{side}.made.sphere"),
        claims.number(f"{side}.made.cylinder"),
        claims.number(axis) if axis in claims else 180.0,
    )


def _signs(claims: ClaimSet, side: Side, lens: SpheroCylinder) -> Pictures:
    """The sign as the lens is set, and with the lens turned by a small and by a large angle."""
    letter_mrad = 1000 * claims.number("sight.letter") / claims.number("sight.letter_distance")
    seen = {"set": SHARP}
    for size in TURNS:
        turned = lens._replace(axis_deg=(lens.axis_deg + claims.number(f"turn.angle.{size}") - 1) % 180 + 1)
        seen[size] = subtract(lens, turned)
    return {
        f"sign_{side}_{name}": FigureRequest(
            "turned_sign", _blur(claims, f"sign_{side}_{name}", left_over) | {"letter_mrad": letter_mrad}
        )
        for name, left_over in seen.items()
    }


def _street(spectacles: Spectacles, claims: ClaimSet) -> Pictures:
    """Without glasses each eye, and with them; nothing for lenses that blur the street themselves, or hardly help."""
    if spectacles.lens.design == "reading":
        return {}
    eyes = {f"street_{side}": _made(claims, side) for side in SIDES}
    if max(claims.number(f"{side}.made.strongest") for side in SIDES) < _LEAST_BLUR_D:
        return {}
    distance: Values = {"distance_m": claims.number("sight.letter_distance") / 100}
    seen = eyes | {"street_with": SHARP}
    return {name: FigureRequest("street", _blur(claims, name, power) | distance) for name, power in seen.items()}


def _blur(claims: ClaimSet, name: str, power: SpheroCylinder) -> Values:
    """What is left uncorrected, and the pupil that it is seen through."""
    return {
        "name": name,
        "sphere_d": round(power.sphere_d, 4),
        "cylinder_d": round(power.cylinder_d, 4),
        "axis_deg": round(power.axis_deg, 3) or 180.0,
        "pupil_mm": claims.number("sight.pupil"),
    }
