"""Everything that may be asserted about one pair of spectacles: `explain(spectacles)`.

One topic a file. Order matters only where one topic rests on another's claims.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from explainer.optics.claims import advice, bench, cautions, lens, material, prescription, sight, situations, tint
from explainer.optics.claims.ledger import ClaimSet, Ledger
from explainer.optics.claims.lens import LensShape
from explainer.optics.spectacles import Side, Spectacles

__all__ = ["ClaimSet", "Explanation", "LensShape", "explain"]


@dataclass(frozen=True, slots=True)
class Explanation:
    """The claims about a pair, and the shapes of its lenses for whoever draws them."""

    claims: ClaimSet
    shapes: Mapping[Side, LensShape]


def explain(spectacles: Spectacles, *, tolerances: str = bench.STANDARD, country: str | None = None) -> Explanation:
    """All claims about a pair. OutOfRange when the order asks for a lens that cannot exist.

    `tolerances` names the table that bench readings are judged by (facts/tolerance.toml). Only the usual one is known
    from a published source in full; verdicts by the others are for the bench and not for a customer's page.
    """
    ledger = Ledger()
    prescription.issue(ledger, spectacles)
    advice.issue(ledger, spectacles)
    material.issue(ledger, spectacles)
    shapes = lens.issue(ledger, spectacles)
    sight.issue(ledger, spectacles)
    tint.issue(ledger, spectacles)
    bench.issue(ledger, spectacles, standard=tolerances)
    cautions.issue(ledger)
    situations.issue(ledger, spectacles, country_code=country)
    return Explanation(ledger.close(), shapes)
