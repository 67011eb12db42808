"""The workshop's sheet: one page for the bench, never posted. It can be printed before glazing, to be written on."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from markupsafe import Markup

from explainer.compose.asked import hold_faults, warning_lines
from explainer.compose.explained import explained
from explainer.compose.plan import compose
from explainer.compose.release import limits_name
from explainer.optics.claims import ClaimSet
from explainer.optics.spectacles import SIDES, Readings, Side
from explainer.orders import Order
from explainer.orders.assembly.check_word import check_word
from explainer.render.companions.bench_rows import lens_rows, pair_rows
from explainer.render.companions.codes import code_svg, code_text
from explainer.render.companions.front import front_svg
from explainer.render.evidence import cited_titles
from explainer.render.language import language
from explainer.render.numbers import date_text, quantity
from explainer.render.press.pdf import Pdf, write_pdf
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.voice import Voice
from explainer.resources import root

_SEEN_MM = 0.05  # a shift that would print as 0.0 mm is none


def sheet_pdf(order: Order, *, paper: str | None = None) -> Pdf:
    """The sheet of one order, in English: it is for the optician who signs, not for the customer.

    Rows tighten before anything runs on to a second page, and nothing is dropped.
    """
    explanation = explained(_with_boxes(order))
    claims = explanation.claims
    voice = Voice(language(_english(order)), claims)
    speaker = Speaker(voice, compose(order.spectacles, explanation), page_context(order, voice), lambda *_: "")
    html = voice.html(speaker.marked("companions/sheet.html", {**speaker.names(), **_names(order, claims, voice)}))
    html = html.replace("PAPER", paper or (order.workshop.paper if order.workshop else None) or "A4", 1)
    for looks in ("", "tight", "tightest"):
        pdf = _set(order, html.replace("<body>", f'<body class="{looks}">', 1), claims, voice)
        if pdf.pages == 1:
            break
    return pdf


def _with_boxes(order: Order) -> Order:
    """The order with readings of nothing, where there are none: limits and empty boxes stand before glazing too."""
    if order.spectacles.readings is not None:
        return order
    return replace(order, spectacles=replace(order.spectacles, readings=Readings()))


def _set(order: Order, html: str, claims: ClaimSet, voice: Voice) -> Pdf:
    return write_pdf(
        html,
        assets={"figure:code": code_svg(code_text(order)), "figure:front": front_svg(claims, order.spectacles.frame)},
        stylesheets=[(root("templates") / "companions" / "sheet.css").read_text(encoding="utf-8")],
        title=f"Workshop sheet {order.number}",
        language=voice.language.code,
        direction="ltr",
        created=order.date,
        identifier=f"{order.number} sheet",
    )


def _english(order: Order) -> str:
    """The English of the workshop, which decides how dates are written; British where it has none."""
    own = (order.workshop.language if order.workshop else None) or ""
    return own if own.split("-")[0] == "en" else "en-GB"


def _centre(claims: ClaimSet, voice: Voice, side: Side) -> Markup | str:
    """Where the optical centre stands from the reference point, in the bench's words."""
    if claims.value(f"{side}.centre.exists") is False:
        return "none: no power"
    if claims.value(f"{side}.centre.on_lens") is False:
        return "not on the lens"
    inward, upward = claims.value(f"{side}.centre.in"), claims.value(f"{side}.centre.up")
    if not isinstance(inward, float) or not isinstance(upward, float):
        return ""
    ways = [
        Markup("{} {}").format(voice.words(quantity(abs(shift), "mm", 1, voice.language)), ahead if shift > 0 else back)
        for shift, ahead, back in ((inward, "in", "out"), (upward, "up", "down"))
        if abs(shift) >= _SEEN_MM
    ]
    return Markup(", ").join(ways) or "at the reference point"


def _names(order: Order, claims: ClaimSet, voice: Voice) -> dict[str, Any]:
    wearer, frame, shop = order.spectacles.wearer, order.spectacles.frame, order.workshop
    written = order.prescription_written

    def words(text: object) -> Any:
        return voice.words(str(text)) if text else ""

    return {
        "lang": voice.language.code,
        "number": voice.words(order.number, isolate=True),
        "word": check_word(order),
        "long": len(order.number) > 12,
        "workshop": words(shop.name if shop else ""),
        "wearer": words(order.wearer_name),
        "ordered_on": words(date_text(order.date, voice.language)),
        "written_on": words(written and date_text(written, voice.language)),
        "uses": words(", ".join(sorted(wearer.uses))),
        "frame": frame,
        "lens": order.spectacles.lens,
        "coatings_ordered": words(", ".join(sorted(order.spectacles.lens.coatings))),
        "received": {"right": words(order.received_right), "left": words(order.received_left)},
        "previous": order.spectacles.previous is not None,
        "holds": [str(fault) for fault in hold_faults(order, claims)],
        "warnings": [*order.warnings, *warning_lines(claims)],
        "notes": order.notes,
        "limits": limits_name(order, claims),
        "at_home": "bench.standard.at_home" in claims,
        "rows": lens_rows(voice),
        "pair_rows": list(pair_rows(voice)),
        "bases": cited_titles(claims),
        "centre": {side: _centre(claims, voice, side) for side in SIDES},
    }
