"""The faces a leaflet is set in: heights of the small x, widths of figures, letters that must differ."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

from explainer.resources import root

FOLDER = Path(str(root("templates"))) / "leaflet" / "fonts"


@cache
def face(name: str) -> Any:
    """The face of that name, from the folder of the leaflet's own fonts; the name is that in the PDF."""
    wanted = name.rsplit("+", maxsplit=1)[-1].replace("-", "").lower().removesuffix("regular")
    for path in sorted(FOLDER.glob("*.ttf")):
        if path.stem.replace("-", "").lower().removesuffix("regular") == wanted:
            return TTFont(path)
    raise LookupError(f"no face {name} among the leaflet's fonts")


@cache
def x_height(name: str) -> float:
    """The height of the small x as a part of the size, measured in the outline."""
    opened = face(name)
    return float(opened["glyf"][opened.getBestCmap()[ord("x")]].yMax) / float(opened["head"].unitsPerEm)


@cache
def look_alike(name: str, letters: str) -> list[tuple[str, str]]:
    """Pairs of these letters whose outlines are the same but for a stretch: as many points and the same turns."""
    opened = face(name)
    shapes = {letter: _shape(opened, letter) for letter in letters}
    return [(a, b) for a in letters for b in letters if a < b and shapes[a] == shapes[b]]


def _shape(opened: Any, letter: str) -> tuple[Any, ...]:
    """The outline fitted into one square: what remains when width and height are forgotten."""
    glyph = opened["glyf"][opened.getBestCmap()[ord(letter)]]
    points, ends, _ = glyph.getCoordinates(opened["glyf"])
    left, low = min(x for x, _ in points), min(y for _, y in points)
    wide, high = max(x for x, _ in points) - left, max(y for _, y in points) - low
    return tuple(ends), tuple((round(8 * (x - left) / wide), round(8 * (y - low) / high)) for x, y in points)
