"""The thickest place and what the material saves. Nothing of lenses with a near part: the computation leaves it out."""

from __future__ import annotations

from explainer.optics.claims.ledger import FACT, Asked
from explainer.optics.claims.situations.asking import MULTIFOCAL, design, numbers
from explainer.optics.spectacles import SIDES, Side

SHARES = {
    "half": 50,
    "two-fifths": 40,
    "third": 33,
    "quarter": 25,
    "fifth": 20,
    "sixth": 16.5,
    "tenth": 10,
}
"""Words for a saving [percent], greatest first; the word says no more than was worked out."""


def side_of_thickest(ask: Asked) -> str | None:
    """The lens with the thickest place, or both alike as far as the page tells."""
    if design(ask) in MULTIFOCAL:
        return None
    found = numbers(ask, "thickness.thickest")
    if len(found) < 2:
        return None
    if abs(found["right"] - found["left"]) < _same(ask):
        return "both"
    return "left" if found["left"] > found["right"] else "right"


def place(ask: Asked) -> str | None:
    """Where the thickest place lies: middle, nose side, temple side, or elsewhere on the edge."""
    side = side_of_thickest(ask)
    if side is None:
        return None
    places = {_place(ask, each) for each in SIDES if side in ("both", each)}
    return places.pop() if len(places) == 1 else "edge"


def _place(ask: Asked, side: Side) -> str:
    thickest = ask.number(f"{side}.thickness.thickest") or 0.0
    for name, where in (("centre", "middle"), ("nasal", "nose"), ("temporal", "temple")):
        found = ask.number(f"{side}.thickness.{name}")
        if found is not None and thickest - found <= _same(ask):
            return where
    return "edge"


def _same(ask: Asked) -> float:
    return ask.number(f"{FACT}situations.thickness.same_place") or 0.0


def share(ask: Asked) -> str | None:
    """How much thinner than hard resin, as a coarse part; a material is not compared with itself."""
    side = side_of_thickest(ask)
    if side is None or ask.value("lens.material") in (None, "hard-resin"):
        return None
    savings = [ask.number(f"{each}.saving.thickness") for each in SIDES if side in ("both", each)]
    saved = min((each for each in savings if each is not None), default=None)
    return None if saved is None else next((word for word, least in SHARES.items() if saved >= least), None)


def lighter(ask: Asked) -> bool:
    """Lighter too, by what the page rounds to."""
    own, other = numbers(ask, "weight"), numbers(ask, "reference_weight")
    return (
        share(ask) is not None and len(own) == len(other) == 2 and round(sum(other.values())) > round(sum(own.values()))
    )


RULES = {
    "thickest.side": side_of_thickest,
    "thickest.place": place,
    "thinner.share": share,
    "thinner.lighter": lighter,
}
