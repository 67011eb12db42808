"""Nothing that nobody reads: every formula is reached from the program's entry points, every fact by some order."""

from __future__ import annotations

import pytest
from reach import unreached
from wide_orders import wide_orders

from explainer.compose.plan import compose
from explainer.optics import facts
from explainer.optics.claims import explain
from explainer.optics.claims.ledger import FACT
from explainer.optics.facts import tolerance_tables
from explainer.optics.rules import BenchRules

ENTRANCES = ("__main__", "cli", "batch", "render", "figures", "compose", "topics", "orders")
OTHER_STANDARDS = ("iso-21987-2017", "new-jersey")
COUNTRIES = ("GB", "IE", "DE", "AT", "FR", "US", "XX")


def test_every_formula_is_reached_from_an_entrance():
    """By name: what reached code names is reached. Tests are no entrance."""
    assert unreached(("explainer.optics",), tuple(f"explainer.{name}" for name in ENTRANCES)) == []


@pytest.mark.slow
def test_every_fact_is_read_for_some_order(monkeypatch: pytest.MonkeyPatch):
    """Facts in the chain of a claim, or looked up on the way to one or to a picture."""
    read: set[str] = set()
    get = facts.get

    def noted(fact_id: str) -> facts.Fact:
        read.add(fact_id)
        return get(fact_id)

    tolerance_tables.bands.cache_clear()  # what an earlier test had looked up counts anew
    monkeypatch.setattr(facts, "get", noted)
    monkeypatch.setattr(tolerance_tables, "get", noted)
    for order in wide_orders().values():
        explanations = [explain(order, country=country) for country in COUNTRIES]
        explanations += [explain(order, rules=BenchRules(standard=standard)) for standard in OTHER_STANDARDS]
        read |= {
            ref.removeprefix(FACT) for each in explanations for claim in each.claims.values() for ref in claim.inputs
        }
        compose(order, explanations[0])

    assert {fact.id for fact in facts.every_fact()} - read == set()
