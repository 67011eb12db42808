"""The alternative text of every picture: a phrase, and what it must be told."""

from __future__ import annotations

from typing import Any

from explainer.render.sections import Speaker

_TURNS = {"set": "", "small": "5", "large": "10"}
_SIGNS = "icon"  # stand beside words that say the same


def alternative(speaker: Speaker, picture: str) -> str:
    """What is read to someone who does not see the picture of that name; nothing for the small signs beside words."""
    if picture.startswith(_SIGNS):
        return ""
    name, about = phrase_of(picture)
    return speaker.phrase_text(name, **about)


def phrase_of(picture: str) -> tuple[str, dict[str, Any]]:
    """The phrase of a picture's alternative text and what it is told."""
    if picture in _WHOLE:
        return f"picture.{_WHOLE[picture]}", {}
    kind, _, rest = picture.partition("_")
    if kind == "sign":
        side, _, turn = rest.partition("_")
        return "picture.sign", {"side": side, "turn": turn, "angle": _TURNS[turn]}
    if kind in _TOLD:
        phrase, told = _TOLD[kind]
        return f"picture.{phrase}", {told: int(rest) if told == "number" else rest}
    return f"picture.{picture}", {}


_WHOLE = {"state_fixed": "fixed"}
_TOLD = {
    **{"state": ("state", "scene"), "shade": ("state", "scene"), "category": ("category", "number")},
    **{"check": ("check", "check"), "sit": ("sit", "way"), "clean": ("clean", "step"), "scene": ("scene", "scene")},
    **{"dial": ("dial", "side"), "street": ("street", "eye")},
}
