"""Colours as printed: contrast of text with what lies under it, and of the lines of figures with paper."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from render.glyphs import Glyph
from render.shapes import Shape
from scoring.leaflet import Made

WHITE = (1.0, 1.0, 1.0)


def luminance(colour: Sequence[float]) -> float:
    """Relative luminance after WCAG 2.2; each part 0 to 1."""
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: Sequence[float], other: Sequence[float]) -> float:
    """The contrast ratio after WCAG 2.2."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def text_contrast(made: Made) -> tuple[float, Glyph]:
    """The least contrast of a letter, and the letter."""
    return min(contrasts(made), key=lambda pair: pair[0])


def contrasts(made: Made) -> list[tuple[float, Glyph]]:
    """The contrast of each letter with the last area painted under its middle before it."""
    areas: dict[int, list[Shape]] = {}
    for shape in made.shapes:
        if shape.kind == "fill":
            left, low, right, high = shape.box
            if right - left > 3 and high - low > 3:
                areas.setdefault(shape.page, []).append(shape)
    return [
        (contrast(glyph.colour, _under(glyph, areas.get(glyph.page, []))), glyph)
        for glyph in made.glyphs
        if glyph.text.strip()
    ]


def _under(glyph: Glyph, areas: list[Shape]) -> Sequence[float]:
    x, y = glyph.x + glyph.advance / 2, glyph.y + 0.25 * glyph.size
    colour: Sequence[float] = WHITE
    for area in areas:
        if area.step < glyph.step and _holds(area, x, y):
            colour = area.colour
    return colour


def _holds(area: Shape, x: float, y: float) -> bool:
    """Whether the point is in the polygon, by the even-odd rule; curves are taken by their points."""
    left, low, right, high = area.box
    if not (left <= x <= right and low <= y <= high):
        return False
    inside = False
    corners = area.points
    for (x1, y1), (x2, y2) in zip(corners, (*corners[1:], corners[0]), strict=True):
        if (y1 > y) != (y2 > y) and x < (x2 - x1) * (y - y1) / (y2 - y1) + x1:
            inside = not inside
    return inside


def pale_lines(made: Made, least: float) -> Iterator[tuple[float, Shape]]:
    """Drawn lines with less than that contrast with paper. White ones only keep other shapes apart."""
    for shape in made.shapes:
        if shape.kind == "stroke" and shape.colour != WHITE:
            ratio = contrast(shape.colour, WHITE)
            if ratio < least:
                yield ratio, shape
