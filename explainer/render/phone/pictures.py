"""Pictures inside the page: shapes as SVG, labels as text over them at shares of its size.

Letters in an SVG would shrink with it. Laid over it they stay as large as the words around, break their lines, run from
right to left and can be searched. What is too wide for a telephone is shown in parts, each a window into the drawing.
"""

from __future__ import annotations

import re
from functools import lru_cache, partial
from html import escape
from typing import NamedTuple

from explainer.figures.dark import TRUE_SHADES, with_variables
from explainer.figures.drawing import Drawing, Label
from explainer.figures.keys import SLOTS
from explainer.render.fallback import IN_ENGLISH, in_words
from explainer.render.figures import label_text
from explainer.render.language import Language
from explainer.render.number_group import number_group

_PT_PER_MM = 72 / 25.4
_STYLE = re.compile(r"<defs>\s*<style.*?</style>\s*</defs>", re.DOTALL)
_ID = re.compile(r' id="([^"]+)"')
_USED = re.compile(r'url\(#([^)]+)\)|href="#([^"]+)"')
_PLACES = re.compile(r' d="([^"]*)"')
_LONG_NUMBER = re.compile(r"-?\d+\.\d+")
_ROUND_LETTERS = re.compile(r"\s*([A-Za-z])\s*")
_GROUPS = re.compile(r"<g>|</g>")  # none of them has anything to say once its identity is gone
_GAPS = re.compile(r"\s*([;:>])\s+")
_MARK = "\ue010"
_SAID_BESIDE = frozenset({*SLOTS, "eye_right", "eye_left"})
_ROW_MM, _BEFORE_ZERO_MM, _RIM_MM = 5.0, 22.0, 2.0
_OWN_COLOURS = ("icon_triangle",)  # yellow with a dark sign in it, on any ground


class Window(NamedTuple):
    """A part of a drawing: its top left corner and size [mm]."""

    x: float
    y: float
    width: float
    height: float

    def holds(self, label: Label) -> bool:
        """Whether the label's place is in it."""
        return self.x <= label.x_mm <= self.x + self.width and self.y <= label.y_mm <= self.y + self.height


def window(drawing: Drawing, part: str) -> Window:
    """Where a part of a drawing is: `right` or `left` half; of the times of clearing a row by its name, or `scale`.

    Without a part it is the whole drawing; of the pair, what is left when nothing is written beside the frame.
    """
    if part in ("right", "left"):
        half = drawing.width_mm / 2
        return Window(half if part == "left" else 0.0, 0.0, half, drawing.height_mm)
    places = {label.key: label for label in drawing.labels}
    if "eye_right" in places:  # stands halfway between the edge and the frame
        margin = max(0.0, 2 * places["eye_right"].x_mm - _RIM_MM)
        return Window(margin, 0.0, drawing.width_mm - 2 * margin, drawing.height_mm)
    if "minute_zero" not in places:
        return Window(0.0, 0.0, drawing.width_mm, drawing.height_mm)
    start = places["minute_zero"].x_mm - _BEFORE_ZERO_MM
    rows = {key.removeprefix("slot_place_"): label.y_mm for key, label in places.items() if "place" in key}
    top = rows[part] if part in rows else max(rows.values()) + _ROW_MM
    height = _ROW_MM if part in rows else drawing.height_mm - top
    return Window(start, top, drawing.width_mm - start, height)


def figure_html(drawing: Drawing, name: str, words: str, language: Language, *, part: str, mark: str) -> str:
    """A picture that says something: `words` are its alternative as an attribute's value, quotation marks included.

    `part` of it, or the whole; `mark` parts the identities of this SVG from those of every other one in the page.
    """
    place = window(drawing, part)
    spoken = (label for label in drawing.labels if label.key not in _SAID_BESIDE and place.holds(label))
    labels = "".join(_label(label, language, place) for label in spoken)
    told = f'role="img" aria-label={words}' if words.strip('"') else 'aria-hidden="true"'
    ground = " true" if name.startswith(TRUE_SHADES) else ""
    return (
        f'<figure class="{escape(name)}{ground}" style="--w:{place.width:g}"><div class="canvas" dir="ltr">'
        f"{_svg(drawing, name, told, place, mark)}{labels}</div></figure>"
    )


def sign_html(drawing: Drawing, name: str, mark: str) -> str:
    """A small picture beside words that say the same."""
    whole = Window(0.0, 0.0, drawing.width_mm, drawing.height_mm)
    ground = " true" if name.startswith(TRUE_SHADES) else ""
    shapes = _svg(drawing, name, 'aria-hidden="true"', whole, mark)
    return f'<span class="pic {escape(name)}{ground}" style="--w:{drawing.width_mm:g}">{shapes}</span>'


def _svg(drawing: Drawing, name: str, told: str, place: Window, mark: str) -> str:
    box = " ".join(f"{edge * _PT_PER_MM:.2f}".rstrip("0").rstrip(".") for edge in place)
    return f'<svg {told} viewBox="{box}">{_shapes(name, drawing.svg).replace(_MARK, mark)}</svg>'


@lru_cache(maxsize=512)
def _shapes(name: str, svg: bytes) -> str:
    """What is drawn, in few letters: no groups, no unused identities, places to a tenth of a point.

    The identities that are used begin with a mark that is to be replaced.
    """
    text = (svg if name in _OWN_COLOURS else with_variables(name, svg)).decode()
    start = text.index(">", text.index("<svg")) + 1
    inner = _STYLE.sub("", text[start : text.rindex("</svg>")])
    used = {first or second for first, second in _USED.findall(inner)}
    inner = _ID.sub(lambda found: f' id="{_MARK}{found[1]}"' if found[1] in used else "", inner)
    inner = inner.replace("url(#", f"url(#{_MARK}").replace('href="#', f'href="#{_MARK}').replace("xlink:href", "href")
    inner = _PLACES.sub(_in_tenths, inner)
    return _GAPS.sub(r"\1", _GROUPS.sub("", " ".join(inner.split())))


def _in_tenths(places: re.Match[str]) -> str:
    """The places of a path; a space only where it parts two numbers."""
    shorter = _ROUND_LETTERS.sub(r"\1", _LONG_NUMBER.sub(_tenths, places[1])).strip()
    return f' d="{shorter}"'


def _tenths(number: re.Match[str]) -> str:
    return f"{float(number[0]):.1f}".removesuffix(".0")


def _label(label: Label, language: Language, place: Window) -> str:
    text, english = in_words(language, partial(label_text, label))
    spoken = language.english if english else language
    words, direction = escape(text), str(spoken.direction)
    if label.value is not None:
        group = number_group(text, spoken)
        words, direction = group.html, group.direction
    tongue = IN_ENGLISH if english else f' dir="{direction}"'
    left, top = (label.x_mm - place.x) / place.width, (label.y_mm - place.y) / place.height
    style = f"left:{100 * left:.1f}%;top:{100 * top:.1f}%"
    if label.width_mm:
        style += f";width:{100 * label.width_mm / place.width:.0f}%"
    kind = f"label {label.anchor}" + " lines" * bool(label.width_mm) + " strong" * label.strong
    return f'<span class="{kind} {label.key.replace("_", "-")}"{tongue} style="{style}">{words}</span>'
