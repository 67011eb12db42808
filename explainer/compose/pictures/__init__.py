"""Which pictures an order gives, and the numbers each is drawn from.

`picture_requests` holds every picture that has something to show for the order; pages take what they place.

The pictures by name, with their sizes; slots are places for the page's own words.

pair, rule. Size 180 × height of the frame + 17; 80 × 5 mm. life size; slots slot_material, slot_tint on top,
slot_under_right, slot_under_left at the foot.

state_indoors, state_car, state_sun, or state_fixed; shade_* by scene; category_0 … category_4. Size 30 × 11 mm. the
pair in its true shades, with a slant for a band.

icon_* (compose.pictures.SIGNS). Size 12 × 10 mm. signs beside words, without an alternative text.

check_label, _whole, _level, _one_eye, _single, _print, _lines. Size 18 × 11 mm. what to check.

days. Size 180 × 17 mm. slots slot_today, slot_settling, slot_recheck; mirrored for languages from right to left.

sit_level, _crooked, _ear, _table, _upside_down; clean_rinse, _soap, _rub, _dry. Size 33.6 × 23; 20 × 16 mm. fit and
cleaning with this frame.

dial_right, dial_left; sign_<eye>_set, _small, _large; street_right, _left, _with. Size 43.5 × 33; 28 × 11; 56 × 28
mm. the numbers.

pupils; where_to_look; near_range. Size 86 × about 36; 180 × 51; 86 × 16 mm. slots slot_far, slot_screen,
slot_page.

scene_indoors, _cloudy, _summer, _cold, _windscreen, _side; clearing. Size 27.5 × 26; 180 × 27 mm. slots
slot_place_hot, slot_time_hot and so on for mild, cold.

sections; weight_dots. Size at least 128 wide; 48 mm. life size over ordinary plastic; a dot a gram.
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
