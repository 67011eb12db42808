"""Cautions as claims: which apply to this order, and why. Decided here alone, so that no template can forget one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from explainer.optics.claims.ledger import FACT, Ledger
from explainer.optics.spectacles import SIDES, Spectacles

_REACTIVE = ("photochromic", "photochromic-visible")


@dataclass(frozen=True, slots=True)
class Finding:
    """Why a caution applies: a word of the closed set, and the claims and facts that say so."""

    reason: str
    rests_on: tuple[str, ...]


Rule = Callable[[Ledger, Spectacles], Finding | None]


def issue(ledger: Ledger, spectacles: Spectacles) -> None:
    """Runs every rule; each caution that applies becomes two claims, the caution and its reason."""
    for name, rule in RULES.items():
        finding = rule(ledger, spectacles)
        if finding is not None:
            ledger.derived(f"caution.{name}", True, rule, finding.rests_on)
            ledger.derived(f"caution.{name}.reason", finding.reason, rule, finding.rests_on)


def night_tint(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """A light-reactive lens is tinted for a while after the sun has gone."""
    if spectacles.lens.tint in _REACTIVE and ledger.value("drive.night") == "when-clear":
        return Finding("tint-changes", ("tint.class", f"{FACT}light.night_driving_limit"))
    return None


def fixed_dark(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """A tint that lets through less than the night limit at all times."""
    if spectacles.lens.tint is not None and ledger.value("drive.night") == "no":
        return Finding("fixed-tint", ("drive.night",))
    return None


def too_dark(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """A fixed tint of the darkest category is not for any road."""
    if spectacles.lens.tint == "fixed" and "drive.day" in ledger and ledger.value("drive.day") == "no":
        return Finding("category-four", ("drive.day",))
    return None


def cold_tint(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """A light-reactive lens may reach the darkest category in cold and snow."""
    if spectacles.lens.tint in _REACTIVE and ledger.value("drive.day") == "not-when-darkest":
        return Finding("cold-and-snow", ("drive.day",))
    return None


def sun(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """Any tint may tempt someone to look at the sun."""
    if spectacles.lens.tint not in (None, "clear"):
        return Finding("any-tint", ("tint.class",))
    return None


def stairs(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """The lower part of a progressive or bifocal lens blurs the floor."""
    design = spectacles.lens.design
    if design == "progressive":
        reason = "first-progressive" if spectacles.wearer.first_pair else "progressive"
        return Finding(reason, ("lens.design",))
    return Finding("bifocal", ("lens.design",)) if design == "bifocal" else None


def near_only(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """Reading glasses blur everything farther off."""
    return Finding("reading-glasses", ("lens.design",)) if spectacles.lens.design == "reading" else None


def big_change(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """A big change of power, or one of an oblique cylinder, upsets the judging of distances.

    Not through reading glasses: they blur distances whatever has changed, and have a caution of their own.
    """
    if spectacles.lens.design == "reading":
        return None
    limit = f"{FACT}advice.change.caution"
    changes = [f"{side}.change" for side in SIDES if f"{side}.change" in ledger]
    if any(ledger.number(ref) > ledger.number(limit) for ref in changes):
        return Finding("changed-power", (*changes, limit))
    oblique = [f"{ref}.oblique" for ref in changes]
    if any(ledger.value(ref) for ref in oblique):
        return Finding("oblique-change", tuple(oblique))
    return None


def unequal(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """Lenses that differ much pull the eyes apart away from the centre."""
    limits = {
        "pair.anisometropia": f"{FACT}advice.anisometropia.caution",
        "pair.prism.vertical_at_10mm_down": f"{FACT}reference.differential_prism.slab_off",
    }
    over = [
        (ref, limit) for ref, limit in limits.items() if ref in ledger and ledger.number(ref) >= ledger.number(limit)
    ]
    return Finding("unequal-lenses", over[0]) if over else None


def prism(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """Prescribed prism."""
    given = tuple(f"{side}.prism.horizontal" for side in SIDES if f"{side}.prism.horizontal" in ledger)
    return Finding("prescribed-prism", given) if given else None


def child(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """A wearer below the age at which the leaflet speaks to a parent."""
    limit = f"{FACT}advice.child.below"
    if "wearer.age" in ledger and ledger.number("wearer.age") < ledger.number(limit):
        return Finding("under-sixteen", ("wearer.age", limit))
    return None


def one_eye(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """A wearer who relies on one eye."""
    if spectacles.wearer.only_seeing_eye is None:
        return None
    return Finding("only-seeing-eye", ("wearer.only_seeing_eye",))


def glass(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """Glass lenses."""
    if spectacles.lens.material == "crown-glass":
        return Finding("glass-lens", ("lens.material",))
    return None


def not_protective(ledger: Ledger, spectacles: Spectacles) -> Finding | None:
    """Everyday glasses are no eye protection, whatever the material."""
    return Finding("everyday-glasses", (f"{FACT}reference.protective.dress_frame",))


RULES: dict[str, Rule] = {
    "night_tint": night_tint,
    "fixed_dark": fixed_dark,
    "too_dark": too_dark,
    "cold_tint": cold_tint,
    "sun": sun,
    "stairs": stairs,
    "near_only": near_only,
    "big_change": big_change,
    "unequal": unequal,
    "prism": prism,
    "child": child,
    "one_eye": one_eye,
    "glass": glass,
    "not_protective": not_protective,
}
