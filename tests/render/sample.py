"""Whole sample leaflets for the tests of the page: invented orders, invented workshop, invented numbers."""

from __future__ import annotations

import base64
import io
import math
import re
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup
from PIL import Image
from render.sample_arabic import DATE, DRAFT, SHELL
from render.sample_long import lengthened

from explainer import resources
from explainer.render.press.pdf import Pdf, write_pdf

LEAFLET = resources.root("templates") / "leaflet"
SAMPLES = Path(__file__).parent / "samples"


class Words(NamedTuple):
    """A sample's blocks as HTML; the sections with their names and spans."""

    lead: str
    urgent: str
    sections: tuple[tuple[str, str, str], ...]


@cache
def words(language: str) -> Words:
    """The blocks of a language: English, "de" for the same with longer words, Arabic."""
    path = SAMPLES / ("arabic.html" if language == "ar" else "english.html")
    _, *found = re.split(r"<!--(lead|urgent|section \S+ \S+)-->", path.read_text("utf-8"))
    blocks = dict(zip(found[::2], found[1::2], strict=True))
    if language == "de":
        blocks = {name: lengthened(block) for name, block in blocks.items()}
    sections = ((*name.split()[1:], block) for name, block in blocks.items() if name.startswith("section"))
    return Words(blocks["lead"], blocks["urgent"], tuple((name, span, block) for name, span, block in sections))


def environment(language: str) -> Environment:
    """The template environment as the leaflet needs it, with the shell's few messages in Arabic."""
    made = Environment(
        loader=FileSystemLoader(LEAFLET), autoescape=True, undefined=StrictUndefined, extensions=["jinja2.ext.i18n"]
    )
    messages = SHELL if language == "ar" else {}
    made.install_gettext_callables(  # type: ignore[attr-defined]
        lambda text: messages.get(text, text), lambda one, many, count: one if count == 1 else many, newstyle=True
    )
    return made


def context(language: str = "en", edition: str = "standard", paper: str = "A4") -> dict[str, Any]:
    """What the shell is given."""
    said = words(language)
    return {
        "lang": {"en": "en-GB"}.get(language, language),
        "dir": "rtl" if language == "ar" else "ltr",
        "edition": edition,
        "paper": paper,
        "accent": "#0b4a57",
        "title": "Your glasses, order LT-7306",
        "draft_notice": DRAFT if language == "ar" else None,
        "order": {
            "number": "LT-7306",
            "date_text": DATE if language == "ar" else "20 November 2026",
            "wearer_name": "Odalys Fennimore",
            "check_word": "harbour",
        },
        "workshop": {
            "name": "Workshop at the Weir",
            "address": ["3 Weir Lane", "Tarnbrook"],
            "phone": "01632 960 417",
            "email": "bench@weir.example",
            "hours": "Tuesday to Saturday, 9 to 5",
        },
        "has_logo": True,
        "version": "0.1.0",
        "lead": Markup(said.lead),
        "urgent": Markup(said.urgent),
        "sections": [{"id": name, "span": span, "html": Markup(block)} for name, span, block in said.sections],
    }


def html(language: str = "en", **choice: str) -> str:
    """The whole page as HTML."""
    return environment(language).get_template("leaflet.html").render(context(language, **choice))


def stylesheets(edition: str = "standard") -> list[str]:
    """The style sheets of that edition, in the order of the cascade."""
    return [(LEAFLET / f"{name}.css").read_text("utf-8") for name in ("page", edition)]


def pdf(language: str = "en", edition: str = "standard", paper: str = "A4", **changes: Any) -> Pdf:
    """The finished sample."""
    choice = {"language": language, "edition": edition, "paper": paper}
    arguments: dict[str, Any] = {
        "assets": assets(),
        "stylesheets": stylesheets(edition),
        "title": "Your glasses, order LT-7306",
        "language": language,
        "direction": "rtl" if language == "ar" else "ltr",
        "created": date(2026, 11, 20),
        "identifier": "LT-7306-" + "-".join(choice.values()),
    }
    return write_pdf(changes.pop("html", None) or html(**choice), **(arguments | changes))


