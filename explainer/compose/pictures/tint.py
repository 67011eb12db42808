"""Pictures of a lens's shades: the states of page one, the scenes of a day, the categories of a fixed tint."""

from __future__ import annotations

from explainer.compose.document import FigureRequest
from explainer.compose.pictures.frame import Pictures, Values, colour_of, fixed_percent, pupil_distance
from explainer.optics import facts
from explainer.optics.claim import Interval
from explainer.optics.claims.ledger import ClaimSet
from explainer.optics.spectacles import Spectacles

STATES = ("indoors", "car", "sun")
SCENES = ("indoors", "cloudy", "summer", "cold", "windscreen", "side")


def shade_pictures(spectacles: Spectacles, claims: ClaimSet, frame: Values) -> Pictures:
    """The small pair in each of its shades; nothing without a tint."""
    kind = claims.value("tint.class")
    if kind in (None, "clear"):
        return {}
    common = frame | {"colour": colour_of(spectacles)}
    fixed = fixed_percent(claims)
    if fixed is not None:
        return _categories(common) | _shaded("state_fixed", common, (fixed, fixed))
    found: Pictures = {}
    for prefix, places in (("state", STATES), ("shade", SCENES)):
        for place in places:
            band = light_in(claims, place)
            if band is not None:
                found |= _shaded(f"{prefix}_{place}", common, band)
    return found | _scenes(claims, common) | _clearing(claims)


def _scenes(claims: ClaimSet, common: Values) -> Pictures:
    """The wearer in each place, the lenses in the middle of the place's band."""
    bands = {name: light_in(claims, name) for name in SCENES}
    worn = common | {"pd_mm": pupil_distance(claims)}
    return {
        f"scene_{name}": FigureRequest("scene", worn | {"name": name, "percent": round((band[0] + band[1]) / 2, 2)})
        for name, band in bands.items()
        if band is not None
    }


def _clearing(claims: ClaimSet) -> Pictures:
    """From the warmest to the coldest temperature: the shortest and the longest time to clear, in minutes."""
    rows = []
    for name in ("hot", "mild", "cold"):
        celsius = claims.number(f"tint.temperature.{name}")
        time = claims.value(f"tint.fade.{celsius:g}.to_75")
        if isinstance(time, Interval):
            rows.append((name, round(time.low / 60, 2), round(time.high / 60, 2)))
    return {"clearing": FigureRequest("clearing", {"rows": tuple(rows)})} if rows else {}


def light_in(claims: ClaimSet, place: str) -> tuple[float, float] | None:
    """From the darkest to the palest end of the light let through there, per cent; None where nothing is known.

    Out of the sun the lens is at rest, and the middle of its kind is drawn: one shade.
    """
    band = claims.value(f"shade.{place}.light")
    if not isinstance(band, Interval):
        return None
    if place == "indoors":
        middle = round((band.low + band.high) / 2, 2)
        return middle, middle
    return round(band.low, 2), round(band.high, 2)


def _categories(common: Values) -> Pictures:
    """The five categories in the shades of their middles."""
    found: Pictures = {}
    for number in range(5):
        band = facts.get(f"light.category.{number}").interval
        middle = round((band.low + band.high) / 2, 2)
        found |= _shaded(f"category_{number}", common, (middle, middle))
    return found


def _shaded(name: str, common: Values, percent: tuple[float, float]) -> Pictures:
    return {name: FigureRequest("shaded", common | {"name": name, "low": percent[0], "high": percent[1]})}
