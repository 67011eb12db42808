"""Claims about the real lens: where its centre stands, how thick and heavy it is, against hard resin."""

from __future__ import annotations

from dataclasses import dataclass

from explainer.errors import OutOfRange
from explainer.optics.claims import centre
from explainer.optics.claims.ledger import FACT, Ledger
from explainer.optics.claims.working import Plain, Ref, Working, middle
from explainer.optics.formulas import centration, comparison, shape, surface, thickness, weight
from explainer.optics.formulas.lens_body import LensForm
from explainer.optics.formulas.shape import Outline
from explainer.optics.formulas.thickness import CutLens
from explainer.optics.spectacles import SIDES, Frame, Side, Spectacles

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
    """What the lens of one eye is cut from: its outline, and how far above the middle its centre stands."""

    side: Side
    outline: Working
    above: Ref

    @property
    def place(self) -> dict[str, Ref]:
        """Where the point before the pupil lies on the outline."""
        return {"inward_mm": f"{self.side}.decentration", "above_datum_mm": self.above}


def issue(ledger: Ledger, spectacles: Spectacles) -> dict[Side, LensShape]:
    """Centration where the frame and the pupils are known; the lens body where the material is known too."""
    measures(ledger, spectacles)
    shapes: dict[Side, LensShape] = {}
    for side in SIDES:
        outline = _outline(ledger, spectacles.frame, side) if f"{side}.decentration" in ledger else None
        if outline is None:
            continue
        order = _Order(side, outline, _above(ledger, spectacles, side, outline))
        centred = ledger.work(shape.centred_on_pupil, order.place, outline=outline, side=Plain(side))
        ledger.compute(f"{side}.minimum_uncut", shape.minimum_uncut_mm, outline=centred)
        if f"{side}.traced" in ledger:
            ledger.part(f"{side}.circumference", outline.of("circumference_mm"))
        if spectacles.lens.material is not None:
            shapes[side] = _body(ledger, spectacles, spectacles.lens.material, order)
    return shapes


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
    whole = points_apart(ledger, spectacles)
    if whole is not None:
        ledger.compute("pair.reference_points", centration.points_apart, pd_mm=whole)
    if "frame.a" in ledger and "frame.dbl" in ledger:
        for side in SIDES:
            _decentred(ledger, side, whole)
    centre.issue(ledger, spectacles)


def points_apart(ledger: Ledger, spectacles: Spectacles) -> str | None:
    """The claim that says how far apart the reference points belong: the near distance for reading glasses."""
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


def _outline(ledger: Ledger, frame: Frame, side: Side) -> Working | None:
    """The traced outline, else a smooth curve through the box."""
    traced = frame.outline(side)
    if traced is not None:
        ledger.ordered(f"{side}.traced", len(traced))
        return ledger.work(shape.outline_from_radii, radii_mm=ledger.carry(f"{side}.traced", traced))
    if frame.a_mm is None or frame.b_mm is None:
        return None
    box: dict[str, Ref] = {"a_mm": "frame.a", "b_mm": "frame.b", "rule": f"{FACT}rules.outline.from_box"}
    if frame.ed_mm is None:
        box["exponent"] = f"{FACT}rules.outline.exponent"
    else:
        box["ed_mm"] = "frame.ed"
    return ledger.work(shape.outline_from_box, box)


def _above(ledger: Ledger, spectacles: Spectacles, side: Side, outline: Working) -> Ref:
    """How far above the middle of the box the centre stands: the height counts only for lenses without a near part."""
    if f"{side}.height" not in ledger or spectacles.lens.design not in (None, "single-vision", "reading"):
        return Plain(0.0)
    return ledger.work(centration.height_above_datum, height_mm=f"{side}.height", b_mm=outline.of("b_mm"))


def _body(ledger: Ledger, spectacles: Spectacles, material: str, order: _Order) -> LensShape:
    front_curve(ledger, spectacles, order.side)
    made = _cut(ledger, order, material, _least(ledger, spectacles, order.side, material))
    _thicknesses(ledger, "thickness", order.side, made, material)
    for direction in ("along_axis", "across_axis"):
        ledger.part(f"{order.side}.back_curve.{direction}", made.of(f"back_curve_{direction}_d"))
    least = limits(ledger, spectacles, REFERENCE, supplied=material == REFERENCE)
    try:
        reference = _cut(ledger, order, REFERENCE, least)
    except OutOfRange:  # hard resin would be too thick to be made: there is nothing to compare with
        return LensShape(order.outline.result, made.result, None)
    _thicknesses(ledger, "reference", order.side, reference, REFERENCE)
    _savings(ledger, order.side)
    return LensShape(order.outline.result, made.result, reference.result)


