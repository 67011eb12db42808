"""Everything that may be asserted about one pair of spectacles: `explain(spectacles)`.

One topic a file. Order matters only where one topic rests on another's claims.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from explainer.optics.claims import (
    advice,
    bench,
    cautions,
    holds,
    lens,
    material,
    prescription,
    sight,
    situations,
    tint,
    warnings,
    workshop,
)
from explainer.optics.claims.ledger import ClaimSet, Ledger
from explainer.optics.claims.lens import LensShape
from explainer.optics.rules import BenchRules
from explainer.optics.spectacles import Side, Spectacles

__all__ = ["ClaimSet", "Explanation", "LensShape", "explain"]

USUAL = BenchRules()


@dataclass(frozen=True, slots=True)
class Explanation:
    """The claims about a pair, and the shapes of its lenses for whoever draws them."""

    claims: ClaimSet
    shapes: Mapping[Side, LensShape]


def explain(spectacles: Spectacles, *, rules: BenchRules = USUAL, country: str | None = None) -> Explanation:
    """All claims about a pair. OutOfRange when the order asks for a lens that cannot exist.

    `rules` say by which limits the workshop judges its bench readings; `country`, by its two letters, where it sells.
    """
    ledger = Ledger()
    prescription.issue(ledger, spectacles)
    advice.issue(ledger, spectacles)
    material.issue(ledger, spectacles)
    shapes = lens.issue(ledger, spectacles)
    sight.issue(ledger, spectacles)
    workshop.issue(ledger, spectacles)
    tint.issue(ledger, spectacles)
    bench.issue(ledger, spectacles, rules, country=country)
    cautions.issue(ledger)
    situations.issue(ledger, spectacles, country_code=country)
    holds.issue(ledger, spectacles, rules)
    warnings.issue(ledger)
    return Explanation(ledger.close(), shapes)
