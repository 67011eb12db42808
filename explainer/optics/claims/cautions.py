"""Cautions as claims: which apply to this order, and why. Decided here alone, so that no template can forget one.

A rule asks the ledger for claims and facts and answers with a word of a closed set, the reason, or with nothing. What
it asked for is what the caution rests on; so a rule asks last for what decides.
"""

from __future__ import annotations

from collections.abc import Callable

from explainer.optics.claims.ledger import FACT, Asked, Ledger
from explainer.optics.formulas.reactive import is_reactive
from explainer.optics.spectacles import SIDES

Rule = Callable[[Asked], str | None]


def issue(ledger: Ledger) -> None:
    """Runs every rule; each caution that applies becomes two claims, the caution and its reason."""
    for name, rule in RULES.items():
        reason = ledger.decide(rule)
        if reason.result is not None:
            ledger.part(f"caution.{name}", reason.stated(True))
            ledger.part(f"caution.{name}.reason", reason)


def night_tint(asked: Asked) -> str | None:
    """A light-reactive lens is tinted for a while after the sun has gone."""
    return "tint-changes" if asked.value("drive.night") == "when-clear" else None


def fixed_dark(asked: Asked) -> str | None:
    """A tint that lets through less than the night limit at all times."""
    return "fixed-tint" if asked.value("drive.night") == "no" else None


def too_dark(asked: Asked) -> str | None:
    """A fixed tint of the darkest category is not for any road."""
    return "category-four" if asked.value("drive.day") == "no" else None


def cold_tint(asked: Asked) -> str | None:
    """A light-reactive lens may reach the darkest category in cold and snow."""
    return "cold-and-snow" if asked.value("drive.day") == "not-when-darkest" else None


def sun(asked: Asked) -> str | None:
    """Any tint may tempt someone to look at the sun."""
    tint = asked.value("tint.class")
    return "any-tint" if is_reactive(tint) or tint == "fixed" else None


def stairs(asked: Asked) -> str | None:
    """The lower part of a progressive or bifocal lens blurs the floor."""
    design = asked.value("lens.design")
    if design == "progressive":
        return "first-progressive" if asked.value("wearer.first_pair") else "progressive"
    return "bifocal" if design == "bifocal" else None


def near_only(asked: Asked) -> str | None:
    """Reading glasses blur everything farther off."""
    return "reading-glasses" if asked.value("lens.design") == "reading" else None


def big_change(asked: Asked) -> str | None:
    """A big change of power, or one of an oblique cylinder, upsets the judging of distances.

    Not through reading glasses: they blur distances whatever has changed, and have a caution of their own.
    """
    if asked.value("lens.design") == "reading":
        return None
    limit = asked.number(f"{FACT}advice.change.caution") or 0.0
    changes = [asked.number(f"{side}.change") or 0.0 for side in SIDES]
    if max(changes) > limit:
        return "changed-power"
    oblique = [asked.value(f"{side}.change.oblique") for side in SIDES]
    return "oblique-change" if any(oblique) else None


def unequal(asked: Asked) -> str | None:
    """Lenses that differ much pull the eyes apart away from the centre; one seeing eye has no other to part from."""
    if asked.value("wearer.only_seeing_eye") is not None:
        return None
    limits = {
        "pair.anisometropia": f"{FACT}advice.anisometropia.caution",
        "pair.prism.vertical_at_10mm_down": f"{FACT}reference.differential_prism.slab_off",
    }
    over = any((asked.number(ref) or 0.0) >= (asked.number(limit) or 0.0) for ref, limit in limits.items())
    return "unequal-lenses" if over else None


def prism(asked: Asked) -> str | None:
    """Prescribed prism, where two eyes see."""
    if asked.value("wearer.only_seeing_eye") is not None:
        return None
    given = [asked.value(f"{side}.prism.{way}") for side in SIDES for way in ("horizontal", "vertical")]
    return "prescribed-prism" if any(given) else None


def child(asked: Asked) -> str | None:
    """A wearer below the age at which the leaflet speaks to a parent."""
    age, limit = asked.number("wearer.age"), asked.number(f"{FACT}advice.child.below")
    return "under-sixteen" if age is not None and limit is not None and age < limit else None


def one_eye(asked: Asked) -> str | None:
    """A wearer who relies on one eye."""
    return "only-seeing-eye" if asked.value("wearer.only_seeing_eye") else None


def glass(asked: Asked) -> str | None:
    """Glass lenses."""
    return "glass-lens" if asked.value("lens.material") == "crown-glass" else None


def not_protective(asked: Asked) -> str | None:
    """Everyday glasses are no eye protection, whatever the material."""
    return "everyday-glasses" if asked.value(f"{FACT}reference.protective.dress_frame") is not None else None


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
