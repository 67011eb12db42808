"""The accent: a colour that can be read on white paper."""

from __future__ import annotations

LEAST_CONTRAST = 7.0
"""Between text and white, for readers with weak sight (WCAG 2.2, 1.4.6)."""


def contrast_on_white(colour: str) -> float:
    """The contrast ratio of a colour #rrggbb on white, after WCAG 2.2: 1 for white, 21 for black."""
    channels = (int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))
    red, green, blue = (_linear(channel) for channel in channels)
    return 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05)


def darkened(colour: str) -> str:
    """The lightest colour of the same hue that has enough contrast on white."""
    shades = (_shade(colour, percent) for percent in range(100, -1, -1))
    return next(shade for shade in shades if contrast_on_white(shade) >= LEAST_CONTRAST)


def _shade(colour: str, percent: int) -> str:
    channels = (int(colour[place : place + 2], 16) * percent // 100 for place in (1, 3, 5))
    return "#" + "".join(f"{channel:02x}" for channel in channels)


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4
