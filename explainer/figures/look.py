"""How the leaflet's pictures look: every colour, line width and dash, in one place.

Lines and fills are told apart by lightness alone, so that a black and white print and colour-blind eyes lose nothing.
No fill is darker than 60 per cent black but small bars and the true shade of a dark lens.
"""

from __future__ import annotations

from explainer.figures.style import Pen

INK, SECOND, STRUCTURE = "#16202A", "#414D59", "#12456B"
PAPER, PANEL, GLASS = "#FFFFFF", "#EEF3F6", "#F0F5F8"
EDGE, VEIL, MIST = "#A9B7C2", "#DCE4EA", "#C9D5DD"  # a pale outline; what is behind glass; a far area
SLATE, SHINE, STEEL = "#5F6D79", "#97A5B0", "#B4BFC8"  # a plastic rim, the light on it; a metal rim
SUN, HELP = "#F6BE3B", "#8C1B1B"  # the sun is always outlined
CLOTH, SKIN, HAIR = "#8FA1B0", "#FFFFFF", "#6B7885"

FINE_PT, THIN_PT, LINE_PT, BOLD_PT, AXIS_PT = 0.6, 0.8, 1.1, 1.7, 3.4
DASH, SHORT_DASH = (3.2, 2.0), (2.0, 1.6)


def pen(
    colour: str | None = INK, width_pt: float = LINE_PT, dash: tuple[float, ...] = (), fill: str | None = None
) -> Pen:
    """A pen of this look."""
    return Pen(colour, width_pt, dash, fill)


def fill(colour: str) -> Pen:
    """An area without an outline."""
    return Pen(None, 0.0, (), colour)


def outlined(colour: str, width_pt: float = LINE_PT) -> Pen:
    """An area with an ink outline."""
    return Pen(INK, width_pt, (), colour)


def mixed(first: str, second: str, share: float) -> str:
    """A colour that share of the way from the first to the second, in the tones of the screen."""
    pairs = [(int(first[i : i + 2], 16), int(second[i : i + 2], 16)) for i in (1, 3, 5)]
    return "#" + "".join(f"{round(a + (b - a) * share):02X}" for a, b in pairs)


def points_of(width_mm: float) -> float:
    """A width in millimetres as a line width [pt], no finer than prints."""
    return max(FINE_PT, width_mm * 72 / 25.4)
