"""A drawing as a PNG that carries its labels, for mail programs, which show no SVG.

The shapes are the leaflet's own SVG. The labels are set into it as SVG text in the leaflet's faces and the whole is
rasterised by resvg, which shapes every script and needs neither the plotter nor the page engine. Pillow measures words,
so that a label breaks where the page would break it, and thins the colours.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, partial
from html import escape
from typing import TYPE_CHECKING

from explainer.errors import RenderError
from explainer.figures.drawing import Drawing, Label
from explainer.figures.keys import SLOTS
from explainer.render.fallback import in_words
from explainer.render.figures import label_text
from explainer.render.language import Language
from explainer.resources import root

if TYPE_CHECKING:
    from PIL.ImageFont import FreeTypeFont

_PT_PER_MM = 72 / 25.4
_SIZE_PT, _LEADING_PT, _DROP_PT = (
    10.0,
    11.5,
    3.6,
)  # as on the page; the drop brings a line's middle to its label's place
_MARGIN_MM = 2.0
_SHOWN_PX_PER_MM = 5.4  # larger than on paper: a label is then as large as the text beside it
_SHARPNESS = 2
_COLOURS = 32
_FAMILIES = {"ltr": ("Leaflet Sans", "LeafletSans"), "rtl": ("Leaflet Arabic", "LeafletArabic")}


@dataclass(frozen=True, slots=True)
class Picture:
    """A finished picture: PNG bytes, and the size at which it is to be shown [px]."""

    name: str
    png: bytes
    width_px: int
    height_px: int


def picture(drawing: Drawing, language: Language) -> Picture:
    """The drawing with its labels in that language."""
    import resvg_py

    wide, high = drawing.width_mm + 2 * _MARGIN_MM, drawing.height_mm + 2 * _MARGIN_MM
    shown = (round(wide * _SHOWN_PX_PER_MM), round(high * _SHOWN_PX_PER_MM))
    try:
        raster = resvg_py.svg_to_bytes(
            svg_string=labelled_svg(drawing, language),
            background="#ffffff",
            skip_system_fonts=True,
            font_files=[
                str(_font_file(direction, weight)) for direction in _FAMILIES for weight in ("Regular", "Bold")
            ],
            width=shown[0] * _SHARPNESS,
            dpi=96,
        )
    except ValueError as error:
        raise RenderError(f"the picture {drawing.name} cannot be made: {error}") from error
    return Picture(drawing.name, _thinned(bytes(raster)), *shown)


def labelled_svg(drawing: Drawing, language: Language) -> str:
    """The drawing's SVG with a margin, and its labels as text."""
    svg = drawing.svg.decode()
    start, end = svg.index("<svg"), svg.rindex("</svg>")
    inner = svg[svg.index(">", start) + 1 : end]
    box = [-_MARGIN_MM, -_MARGIN_MM, drawing.width_mm + 2 * _MARGIN_MM, drawing.height_mm + 2 * _MARGIN_MM]
    view = " ".join(f"{edge * _PT_PER_MM:.3f}" for edge in box)
    size = f'width="{box[2]:.3f}mm" height="{box[3]:.3f}mm"'
    names = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    spoken = [
        label for label in drawing.labels if label.key not in SLOTS
    ]  # what a page says in slots, mails say beside
    labels = "".join(line for label in spoken for line in _lines(label, language))
    return f'<svg {names} {size} viewBox="{view}" version="1.1">{inner}{labels}</svg>'


def _lines(label: Label, language: Language) -> Iterator[str]:
    text, english = in_words(language, partial(label_text, label))
    direction = "ltr" if english or label.value is not None else language.direction
    words = wrapped(text, label.width_mm, direction, strong=label.strong)
    top = label.y_mm * _PT_PER_MM - (len(words) - 1) * _LEADING_PT / 2 + _DROP_PT
    anchor = {"start": "end", "end": "start"}.get(label.anchor, "middle") if direction == "rtl" else label.anchor
    weight = "bold" if label.strong else "normal"
    for place, line in enumerate(words):
        yield (
            f'<text x="{label.x_mm * _PT_PER_MM:.2f}" y="{top + place * _LEADING_PT:.2f}" font-size="{_SIZE_PT:g}"'
            f' font-family="{_FAMILIES[language.direction][0]}, {_FAMILIES["ltr"][0]}" font-weight="{weight}"'
            f' text-anchor="{anchor}" direction="{direction}">{escape(line)}</text>'
        )


def wrapped(words: str, width_mm: float | None, direction: str, *, strong: bool) -> list[str]:
    """The words in lines no wider than the label may be."""
    if width_mm is None:
        return [words]
    font = _font(direction, strong)
    lines = [""]
    for word in words.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and font.getlength(longer) / 100 * _SIZE_PT > width_mm * _PT_PER_MM:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


@cache
def _font(direction: str, strong: bool) -> FreeTypeFont:
    from PIL import ImageFont

    return ImageFont.truetype(str(_font_file(direction, "Bold" if strong else "Regular")), 100)


def _font_file(direction: str, weight: str) -> object:
    return root("templates") / "leaflet" / "fonts" / f"{_FAMILIES[direction][1]}-{weight}.ttf"


def _thinned(png: bytes) -> bytes:
    """The same picture in few colours: lines and flat areas lose nothing, and the mail stays small."""
    from PIL import Image

    with Image.open(io.BytesIO(png)) as full:
        few = full.convert("RGB").quantize(_COLOURS, method=Image.Quantize.FASTOCTREE, dither=Image.Dither.NONE)
    written = io.BytesIO()
    few.save(written, "PNG", optimize=True)
    return written.getvalue()
