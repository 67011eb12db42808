"""What the optician should look at twice before posting: each a claim with its reason. Nothing here stops a leaflet."""

from __future__ import annotations

from collections.abc import Callable

from explainer.optics.claims.ledger import FACT, Asked, Ledger
from explainer.optics.claims.working import Ref
from explainer.optics.formulas import magnification
from explainer.optics.spectacles import SIDES, Side

Rule = Callable[[Asked], str | None]

_ROUGH_USES = ("sport", "water", "workshop")
_SAME_POWER_D = 0.13


def issue(ledger: Ledger) -> None:
    """Runs every rule; each warning becomes two claims, the warning and its reason."""
    _picture_sizes(ledger)
    for name, rule in RULES.items():
        reason = ledger.decide(rule)
        if reason.result is not None:
            ledger.part(f"warn.{name}", reason.stated(True))
            ledger.part(f"warn.{name}.reason", reason)


def _picture_sizes(ledger: Ledger) -> None:
    """Both pictures together, so that a vertex distance that is a range is the same for both eyes."""
    if not all(f"{side}.magnification.spectacle" in ledger for side in SIDES):
        return
    lenses: dict[str, Ref] = {}
    for side in SIDES:
        lenses[f"{side}_front_d"] = f"{side}.front_curve"
        lenses[f"{side}_power_d"] = f"{side}.made.mean_sphere"
        lenses[f"{side}_thickness_mm"] = f"{side}.thickness.centre"
    ledger.compute(
        "pair.image_size",
        magnification.pair_difference_percent,
        lenses,
        index=f"{FACT}material.{ledger.value('lens.material')}.index_d",
        pupil_distance_mm="right.pupil_distance",
    )


def centres(asked: Asked) -> str | None:
    """Prescribed prism moves the optical centres away from the pupils, or off the lens."""
    found = {_centre(asked, side) for side in SIDES if asked.value(f"{side}.prism.horizontal") is not None}
    return next((reason for reason in ("prism-without-centre", "prism-moves-centres") if reason in found), None)


def _centre(asked: Asked, side: Side) -> str | None:
    if asked.value(f"{side}.centre.exists") is False or asked.value(f"{side}.centre.on_lens") is False:
        return "prism-without-centre"
    shift = [asked.number(f"{side}.centre.{way}") or 0.0 for way in ("in", "up")]
    return "prism-moves-centres" if max(map(abs, shift)) >= _limit(asked, "centre_shift") else None


def imbalance(asked: Asked) -> str | None:
    """Unequal lenses pull the eyes apart up and down at the reading level; one seeing eye has no other to part from."""
    if asked.value("wearer.only_seeing_eye") is not None:
        return None
    found = asked.number("pair.prism.vertical_at_10mm_down")
    return "imbalance-at-reading-level" if found is not None and found >= _limit(asked, "imbalance") else None


def image_size(asked: Asked) -> str | None:
    """Unequal lenses show pictures of unequal size, where there are two to compare."""
    if asked.value("wearer.only_seeing_eye") is not None:
        return None
    found = asked.number("pair.image_size")
    return "unequal-picture-size" if found is not None and found >= _limit(asked, "image_size") else None


def far_only(asked: Asked) -> str | None:
    """At this age lenses of one power do not serve far and near."""
    if asked.value("lens.design") != "single-vision":
        return None
    age = asked.number("wearer.age")
    return "one-power-at-reading-age" if age is not None and age >= _limit(asked, "reading_age") else None


def high_power(asked: Asked) -> str | None:
    """In strong lenses a few millimetres before the eye, or some degrees of tilt, change the effect."""
    found = set()
    for side in SIDES:
        strongest = asked.number(f"{side}.made.strongest")
        if strongest is not None and strongest >= _limit(asked, "high_power"):
            found.add("high-minus" if (asked.number(f"{side}.made.mean_sphere") or 0.0) < 0 else "high-plus")
    return min(found, default=None)


def change(asked: Asked) -> str | None:
    """A change that the wearer will notice: the tilt of an oblique cylinder, an axis, or a power."""
    if any(asked.value(f"{side}.change.oblique") for side in SIDES):
        return "oblique-change"
    changes = [asked.number(f"{side}.change") for side in SIDES]
    return "changed-power" if any(found is not None and found >= _limit(asked, "change") for found in changes) else None


def sport(asked: Asked) -> str | None:
    """Ordered for something that can hit the eye; everyday glasses are no protection."""
    if asked.value(f"{FACT}reference.protective.dress_frame") is None:
        return None
    return "rough-use" if any(asked.value(f"wearer.use.{use}") for use in _ROUGH_USES) else None


def child(asked: Asked) -> str | None:
    """Spectacles for a child may only be supplied under supervision in some countries; the fit wants checks."""
    age, limit = asked.number("wearer.age"), asked.number(f"{FACT}advice.child.below")
    return "under-sixteen" if age is not None and limit is not None and age < limit else None


def no_readings(asked: Asked) -> str | None:
    """Nobody put these lenses on a lensmeter, or only one of them."""
    asked.value(f"{FACT}rules.bench.read")
    where = asked.value("bench.not_read.power")
    if where is not None:
        return "no-lens-read" if where == "all" else "one-lens-not-read"
    return None if asked.value("bench.read.power") is not None else "no-lens-read"


def exchanged(asked: Asked) -> str | None:
    """Readings that fit the order with the lenses exchanged, and do not fit as they stand."""
    powers = {}
    for side in SIDES:
        read = [asked.number(f"bench.{side}.{part}.reading") for part in ("sphere", "cylinder")]
        made = [asked.number(f"{side}.made.{part}") for part in ("sphere", "cylinder")]
        if None in (*read, *made):
            return None
        powers[side] = ([value or 0.0 for value in read], [value or 0.0 for value in made])
    straight = all(_alike(*powers[side]) for side in SIDES)
    crossed = _alike(powers["right"][0], powers["left"][1]) and _alike(powers["left"][0], powers["right"][1])
    return "lenses-exchanged" if crossed and not straight else None


def _alike(read: list[float], made: list[float]) -> bool:
    return all(abs(one - other) <= _SAME_POWER_D for one, other in zip(read, made, strict=True))


def _limit(asked: Asked, name: str) -> float:
    number = asked.number(f"{FACT}advice.warn.{name}")
    assert number is not None
    return number


RULES: dict[str, Rule] = {
    "centres": centres,
    "imbalance": imbalance,
    "image_size": image_size,
    "far_only": far_only,
    "high_power": high_power,
    "change": change,
    "sport": sport,
    "child": child,
    "no_readings": no_readings,
    "exchanged": exchanged,
}
