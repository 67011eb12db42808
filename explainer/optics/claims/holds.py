"""Questions that an order must answer before there is a leaflet: each a claim with its reason, decided here alone.

A hold is answered by a field of the order: what was missing, or a word of [answers] that says what was decided. There
is no switch that lets all orders pass.
"""

from __future__ import annotations

from collections.abc import Callable

from explainer.optics.claims.ledger import FACT, Asked, Ledger
from explainer.optics.rules import BenchRules
from explainer.optics.spectacles import SIDES, Spectacles

Rule = Callable[[Asked], str | None]

_BEHIND_THE_WHEEL = ("driving", "night-driving", "motorcycle")
_MUST_BE_READ = ("power", "axis", "addition", "centring")


def issue(ledger: Ledger, spectacles: Spectacles, rules: BenchRules) -> None:
    """Runs every rule; each hold becomes two claims, the hold and its reason."""
    for use in sorted(spectacles.wearer.uses):
        if f"wearer.use.{use}" not in ledger:
            ledger.ordered(f"wearer.use.{use}", True)
    if rules.required:
        ledger.supplied("bench.required", True)
    for name, rule in RULES.items():
        reason = ledger.decide(rule)
        if reason.result is not None:
            ledger.part(f"hold.{name}", reason.stated(True))
            ledger.part(f"hold.{name}.reason", reason)


def heights(asked: Asked) -> str | None:
    """A progressive lens is placed by the height of each pupil."""
    if asked.value("lens.design") != "progressive":
        return None
    return "no-heights" if any(asked.value(f"{side}.height") is None for side in SIDES) else None


def distances(asked: Asked) -> str | None:
    """A progressive lens is placed by each eye's own distance from the nose; half of the whole is a guess."""
    if asked.value("lens.design") != "progressive":
        return None
    return "one-distance" if any(asked.value(f"{side}.pd") is None for side in SIDES) else None


def addition(asked: Asked) -> str | None:
    """An addition has no place in a lens of one power: the design is wrong, or the addition is left out on purpose."""
    if asked.value("lens.design") != "single-vision":
        return None
    added = any(asked.value(f"{side}.add") is not None for side in SIDES)
    return "addition-in-one-power" if added else None


def category_four(asked: Asked) -> str | None:
    """Somebody who drives, and a tint for no road."""
    if asked.value("drive.day") != "no":
        return None
    return "driver-and-darkest-tint" if _drives(asked) else None


def unknown_tint(asked: Asked) -> str | None:
    """Somebody who drives, and a fixed tint of which nobody said how dark it is: it permits nothing."""
    if asked.value("tint.class") != "fixed":
        return None
    known = any(asked.value(name) is not None for name in ("tint.category", "tint.transmittance"))
    return "driver-and-unknown-tint" if not known and _drives(asked) else None


def glass(asked: Asked) -> str | None:
    """Glass can break into sharp pieces before an eye that cannot be spared, or a child's."""
    if asked.value("lens.material") != "crown-glass":
        return None
    if asked.value("wearer.only_seeing_eye") is not None:
        return "glass-and-one-eye"
    age, limit = asked.number("wearer.age"), asked.number(f"{FACT}advice.child.below")
    return "glass-and-child" if age is not None and limit is not None and age < limit else None


def unread(asked: Asked) -> str | None:
    """Readings that this workshop demands: power, axis, addition and centring of both lenses; prescribed prism."""
    if not asked.value("bench.required"):
        return None
    wanted = list(_MUST_BE_READ)
    if any(asked.value(f"{side}.prism.horizontal") is not None for side in SIDES):
        wanted.append("prism")
    statuses = [asked.value(f"bench.{side}.{quantity}.status") for side in SIDES for quantity in wanted]
    return "not-read" if any(status in (None, "not-read") for status in statuses) else None


def _drives(asked: Asked) -> bool:
    return any(asked.value(f"wearer.use.{use}") for use in _BEHIND_THE_WHEEL)


RULES: dict[str, Rule] = {
    "heights": heights,
    "distances": distances,
    "addition": addition,
    "category_four": category_four,
    "unknown_tint": unknown_tint,
    "glass": glass,
    "unread": unread,
}
