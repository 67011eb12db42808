"""What the order says of wearer, frame and former glasses, as claims that rules can ask for."""

from __future__ import annotations

from explainer.optics.claims.ledger import Ledger
from explainer.optics.spectacles import SIDES, Spectacles


def issue(ledger: Ledger, spectacles: Spectacles) -> None:
    """Only what was given; nothing is assumed."""
    wearer, frame = spectacles.wearer, spectacles.frame
    for use in sorted(wearer.uses):
        ledger.ordered(f"wearer.use.{use}", True)
    for name in ("falls", "patching"):
        if getattr(wearer, name):
            ledger.ordered(f"wearer.{name}", True)
    if frame.material is not None:
        ledger.ordered("frame.kind", frame.material)
    if frame.own:
        ledger.ordered("frame.own", True)
    if spectacles.previous is not None:
        ledger.ordered("wearer.previous", True)
    for side in SIDES:
        if spectacles.lens.balance == side:
            ledger.ordered(f"{side}.balance", True)
    if spectacles.lens.dye is not None:
        ledger.ordered("tint.dye", spectacles.lens.dye)
    ledger.fact("page.rule", "situations.page.rule")
    ledger.fact("page.metre", "situations.page.metre")
    ledger.fact("sight.letter", "situations.sight.letter")
    ledger.fact("sight.letter_distance", "situations.sight.letter_distance")
    ledger.fact("help.rinse", "situations.help.rinse")
