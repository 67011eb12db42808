"""The wearer: child, one seeing eye, patching, falls; and the signs for which help is needed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from explainer.optics.claims.ledger import Asked
from explainer.optics.claims.situations.asking import MULTIFOCAL, both_eyes, child, design, told


def driver(ask: Asked) -> bool:
    """Old enough for a driving text, or of unknown age."""
    return not child(ask) and told(ask, "road.driver")


def one_eye(ask: Asked) -> bool:
    """A wearer with one seeing eye."""
    return not both_eyes(ask)


def one_eye_safe(ask: Asked) -> bool:
    """The stronger words on protection that a source asks for."""
    return not both_eyes(ask) and told(ask, "safe.one_eye")


def falls(ask: Asked) -> bool:
    """Somebody who has fallen and gets lenses that blur the floor."""
    return bool(ask.value("wearer.falls")) and design(ask) in MULTIFOCAL and told(ask, "stairs.spare_pair")


def patching(ask: Asked) -> bool:
    """A child whose clinic patches an eye."""
    return child(ask) and bool(ask.value("wearer.patching")) and told(ask, "parents.patch")


def parents(name: str) -> Callable[[Asked], Any]:
    """A line for parents."""

    def rule(ask: Asked) -> bool:
        return child(ask) and told(ask, f"parents.{name}")

    return rule


def parents_tint(ask: Asked) -> bool:
    """A child in dark lenses."""
    return child(ask) and ask.value("drive.night") == "no" and ask.value("tint.class") == "fixed"


def each_eye(ask: Asked) -> bool:
    """The cover test needs two eyes that see, and somebody who can tell."""
    return both_eyes(ask) and not child(ask) and told(ask, "check.each_eye")


def seeing_eye(ask: Asked) -> bool:
    """What one seeing eye checks instead."""
    return not both_eyes(ask) and not child(ask)


def child_sight(ask: Asked) -> bool:
    """What a parent can see."""
    return child(ask) and told(ask, "check.child")


def sport(ask: Asked) -> bool:
    """Sport was ordered, and these are everyday glasses."""
    return bool(ask.value("wearer.use.sport")) and bool(ask.value("caution.not_protective"))


def sign(name: str) -> Callable[[Asked], Any]:
    """A sign that must not wait."""

    def rule(ask: Asked) -> bool:
        return told(ask, f"help.{name}")

    return rule


def double_today(ask: Asked) -> bool:
    """Double vision needs two eyes."""
    return both_eyes(ask) and told(ask, "help.double")


def child_today(ask: Asked) -> bool:
    """What a parent should look for."""
    return child(ask) and told(ask, "help.child")


RULES = {
    "say.driver": driver,
    "know.one_eye": one_eye,
    "safe.one_eye": one_eye_safe,
    "know.falls": falls,
    "parents.patch": patching,
    **{f"parents.{name}": parents(name) for name in ("play", "level", "wear", "refuses", "small_parts")},
    "parents.tint": parents_tint,
    "check.each_eye": each_eye,
    "check.seeing_eye": seeing_eye,
    "check.child": child_sight,
    "safe.sport": sport,
    "help.now.sight": sign("sight"),
    "help.now.stroke": sign("stroke"),
    "help.now.headache": sign("headache"),
    "help.now.red_eye": sign("red_eye"),
    "help.now.hurt": sign("hurt"),
    "help.today.flashes": sign("flashes"),
    "help.today.curtain": sign("curtain"),
    "help.today.double": double_today,
    "help.today.pain": sign("pain"),
    "help.today.child": child_today,
}
