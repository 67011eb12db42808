"""The tone on paper of a lens that lets through a known share of light.

White paper stands for all the light, so the tone's relative luminance (IEC 61966-2-1, sRGB) is the lens's luminous
transmittance. A coloured tint moves the tone's hue and keeps its luminance: printed black and white it is the same.
"""

from __future__ import annotations

import math

from explainer.figures.style import within

WEIGHTS = (0.2126, 0.7152, 0.0722)  # of red, green and blue in luminance, IEC 61966-2-1
_HUES: dict[str, tuple[float, float, float]] = {  # linear light of an ordinary tint of that name, common practice
    "grey": (1.0, 1.0, 1.0),
    "brown": (1.30, 0.96, 0.52),
    "green": (0.80, 1.08, 0.80),
    "blue": (0.70, 1.00, 1.90),
    "yellow": (1.25, 1.05, 0.20),
    "orange": (1.70, 0.85, 0.40),
    "rose": (1.45, 0.85, 1.05),
    "violet": (1.15, 0.86, 1.90),
}

_FULL_HUE = 0.6  # the optical density at which a tint has its whole colour (a quarter of the light)


def tone(percent: float, colour: str = "grey") -> str:
    """The colour #RRGGBB whose luminance is that percentage of white paper's; OutOfRange beyond 0 to 100."""
    share = within("light let through", percent, 0.0, 100.0, "percent") / 100
    hue = _HUES.get(colour, _HUES["grey"])
    grey = sum(weight * part for weight, part in zip(WEIGHTS, hue, strict=True))
    lean = [part / grey - 1 for part in hue]  # adds no luminance
    most = max(share * part for part in lean)
    depth = -math.log10(max(share, 0.001)) / _FULL_HUE  # a pale tint has little dye, and so little colour
    strength = min(1.0, depth, (1 - share) / most if most > 0 else 1.0)  # no part may pass that of white paper
    return "#" + "".join(f"{_coded(share * (1 + strength * part)):02X}" for part in lean)


def luminance(colour: str) -> float:
    """The relative luminance of a colour #RRGGBB, 0 to 1."""
    parts = [_linear(int(colour[i : i + 2], 16)) for i in (1, 3, 5)]
    return sum(weight * part for weight, part in zip(WEIGHTS, parts, strict=True))


def _coded(linear: float) -> int:
    value = min(max(linear, 0.0), 1.0)
    return round(255 * (12.92 * value if value <= 0.0031308 else 1.055 * value ** (1 / 2.4) - 0.055))


def _linear(code: int) -> float:
    value = code / 255
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
