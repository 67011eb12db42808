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
    drawing: Drawing,
    alternative: str,
    caption: str,
    language: Language,
    *,
    contents: Mapping[str, str] | None = None,
    scale: float = 1.0,
) -> str:
    """The figure element. The picture carries the alternative text; the labels are read as text after it.

    Alternative and caption may hold the marks of what is not translated; those of the caption stay. `contents` is HTML
    for the drawing's slots, by key; a slot that is not named there stays empty. `scale` makes the picture and the
    places of its labels larger, for pages with larger letters; what is in life size has no other scale than one.
    """
    given = contents or {}
    labels = "".join(
        _slot(label, given.get(label.key, ""), language, scale)
        if label.key in SLOTS
        else _label(label, language, scale)
        for label in drawing.labels
    )
    below = f"<figcaption>{escape(caption)}</figcaption>" if caption else ""
    size = _size(drawing, scale)
    return (
        f'<figure class="drawing {escape(drawing.name)}"><div class="canvas" dir="ltr" style="{size}">'
        f'<img src="figure:{escape(drawing.name)}" alt={attribute(alternative, language)} style="{size}">'
        f"{labels}</div>{below}</figure>"
    )


def sign_html(drawing: Drawing, scale: float = 1.0) -> str:
    """A small sign beside words that say the same: a background, so that no reader of pages is told of it."""
    look = f"{_size(drawing, scale)};background:url(figure:{escape(drawing.name)}) 0 0/100% 100% no-repeat"
    return f'<span class="sign {escape(drawing.name)}" style="display:inline-block;{look}"></span>'


def _size(drawing: Drawing, scale: float) -> str:
    return f"width:{drawing.width_mm * scale:g}mm;height:{drawing.height_mm * scale:g}mm"


def _place(label: Label, scale: float) -> str:
    """Where a label's box stands in its figure, as CSS."""
    width_mm = (label.width_mm or _ROOM_MM) * scale
    left_mm = label.x_mm * scale - _BEFORE[label.anchor] * width_mm
    top = f"left:{left_mm:.2f}mm;top:{label.y_mm * scale:.2f}mm"
    return f"{top};width:{width_mm:.1f}mm;text-align:{_ALIGN[label.anchor]}"


def _slot(slot: Label, content: str, language: Language, scale: float) -> str:
    """What the page says at a place of the drawing; its top is there, and it may have any number of lines."""
    if not content:
        return ""
    name = slot.key.replace("_", "-")
    return f'<div class="slot {name}" dir="{language.direction}" style="{_place(slot, scale)}">{content}</div>'


def label_text(label: Label, language: Language) -> str:
    """The words of a label, with its number where it has one; Untranslated when the catalogue lacks them."""
    words = FIGURE_WORDS[label.key]
    text = words if words == BARE or words.isdigit() else language.gettext(words)
    if label.value is None:
        return text
    unit = label.unit or "count"
    number = quantity(label.value, unit, label.digits, language, signed=label.key in _SIGNED_KEYS)
    return text % {"value": number}


def _label(label: Label, language: Language, scale: float) -> str:
    place = _place(label, scale)
    kind = "label" + " lines" * bool(label.width_mm) + " strong" * label.strong
    text, english = in_words(language, partial(label_text, label))
    spoken = language.english if english else language
    words, direction = escape(text), str(spoken.direction)
    if label.value is not None:
        group = number_group(text, spoken)
        words, direction = group.html, group.direction
    tongue = IN_ENGLISH if english else f' dir="{direction}"'
    return f'<span class="{kind}"{tongue} style="{place}">{words}</span>'
