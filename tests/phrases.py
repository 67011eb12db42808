"""Phrases for tests: an order spoken, every phrase by name, and what each needs to be told."""

from __future__ import annotations

import json
from itertools import product
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from explainer.compose.plan import compose
from explainer.optics.claims import explain
from explainer.orders import Order, read_order
from explainer.render.language import Language, language
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.voice import Voice
from explainer.resources import root

NAMES = sorted(path.stem for path in (root("templates") / "phrases").glob("*.md"))
SIDES = {"side": ("right", "left")}
SCENES = {"scene": ("indoors", "cloudy", "summer", "cold", "windscreen", "side")}
ABOUT: dict[str, dict[str, tuple[object, ...]]] = {
    "pair.side": SIDES,
    "pair.second_line": SIDES,
    "pair.addition": SIDES,
    "pair.prism": SIDES,
    "without.eye": SIDES,
    "without.eye_far": SIDES,
    "turn.shows": {**SIDES, "angle": ("5", "10")},
    "light.words": SCENES,
    "light.percent": SCENES,
    "clearing.time": {"place": ("warm", "mild", "cold")},
    "picture.state": {"scene": ("indoors", "car", "sun", "cloudy", "summer", "cold", "windscreen", "side")},
    "picture.scene": SCENES,
    "picture.category": {"number": (0, 1, 2, 3, 4)},
    "picture.check": {"check": ("label", "whole", "level", "one_eye", "single", "print", "lines")},
    "picture.sit": {"way": ("level", "crooked", "ear", "table", "upside_down")},
    "picture.clean": {"step": ("rinse", "soap", "rub", "dry")},
    "picture.dial": SIDES,
    "picture.sign": {**SIDES, "turn": ("set", "small"), "angle": ("5", "10")},
    "picture.street": {"eye": ("right", "left", "with")},
    "dark.category": {"number": (0, 1, 2, 3, 4)},
}
"""What a phrase must be told besides its name, with every value."""


def order_of(data: dict[str, Any], workshop: dict[str, Any] | None = None) -> Order:
    """Plain data as an order, with a workshop file of flat fields beside it."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "order.json"
        path.write_text(json.dumps(data), encoding="utf-8")
        if workshop is not None:
            lines = [f"{name} = {json.dumps(value)}" for name, value in {"name": "Bench at Dell", **workshop}.items()]
            (Path(folder) / "workshop.toml").write_text("\n".join(lines), encoding="utf-8")
        return read_order(path)


def speaker_of(data: dict[str, Any], spoken: Language | None = None, workshop: dict[str, Any] | None = None) -> Speaker:
    """A speaker of an order's phrases."""
    order = order_of(data, workshop)
    explanation = explain(order.spectacles, country=order.country)
    voice = Voice(spoken or language(order.language), explanation.claims)
    document = compose(order.spectacles, explanation)
    return Speaker(voice, document, page_context(order, voice), lambda *_: "<figure></figure>")


def every_phrase(speaker: Speaker) -> dict[str, str]:
    """Every phrase that holds, as text, by its name and what it was told."""
    said = {}
    for name in NAMES:
        told = ABOUT.get(name, {})
        for values in product(*told.values()):
            text = speaker.phrase_text(name, **dict(zip(told, values, strict=True)))
            if text:
                said[" ".join([name, *map(str, values)])] = text
    return said
