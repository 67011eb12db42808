"""Which pictures an order gives, and the numbers each is drawn from.

`picture_requests` holds every picture that has something to show for the order; pages take what they place.
"""

from __future__ import annotations

from collections.abc import Mapping

from explainer.compose.document import FigureRequest
from explainer.compose.pictures.frame import frame_values, pair_pictures
from explainer.compose.pictures.tint import shade_pictures
from explainer.optics.claims import Explanation
from explainer.optics.spectacles import Spectacles

SIGNS = (
    *("house", "car", "sun", "low_sun", "rain", "moon", "page", "room", "stairs", "triangle", "clock", "eye"),
    *("exchange", "book", "calendar", "snow", "nose", "distance", "unequal", "tick", "cross", "phone"),
)


def picture_requests(spectacles: Spectacles, explanation: Explanation) -> Mapping[str, FigureRequest]:
    """Every picture of the order by its own name, which is also the drawing's.

    Those of the frame are missing where neither box nor trace is known. Nothing is drawn yet: draw what a page places.
    """
    claims = explanation.claims
    frame = frame_values(spectacles, claims)
    signs = {f"icon_{sign}": FigureRequest("icon", {"sign": sign}) for sign in SIGNS}
    return signs | pair_pictures(spectacles, claims, frame) | shade_pictures(spectacles, claims, frame)
