"""Which warnings may stand in a box: the order's own, and one triangle at most. All others stand in the text.

Rank nought is the panel of help, which always stands. Rank one is the box before driving, or for parents. Rank two is
one of the things to know. What is left is a bold sentence where it belongs.
"""

from __future__ import annotations

from explainer.optics.claims.ledger import Asked

_DRIVING = (
    "too_dark",
    "unknown_tint",
    "near_only",
    "fixed_dark",
    "stays_dark",
    "night_tint",
    "double",
    "changed",
    "one_eye",
    "not_ordered",
    "settling",
)
_TRIANGLES = ("stairs", "unequal", "unequal_near")


def box(ask: Asked) -> str | None:
    """What the first box is about: driving, or what parents must know; none where nothing is to be said."""
    if not ask.value("say.driver"):
        return "parents"
    return "driving" if any(ask.value(f"drive.{line}") for line in _DRIVING) else None


def first_line(ask: Asked) -> str | None:
    """The gravest of the driving lines."""
    return next((line for line in _DRIVING if ask.value(f"drive.{line}")), None)


def triangle(ask: Asked) -> str | None:
    """The one thing to know that may bear a triangle."""
    return next((name for name in _TRIANGLES if ask.value(f"know.{name}")), None)


RULES = {"warning.box": box, "warning.first": first_line, "warning.triangle": triangle}