def front_curve(ledger: Ledger, spectacles: Spectacles, side: Side) -> None:
    """The front curve: the workshop's, else the rule of thumb for the sign of the power."""
    given = spectacles.lens.supplied.front_curve_d
    if given is not None:
        ledger.supplied(f"{side}.front_curve", given)
        return
    made = f"{side}.made.mean_sphere"
    ledger.compute(
        f"{side}.front_curve",
        surface.usual_front_curve_d,
        mean_sphere_d=made,
        flat_d=f"{FACT}rules.front_curve.{'minus' if ledger.number(made) < 0 else 'plus'}",
    )


def limits(ledger: Ledger, spectacles: Spectacles, material: str, *, supplied: bool) -> dict[str, str]:
    """Least centre and edge thickness as claim or fact ids: the workshop's own, else the generic fact."""
    data, frame = spectacles.lens.supplied, spectacles.frame.material
    reference = data.reference_minimum_centre_mm if material == REFERENCE else None
    given = {
        "centre": data.minimum_centre_mm if supplied else reference,
        "edge": data.minimum_edge_mm,
    }
    found = {}
    for part, value in given.items():
        claim_id = f"lens.minimum.{material}.{part}"
        if value is None:
            owner = frame if part == "edge" and frame in _GROOVED else material
            claim_id = f"{FACT}thickness.{owner}.minimum_{part}.usual"
        elif claim_id not in ledger:
            ledger.supplied(claim_id, value)
        found[f"minimum_{part}_mm"] = claim_id
    return found


def _least(ledger: Ledger, spectacles: Spectacles, side: Side, material: str) -> dict[str, str]:
    """What the lens is cut to: its centre as it was measured, or the least centre and edge that are usual."""
    measured = spectacles.readings.of("centre_thickness", side) if spectacles.readings else None
    if measured is None:
        return limits(ledger, spectacles, material, supplied=True)
    ledger.measured(f"bench.{side}.thickness.reading", measured)
    return {
        "minimum_centre_mm": f"bench.{side}.thickness.reading",
        "minimum_edge_mm": f"{FACT}rules.edge.when_measured",
    }


def _cut(ledger: Ledger, order: _Order, material: str, least: dict[str, str]) -> Working:
    """The lens in that material; OutOfRange for one that cannot be made, or that is larger than any blank."""
    form = ledger.work(
        LensForm,
        _powers(ledger, order.side),
        side=Plain(order.side),
        index=middle(f"{FACT}material.{material}.index_d"),
        front_power_d=f"{order.side}.front_curve",
    )
    made = ledger.work(thickness.cut_lens, {**order.place, **least}, outline=order.outline, form=form)
    _mass(ledger, made, material)
    return made


def _mass(ledger: Ledger, lens: Working, material: str) -> Working:
    density = middle(f"{FACT}material.{material}.density")
    return ledger.work(weight.mass_g, volume_cm3=lens.of("volume_cm3"), density_g_cm3=density)


def _powers(ledger: Ledger, side: Side) -> dict[str, str]:
    names = {
        "sphere_d": "made.sphere",
        "cylinder_d": "made.cylinder",
        "axis_deg": "made.axis",
        "prism_in_pd": "prism.horizontal",
        "prism_up_pd": "prism.vertical",
    }
    return {word: f"{side}.{name}" for word, name in names.items() if f"{side}.{name}" in ledger}


def _thicknesses(ledger: Ledger, kind: str, side: Side, lens: Working, material: str) -> None:
    """Thicknesses and weight of one cut lens. `kind` is thickness, or reference for the lens in hard resin."""
    measured = f"bench.{side}.thickness.reading"
    for place, field in _PLACES.items():
        if place == "centre" and kind == "thickness" and measured in ledger:
            ledger.measured(f"{side}.{kind}.{place}", ledger.value(measured))
        else:
            ledger.part(f"{side}.{kind}.{place}", lens.of(field))
    ledger.part(f"{side}.{'weight' if kind == 'thickness' else 'reference_weight'}", _mass(ledger, lens, material))


def _savings(ledger: Ledger, side: Side) -> None:
    pairs = (
        ("thickness", f"{side}.thickness.thickest", f"{side}.reference.thickest"),
        ("weight", f"{side}.weight", f"{side}.reference_weight"),
    )
    for name, value, reference in pairs:
        ledger.compute(f"{side}.saving.{name}", comparison.share_saved, value=value, reference=reference)
