"""Pictures of the lenses as bodies: their sections in life size, and what they weigh."""

from __future__ import annotations

from collections.abc import Mapping

from explainer.compose.document import FigureRequest
from explainer.compose.pictures.frame import Pictures
from explainer.optics.claims import LensShape
from explainer.optics.claims.ledger import ClaimSet
from explainer.optics.formulas.thickness import CutLens
from explainer.optics.spectacles import SIDES, Side, Spectacles

_MOST_POINTS = 25
_NEAR_PARTS = ("bifocal", "progressive")  # their thickness rests on the far power alone: not drawn


def lens_pictures(spectacles: Spectacles, claims: ClaimSet, shapes: Mapping[Side, LensShape]) -> Pictures:
    """Sections and weight where both lenses were worked out, over ordinary plastic where they are of another."""
    if spectacles.lens.design in _NEAR_PARTS or any(side not in shapes for side in SIDES):
        return {}
    other = spectacles.lens.material != "hard-resin"
    compared = other and all(shapes[side].reference is not None for side in SIDES)
    cuts: dict[str, object] = {side: _cut(claims, shapes[side], side, compared=compared) for side in SIDES}
    weights = {"grams": _both(claims, "weight")}
    if compared:
        weights["ordinary_grams"] = _both(claims, "reference_weight")
    return {"sections": FigureRequest("sections", cuts), "weight_dots": FigureRequest("weight_dots", weights)}


def _both(claims: ClaimSet, name: str) -> float:
    return round(sum(claims.number(f"{side}.{name}") for side in SIDES), 2)


def _cut(claims: ClaimSet, shape: LensShape, side: Side, *, compared: bool) -> tuple[object, ...]:
    """The section, that in ordinary plastic, and the thickness at its thickest place: the centre, or both edges."""
    at = {where: claims.number(f"{side}.thickness.{where}") for where in ("centre", "nasal", "temporal")}
    centre = at["centre"] >= max(at["nasal"], at["temporal"])
    shown = tuple(
        (where, at[where], claims.number(f"{side}.reference.{where}") if compared else None)
        for where in (("centre",) if centre else ("temporal", "nasal"))
    )
    reference = _section(shape.reference) if compared and shape.reference is not None else None
    return (_section(shape.made), reference, shown)


def _section(lens: CutLens) -> tuple[tuple[float, ...], ...]:
    """The section's rows to a hundredth of a millimetre, no more points than a picture needs."""
    rows = (lens.section.x_mm, lens.section.front_mm, lens.section.back_mm)
    count = len(rows[0])
    chosen = [round(i * (count - 1) / (_MOST_POINTS - 1)) for i in range(_MOST_POINTS)]
    return tuple(tuple(round(float(row[i]), 3) for i in chosen) for row in rows)
