"""Whether a finished pair may be posted: the bench verdicts, as faults and as lines for the optician."""

from __future__ import annotations

from explainer.errors import Fault
from explainer.optics.claim import Basis
from explainer.optics.claims.ledger import ClaimSet

_TAIL = ".verdict"


def bench_faults(claims: ClaimSet) -> list[Fault]:
    """One fault for every reading outside its limit."""
    return [_fault(claims, part) for part, verdict in _verdicts(claims) if verdict == "outside"]


def bench_lines(claims: ClaimSet) -> list[str]:
    """One line for every verdict, for the optician's eyes."""
    return [f"{part}: {_read(claims, part)}: {verdict}{_mark(claims, part)}" for part, verdict in _verdicts(claims)]


def _mark(claims: ClaimSet, part: str) -> str:
    return " (limit from memory)" if claims[f"{part}{_TAIL}"].weakest is Basis.MEMORY else ""


def _verdicts(claims: ClaimSet) -> list[tuple[str, str]]:
    return [
        (claim_id.removesuffix(_TAIL), str(claims[claim_id].value))
        for claim_id in claims
        if claim_id.startswith("bench.") and claim_id.endswith(_TAIL)
    ]


def _fault(claims: ClaimSet, part: str) -> Fault:
    accepted = f"{_allowed(claims, part)}, or a written release under [bench.release]"
    return Fault(part, _read(claims, part), accepted)


def _read(claims: ClaimSet, part: str) -> str:
    for claim_id in (f"{part}.reading", f"{part}.prism"):
        if claim_id in claims:
            claim = claims[claim_id]
            return f"{claim.value:+.2f} {claim.unit}" if claim.unit == "D" else f"{claim.value:g} {claim.unit}"
    return "no reading"


def _allowed(claims: ClaimSet, part: str) -> str:
    """The order's own value and the deviation allowed, in the unit in which it is judged."""
    side, _, quantity = part.removeprefix("bench.").partition(".")
    ordered = {"pd": "pair.pd"}.get(side, f"{side}.add" if quantity == "add" else f"{side}.made.{quantity}")
    limits = [claims[ref] for ref in (f"{part}.allowed", f"{part}.allowed_mm") if ref in claims]
    limit = " or ".join(f"{claim.value:g} {claim.unit}" for claim in limits) or "the limit"
    if ordered not in claims:
        return f"within {limit}"
    value = claims[ordered].value
    shown = f"{value:+.2f}" if claims[ordered].unit == "D" else f"{value:g}"
    return f"{shown} {claims[ordered].unit}, give or take {limit}"
