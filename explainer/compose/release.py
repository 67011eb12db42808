"""Whether a finished pair may be posted: the bench verdicts as faults, and the bench in lines for the optician.

Numbers are shown as the leaflet shows them: limits rounded down, deviations away from zero.
"""

from __future__ import annotations

from explainer.compose.asked import hold_faults
from explainer.errors import Fault
from explainer.optics.claim import Basis
from explainer.optics.claims.bench_said import QUANTITIES
from explainer.optics.claims.ledger import ClaimSet
from explainer.optics.claims.rounding import exact_digits, rounded
from explainer.optics.claims.statements import statement
from explainer.optics.spectacles import SIDES
from explainer.orders import Order

_TAIL = ".verdict"
_NAMES = {
    "ansi-z80-1-2015": "ANSI Z80.1-2015 (guidance of the United States)",
    "iso-21987-2017": "ISO 21987:2017, as remembered and not as read",
    "new-jersey": "the New Jersey rule",
}
_SIGNED = ("D",)


def posting_faults(order: Order, claims: ClaimSet) -> list[Fault]:
    """Everything for which there is no leaflet: readings outside without a written release, and open questions."""
    return [*(bench_faults(claims) if order.release is None else []), *hold_faults(order, claims)]


def bench_faults(claims: ClaimSet) -> list[Fault]:
    """One fault for every reading outside its limit."""
    return [_fault(claims, part) for part, verdict in _verdicts(claims) if verdict == "outside"]


def bench_lines(order: Order, claims: ClaimSet) -> list[str]:
    """By which limits, one line for every verdict, and what was read and what was not, for the optician's eyes."""
    return [
        *_limits_line(order, claims),
        *(
            f"{part}: {_read(claims, part)}{_off(claims, part)}: {v}{_mark(claims, part)}"
            for part, v in _verdicts(claims)
        ),
        *_status_lines(claims),
    ]


def limits_name(order: Order, claims: ClaimSet) -> str | None:
    """The name of the limits that readings were held against, None where nothing was."""
    standard = claims.value("bench.standard")
    if standard is None:
        return None
    own = order.bench_rules.own
    return own.name if own is not None else _NAMES[str(standard)]


def _limits_line(order: Order, claims: ClaimSet) -> list[str]:
    name = limits_name(order, claims)
    if name is None:
        return []
    at_home = "bench.standard.at_home" in claims
    return [f"limits: {name}{'' if at_home else '; for the workshop alone, the leaflet names no limits'}"]


def _status_lines(claims: ClaimSet) -> list[str]:
    found = []
    for name, head in (("read", "read"), ("not_read", "not read")):
        parts = [
            quantity if where == "all" else f"{quantity} of the {where} lens"
            for quantity in QUANTITIES
            if (where := claims.value(f"bench.{name}.{quantity}")) is not None
        ]
        found += [f"{head}: {', '.join(parts)}"] if parts else []
    return found


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
    return Fault(part, f"{_read(claims, part)}{_off(claims, part)}", accepted)


def _read(claims: ClaimSet, part: str) -> str:
    if f"{part}.reading" in claims:
        return shown(claims, f"{part}.reading")
    sides = [f"{part}.{way}.reading" for way in ("horizontal", "vertical") if f"{part}.{way}.reading" in claims]
    pair = [f"bench.{side}.prism.{part.removeprefix('bench.')}.reading" for side in SIDES]
    names = sides or [name for name in pair if name in claims]
    return " and ".join(shown(claims, name) for name in names) or "readings of both lenses"


def _off(claims: ClaimSet, part: str) -> str:
    """By how much, and the limit that it was held against."""
    judged = _judged_by(claims, part)
    if judged is None:
        return f", off by {shown(claims, off)}" if (off := f"{part}.deviation") in claims else ""
    deviation, allowed = judged
    return f", off by {shown(claims, deviation)}, limit {shown(claims, allowed)}"


def _judged_by(claims: ClaimSet, part: str) -> tuple[str, str] | None:
    """The two claims that the verdict went by: a prism where there is a limit of prism, else a deviation."""
    pairs = (
        ("deviation_mm", "allowed_mm"),
        ("prism", "allowed"),
        ("deviation", "allowed_mm"),
        ("deviation", "allowed"),
    )
    named = ((f"{part}.{deviation}", f"{part}.{allowed}") for deviation, allowed in pairs)
    return next((each for each in named if all(name in claims for name in each)), None)


def _allowed(claims: ClaimSet, part: str) -> str:
    """The order's own value, where the part has one, and the deviation allowed, in the unit in which it is judged."""
    limits = [shown(claims, ref) for ref in (f"{part}.allowed_mm", f"{part}.allowed") if ref in claims]
    limit = limits[0] if limits else "the limit"
    ordered = _ordered(part)
    return f"within {limit}" if ordered not in claims else f"{shown(claims, ordered)}, give or take {limit}"


def _ordered(part: str) -> str:
    side, _, quantity = part.removeprefix("bench.").partition(".")
    pair = {"reference_points": "pair.reference_points", "optical_centres": f"{part}.ordered"}
    own = {"add": f"{side}.add", "height": f"{side}.height", "reference_point": f"{side}.pd"}
    if side in pair:
        return pair[side]
    if quantity in ("stronger", "weaker"):
        return f"{part}.ordered"
    return own.get(quantity, f"{side}.made.{quantity}")


def shown(claims: ClaimSet, claim_id: str) -> str:
    """A claim's number as it is printed, with its unit."""
    claim, about = claims[claim_id], statement(claim_id)
    assert isinstance(claim.value, int | float)
    value = abs(claim.value) if about.size else claim.value
    digits = claim.digits
    if claim.basis in (Basis.ORDERED, Basis.MEASURED):  # printed as it was written, not rounded
        digits = exact_digits(value, digits)
    number = rounded(value, digits, about.rounding)
    sign = "+" if claim.unit in _SIGNED and not about.size and number > 0 else ""
    return f"{sign}{number} {claim.unit}"
