"""What labels say and how much room that takes, in English and in German; in English while German is not translated.

Room is measured with the leaflet's own fonts at the size that its style sheet gives to labels. Lines are broken as a
page breaks them: at spaces, a line as full as it can be.
"""

from __future__ import annotations

from functools import cache

from PIL import ImageFont

from explainer.figures.drawing import Label
from explainer.render.fallback import in_words, marked, plain
from explainer.render.figure_words import FIGURE_WORDS
from explainer.render.figures import label_text
from explainer.render.labels import NAMES
from explainer.render.language import Language, language
from explainer.resources import root

LABEL_PT = 10.4
MM_PER_PT = 25.4 / 72
LINE_MM = 4.3  # a little more than the line height of labels, 12 pt
NUMBER = "%(value)s"

ENGLISH = language("en")
GERMAN = language("de")


def words(label: Label, spoken: Language = ENGLISH) -> str:
    """What the label says, as the renderer words it."""
    said, _ = in_words(spoken, lambda language: label_text(label, language))
    return said.replace("%(name)s", NAMES.get(label.key.partition("_")[2], ""))


def number(label: Label, spoken: Language = ENGLISH) -> str:
    """The part of a label's words that is its number with the unit."""
    before, _, after = plain(marked(spoken, FIGURE_WORDS[label.key])).partition(NUMBER)
    text = words(label, spoken)
    return text[len(before) : len(text) - len(after)] if label.value is not None else ""


def width_mm(text: str, *, strong: bool = False) -> float:
    """How wide the words are in the leaflet's font."""
    return float(_font(strong).getlength(text)) / 1000 * LABEL_PT * MM_PER_PT


def room_mm(label: Label, spoken: Language = ENGLISH, spare: float = 1.0) -> tuple[float, int]:
    """Width and number of lines of a label whose words, but not its number, are so many times as long."""
    text, digits = words(label, spoken), number(label, spoken)
    whole = width_mm(text, strong=label.strong)
    fixed = width_mm(digits, strong=label.strong)
    stretched = (fixed + (whole - fixed) * spare) / whole
    if label.width_mm is None:
        return whole * stretched, 1
    lines = [0.0]
    space = width_mm(" ", strong=label.strong) * stretched
    for word in text.split(" "):
        wide = width_mm(word, strong=label.strong) * stretched
        if lines[-1] and lines[-1] + space + wide > label.width_mm:
            lines.append(wide)
        else:
            lines[-1] += (space if lines[-1] else 0.0) + wide
    return max(lines), len(lines)


@cache
def _font(strong: bool) -> ImageFont.FreeTypeFont:
    weight = "Bold" if strong else "Regular"
    return ImageFont.truetype(root("templates") / "leaflet" / "fonts" / f"LeafletSans-{weight}.ttf", 1000)
