"""Line pictures on a screen that may be dark: their colours as variables that a page's style sheet sets."""

from __future__ import annotations

import re

from explainer.figures.look import CLOTH, EDGE, GLASS, HAIR, INK, MIST, PANEL, PAPER, SECOND, STRUCTURE, VEIL

TRUE_SHADES = ("pair", "state_", "shade_", "category_", "scene_", "sign_", "street_")
"""Pictures whose greys are a lens's own, or what the eye sees: they stay as they are, on a pale ground."""

VARIABLES = {
    **{INK: "--figure-ink", SECOND: "--figure-second", PAPER: "--figure-paper", PANEL: "--figure-panel"},
    **{GLASS: "--figure-glass", VEIL: "--figure-veil", MIST: "--figure-mist", EDGE: "--figure-edge"},
    **{HAIR: "--figure-hair", CLOTH: "--figure-cloth", STRUCTURE: "--figure-structure"},
}
_COLOUR = re.compile(rb"(fill|stroke): (#[0-9a-fA-F]{6})")


def with_variables(name: str, svg: bytes) -> bytes:
    """A drawing's SVG, to stand inside an HTML page, with `var(--figure-…, #rrggbb)` for the colours of the look."""
    if name.startswith(TRUE_SHADES):
        return svg

    def put(found: re.Match[bytes]) -> bytes:
        colour = found[2].decode().upper()
        variable = VARIABLES.get(colour)
        if variable is None:
            return found[0]
        return b"%s: var(%s, %s)" % (found[1], variable.encode(), found[2])

    return _COLOUR.sub(put, svg)
