"""Claims about the real lens: where its centre stands, how thick and heavy it is, against hard resin and the others."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from explainer.errors import OutOfRange
from explainer.optics import facts
from explainer.optics.claims.ledger import FACT, Ledger
from explainer.optics.formulas import centration, comparison, shape, surface, thickness, weight
from explainer.optics.formulas.lens_body import LensForm
from explainer.optics.formulas.shape import Outline
from explainer.optics.formulas.thickness import CutLens
from explainer.optics.spectacles import SIDES, Frame, Material, Side, Spectacles

REFERENCE = "hard-resin"
_GROOVED = frozenset({"half-rim", "rimless"})  # a groove or a hole needs a thicker edge
_PLACES = {
    "centre": "centre_mm",
    "thinnest": "thinnest_mm",
    "thickest": "thickest_mm",
    "nasal": "nasal_edge_mm",
    "temporal": "temporal_edge_mm",
}


@dataclass(frozen=True, slots=True)
class LensShape:
    """The cut lens of one eye, the same in hard resin where that can be made, and the outline they are cut to."""

    outline: Outline
    made: CutLens
    reference: CutLens | None


@dataclass(frozen=True, slots=True)
class _Order:
    """What the lens of one eye is cut from: outline, powers by claim id, place of the optical centre."""

    side: Side
    outline: Outline
    outline_inputs: tuple[str, ...]
    inward_mm: float
    above_mm: float
    place_inputs: tuple[str, ...]


def issue(ledger: Ledger, spectacles: Spectacles) -> dict[Side, LensShape]:
    """Centration where the frame and the pupils are known; the lens body where the material is known too."""
    measures(ledger, spectacles)
    shapes: dict[Side, LensShape] = {}
    for side in SIDES:
        if f"{side}.decentration" not in ledger:
            continue
        outline, inputs = _outline(ledger, spectacles.frame, side)
        if outline is None:
            continue
        order = _placed(ledger, spectacles, side, outline, inputs)
        _uncut(ledger, order)
        if spectacles.lens.material is not None:
            shapes[side] = _body(ledger, spectacles, order)
    return shapes


def as_made(ledger: Ledger, spectacles: Spectacles, side: Side) -> CutLens | None:
    """The one lens as it is to be made, without its claims; OutOfRange where `issue` would raise it."""
    outline, inputs = _outline(ledger, spectacles.frame, side)
    if outline is None:
        return None
    order = _placed(ledger, spectacles, side, outline, inputs)
    _uncut(ledger, order)
    material = spectacles.lens.material
    if material is None:
        return None
    if f"{side}.front_curve" not in ledger:
        front_curve(ledger, spectacles, side)
    return _cut(ledger, spectacles, order, material, limits(ledger, spectacles, material, supplied=True))


def measures(ledger: Ledger, spectacles: Spectacles) -> None:
    """Box, pupils and decentration as far as they were given."""
    measured, frame = spectacles.measurements, spectacles.frame
    for name, value in (("a", frame.a_mm), ("b", frame.b_mm), ("dbl", frame.dbl_mm), ("ed", frame.ed_mm)):
        if value is not None:
            ledger.ordered(f"frame.{name}", value)
    for name, value in (("pd", measured.pd_mm), ("near_pd", measured.near_pd_mm)):
        if value is not None:
            ledger.ordered(f"pair.{name}", value)
    for side, pd, height in (
        ("right", measured.pd_right_mm, measured.height_right_mm),
        ("left", measured.pd_left_mm, measured.height_left_mm),
    ):
        if pd is not None:
            ledger.ordered(f"{side}.pd", pd)
        if height is not None:
            ledger.ordered(f"{side}.height", height)
    if "right.pd" in ledger and "left.pd" in ledger and "pair.pd" not in ledger:
        ledger.compute("pair.pd", comparison.whole_pd, right_mm="right.pd", left_mm="left.pd")
    whole = centres(ledger, spectacles)
    if whole is not None:
        ledger.derived("pair.centres", ledger.value(whole), centres, (whole,))
    if "frame.a" in ledger and "frame.dbl" in ledger:
        for side in SIDES:
            _decentred(ledger, side, whole)


def centres(ledger: Ledger, spectacles: Spectacles) -> str | None:
    """The claim that says how far apart the optical centres belong: the near distance for reading glasses."""
    if spectacles.lens.design == "reading" and "pair.near_pd" in ledger:
        return "pair.near_pd"
    return "pair.pd" if "pair.pd" in ledger else None


def _decentred(ledger: Ledger, side: Side, whole: str | None) -> None:
    box = {"a_mm": "frame.a", "dbl_mm": "frame.dbl"}
    claim_id = f"{side}.decentration"
    if f"{side}.pd" in ledger and whole != "pair.near_pd":
        ledger.compute(claim_id, centration.monocular_decentration, box, monocular_pd_mm=f"{side}.pd")
    elif whole is not None:
        ledger.compute(claim_id, centration.decentration, box, pd_mm=whole)


def _outline(ledger: Ledger, frame: Frame, side: Side) -> tuple[Outline | None, tuple[str, ...]]:
    """The traced outline, else a smooth curve through the box; with what it rests on."""
    traced = frame.outline(side)
    if traced is not None:
        return shape.outline_from_radii(radii_mm=traced), ("frame.a", "frame.dbl")
    if frame.a_mm is None or frame.b_mm is None:
        return None, ()
    outline = shape.outline_from_box(a_mm=frame.a_mm, b_mm=frame.b_mm, ed_mm=frame.ed_mm)
    named = ["frame.a", "frame.b", *(["frame.ed"] if "frame.ed" in ledger else [])]
    return outline, (*named, f"{FACT}rules.outline.from_box")


def _placed(ledger: Ledger, spectacles: Spectacles, side: Side, outline: Outline, inputs: tuple[str, ...]) -> _Order:
    """Where the optical centre stands: the fitting height counts only for lenses without a near part."""
    place: tuple[str, ...] = (f"{side}.decentration",)
    above = 0.0
    if height_counts(ledger, spectacles, side):
        above = centration.height_above_datum(height_mm=ledger.number(f"{side}.height"), b_mm=outline.b_mm)
        place += (f"{side}.height",)
    return _Order(side, outline, inputs, ledger.number(f"{side}.decentration"), above, place)


def height_counts(ledger: Ledger, spectacles: Spectacles, side: Side) -> bool:
    """Whether the fitting height places the optical centre: not where it places a near part."""
    return f"{side}.height" in ledger and spectacles.lens.design in (None, "single-vision", "reading")


def _uncut(ledger: Ledger, order: _Order) -> None:
    centred = shape.centred_on_pupil(
        order.outline, side=order.side, inward_mm=order.inward_mm, above_datum_mm=order.above_mm
    )
    ledger.derived(
        f"{order.side}.minimum_uncut",
        shape.minimum_uncut_mm(centred),
        shape.minimum_uncut_mm,
        (*order.outline_inputs, *order.place_inputs),
    )


def _body(ledger: Ledger, spectacles: Spectacles, order: _Order) -> LensShape:
    material = spectacles.lens.material
    assert material is not None
    curve = front_curve(ledger, spectacles, order.side)
    own_limits = limits(ledger, spectacles, material, supplied=True)
    reference_limits = limits(ledger, spectacles, REFERENCE, supplied=material == REFERENCE)
    made = _cut(ledger, spectacles, order, material, own_limits)
    reference = _cut_if_possible(ledger, spectacles, order, REFERENCE, reference_limits)
    common = (*_power_inputs(ledger, order.side), *order.outline_inputs, *order.place_inputs, curve)
    inputs = (*common, *own_limits, f"{FACT}material.{material}.index_d")
    reference_inputs = (*common, *reference_limits, f"{FACT}material.{REFERENCE}.index_d")
    _thicknesses(ledger, "thickness", made, material, inputs)
    if reference is not None:
        _thicknesses(ledger, "reference", reference, REFERENCE, reference_inputs)
        _savings(ledger, order.side)
    _other_materials(ledger, spectacles, order, common)
    return LensShape(order.outline, made, reference)


def _other_materials(ledger: Ledger, spectacles: Spectacles, order: _Order, common: tuple[str, ...]) -> None:
    """The same lens in each other generic material, for whoever compares: thickest place and weight."""
    for material in get_args(Material):
        if material in (spectacles.lens.material, REFERENCE):
            continue
        generic = limits(ledger, spectacles, material, supplied=False)
        lens = _cut_if_possible(ledger, spectacles, order, material, generic)
        if lens is None:
            continue
        index, density = (f"{FACT}material.{material}.{name}" for name in ("index_d", "density"))
        inputs = (*common, *generic, index)
        name = f"{order.side}.material.{material}"
        ledger.derived(f"{name}.thickest", lens.thickest_mm, thickness.cut_lens, inputs)
        mass = weight.mass_g(volume_cm3=lens.volume_cm3, density_g_cm3=ledger.number(density))
        ledger.derived(f"{name}.weight", mass, weight.mass_g, (*inputs, density))


def front_curve(ledger: Ledger, spectacles: Spectacles, side: Side) -> str:
    """The front curve: the workshop's, else the rule of thumb for the sign of the power. Returns its claim id."""
    claim_id = f"{side}.front_curve"
    given = spectacles.lens.supplied.front_curve_d
    if given is not None:
        ledger.supplied(claim_id, given)
        return claim_id
    made = f"{side}.made.mean_sphere"
    rule = f"{FACT}rules.front_curve.{'minus' if ledger.number(made) < 0 else 'plus'}"
    value = surface.usual_front_curve_d(mean_sphere_d=ledger.number(made))
    ledger.derived(claim_id, value, surface.usual_front_curve_d, (made, rule))
    return claim_id


