"""The leaflet's figures: numbers in, shapes and label places out.

`draw` knows them all by name. Nothing heavy is imported before a figure is really drawn.

`figures/look.py` holds every colour and line width. Outlines are a few dozen cubic curves (`figures/curving.py`),
since painting costs by the point; only what is blurred is a raster. The frame is drawn from the order's box or
trace (`figures/front/`); rims, hinges and bridges have ordinary measures of their kind of frame. Lens shades come
from `figures/tones.py`: a tone's luminance on white paper is the light that the lens lets through. Pictures show
the real world and are mirrored in no language; the line of days alone follows the reading direction.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from importlib import import_module

from explainer.errors import RenderError
from explainer.figures.drawing import Drawing

FIGURES: dict[str, tuple[str, str]] = {
    "dial": ("dial", "dial"),
    "ladder": ("ladder", "ladder"),
    "lens_section": ("lens_section", "lens_section"),
    "outline": ("outline", "outline"),
    "weight_bars": ("bars", "value_bars"),
    "tint_bars": ("bars", "range_bars"),
    "tint_curves": ("curves", "tint_curves"),
    "tint_spectrum": ("spectrum", "tint_spectrum"),
    "sight": ("sight", "sight"),
    "fit_table": ("fit", "fit_table"),
    "fit_folded": ("fit", "fit_folded"),
    "fit_level": ("fit", "fit_level"),
    "fit_pads": ("fit", "fit_pads"),
    "fit_bend": ("fit", "fit_bend"),
    "care_steps": ("care", "care_steps"),
}

PICTURES: dict[str, tuple[str, str]] = {
    "pair": ("pair", "pair"),
    "rule": ("pair", "rule"),
    "icon": ("icons", "icon"),
    "shaded": ("shaded", "shaded"),
    "check": ("checks", "check"),
    "sitting": ("sitting", "sitting"),
    "cleaning": ("cleaning", "cleaning"),
    "days": ("days", "days"),
    "pupils": ("pupils", "pupils"),
    "where_to_look": ("looking", "looking"),
    "near_range": ("reach", "near_range"),
    "scene": ("scenes", "scene"),
    "clearing": ("clearing", "clearing"),
    "sections": ("sections", "sections"),
    "weight_dots": ("dots", "weight_dots"),
    "turned_sign": ("turning", "turned_sign"),
    "street": ("street", "street"),
    "lens_dial": ("lens_dial", "lens_dial"),
}
"""The pictures of the leaflet's fixed pages, by the name under which a page asks for them."""


def draw(name: str, values: Mapping[str, object]) -> Drawing:
    """The figure of that name from its keyword values; RenderError for a name that does not exist."""
    try:
        module, function = (FIGURES | PICTURES)[name]
    except KeyError:
        raise RenderError(f"there is no figure {name!r}; there are {', '.join((*FIGURES, *PICTURES))}") from None
    make: Callable[..., Drawing] = getattr(import_module(f"{__name__}.{module}"), function)
    return make(**values)
