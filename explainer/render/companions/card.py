"""The case card: the prescription as made, lens and tint in words, and who helps, in the size of a bank card.

Fold strips, printed on one side: front and back beside each other, eight faces on a page with cut marks, or one strip
alone. A record of these glasses for whoever finds or replaces them; no prescription to order from.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from markupsafe import Markup

from explainer.compose.plan import compose
from explainer.optics.claims import explain
from explainer.orders import Order
from explainer.orders.assembly.check_word import check_word
from explainer.render.companions.codes import code_svg, code_text
from explainer.render.language import language
from explainer.render.numbers import date_text
from explainer.render.press.pdf import Pdf, write_pdf
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.templates import environment
from explainer.render.voice import Voice
from explainer.resources import root

WIDTH_MM, HEIGHT_MM = 85.6, 54.0  # ISO/IEC 7810, ID-1: the size of a bank card
STRIPS_ON_PAGE = 4


def cards_pdf(orders: Sequence[Order], *, paper: str | None = "A4") -> Pdf:
    """Cards for these orders: four strips on each page of `paper`, or with None each strip on a page of its own."""
    spoken = language(orders[0].language)
    each = STRIPS_ON_PAGE if paper else 1
    faces = [_faces(order, place) for place, order in enumerate(orders)]
    html = (
        environment(spoken)
        .get_template("companions/cards.html")
        .render(
            lang=spoken.code,
            dir=spoken.direction,
            paper=paper,
            width=WIDTH_MM,
            height=HEIGHT_MM,
            title=spoken.gettext("Case card"),
            pages=[faces[start : start + each] for start in range(0, len(faces), each)],
        )
    )
    return write_pdf(
        html,
        assets={f"figure:code-{place}": code_svg(code_text(order)) for place, order in enumerate(orders)},
        stylesheets=[(root("templates") / "companions" / "card.css").read_text(encoding="utf-8")],
        title=f"{spoken.gettext('Case card')} {orders[0].number}",
        language=spoken.code,
        direction=spoken.direction,
        created=orders[0].date,
        identifier=f"{orders[0].number} card",
    )


def _faces(order: Order, place: int) -> Markup:
    """Front and back of one card as HTML."""
    explanation = explain(order.spectacles)
    voice = Voice(language(order.language), explanation.claims)
    document = compose(order.spectacles, explanation)
    speaker = Speaker(voice, document, page_context(order, voice), lambda *_: "")
    names: dict[str, Any] = {
        **speaker.names(),
        "order": order.number,
        "word": check_word(order),
        "wearer": voice.words(order.wearer_name) if order.wearer_name else "",
        "date": voice.words(date_text(order.date, voice.language)),
        "workshop": voice.words(order.workshop.name) if order.workshop else "",
        "phone": voice.words(order.workshop.phone, isolate=True) if order.workshop and order.workshop.phone else "",
        "code": f"figure:code-{place}",
    }
    return Markup(voice.html(speaker.marked("companions/card.html", names)))
