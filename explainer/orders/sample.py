"""An order without the people in it, for a leaflet that may be shown around."""

from __future__ import annotations

from dataclasses import replace

from explainer.orders.order import Order

PLACEHOLDER = "…"


def as_sample(order: Order) -> Order:
    """The order without the wearer's name and age, the releasing person's words, and the workshop's address lines.

    Number, prescription and the shop's own sentences stay: they are what a sample is to show.
    """
    spectacles = replace(order.spectacles, wearer=replace(order.spectacles.wearer, age_years=None))
    release, workshop = order.release, order.workshop
    if release is not None:
        release = replace(release, by=PLACEHOLDER, reason=PLACEHOLDER)
    if workshop is not None:
        workshop = replace(workshop, address=None, phone=None, email=None)
    return replace(order, wearer_name=None, spectacles=spectacles, release=release, workshop=workshop)