def assets() -> dict[str, bytes]:
    """All pictures of the sample: plain shapes, no text."""
    pictures = {
        "ladder": _svg(87, 40, "".join(_line(8 + 5 * i, 20, 8 + 5 * i, 24) for i in range(15)) + _line(8, 22, 80, 22)),
        "dial": _svg(87, 46, _dial(21, 163) + _dial(66, 21)),
        "section": _svg(87, 34, _lens(9, 3.9, 5.4) + _lens(26, 4.6, 6.6)),
        "tint": _svg(87, 44, "".join(_bar(9 + 11 * i, 10 + 18 * i) for i in range(4))),
        **{f"fit{i}": _svg(40, 22, _glasses()) for i in range(5)},
        **{f"sight{i}": _raster(41, 30, i) for i in range(4)},
    }
    logo = _svg(40, 12, '<path d="M2 10V2h6l4 5 4-5h6v8" fill="none" stroke="#0b4a57" stroke-width="1.6"/>')
    return {f"figure:{name}": svg for name, svg in pictures.items()} | {"logo:workshop": logo}


def _svg(width: float, height: float, shapes: str) -> bytes:
    head = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
    return f'{head}width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">{shapes}</svg>'.encode()


def _line(x1: float, y1: float, x2: float, y2: float, width: float = 0.3) -> str:
    return f'<path d="M{x1:.2f} {y1:.2f}L{x2:.2f} {y2:.2f}" stroke="#000" stroke-width="{width}" fill="none"/>'


def _dial(centre: float, axis: float) -> str:
    turns = [math.radians(step) for step in range(0, 181, 15)]
    ticks = [
        _line(centre + 15 * math.cos(t), 24 - 15 * math.sin(t), centre + 17 * math.cos(t), 24 - 17 * math.sin(t))
        for t in turns
    ]
    t = math.radians(axis)
    axis_line = _line(
        centre - 14 * math.cos(t), 24 + 14 * math.sin(t), centre + 14 * math.cos(t), 24 - 14 * math.sin(t), 0.9
    )
    return f'<circle cx="{centre}" cy="24" r="17" fill="none" stroke="#000" stroke-width="0.3"/>{axis_line}' + "".join(
        ticks
    )


def _lens(top: float, nose: float, temple: float) -> str:
    return (
        f'<path d="M22 {top - nose / 2}Q43 {top - 4} 64 {top - temple / 2}V{top + temple / 2}Q43 {top - 2} 22 '
        f'{top + nose / 2}Z" fill="#d2d2d2" stroke="#000" stroke-width="0.4"/>'
    )


def _bar(y: float, length: float) -> str:
    return (
        f'<rect x="1" y="{y}" width="85" height="3.4" fill="#ececec" stroke="#000" stroke-width="0.2"/>'
        f'<rect x="{length}" y="{y}" width="14" height="3.4" fill="#0b4a57"/>'
    )


def _glasses() -> str:
    return (
        '<path d="M3 8h13v8q-6 3-11 0zM24 8h13v8q-6 3-11 0zM16 9q4-3 8 0" fill="none" stroke="#000" '
        'stroke-width="0.6"/>'
    )


def _raster(width: float, height: float, blur: int) -> bytes:
    """A grey picture inside a drawing, as the simulated letters are."""
    picture = Image.new("L", (82, 60), 255 - 40 * blur)
    for x in range(20, 62):
        for y in range(12, 48, 8):
            picture.putpixel((x, y), 30 + 30 * blur)
    written = io.BytesIO()
    picture.save(written, "PNG")
    inline = "data:image/png;base64," + base64.b64encode(written.getvalue()).decode()
    return _svg(width, height, f'<image width="{width}" height="{height}" xlink:href="{inline}"/>')
