"""The first days: what is usual, what is not, and what has changed since the last prescription."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from explainer.optics.claims.ledger import Asked, Ledger
from explainer.optics.claims.situations.asking import both_eyes, child, design, fact, numbers, seeing, told
from explainer.optics.claims.situations.pair import plano_pair
from explainer.optics.formulas import prescription
from explainer.optics.spectacles import SIDES, Side, Spectacles


def issue(ledger: Ledger, spectacles: Spectacles) -> None:
    """Both prescriptions in minus-cylinder form, so that their numbers can stand side by side."""
    previous = spectacles.previous
    if previous is None:
        return
    for side in SIDES:
        if (add := previous.eye(side).add_d) is not None:
            ledger.ordered(f"{side}.previous.add", add)
        for name, received in (("then", f"{side}.previous"), ("now", side)):
            parts = {f"{part}": f"{received}.{part}" for part in ("sphere", "cylinder", "axis", "add")}
            written = {"sphere_d": parts["sphere"], "cylinder_d": parts["cylinder"]}
            if parts["axis"] in ledger:
                written["axis_deg"] = parts["axis"]
            lens = ledger.work(prescription.minus_cylinder_form, written)
            ledger.part(f"{side}.{name}.sphere", lens.of("sphere_d"))
            ledger.part(f"{side}.{name}.cylinder", lens.of("cylinder_d"))
            if parts["axis"] in ledger:
                ledger.part(f"{side}.{name}.axis", lens.of("axis_deg"))
            if parts["add"] in ledger:
                ledger.ordered(f"{side}.{name}.add", ledger.number(parts["add"]))


def settling(ask: Asked) -> bool:
    """Getting used to: not to lenses without power, and not to reading glasses that are put down again."""
    return not plano_pair(ask) and design(ask) != "reading"


def first_progressive(ask: Asked) -> bool:
    """A first progressive pair, as far as the order says."""
    return design(ask) == "progressive" and bool(ask.value("wearer.first_pair") or _new_addition(ask))


def _new_addition(ask: Asked) -> bool:
    """Glasses before, without an addition."""
    return bool(ask.value("wearer.previous")) and all(ask.value(f"{side}.previous.add") is None for side in SIDES)


def old_pair(ask: Asked) -> bool:
    """There is an old pair to keep at hand."""
    return bool(ask.value("wearer.previous")) and not ask.value("wearer.first_pair") and design(ask) != "reading"


def tilt(ask: Asked) -> bool:
    """A cylinder that is new or has changed, or was never told of before."""
    if not settling(ask):
        return False
    cylinders = [abs(c) for c in numbers(ask, "cylinder").values()]
    if not any(c >= fact(ask, "change.cylinder_from") for c in cylinders):
        return False
    if not ask.value("wearer.previous"):
        return told(ask, "usual.tilt")
    parts = ("cylinder", "axis")
    return told(ask, "usual.tilt") and any(ask.value(f"{side}.changed.{part}") for side in SIDES for part in parts)


def tilt_by_change(ask: Asked) -> bool:
    """The change since the last pair is oblique enough to tilt floors."""
    return settling(ask) and any(ask.value(f"{side}.change.oblique") for side in SIDES)


def _power_is_new(ask: Asked) -> bool:
    if ask.value("wearer.previous"):
        return any(change >= fact(ask, "change.size_from") for change in numbers(ask, "change").values())
    return True


def _sizes(ask: Asked) -> tuple[bool, bool]:
    """Whether new power makes things look larger, and smaller, to an eye that sees."""
    if not (settling(ask) and _power_is_new(ask) and told(ask, "usual.size")):
        return False, False
    means = [ask.number(f"{side}.made.mean_sphere") or 0.0 for side in seeing(ask)]
    limit = fact(ask, "change.size_power")
    return any(mean >= limit for mean in means), any(mean <= -limit for mean in means)


def larger(ask: Asked) -> bool:
    """New plus power makes things look larger and nearer."""
    return _sizes(ask) == (True, False)


def smaller(ask: Asked) -> bool:
    """New minus power makes things look smaller and farther off."""
    return _sizes(ask) == (False, True)


def sizes_differ(ask: Asked) -> bool:
    """Plus before one eye and minus before the other."""
    return _sizes(ask) == (True, True)


def swim(ask: Asked) -> bool:
    """The sides of a progressive lens swim."""
    return design(ask) == "progressive" and told(ask, "usual.swim")


def jump(ask: Asked) -> bool:
    """The picture jumps at a bifocal's line."""
    return design(ask) == "bifocal" and told(ask, "usual.jump")


def strain(ask: Asked) -> bool:
    """Eyes feel strained at first."""
    return settling(ask) and told(ask, "usual.strain")


def far_blurred(ask: Asked) -> bool:
    """Through reading glasses far things are blurred, and that is right."""
    return design(ask) == "reading"


def one_worse(ask: Asked) -> bool:
    """One eye clearly worse: needs two."""
    return both_eyes(ask) and not child(ask) and told(ask, "unusual.one_worse")


def eye_worse(ask: Asked) -> bool:
    """With one seeing eye: it sees worse."""
    return not both_eyes(ask)


def double(ask: Asked) -> bool:
    """Double with the glasses on: needs two eyes."""
    return both_eyes(ask) and told(ask, "unusual.double")


def head_turns(ask: Asked) -> bool:
    """A progressive pair that is sharp only with the head held oddly is set wrongly."""
    return design(ask) == "progressive" and told(ask, "unusual.head")


def line_high(ask: Asked) -> bool:
    """A bifocal line that cuts the view ahead stands too high."""
    return design(ask) == "bifocal" and told(ask, "unusual.line")


def part_changed(side: Side, part: str) -> Callable[[Asked], Any]:
    """One number of the prescription is not what it was, both in minus-cylinder form."""

    def rule(ask: Asked) -> bool:
        if not ask.value("wearer.previous"):
            return False
        then, now = ask.number(f"{side}.then.{part}"), ask.number(f"{side}.now.{part}")
        return (then or 0.0) != (now or 0.0) if part != "axis" else None not in (then, now) and then != now

    return rule


RULES = {
    "know.settling": settling,
    **{
        f"{side}.changed.{part}": part_changed(side, part)
        for side in SIDES
        for part in ("sphere", "cylinder", "axis", "add")
    },
    "first.progressive": first_progressive,
    "first.old_pair": old_pair,
    "usual.tilt": tilt,
    "changed.tilt": tilt_by_change,
    "usual.larger": larger,
    "usual.smaller": smaller,
    "usual.sizes_differ": sizes_differ,
    "usual.swim": swim,
    "usual.jump": jump,
    "usual.strain": strain,
    "usual.far_blurred": far_blurred,
    "unusual.one_worse": one_worse,
    "unusual.eye_worse": eye_worse,
    "unusual.double": double,
    "unusual.head": head_turns,
    "unusual.line": line_high,
}
