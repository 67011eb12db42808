"""One row of the bench: a deviation against its limit, with as many decimals as keep print and verdict of one mind."""

from __future__ import annotations

from explainer.optics.claims.ledger import Ledger
from explainer.optics.claims.limits import Limit
from explainer.optics.claims.rounding import agreeing_digits
from explainer.optics.claims.working import Ref, Working
from explainer.optics.formulas import tolerance
from explainer.optics.formulas.comparison import greatest_power
from explainer.optics.formulas.prescription import SpheroCylinder, sphero_cylinder
from explainer.optics.spectacles import SIDES, Side


def judge(
    ledger: Ledger, part: str, limit: Limit | None, *, deviation: str, allowed: str = "allowed", whole: bool = True
) -> None:
    """Issues the limit and the verdict of a part; `deviation` and `allowed` end the names of its claims.

    `whole` is False where only a part of the quantity was read: that can fail but not pass. Without a limit, one that
    was stated before is used, or nothing is judged.
    """
    off = f"{part}.{deviation}"
    if limit is not None:
        limit.state(ledger, f"{part}.{allowed}")
    if f"{part}.{allowed}" not in ledger:
        ledger.compute(f"{part}.verdict", unlimited, deviation=off)
        return
    rule = tolerance.verdict if whole else tolerance.verdict_of_a_part
    found = ledger.compute(f"{part}.verdict", rule, deviation=off, allowed=f"{part}.{allowed}")
    agree(ledger, off, f"{part}.{allowed}", inside=found.value != "outside")


def agree(ledger: Ledger, deviation: str, allowed: str, *, inside: bool) -> None:
    """Gives both numbers the decimals with which they tell what the verdict tells."""
    digits = agreeing_digits(
        deviation=ledger.number(deviation),
        allowed=ledger.number(allowed),
        inside=inside,
        least=ledger.digits(deviation),
    )
    for claim_id in (deviation, allowed):
        ledger.show(claim_id, digits=max(digits, ledger.digits(claim_id)))


def unlimited(*, deviation: float) -> str:
    """The verdict on a quantity that the limits do not speak of. Reference: definition."""
    return "not-checked"


def made_lens(ledger: Ledger, side: Side) -> Ref:
    """The lens as it should have been made, from its claims."""
    axis = f"{side}.made.axis"
    if axis not in ledger:
        return ledger.work(round_lens, sphere_d=f"{side}.made.sphere", cylinder_d=f"{side}.made.cylinder")
    return ledger.work(
        sphero_cylinder, sphere_d=f"{side}.made.sphere", cylinder_d=f"{side}.made.cylinder", axis_deg=axis
    )


def both_lenses(ledger: Ledger) -> dict[str, Ref]:
    """Both lenses as they should have been made, by side."""
    return {side: made_lens(ledger, side) for side in SIDES}


def round_lens(*, sphere_d: float, cylinder_d: float) -> SpheroCylinder:
    """A lens whose axis does not matter, or that has none. Reference: definition."""
    return sphero_cylinder(sphere_d=sphere_d, cylinder_d=cylinder_d, axis_deg=180.0)


def strongest(ledger: Ledger, side: Side) -> Working:
    """The greatest power of the lens as made, in any direction [D]."""
    return ledger.work(greatest_power, sphere_d=f"{side}.made.sphere", cylinder_d=f"{side}.made.cylinder")
