"""Claims about where the optical centres of the lenses stand, seen from the points that belong before the pupils.

Only where no prism is prescribed is that the same place. A lens without power in some direction has no centre.
"""

from __future__ import annotations

from explainer.optics.claims.judging import made_lens
from explainer.optics.claims.ledger import Ledger
from explainer.optics.claims.working import Plain, Ref, Working
from explainer.optics.formulas import centration, optical_centre
from explainer.optics.spectacles import SIDES, Side, Spectacles


def issue(ledger: Ledger, spectacles: Spectacles) -> None:
    """Where each centre stands; for the pair the distance of the centres, where they stand before the pupils."""
    for side in SIDES:
        power = {"sphere_d": f"{side}.made.sphere", "cylinder_d": f"{side}.made.cylinder"}
        found = ledger.compute(f"{side}.centre.exists", optical_centre.has_centre, power)
        if found.value:
            _place(ledger, spectacles, side)
    prescribed = any(f"{side}.prism.horizontal" in ledger for side in SIDES)
    both = all(f"{side}.centre.in" in ledger for side in SIDES)
    if both and not prescribed and "pair.reference_points" in ledger:
        places: dict[str, Ref] = {side: place_of(ledger, side) for side in SIDES}
        ledger.compute("pair.centres", optical_centre.centres_apart, places, points_mm="pair.reference_points")


def place_of(ledger: Ledger, side: Side) -> Working:
    """The place of a centre from its claims."""
    return ledger.work(optical_centre.Place, in_mm=f"{side}.centre.in", up_mm=f"{side}.centre.up")


def _place(ledger: Ledger, spectacles: Spectacles, side: Side) -> None:
    prism: dict[str, Ref] = {
        f"prism_{way}_pd": f"{side}.prism.{direction}" if f"{side}.prism.{direction}" in ledger else Plain(0.0)
        for way, direction in (("in", "horizontal"), ("up", "vertical"))
    }
    place = ledger.work(optical_centre.optical_centre, prism, lens=made_lens(ledger, side), side=Plain(side))
    ledger.part(f"{side}.centre.in", place.of("in_mm"))
    ledger.part(f"{side}.centre.up", place.of("up_mm"))
    if f"{side}.decentration" not in ledger or "frame.b" not in ledger:
        return
    above: Ref = Plain(0.0)  # no height given: level with the middle of the box
    if f"{side}.height" in ledger and ledger.number(f"{side}.height") <= ledger.number("frame.b"):
        above = ledger.work(centration.height_above_datum, height_mm=f"{side}.height", b_mm="frame.b")
    ledger.compute(
        f"{side}.centre.on_lens",
        optical_centre.is_inside_box,
        a_mm="frame.a",
        b_mm="frame.b",
        point=ledger.work(optical_centre.Place, in_mm=f"{side}.decentration", up_mm=above),
        centre=place_of(ledger, side),
    )
