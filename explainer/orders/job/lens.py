"""Index and lens type of a job file → our generic words, only where one word fits and nothing speaks against it."""

from __future__ import annotations

from typing import NamedTuple

from explainer.optics.spectacles import Design, Material
from explainer.orders.job.records import Records

_PLASTIC, _POLYCARBONATE, _GLASS = "1", "2", "3"
"""LMATTYPE, the type of material; these three from memory."""


class _Window(NamedTuple):
    low: float
    high: float
    material: Material
    types: tuple[str | None, ...]


_WINDOWS = (
    # the facts of optics/facts/material.toml, a little wider, since catalogues quote the index for two spectral lines;
    # None: unambiguous even if the type is not said, since no other generic material lies there
    _Window(1.495, 1.503, "hard-resin", (None, _PLASTIC)),
    _Window(1.522, 1.526, "crown-glass", (_GLASS,)),
    _Window(1.528, 1.535, "urethane-1.53", (_PLASTIC,)),
    _Window(1.583, 1.592, "polycarbonate", (_POLYCARBONATE,)),
    _Window(1.592, 1.606, "high-index-1.60", (_PLASTIC,)),
    _Window(1.658, 1.675, "high-index-1.67", (_PLASTIC,)),
    _Window(1.728, 1.745, "high-index-1.74", (_PLASTIC,)),
)
_DESIGNS: dict[str, Design] = {"SV": "single-vision", "BI": "bifocal", "PR": "progressive"}


def material_of(found: Records, notes: list[str]) -> Material | None:
    """The generic material of both lenses, or None with a note why."""
    right, left = found.numbers("LIND", 1.4, 2.0, "")
    if right is None and left is None:
        return None
    kinds = set(found.both("LMATTYPE")) if found.text("LMATTYPE") is not None else {None}
    fits = {
        window.material
        for window in _WINDOWS
        if all(index is not None and window.low <= index <= window.high for index in (right, left))
        and kinds <= set(window.types)
    }
    if len(fits) == 1:
        return fits.pop()
    notes.append("index and type of material (LIND, LMATTYPE) fit no one generic material: name it in [lens]")
    return None


def design_of(found: Records, notes: list[str]) -> Design | None:
    """The design of both lenses by LTYPE, else LTYP, or None with a note why."""
    label = "LTYPE" if found.text("LTYPE") is not None else "LTYP"
    if found.text(label) is None:
        return None
    eyes = [set((part or "").split()) & set(_DESIGNS) for part in found.both(label)]
    if eyes[0] == eyes[1] and len(eyes[0]) == 1:
        return _DESIGNS[eyes[0].pop()]
    notes.append(f"the lens type ({label}) fits no one design: name it in [lens]")
    return None
