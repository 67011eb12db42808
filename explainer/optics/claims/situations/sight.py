"""Without glasses, what plus does, prism as centimetres, and how much a turned lens shows."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from explainer.optics.claims.ledger import FACT, Asked, Ledger
from explainer.optics.claims.situations.asking import MULTIFOCAL, both_eyes, design, fact, seeing, told
from explainer.optics.claims.working import middle
from explainer.optics.formulas import prism, vertex
from explainer.optics.spectacles import SIDES, Side


def issue(ledger: Ledger) -> None:
    """Distances and sizes, eye by eye."""
    for side in SIDES:
        if f"{side}.far_point" in ledger and ledger.number(f"{side}.vertex.power_at_eye") < 0:
            distance = "pair.vertex" if "pair.vertex" in ledger else f"{FACT}reference.vertex.at_refraction"
            at_eye = ledger.work(
                vertex.ocular_refraction, spectacle_power_d=f"{side}.mean_sphere", vertex_mm=middle(distance)
            )
            ledger.compute(f"{side}.sight.far", vertex.far_point_cm, ocular_refraction_d=at_eye)
        if f"{side}.prism.horizontal" in ledger:
            ledger.compute(
                f"{side}.prism.moves",
                prism.displacement_cm,
                base_in_pd=f"{side}.prism.horizontal",
                base_up_pd=f"{side}.prism.vertical",
                distance_cm="page.metre",
            )


def kind(side: Side) -> Callable[[Asked], Any]:
    """What the bare eye sees sharply: up to a point, at a point, or nothing quite sharp."""

    def rule(ask: Asked) -> str | None:
        seeing = ask.value("wearer.only_seeing_eye")
        if ask.number(f"{side}.sight.far") is None or ask.value(f"{side}.balance") or seeing not in (None, side):
            return None
        cylinder = abs(ask.number(f"{side}.cylinder") or 0.0)
        if cylinder > fact(ask, "sight.point_cylinder"):
            return "least-blurred"
        focusing = ask.value("wearer.accommodation")
        if focusing is None:
            return "farthest"
        return "far-point" if focusing.low > 0 else "one-distance"

    return rule


def _kinds(ask: Asked) -> set[str]:
    """What each seeing eye needs for the distance, by both directions of its lens."""
    return {_kind(ask, side) for side in seeing(ask) if not ask.value(f"{side}.balance")}


def _kind(ask: Asked, side: Side) -> str:
    powers = [ask.number(f"{side}.power.{way}") or 0.0 for way in ("along_axis", "across_axis")]
    if min(powers) < 0 < max(powers):
        return "mixed"
    return "minus" if min(powers) < 0 else "plus" if max(powers) > 0 else "plano"


def mixed(ask: Asked) -> bool:
    """An eye that needs plus in one direction and minus in the other."""
    return "mixed" in _kinds(ask) and not plus_reading(ask)


def minus(ask: Asked) -> bool:
    """A minus lens for the distance."""
    return "minus" in _kinds(ask)


def plus(ask: Asked) -> bool:
    """A plus lens for the distance."""
    return "plus" in _kinds(ask) and not plus_reading(ask)


def plus_reading(ask: Asked) -> bool:
    """Reading glasses: their power brings near print into focus, whatever it would do for the distance."""
    return design(ask) == "reading"


def plus_focus(ask: Asked) -> bool:
    """A plus lens takes focusing work off an eye that can focus."""
    focusing = ask.value("wearer.accommodation")
    return plus(ask) and focusing is not None and focusing.low > 0


def plus_far(ask: Asked) -> bool:
    """Where nothing is left to focus with, a plus lens makes far things clear."""
    focusing = ask.value("wearer.accommodation")
    return plus(ask) and focusing is not None and focusing.low <= 0


def shows(side: Side, angle: str) -> Callable[[Asked], Any]:
    """How much the blur of a turned lens shows."""

    def rule(ask: Asked) -> str | None:
        residual = ask.number(f"{side}.turn.{angle}.residual")
        if residual is None:
            return None
        if residual <= fact(ask, "sight.blur_hardly"):
            return "hardly"
        return "may" if residual < fact(ask, "sight.blur_shows") else "shows"

    return rule


def sooner(ask: Asked) -> str | None:
    """The eye that blurs sooner when its lens turns."""
    right, left = (abs(ask.number(f"{side}.cylinder") or 0.0) for side in SIDES)
    if right == left:
        return None
    return "right" if right > left else "left"


def small_turn(ask: Asked) -> str | None:
    """Whether a small turn of any lens shows."""
    found = [ask.value(f"{side}.turn.5.shows") for side in SIDES]
    known = [word for word in found if word is not None]
    return None if not known else "hardly" if set(known) == {"hardly"} else "shows"


def moves_reading(ask: Asked) -> bool:
    """A turned lens with a near part moves it."""
    return design(ask) in MULTIFOCAL and told(ask, "progressive.turned")


def two_eyes_prism(ask: Asked) -> bool:
    """Prism is prescribed so that both eyes work together; with one seeing eye nothing is said of that."""
    return both_eyes(ask) and any(ask.value(f"{side}.prism.horizontal") is not None for side in SIDES)


RULES = {
    **{f"{side}.sight.kind": kind(side) for side in SIDES},
    "say.mixed": mixed,
    "say.minus": minus,
    "say.plus": plus,
    "say.plus_reading": plus_reading,
    "say.plus_focus": plus_focus,
    "say.plus_far": plus_far,
    **{f"{side}.turn.{angle}.shows": shows(side, angle) for side in SIDES for angle in ("5", "10")},
    "turn.sooner": sooner,
    "turn.small": small_turn,
    "turn.moves_reading": moves_reading,
    "say.prism_helps": two_eyes_prism,
}
