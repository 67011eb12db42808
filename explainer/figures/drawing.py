"""What a figure is: shapes without text, and where the words go.

The shapes are SVG, free of any text, so one drawing serves every language and script. The words are HTML that the
renderer lays over the picture at the labels' places, so they stay text and are shaped in every script.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One label: place from the top left corner [mm], and what it says.

    `key` names a message of render/labels.py; `value` (with `unit` and `digits`) is put into it where the message has
    a place for it. `anchor` says which end of the label stands at x; y is its vertical middle. Left and right are those
    of the page and are not mirrored in right-to-left languages: the figures show the real world.
    """

    x_mm: float
    y_mm: float
    key: str
    value: float | None = None
    unit: str = ""
    digits: int = 0
    anchor: Anchor = "middle"
    strong: bool = False
    width_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A finished figure: size on paper [mm], shapes as SVG bytes without text, labels."""

    name: str
    width_mm: float
    height_mm: float
    svg: bytes
    labels: tuple[Label, ...]
