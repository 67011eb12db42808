"""What the tables and the frame of the page need besides claims: rows, the workshop's own words, a written release."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any

from markupsafe import Markup

from explainer.optics import facts
from explainer.optics.claim import Basis
from explainer.optics.spectacles import SIDES
from explainer.orders import Order, Workshop
from explainer.orders.assembly.page_name import page_address
from explainer.render.evidence import bases_used, fact_chain
from explainer.render.labels import BASES, BENCH_PARTS, COATINGS, DETAILS, LEGAL_NAMES, PLACES
from explainer.render.measured import measured_context
from explainer.render.numbers import date_text
from explainer.render.situations import situation_context
from explainer.render.voice import Voice

_CITED = (Basis.STANDARD, Basis.REGULATION, Basis.PUBLISHED)
_OUTDOORS = ("summer_noon", "open_shade", "overcast", "snow")
_CAR = ("windscreen_low_sun", "side_window_clear", "side_window_green", "convertible")


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the bench table: its name and the part that its claims are named by."""

    name: Markup
    part: str


def page_context(order: Order, voice: Voice) -> dict[str, Any]:
    """Everything a section template may ask for besides claims."""
    return {
        "order_number": voice.words(order.number, isolate=True),
        "bench_rows": lambda: list(_bench_rows(voice)),
        "source_rows": lambda: list(_source_rows(voice)),
        "places": lambda group: _places(voice, group),
        "share": lambda claim_id: voice.say(claim_id, bare=True, mark_typical=False),
        "coatings": lambda: _coatings(voice),
        "page_address": _page_address(order, voice),
        "life_size": True,  # not so on a screen, whose page says otherwise
        **_workshop(order.workshop, voice),
        **_release(order, voice),
        **situation_context(order, voice),
        "some_cautions": False,  # true where only those that belong to a topic are said
        "whole": True,  # an answer to one of several questions is short (render/mail)
        **measured_context(order, voice),
    }


def _workshop(workshop: Workshop | None, voice: Voice) -> dict[str, Any]:
    def words(name: str) -> Markup | None:
        text = getattr(workshop, name, None)
        return voice.words(text) if text else None

    law = getattr(workshop, "legal_profile", None) or voice.claims.value("country.law")
    contact = [text for text in (getattr(workshop, "phone", None), getattr(workshop, "email", None)) if text]
    return {
        "has_contact": bool(contact),
        "contact_text": Markup(", ").join(voice.words(text, isolate=True) for text in contact),
        "urgent_help": words("urgent_help"),
        "emergency": words("emergency"),
        "legal_profile": law,
        "legal_name": voice.words(LEGAL_NAMES.get(str(law), "")),
        "returns": words("returns"),
        "adjustments": words("adjustments"),
    }


def _page_address(order: Order, voice: Voice) -> Markup | None:
    """Where the same leaflet stands as a page for a telephone, as it is typed."""
    address = page_address(order)
    return voice.words(address.removeprefix("https://"), isolate=True) if address else None


def _coatings(voice: Voice) -> Markup | None:
    """The coatings as ordered, in words."""
    ordered = [name for name in COATINGS if f"lens.coating.{name}" in voice.claims]
    for name in ordered:
        voice.claim(f"lens.coating.{name}")
    return _listed(voice, [COATINGS[name] for name in ordered], ", ")


def _listed(voice: Voice, messages: list[str], between: str) -> Markup | None:
    """Messages one after the other, or None when there are none."""
    if not messages:
        return None
    return voice.phrase(lambda language: between.join(map(language.gettext, messages)), apart=True)


def _phrase(voice: Voice, message: str) -> Markup:
    return voice.phrase(lambda language: language.gettext(message))


def _release(order: Order, voice: Voice) -> dict[str, Any]:
    if order.release is None:
        return {"release": False}
    return {
        "release": True,
        "release_by": voice.words(order.release.by),
        "release_date": voice.phrase(partial(date_text, order.release.date), apart=True),
        "release_reason": voice.words(order.release.reason.strip().rstrip(".")),
    }


def _bench_rows(voice: Voice) -> Iterator[Row]:
    """A row for each part that was read in at least one lens."""
    for part, words in BENCH_PARTS.items():
        if any(f"bench.{side}.{part}.reading" in voice.claims for side in SIDES):
            yield Row(_phrase(voice, words), part)


def _source_rows(voice: Voice) -> Iterator[dict[str, Markup | str]]:
    """One row for each basis that the page rests on. Sources of what is stated as it stands are named by title.

    The many sources below a calculation are in the full list, which the optician holds.
    """
    claims = voice.claims
    stated = [claim_id for claim_id, claim in voice.said.items() if claim.basis in _CITED]
    resting = {fact_id for claim_id in stated for fact_id in fact_chain(claims, claim_id)}
    by_basis = {basis: {c.id for c in found} for basis, found in bases_used(voice.said.values()).items()}
    for basis in Basis:
        cited = [fact for fact_id in sorted(resting) if (fact := facts.get(fact_id)).basis is basis]
        remembered = basis is Basis.MEMORY and any(claim.weakest is basis for claim in voice.said.values())
        if basis not in by_basis and not cited and not remembered:
            continue
        keys = dict.fromkeys(fact.sources[0].source for fact in cited if fact.sources)
        titles = "; ".join(facts.sources()[key].short for key in keys)
        detail = titles if basis in _CITED else _phrase(voice, DETAILS[basis.value])
        yield {"kind": _phrase(voice, BASES[basis.value]), "detail": detail}


def _places(voice: Voice, group: str) -> list[dict[str, Markup | str]]:
    names = _OUTDOORS if group == "outdoors" else _CAR
    return [{"id": name, "name": _phrase(voice, PLACES[name])} for name in names]
