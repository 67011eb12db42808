"""Measures of the running text on a page: its size, its lines, its leading."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from render.glyphs import Glyph, Line, lines

MM = 72 / 25.4
GUTTER = {"A4": 105 * MM, "Letter": 215.9 / 2 * MM}
WIDTH = {"A4": 210 * MM, "Letter": 215.9 * MM}
HEIGHT = {"A4": 297 * MM, "Letter": 279.4 * MM}


def body_size(found: list[Glyph]) -> float:
    """The size of most letters [pt]."""
    return Counter(round(glyph.size, 1) for glyph in found).most_common(1)[0][0]


def running_lines(found: list[Glyph], *, gutter: float | None, first_page: int = 1) -> list[Line]:
    """The lines of running text in the columns, from that page (counted from 0) on."""
    kept = [glyph for glyph in found if glyph.page >= first_page and not glyph.artifact]
    size = body_size(kept)
    return [line for line in lines(kept, gutter=gutter) if abs(line.size - size) < 0.05]


def steps(found: list[Line]) -> list[float]:
    """From each line to the next below it in the same piece of text [pt]."""
    return [
        upper.y - lower.y
        for upper, lower in pairwise(found)
        if upper.glyphs[0].page == lower.glyphs[0].page
        and 0 < upper.y - lower.y < 3 * upper.size
        and upper.left < lower.right
        and lower.left < upper.right
    ]
