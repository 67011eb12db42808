"""The pair itself: what it is called, plano, prism, unequal lenses, strong lenses, material, fire, fitting."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from explainer.optics.claims.ledger import FACT, Asked
from explainer.optics.claims.situations.asking import (
    MULTIFOCAL,
    both_eyes,
    child,
    design,
    fact,
    numbers,
    reactive,
    told,
)
from explainer.optics.spectacles import SIDES, Side


def kind(ask: Asked) -> str:
    """What the title calls the pair."""
    category, form = ask.number("tint.category"), design(ask)
    if form == "reading":
        return "reading"
    if category is not None and category >= fact(ask, "title.sunglasses_from"):
        return "plain-sunglasses" if plano_pair(ask) else "sunglasses"
    if form in MULTIFOCAL:
        return str(form)
    return "reactive" if reactive(ask) else "glasses"


def plano(side: Side) -> Callable[[Asked], Any]:
    """A lens without any power, prism or addition."""

    def rule(ask: Asked) -> bool:
        return (
            ask.number(f"{side}.made.strongest") == 0
            and ask.value(f"{side}.add") is None
            and ask.value(f"{side}.prism.horizontal") is None
        )

    return rule


def plano_pair(ask: Asked) -> bool:
    """Neither lens has any power."""
    return all(plano(side)(ask) for side in SIDES)


def powered(ask: Asked) -> bool:
    """Some lens has a power."""
    return any(strongest > 0 for strongest in numbers(ask, "made.strongest").values())


def stairs(ask: Asked) -> bool:
    """The lower part blurs the floor."""
    return design(ask) in MULTIFOCAL and told(ask, "stairs.multifocal")


def nose(ask: Asked) -> bool:
    """The sides of a progressive lens are less clear."""
    return design(ask) == "progressive" and told(ask, "progressive.sides")


def short_reading(ask: Asked) -> bool:
    """A progressive lens with little height below the pupil."""
    heights = numbers(ask, "height").values()
    return design(ask) == "progressive" and any(h < fact(ask, "progressive.height_from") for h in heights)


def lines_level(ask: Asked) -> bool:
    """Both windows of a bifocal pair stand level."""
    return design(ask) == "bifocal" and told(ask, "bifocal.lines")


def unequal(ask: Asked) -> bool:
    """Far lenses that differ: look through the middle."""
    return _differ(ask) and design(ask) not in (*MULTIFOCAL, "reading")


def unequal_near(ask: Asked) -> bool:
    """Lenses that differ and must be looked through low: the middle is no way out."""
    return _differ(ask) and design(ask) in MULTIFOCAL


def _differ(ask: Asked) -> bool:
    return both_eyes(ask) and bool(ask.value("caution.unequal"))


def stronger(ask: Asked) -> str | None:
    """Whether it matters which lens is stronger."""
    if not powered(ask) or not both_eyes(ask):
        return None
    if _differ(ask):
        return "matters"
    means = list(numbers(ask, "made.mean_sphere").values())
    step = ask.number("steps.size") or 0.0
    return "alike" if abs(means[0] - means[1]) <= step else "harmless"


def prism(ask: Asked) -> bool:
    """Prescribed prism in either lens."""
    return any(ask.value(f"{side}.prism.horizontal") is not None for side in SIDES)


def one_picture(ask: Asked) -> bool:
    """With prism or unequal lenses: one picture, not two. Asked of nobody who cannot tell."""
    if child(ask) or not both_eyes(ask) or design(ask) == "reading":
        return False
    return (prism(ask) or _differ(ask)) and told(ask, "check.one_picture")


def one_line(ask: Asked) -> bool:
    """The same, for reading glasses."""
    if child(ask) or not both_eyes(ask) or design(ask) != "reading":
        return False
    return prism(ask) and told(ask, "check.one_picture")


def rim(ask: Asked) -> bool:
    """Strong plus: things may vanish at the rim."""
    return any(mean >= fact(ask, "strong.plus_from") for mean in numbers(ask, "made.mean_sphere").values())


def smaller(ask: Asked) -> bool:
    """Strong minus: things look smaller."""
    return any(mean <= -fact(ask, "strong.minus_from") for mean in numbers(ask, "made.mean_sphere").values())


def fire(ask: Asked) -> bool:
    """A lens with plus in any direction, its reading part too, gathers sunlight."""
    plus = any(
        power > 0
        for part in ("made.power.along_axis", "made.power.across_axis")
        for power in numbers(ask, part).values()
    )
    near = any(power > 0 for power in numbers(ask, "made.near_sphere").values())
    return (plus or near) and told(ask, "fire.plus")


def set_place(ask: Asked) -> bool:
    """Lenses that must not move on the face by a millimetre: no bending at home."""
    return prism(ask) or _differ(ask) or design(ask) in MULTIFOCAL or _strong(ask)


def _strong(ask: Asked) -> bool:
    strongest = numbers(ask, "made.strongest").values()
    return any(power >= fact(ask, "fit.strong_from") for power in strongest)


def pads(ask: Asked) -> bool:
    """Nose pads that may be pressed at home: where a millimetre does not count."""
    return ask.value("frame.kind") in ("metal", "half-rim") and not set_place(ask) and _told(ask, "advice.fit.pads")


def screw(ask: Asked) -> bool:
    """Only a screw may be tightened at home."""
    kinds = (None, "acetate", "nylon", "metal", "half-rim")
    return ask.value("frame.kind") in kinds and not pads(ask) and _told(ask, "advice.fit.screw")


def _told(ask: Asked, name: str) -> bool:
    return ask.value(f"{FACT}{name}") is not None


def slides(ask: Asked) -> bool:
    """Strong lenses change their effect when the frame slides."""
    return any(mean >= fact(ask, "strong.slides_from") for mean in map(abs, numbers(ask, "made.mean_sphere").values()))


def coating(name: str, told_by: str) -> Callable[[Asked], Any]:
    """Something that follows from a coating."""

    def rule(ask: Asked) -> bool:
        return bool(ask.value(f"lens.coating.{name}")) and told(ask, told_by)

    return rule


def balance(ask: Asked) -> bool:
    """A lens that only matches the other."""
    return any(ask.value(f"{side}.balance") for side in SIDES)


def own_frame(ask: Asked) -> bool:
    """A frame that the customer has worn before."""
    return bool(ask.value("frame.own")) and told(ask, "frame.own")


def rimless(ask: Asked) -> bool:
    """Lenses held by screws alone."""
    return ask.value("frame.kind") == "rimless" and told(ask, "frame.rimless")


def glass(ask: Asked) -> bool:
    """Glass lenses."""
    return bool(ask.value("caution.glass"))


def fringe_seen(ask: Asked) -> bool:
    """Colour spread, looking as far aside as is usual, reaches what is seen."""
    limit = ask.number(f"{FACT}reference.chromatic.threshold") or 0.0
    return any(spread >= limit for spread in numbers(ask, "colour_fringe.at_10mm").values())


def heights(ask: Asked) -> bool:
    """Distances and heights of each eye were measured."""
    return design(ask) in MULTIFOCAL and len(numbers(ask, "height")) == 2 and len(numbers(ask, "pd")) == 2


RULES = {
    "pair.kind": kind,
    **{f"{side}.plano": plano(side) for side in SIDES},
    "say.plano_pair": plano_pair,
    "say.powered": powered,
    "know.stairs": stairs,
    "know.nose": nose,
    "know.short_reading": short_reading,
    "check.lines_level": lines_level,
    "know.unequal": unequal,
    "know.unequal_near": unequal_near,
    "say.stronger": stronger,
    "know.prism": prism,
    "check.one_picture": one_picture,
    "check.one_line": one_line,
    "know.rim": rim,
    "know.smaller": smaller,
    "safe.fire": fire,
    "fit.set_place": set_place,
    "fit.slides_matter": slides,
    "fit.home.pads": pads,
    "fit.home.screw": screw,
    "know.polarising": coating("polarising", "polarising.screens"),
    "know.balance": balance,
    "know.own_frame": own_frame,
    "know.rimless": rimless,
    "know.glass": glass,
    "lens.fringe_seen": fringe_seen,
    "pupils.heights": heights,
}