def limits(ledger: Ledger, spectacles: Spectacles, material: str, *, supplied: bool) -> tuple[str, str]:
    """Least centre and edge thickness as claim or fact ids: the workshop's own, else the generic fact."""
    data, frame = spectacles.lens.supplied, spectacles.frame.material
    reference = data.reference_minimum_centre_mm if material == REFERENCE else None
    given = {
        "centre": data.minimum_centre_mm if supplied else reference,
        "edge": data.minimum_edge_mm,
    }
    found = []
    for part, value in given.items():
        claim_id = f"lens.minimum.{material}.{part}"
        if value is None:
            owner = frame if part == "edge" and frame in _GROOVED else material
            found.append(f"{FACT}thickness.{owner}.minimum_{part}.usual")
            continue
        if claim_id not in ledger:
            ledger.supplied(claim_id, value)
        found.append(claim_id)
    return found[0], found[1]


def form_of(ledger: Ledger, spectacles: Spectacles, side: Side, material: str) -> LensForm:
    """What the lens of one eye has to do in that material; its front curve is a claim by then."""
    eye = spectacles.prescription.eye(side)
    axis = f"{side}.made.axis"
    return LensForm(
        side=side,
        sphere_d=ledger.number(f"{side}.made.sphere"),
        cylinder_d=ledger.number(f"{side}.made.cylinder"),
        axis_deg=ledger.number(axis) if axis in ledger else None,
        prism_in_pd=eye.prism_in_pd,
        prism_up_pd=eye.prism_up_pd,
        index=facts.number(f"material.{material}.index_d"),
        front_power_d=ledger.number(f"{side}.front_curve"),
    )


