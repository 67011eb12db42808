"""An order without the people in it, for a leaflet that may be shown around, and what must not be on that leaflet."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import replace
from typing import Any, NamedTuple

from explainer.orders.assembly.order import Order
from explainer.orders.shop.workshop import Workshop

PLACEHOLDER = "…"
_OWN_WORDS = ("opening_hours", "returns", "adjustments", "urgent_help", "emergency", "health_line")
_MAIL_WORDS = ("mail_greeting", "mail_opening", "mail_closing")
_PEOPLE = ("signer", "supervisor")
_SHORTEST = 4
"""Letters and digits; what is shorter stands in many words, and cannot be looked for."""


class Private(NamedTuple):
    """Something that no sample may show, and what it is."""

    what: str
    text: str


def private_parts(order: Order) -> Iterator[Private]:
    """What is private in an order and its workshop: who wears them, who signed, how to reach the shop."""
    yield from (Private("the wearer's name", part) for part in (order.wearer_name or "").split())
    if order.release:
        yield Private("who released it", order.release.by)
        yield Private("the reason of the release", order.release.reason)
    shop = order.workshop
    if shop is None:
        return
    yield from (Private("a line of the shop's address", line) for line in (shop.address or "").splitlines())
    for name in ("phone", "email", *_PEOPLE):
        yield Private(f"the shop's {name}", getattr(shop, name, None) or "")
    yield Private("the shop's phone", re.sub(r"\D", "", shop.phone or "")[-8:])  # without what is dialled before it


def as_sample(order: Order) -> Order:
    """The order without the wearer's name and age, a releasing person's words, and how to reach the workshop.

    Number, prescription and the shop's own sentences stay, for they are what a sample is to show; where a sentence
    repeats something private, in whatever writing, a placeholder stands. A note says what could not be looked for.
    """
    private = list(private_parts(order))
    spectacles = replace(order.spectacles, wearer=replace(order.spectacles.wearer, age_years=None))
    release = replace(order.release, by=PLACEHOLDER, reason=PLACEHOLDER) if order.release else None
    workshop = _sample_workshop(order.workshop, private) if order.workshop else None
    notes = (*order.notes, *_unsure(order, private))
    return replace(order, wearer_name=None, spectacles=spectacles, release=release, workshop=workshop, notes=notes)


def still_shown(order: Order, printed: str) -> list[str]:
    """What of the order, as it was before it became a sample, stands in a printed text after all."""
    plain = _plain(printed)
    found = [part.what for part in private_parts(order) if _can_be_sought(part.text) and _plain(part.text) in plain]
    return list(dict.fromkeys(found))


def _sample_workshop(workshop: Workshop, private: list[Private]) -> Workshop:
    texts: dict[str, Any] = {
        name: _without(getattr(workshop, name), private)
        for name in (*_OWN_WORDS, *_MAIL_WORDS)
        if getattr(workshop, name, None)
    }
    people: dict[str, Any] = {name: PLACEHOLDER for name in _PEOPLE if getattr(workshop, name, None)}
    return replace(workshop, address=None, phone=None, email=None, pages_at=None, **texts, **people)


def _unsure(order: Order, private: list[Private]) -> Iterator[str]:
    short = sorted({part.what for part in private if part.text.strip() and not _can_be_sought(part.text)})
    if short:
        yield f"sample: too short to be looked for on the page: {', '.join(short)}"
    shop = order.workshop
    own = [name for name in _OWN_WORDS if shop and getattr(shop, name, None)]
    if shop and shop.house_wording:
        own.append("house_wording")
    if own:
        yield f"sample: names of other people in the shop's own words ({', '.join(own)}) are not known; read it first"


def _without(text: str, private: list[Private]) -> str:
    for part in private:
        if _can_be_sought(part.text):
            text = re.sub(_in_any_writing(part.text), PLACEHOLDER, text, flags=re.IGNORECASE)
    return text


def _in_any_writing(text: str) -> str:
    """A pattern for the letters and digits of a text with anything but letters and digits between them."""
    return r"[\W_]*".join(map(re.escape, _plain(text)))


def _can_be_sought(text: str) -> bool:
    return len(_plain(text)) >= _SHORTEST


def _plain(text: str) -> str:
    """Letters and digits alone, without capitals and marks, however they were written."""
    folded = unicodedata.normalize("NFKD", unicodedata.normalize("NFKC", text).casefold())
    return "".join(sign for sign in folded if sign.isalnum())
