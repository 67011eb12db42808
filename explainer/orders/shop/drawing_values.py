"""The closed list of what an SVG drawing may be made of: elements, attributes, styles, and the values each may have.

After SVG 2 (W3C): its structure, paths, basic shapes, painting and gradients. Left out is all that runs, fetches,
moves, filters or repeats without an end, and text, which needs a font.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

LARGEST = 100_000.0
"""The largest coordinate, in user units; what lies farther out is no part of a logo."""

MOST_NUMBERS = 200_000
_MOST_FUNCTIONS = 12
_MOST_DASHES = 16
_NUMBER = r"[+-]?(?:\d{1,9}(?:\.\d{0,12})?|\.\d{1,12})(?:[eE][+-]?\d{1,2})?"
_ONE = re.compile(_NUMBER)
_LENGTH = re.compile(rf"({_NUMBER})(?:px|pt|pc|mm|cm|in|%)?")
_NUMBERS = re.compile(rf"\s*(?:{_NUMBER}(?:\s*,\s*|\s+|(?=[+-.])|$))+\s*")
_PATH = re.compile(rf"(?:[\s,]*+(?:[MmZzLlHhVvCcSsQqTtAa]|{_NUMBER}))*+\s*")
_FUNCTION = re.compile(rf"\s*,?\s*(matrix|translate|scale|rotate|skewX|skewY)\s*\(((?:[\s,]*{_NUMBER})+)\s*\)\s*")
_COLOUR = re.compile(
    rf"[a-zA-Z]{{1,24}}|#(?:[0-9a-fA-F]{{3,4}}|[0-9a-fA-F]{{6}}|[0-9a-fA-F]{{8}})"
    rf"|(?:rgba?|hsla?)\(\s*{_NUMBER}%?(?:[\s,/]+{_NUMBER}%?){{2,3}}\s*\)"
)
_NAME = re.compile(r"[\w.:-]{1,200}")
_OWN = re.compile(r"url\(\s*[\"']?#([\w.:-]{1,200})[\"']?\s*\)(?:\s+(.+))?")
Check = Callable[[str], bool]


def _in_range(text: str) -> bool:
    return abs(float(text)) <= LARGEST


def is_length(text: str) -> bool:
    """One length in range, with or without a unit."""
    found = _LENGTH.fullmatch(text)
    return found is not None and _in_range(found[1])


def is_size(text: str) -> bool:
    """A length that is not below zero."""
    return is_length(text) and not text.startswith("-")


def are_numbers(text: str) -> bool:
    """Coordinates, all in range."""
    found = _ONE.findall(text)
    return len(found) <= MOST_NUMBERS and _NUMBERS.fullmatch(text) is not None and all(map(_in_range, found))


def is_path(text: str) -> bool:
    """The data of a path: commands and numbers in range."""
    found = _ONE.findall(text)
    return len(found) <= MOST_NUMBERS and _PATH.fullmatch(text) is not None and all(map(_in_range, found))


def is_transform(text: str) -> bool:
    """A few functions of one to six numbers."""
    place = functions = 0
    while place < len(text) and (found := _FUNCTION.match(text, place)):
        numbers = _ONE.findall(found[2])
        functions += 1
        if len(numbers) > 6 or functions > _MOST_FUNCTIONS or not all(map(_in_range, numbers)):
            return False
        place = found.end()
    return place == len(text)


def own_part(text: str) -> str | None:
    """The name of the part of the drawing that a paint or a clip names; None for anything else."""
    found = _OWN.fullmatch(text)
    return found[1] if found else None


def is_paint(text: str) -> bool:
    """A colour, or a part of the drawing itself, with a colour to fall back on."""
    own = _OWN.fullmatch(text)
    return _COLOUR.fullmatch(own[2] or "none" if own else text) is not None


def _are_dashes(text: str) -> bool:
    numbers = [float(number) for number in _ONE.findall(text)]
    return text == "none" or (
        are_numbers(text) and len(numbers) <= _MOST_DASHES and min(numbers) >= 0 and sum(numbers) > 0
    )


def _share(text: str) -> bool:
    return is_length(text) and re.fullmatch(rf"{_NUMBER}%?", text) is not None


def _word(*words: str) -> Check:
    return words.__contains__


def _name(text: str) -> bool:
    return _NAME.fullmatch(text) is not None


def _idle(text: str) -> bool:
    return len(text) <= 500 and re.fullmatch(r"[^<>&;{}\\()]*", text) is not None


PAINT: Mapping[str, Check] = {
    **dict.fromkeys(("fill", "stroke"), is_paint),
    **dict.fromkeys(("color", "stop-color"), lambda text: _COLOUR.fullmatch(text) is not None),
    **dict.fromkeys(("fill-opacity", "stroke-opacity", "stop-opacity", "opacity"), _share),
    **dict.fromkeys(("fill-rule", "clip-rule"), _word("nonzero", "evenodd")),
    "stroke-width": is_size,
    "stroke-linecap": _word("butt", "round", "square"),
    "stroke-linejoin": _word("miter", "round", "bevel"),
    "stroke-miterlimit": lambda text: is_size(text) and text.rstrip("%") == text,
    "stroke-dasharray": _are_dashes,
    "stroke-dashoffset": is_length,
    "clip-path": lambda text: text == "none" or own_part(text) is not None,
    "display": _word("inline", "block", "none"),
    "visibility": _word("visible", "hidden", "collapse"),
}
"""What may stand in a style or beside a shape, each with what it may be."""

IDLE = re.compile(
    r"(?:font|text|line|letter|word|writing|white|direction|unicode|baseline|dominant|alignment|shape|color-\w|image|"
    r"solid|paint-order|vector-effect|mix-blend-mode|isolation|overflow|enable-background|pointer-events|cursor|marker|"
    r"mask-type|-inkscape|-moz|-webkit)[a-z-]*"
)
"""Styles that drawing programs write on every shape and that change nothing without text; they are dropped."""

_PLACE = dict.fromkeys(("x", "y"), is_length)
_SIDES = dict.fromkeys(("width", "height"), is_size)
_LINE = dict.fromkeys(("x1", "y1", "x2", "y2"), is_length)
_FRAME: Mapping[str, Check] = {"viewBox": are_numbers, "preserveAspectRatio": _idle}
_SHADE: Mapping[str, Check] = {
    "gradientUnits": _word("userSpaceOnUse", "objectBoundingBox"),
    "gradientTransform": is_transform,
    "spreadMethod": _word("pad"),
    "href": _name,
}
ELEMENTS: Mapping[str, Mapping[str, Check]] = {
    "svg": {**_PLACE, **_SIDES, **_FRAME, "version": _idle, "baseProfile": _idle},
    "g": {},
    "defs": {},
    "symbol": _FRAME,
    "use": {**_PLACE, **_SIDES, "href": _name},
    "path": {"d": is_path, "pathLength": is_size},
    "rect": {**_PLACE, **_SIDES, "rx": is_size, "ry": is_size},
    "circle": {"cx": is_length, "cy": is_length, "r": is_size},
    "ellipse": {"cx": is_length, "cy": is_length, "rx": is_size, "ry": is_size},
    "line": _LINE,
    "polyline": {"points": are_numbers},
    "polygon": {"points": are_numbers},
    "linearGradient": {**_LINE, **_SHADE},
    "radialGradient": {**dict.fromkeys(("cx", "cy", "r", "fx", "fy", "fr"), is_length), **_SHADE},
    "stop": {"offset": _share},
    "clipPath": {"clipPathUnits": _word("userSpaceOnUse", "objectBoundingBox")},
}
"""The elements, each with its own attributes; every one may also carry `EVERYWHERE` and what is in `PAINT`."""

EVERYWHERE: Mapping[str, Check] = {"id": _name, "transform": is_transform}
SILENT = frozenset({"title", "desc", "metadata"})
"""Elements that show nothing; they and all inside them are dropped."""
