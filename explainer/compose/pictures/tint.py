"""Pictures of a lens's shades: the states of page one, the scenes of a day, the categories of a fixed tint."""

from __future__ import annotations

from explainer.compose.document import FigureRequest
from explainer.compose.pictures.frame import Pictures, Values, colour_of, fixed_percent
from explainer.optics import facts
from explainer.optics.claim import Interval
from explainer.optics.claims.ledger import ClaimSet
from explainer.optics.spectacles import Spectacles

COLD, MILD = 5, 23
STATES: dict[str, tuple[tuple[str, int], ...]] = {  # where the wearer is: the claims between whose ends the shade lies
    "car": (("windscreen_low_sun", MILD), ("windscreen_shaded", MILD), ("side_window_clear", MILD)),
    "sun": (("summer_noon", MILD),),
}
SCENES: dict[str, tuple[tuple[str, int], ...]] = {
    "cloudy": (("overcast", MILD),),
    "sun": (("summer_noon", MILD),),
    "snow": (("snow", COLD),),
    "car_ahead": (("windscreen_low_sun", MILD),),
    "car_side": (("side_window_clear", MILD), ("side_window_green", MILD)),
}


def shade_pictures(spectacles: Spectacles, claims: ClaimSet, frame: Values | None) -> Pictures:
    """The small pair in each of its shades; nothing without a tint."""
    kind = claims.value("tint.class")
    if frame is None or kind in (None, "clear"):
        return {}
    common = frame | {"colour": colour_of(spectacles)}
    fixed = fixed_percent(claims)
    if fixed is not None:
        return _categories(common) | _shaded("state_fixed", common, (fixed, fixed))
    found: Pictures = {}
    for prefix, places in (("state", STATES), ("shade", SCENES)):
        found |= _shaded(f"{prefix}_indoors", common, indoors(spectacles))
        for name, parts in places.items():
            band = band_of(claims, parts)
            if band is not None:
                found |= _shaded(f"{prefix}_{name}", common, band)
    return found


def band_of(claims: ClaimSet, parts: tuple[tuple[str, int], ...]) -> tuple[float, float] | None:
    """From the darkest to the palest end of all those bands, per cent of light; None where one is missing."""
    bands = [claims.value(f"tint.{place}.{celsius}.transmittance") for place, celsius in parts]
    known = [band for band in bands if isinstance(band, Interval)]
    if len(known) < len(parts):
        return None
    return round(min(band.low for band in known), 2), round(max(band.high for band in known), 2)


def indoors(spectacles: Spectacles) -> tuple[float, float]:
    """How much light a light-reactive lens lets through where no sun reaches it, per cent."""
    lens = spectacles.lens
    clear = lens.supplied.clear_percent
    if clear is not None:
        return clear, clear
    usual = facts.number(f"light.{lens.tint}.clear.usual")
    return usual, usual


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
