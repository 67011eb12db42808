"""Pictures of wearing and keeping: what to check, how the pair sits, how it is cleaned."""

from __future__ import annotations

from explainer.compose.document import FigureRequest
from explainer.compose.pictures.frame import Pictures, Values, pupil_distance
from explainer.optics.claim import Interval
from explainer.optics.claims.ledger import ClaimSet
from explainer.optics.spectacles import Spectacles

CHECKS = ("label", "whole", "level", "one_eye", "single", "print", "lines")
_USUAL_PAGE_CM, _USUAL_SCREEN_CM = (
    (40.0, 45.0),
    65.0,
)  # a page at 40 to 45 cm, a screen at arm's length: common practice
_BEYOND_DAYS = 7
SITTING = ("level", "crooked", "ear", "table", "upside_down")
STEPS = ("rinse", "soap", "rub", "dry")


def wearing_pictures(spectacles: Spectacles, claims: ClaimSet, frame: Values) -> Pictures:
    """Each with the pair of the order, and with the wearer's pupils where a face is in it."""
    worn = frame | {"pd_mm": pupil_distance(claims)}
    found = {f"check_{name}": FigureRequest("check", worn | {"name": name}) for name in CHECKS}
    found |= {f"sit_{name}": FigureRequest("sitting", worn | {"name": name}) for name in SITTING}
    lens: Values = {"outline": frame["right"]}
    return found | {f"clean_{name}": FigureRequest("cleaning", lens | {"name": name}) for name in STEPS}


def looking_pictures(spectacles: Spectacles, claims: ClaimSet, frame: Values) -> Pictures:
    """Where to look through, and where print is clear, for lenses with an addition and for reading glasses."""
    design = spectacles.lens.design
    nearest, farthest = (claims.value(name) for name in ("near.range.near_end", "near.far_end"))
    found: Pictures = {}
    if isinstance(nearest, int | float) and isinstance(farthest, int | float):
        found["near_range"] = FigureRequest("near_range", {"nearest_cm": nearest, "farthest_cm": farthest})
    if design not in ("bifocal", "progressive"):
        return found
    low, high = _USUAL_PAGE_CM
    page = farthest if isinstance(farthest, int | float) else low
    values = frame | {"page_cm": round(min(max(page, low), high), 1)}
    values["screen_cm"] = _USUAL_SCREEN_CM if design == "progressive" else None
    return found | {"where_to_look": FigureRequest("where_to_look", values)}


def days_pictures(claims: ClaimSet, recheck_days: int | None, *, mirrored: bool) -> Pictures:
    """The line of the first days, to the last one of the re-check, else a week beyond the usual time of settling."""
    settling = claims.value("settling.usual")
    if not isinstance(settling, Interval):
        return {}
    flagged = recheck_days is not None and recheck_days >= settling.high
    last = recheck_days if flagged else round(settling.high) + _BEYOND_DAYS
    values: Values = {"settle_from": settling.low, "settle_to": settling.high, "last_day": last}
    return {"days": FigureRequest("days", values | {"recheck": flagged, "mirrored": mirrored})}
