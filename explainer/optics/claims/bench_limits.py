"""Limits of what was not read yet, for whoever takes the reading: they stand beside empty boxes on the sheet."""

from __future__ import annotations

from explainer.optics.claims.judging import strongest
from explainer.optics.claims.ledger import Ledger
from explainer.optics.claims.limits import Limit, Limits, Quantity
from explainer.optics.spectacles import Side


def issue(ledger: Ledger, side: Side, limits: Limits, *, progressive: bool) -> None:
    """The limit of each quantity of the lens that has none stated; nothing is judged."""
    strength = strongest(ledger, side)
    cylinder = f"{side}.made.cylinder"
    power: Quantity = "progressive_power" if progressive else "power"
    astigmatic: Quantity = "progressive_cylinder" if progressive else "cylinder"
    size = abs(ledger.number(cylinder))
    found: dict[str, Limit | None] = {
        "stronger": limits.of(power, size=strength, amount=strength.result, power=strength.result),
        "cylinder": limits.of(astigmatic, size=cylinder, amount=size, power=strength.result),
        "prism": limits.lens_prism(by_distance=False),
    }
    if f"{side}.made.axis" in ledger:
        found["axis"] = limits.of("axis", size=cylinder, amount=size, power=strength.result)
    if f"{side}.add" in ledger:
        found["add"] = limits.of("addition", size=f"{side}.add", amount=ledger.number(f"{side}.add"))
    for part, limit in found.items():
        stated = any(f"bench.{side}.{part}.{name}" in ledger for name in ("allowed", "allowed_mm"))
        if limit is not None and not stated:
            limit.state(ledger, f"bench.{side}.{part}.allowed")
