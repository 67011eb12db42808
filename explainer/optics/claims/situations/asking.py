"""Short questions that many rules ask."""

from __future__ import annotations

from explainer.optics.claims.ledger import FACT, Asked
from explainer.optics.formulas.reactive import is_reactive
from explainer.optics.spectacles import SIDES, Side

MULTIFOCAL = ("progressive", "bifocal")


def design(ask: Asked) -> str | None:
    """The lens design, if it was given."""
    return str(found) if (found := ask.value("lens.design")) else None


def reactive(ask: Asked) -> bool:
    """Whether the lenses are light-reactive."""
    return is_reactive(ask.value("tint.class"))


def child(ask: Asked) -> bool:
    """Whether the leaflet speaks to a parent."""
    return bool(ask.value("caution.child"))


def both_eyes(ask: Asked) -> bool:
    """Whether the wearer uses both eyes, as far as the order says."""
    return ask.value("wearer.only_seeing_eye") is None


def seeing(ask: Asked) -> tuple[Side, ...]:
    """The eyes that see: both, or the only one."""
    only = ask.value("wearer.only_seeing_eye")
    return tuple(side for side in SIDES if only in (None, side))


def fact(ask: Asked, name: str) -> float:
    """A threshold of ours or of a source."""
    number = ask.number(f"{FACT}situations.{name}")
    assert number is not None
    return number


def told(ask: Asked, name: str) -> bool:
    """Always yes: writes down the fact that a sentence rests on."""
    return ask.value(f"{FACT}situations.{name}") is not None


def numbers(ask: Asked, part: str) -> dict[Side, float]:
    """The values of both eyes, where they were issued."""
    found = {side: ask.number(f"{side}.{part}") for side in SIDES}
    return {side: value for side, value in found.items() if value is not None}
