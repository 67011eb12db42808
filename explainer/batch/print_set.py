"""A print set: the leaflets of a run in packing order as one PDF, with a list in front to tick while packing.

Each leaflet begins on a sheet of its own, so the set can go through a printer that prints both sides.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from explainer.orders import Order
from explainer.orders.assembly.check_word import check_word
from explainer.render.language import language
from explainer.render.press.joined import Part, joined
from explainer.render.press.pdf import write_pdf
from explainer.render.templates import environment
from explainer.resources import root


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the list."""

    number: str
    name: str
    word: str
    sheets: int


def print_set(made: Sequence[tuple[Order, Path]]) -> bytes:
    """The set for these orders and the leaflets made for them, in this order. RenderError if one cannot be read."""
    leaflets = [(order, path.read_bytes()) for order, path in made]
    rows = [
        Row(order.number, order.wearer_name or "", check_word(order), -(-_pages(pdf) // 2)) for order, pdf in leaflets
    ]
    first = made[0][0]
    spoken = language((first.workshop.language if first.workshop else None) or first.language)
    title = spoken.gettext("Packing list")
    parts = [Part(_list(rows, first, title), title, spoken.code)]
    parts += [Part(pdf, f"{order.number} {check_word(order)}", order.language) for order, pdf in leaflets]
    return joined(parts, title=title, language=spoken.code, created=max(order.date for order, _ in made))


def _list(rows: Sequence[Row], first: Order, title: str) -> bytes:
    spoken = language((first.workshop.language if first.workshop else None) or first.language)
    paper = (first.workshop.paper if first.workshop else None) or "A4"
    html = (
        environment(spoken)
        .get_template("companions/packing.html")
        .render(lang=spoken.code, dir=spoken.direction, title=title, rows=rows, paper=paper)
    )
    return write_pdf(
        html,
        assets={},
        stylesheets=[(root("templates") / "companions" / "packing.css").read_text(encoding="utf-8")],
        title=title,
        language=spoken.code,
        direction=spoken.direction,
        created=first.date,
        identifier=f"packing {first.number}",
    ).data


def _pages(pdf: bytes) -> int:
    from pypdf import PdfReader

    return len(PdfReader(io.BytesIO(pdf)).pages)
