"""What is true for this wearer and what is not: each situation a claim with its reason, decided here and nowhere else.

A rule asks for claims and facts and answers yes, nothing, or a word of a closed set. What it asked for is what the
claim rests on, so a rule of thumb that it used shows in the evidence. Pages and mails only ask whether a claim stands.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from explainer.optics.claims.ledger import FACT, Asked, Ledger
from explainer.optics.claims.situations import country, days, given, near, pair, rank, road, shades, sight, thickness
from explainer.optics.claims.situations.wearer import RULES as WEARER
from explainer.optics.spectacles import Spectacles

_SILENCE = f"{FACT}situations.order.silent"
Rule = Callable[[Asked], Any]
TABLE: Mapping[str, Rule] = {
    **WEARER,
    **pair.RULES,
    **near.RULES,
    **sight.RULES,
    **shades.RULES,
    **road.RULES,
    **days.RULES,
    **thickness.RULES,
    **rank.RULES,
}
"""Every situation by the claim that it becomes, in the order in which they may rest on each other."""


def issue(ledger: Ledger, spectacles: Spectacles, *, country_code: str | None = None) -> None:
    """All situations of an order, for readers in a country (two letters), if it is known."""
    given.issue(ledger, spectacles)
    near.issue(ledger)
    sight.issue(ledger)
    shades.issue(ledger, spectacles)
    days.issue(ledger, spectacles)
    country.issue(ledger, country_code)
    for claim_id, rule in TABLE.items():
        decide(ledger, claim_id, rule)


def decide(ledger: Ledger, claim_id: str, rule: Rule) -> None:
    """The claim of one rule, where the rule has an answer; one that only follows from silence says so."""
    answer = ledger.decide(rule)
    if answer.result:
        ledger.part(claim_id, answer if answer.inputs else replace(answer, inputs=(_SILENCE,)))
