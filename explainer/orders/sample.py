"""An order without the people in it, for a leaflet that may be shown around."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from explainer.orders.assembly.order import Order
from explainer.orders.shop.workshop import Workshop

PLACEHOLDER = "…"


_OWN_WORDS = ("opening_hours", "returns", "adjustments", "urgent_help", "emergency")


def as_sample(order: Order) -> Order:
    """The order without the wearer's name and age, a releasing person's words, and how to reach the workshop.

    Number, prescription and the shop's own sentences stay, for they are what a sample is to show; where a sentence
    repeats the shop's address, phone or e-mail, a placeholder stands.
    """
    spectacles = replace(order.spectacles, wearer=replace(order.spectacles.wearer, age_years=None))
    release = replace(order.release, by=PLACEHOLDER, reason=PLACEHOLDER) if order.release else None
    workshop = _sample_workshop(order.workshop) if order.workshop else None
    return replace(order, wearer_name=None, spectacles=spectacles, release=release, workshop=workshop)


def _sample_workshop(workshop: Workshop) -> Workshop:
    lines = (workshop.address or "").splitlines()
    private = [text.strip() for text in (*lines, workshop.phone or "", workshop.email or "") if text.strip()]
    texts: dict[str, Any] = {name: _without(getattr(workshop, name), private) for name in _OWN_WORDS}
    return replace(workshop, address=None, phone=None, email=None, **texts)


def _without(text: str | None, private: list[str]) -> str | None:
    for part in private:
        text = text.replace(part, PLACEHOLDER) if text else text
    return text
