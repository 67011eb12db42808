"""Which pictures an order gives, and the numbers each is drawn from.

`picture_requests` holds every picture that has something to show for the order; pages take what they place.
"""

from __future__ import annotations

from collections.abc import Mapping

from explainer.compose.document import FigureRequest
from explainer.compose.pictures.frame import frame_values, pair_pictures, usual_frame
from explainer.compose.pictures.lens import lens_pictures
from explainer.compose.pictures.powers import power_pictures
from explainer.compose.pictures.tint import shade_pictures
from explainer.compose.pictures.wearing import days_pictures, looking_pictures, wearing_pictures
from explainer.optics.claims import Explanation
from explainer.optics.spectacles import Spectacles

SIGNS = (
    *("house", "car", "sun", "low_sun", "rain", "moon", "page", "room", "stairs", "triangle", "clock", "eye"),
    *("exchange", "book", "calendar", "snow", "nose", "distance", "unequal", "tick", "cross", "phone"),
)


def picture_requests(
    spectacles: Spectacles,
    explanation: Explanation,
    *,
    recheck_days: int | None = None,
    mirrored: bool = False,
    accent: str | None = None,
) -> Mapping[str, FigureRequest]:
    """Every picture of the order by its own name, which is also the drawing's.

    Pictures that are nothing but this frame are missing where neither box nor trace is known; the others show a usual
    one then. `recheck_days` is how long a free re-check is offered; `mirrored` is for languages that run from right to
    left, in which the line of days, alone, runs so too; `accent` is the workshop's colour. Nothing is drawn yet: draw
    what a page places.
    """
    claims = explanation.claims
    frame = frame_values(spectacles, claims)
    drawn = frame or usual_frame(spectacles)  # a small picture of a pair need not be this one
    signs = {f"icon_{sign}": FigureRequest("icon", {"sign": sign}) for sign in SIGNS}
    found = {
        **signs,
        **pair_pictures(spectacles, claims, frame),
        **shade_pictures(spectacles, claims, drawn),
        **wearing_pictures(spectacles, claims, drawn),
        **power_pictures(spectacles, claims, frame),
        **looking_pictures(spectacles, claims, drawn),
        **lens_pictures(spectacles, claims, explanation.shapes),
        **days_pictures(claims, recheck_days, mirrored=mirrored),
    }
    if accent is None:
        return found
    return {name: FigureRequest(each.name, {**each.values, "accent": accent}) for name, each in found.items()}
