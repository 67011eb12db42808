"""A drawing as HTML: the picture without text, and its labels laid over it as text."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from html import escape

from explainer.figures.drawing import Drawing, Label
from explainer.figures.keys import SLOTS
from explainer.render.fallback import IN_ENGLISH, attribute, in_words
from explainer.render.figure_words import BARE, FIGURE_WORDS
from explainer.render.language import Language
from explainer.render.number_group import number_group
from explainer.render.numbers import quantity

_ALIGN = {"start": "left", "middle": "center", "end": "right"}
_BEFORE = {"start": 0.0, "middle": 0.5, "end": 1.0}  # the part of a label that stands left of its place
_ROOM_MM = 70.0  # wider than any label that is one line: the engine need not find out how wide it is
_SIGNED_KEYS = frozenset({"power", "power_tick", "sphere", "across"})


def drawing_html(
    drawing: Drawing, alternative: str, caption: str, language: Language, contents: Mapping[str, str] | None = None
) -> str:
    """The figure element. The picture carries the alternative text; the labels are read as text after it.

    Alternative and caption may hold the marks of what is not translated; those of the caption stay. `contents` is HTML
    for the drawing's slots, by key; a slot that is not named there stays empty.
    """
    given = contents or {}
    labels = "".join(
        _slot(label, given.get(label.key, "")) if label.key in SLOTS else _label(label, language)
        for label in drawing.labels
    )
    below = f"<figcaption>{escape(caption)}</figcaption>" if caption else ""
    size = f"width:{drawing.width_mm:g}mm;height:{drawing.height_mm:g}mm"
    return (
        f'<figure class="drawing {escape(drawing.name)}"><div class="canvas" dir="ltr" style="{size}">'
        f'<img src="figure:{escape(drawing.name)}" alt={attribute(alternative, language)} style="{size}">'
        f"{labels}</div>{below}</figure>"
    )


def _slot(slot: Label, content: str) -> str:
    """What the page says at a place of the drawing; its top is there, and it may have any number of lines."""
    if not content:
        return ""
    width_mm = slot.width_mm or _ROOM_MM
    left_mm = slot.x_mm - _BEFORE[slot.anchor] * width_mm
    place = f"left:{left_mm:.2f}mm;top:{slot.y_mm:.2f}mm;width:{width_mm:.1f}mm;text-align:{_ALIGN[slot.anchor]}"
    return f'<div class="slot {slot.key.replace("_", "-")}" style="{place}">{content}</div>'


def label_text(label: Label, language: Language) -> str:
    """The words of a label, with its number where it has one; Untranslated when the catalogue lacks them."""
    words = FIGURE_WORDS[label.key]
    text = words if words == BARE or words.isdigit() else language.gettext(words)
    if label.value is None:
        return text
    unit = label.unit or "count"
    number = quantity(label.value, unit, label.digits, language, signed=label.key in _SIGNED_KEYS)
    return text % {"value": number}


def _label(label: Label, language: Language) -> str:
    width_mm = label.width_mm or _ROOM_MM
    left_mm = label.x_mm - _BEFORE[label.anchor] * width_mm
    place = f"left:{left_mm:.2f}mm;top:{label.y_mm:.2f}mm;width:{width_mm:.1f}mm;text-align:{_ALIGN[label.anchor]}"
    kind = "label" + " lines" * bool(label.width_mm) + " strong" * label.strong
    text, english = in_words(language, partial(label_text, label))
    spoken = language.english if english else language
    words, direction = escape(text), str(spoken.direction)
    if label.value is not None:
        group = number_group(text, spoken)
        words, direction = group.html, group.direction
    tongue = IN_ENGLISH if english else f' dir="{direction}"'
    return f'<span class="{kind}"{tongue} style="{place}">{words}</span>'