def _cut(ledger: Ledger, spectacles: Spectacles, order: _Order, material: str, least: tuple[str, str]) -> CutLens:
    """The lens in that material; OutOfRange for one that cannot be made, or that is larger than any blank."""
    made = thickness.cut_lens(
        outline=order.outline,
        form=form_of(ledger, spectacles, order.side, material),
        minimum_centre_mm=ledger.number(least[0]),
        minimum_edge_mm=ledger.number(least[1]),
        inward_mm=order.inward_mm,
        above_datum_mm=order.above_mm,
    )
    weight.mass_g(volume_cm3=made.volume_cm3, density_g_cm3=facts.number(f"material.{material}.density"))
    return made


def _cut_if_possible(
    ledger: Ledger, spectacles: Spectacles, order: _Order, material: str, least: tuple[str, str]
) -> CutLens | None:
    """A lens of another material for comparison; None when it could not be made."""
    try:
        return _cut(ledger, spectacles, order, material, least)
    except OutOfRange:
        return None


def _power_inputs(ledger: Ledger, side: Side) -> tuple[str, ...]:
    names = ("made.sphere", "made.cylinder", "made.axis", "prism.horizontal", "prism.vertical")
    return tuple(f"{side}.{name}" for name in names if f"{side}.{name}" in ledger)


def _thicknesses(ledger: Ledger, kind: str, lens: CutLens, material: str, inputs: tuple[str, ...]) -> None:
    """Thicknesses and weight of one cut lens. `kind` is thickness, or reference for the lens in hard resin."""
    for place, field in _PLACES.items():
        ledger.derived(f"{lens.side}.{kind}.{place}", getattr(lens, field), thickness.cut_lens, inputs)
    density = f"material.{material}.density"
    mass = weight.mass_g(volume_cm3=lens.volume_cm3, density_g_cm3=facts.number(density))
    name = "weight" if kind == "thickness" else "reference_weight"
    ledger.derived(f"{lens.side}.{name}", mass, weight.mass_g, (*inputs, FACT + density))


def _savings(ledger: Ledger, side: Side) -> None:
    pairs = (
        ("thickness", f"{side}.thickness.thickest", f"{side}.reference.thickest"),
        ("weight", f"{side}.weight", f"{side}.reference_weight"),
    )
    for name, value, reference in pairs:
        ledger.compute(f"{side}.saving.{name}", comparison.share_saved, value=value, reference=reference)
