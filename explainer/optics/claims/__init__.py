"""Everything that may be asserted about one pair of spectacles: `explain(spectacles)`; `explain_bench` for its bench.

One topic a file. Order matters only where one topic rests on another's claims.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from explainer.optics.claims import advice, bench, cautions, feasible, lens, material, prescription, sight, tint
from explainer.optics.claims.ledger import ClaimSet, Ledger
from explainer.optics.claims.lens import LensShape
from explainer.optics.spectacles import Side, Spectacles

__all__ = ["ClaimSet", "Explanation", "LensShape", "explain", "explain_bench"]


@dataclass(frozen=True, slots=True)
class Explanation:
    """The claims about a pair, and the shapes of its lenses for whoever draws them."""

    claims: ClaimSet
    shapes: Mapping[Side, LensShape]


def explain(spectacles: Spectacles, *, tolerances: str = bench.STANDARD) -> Explanation:
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
    cautions.issue(ledger, spectacles)
    return Explanation(ledger.close(), shapes)


def explain_bench(spectacles: Spectacles, *, tolerances: str = bench.STANDARD) -> ClaimSet:
    """The claims on the bench, with what they rest on, in a tenth of the time; each is the same as in `explain`.

    OutOfRange as `explain`: whether the lens can exist is asked by bounds first, and computed where they do not say.
    The few pairs of unusual power are explained in full.
    """
    if not feasible.is_usual(spectacles):
        return explain(spectacles, tolerances=tolerances).claims
    ledger = Ledger()
    prescription.issue_made(ledger, spectacles)
    lens.measures(ledger, spectacles)
    feasible.check(ledger, spectacles)
    bench.issue(ledger, spectacles, standard=tolerances)
    return ledger.close()
