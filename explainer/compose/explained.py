"""The claims about an order, by its workshop's limits and for its workshop's country: asked for in one way."""

from __future__ import annotations

from dataclasses import replace

from explainer.optics.claims import Explanation, explain
from explainer.orders import Order


def explained(order: Order, *, standard: str | None = None) -> Explanation:
    """All claims about the pair; `standard` judges the bench by another table than the workshop's.

    OutOfRange for a lens that cannot exist.
    """
    country = order.workshop.country if order.workshop else None
    rules = order.bench_rules if standard is None else replace(order.bench_rules, standard=standard, own=None)
    return explain(order.spectacles, rules=rules, country=country)
