"""Claims that only the workshop's sheet shows: what a focimeter, a gauge and a protractor say of the finished lens."""

from __future__ import annotations

from contextlib import suppress

from explainer.errors import OutOfRange
from explainer.optics.claims.ledger import FACT, Ledger
from explainer.optics.claims.working import Plain, Ref, middle
from explainer.optics.formulas import centration, chromatic, near_range, prescription, prism, thick_lens, tilt
from explainer.optics.spectacles import SIDES, Frame, Side, Spectacles

_DIRECTIONS = ("along_axis", "across_axis")
_MERIDIANS = {"horizontal": 180.0, "vertical": 90.0}
_POWER = {"sphere_d": "made.sphere", "cylinder_d": "made.cylinder", "axis_deg": "made.axis"}
_LEAST_GATHERING_D = 0.25  # weaker lenses gather sunlight farther off than they lie from anything
_LEAST_FRINGING_D = 0.01  # weaker lenses spread no colours


def issue(ledger: Ledger, spectacles: Spectacles) -> None:
    """Lens by lens, as far as curves, prism, tilt and near distances are known."""
    _slant(ledger, spectacles.frame)
    for side in SIDES:
        _meridians(ledger, side)
        if f"{side}.back_curve.along_axis" in ledger:
            _through_the_lens(ledger, side)
        if f"{side}.prism.horizontal" in ledger:
            _one_prism(ledger, side)
        if "lens.abbe" in ledger and ledger.number(f"{side}.strongest") >= _LEAST_FRINGING_D:
            _fringe(ledger, side)
        if ledger.number(f"{side}.made.sphere") >= _LEAST_GATHERING_D:
            ledger.compute(f"{side}.fire_focus", near_range.fire_focus_mm, power_d=f"{side}.made.sphere")
        if "frame.pantoscopic_tilt" in ledger or "frame.wrap" in ledger:
            _worn(ledger, side)
        if f"{side}.minimum_uncut" not in ledger and f"{side}.decentration" in ledger and "frame.ed" in ledger:
            _uncut_by_bound(ledger, side)
    _near_part(ledger, spectacles)


def _slant(ledger: Ledger, frame: Frame) -> None:
    for name, value in (("pantoscopic_tilt", frame.pantoscopic_tilt_deg), ("wrap", frame.wrap_deg)):
        if value is not None:
            ledger.ordered(f"frame.{name}", value)
    if frame.pantoscopic_tilt_deg is not None and frame.pantoscopic_tilt_deg >= 0:
        ledger.compute(
            "pair.centre_drop",
            tilt.centre_drop_mm,
            tilt_deg="frame.pantoscopic_tilt",
            degrees_per_mm=f"{FACT}reference.centre_drop.degrees_per_mm",
        )


def _lens(ledger: Ledger, side: Side) -> dict[str, Ref]:
    return {word: f"{side}.{name}" for word, name in _POWER.items() if f"{side}.{name}" in ledger}


def _meridians(ledger: Ledger, side: Side) -> None:
    """The powers by which prism from a wrong centring is reckoned, sideways and up and down."""
    for name, meridian in _MERIDIANS.items():
        claim_id = f"{side}.made.power.{name}"
        power = prescription.power_in_meridian
        ledger.compute(claim_id, power, _lens(ledger, side), meridian_deg=Plain(meridian))


def _through_the_lens(ledger: Ledger, side: Side) -> None:
    """Both principal powers, as a focimeter reads them at the back and at the front, and the equivalent powers."""
    lens: dict[str, Ref] = {
        "front_d": f"{side}.front_curve",
        "thickness_mm": f"{side}.thickness.centre",
        "index": middle(f"{FACT}material.{ledger.value('lens.material')}.index_d"),
    }
    formulas = {
        "back_vertex": thick_lens.back_vertex_power,
        "front_vertex": thick_lens.front_vertex_power,
        "equivalent": thick_lens.equivalent_power,
    }
    for direction in _DIRECTIONS:
        for name, formula in formulas.items():
            with suppress(OutOfRange):  # a lens beyond the range of the formula is not refused for its sheet
                back = f"{side}.back_curve.{direction}"
                ledger.compute(f"{side}.{name}.{direction}", formula, lens, back_d=back)


def _one_prism(ledger: Ledger, side: Side) -> None:
    parts = {"base_in_pd": f"{side}.prism.horizontal", "base_up_pd": f"{side}.prism.vertical"}
    whole = ledger.work(prism.base_setting, parts, side=Plain(side))
    ledger.part(f"{side}.prism.whole", whole.of("amount_pd"))
    ledger.part(f"{side}.prism.base", whole.of("base_deg"))


def _fringe(ledger: Ledger, side: Side) -> None:
    ledger.compute(
        f"{side}.colour_fringe.seen_from",
        chromatic.threshold_distance_mm,
        power_d=f"{side}.strongest",
        abbe="lens.abbe",
        threshold_pd=f"{FACT}reference.chromatic.threshold",
    )


def _worn(ledger: Ledger, side: Side) -> None:
    """What the lens acts like at the slant at which the front is worn."""
    if "lens.material" not in ledger:
        return
    given = {"pantoscopic_deg": "frame.pantoscopic_tilt", "wrap_deg": "frame.wrap"}
    slant = ledger.work(tilt.whole_slant, {word: ref for word, ref in given.items() if ref in ledger}, side=Plain(side))
    index = middle(f"{FACT}material.{ledger.value('lens.material')}.index_d")
    ledger.part(f"{side}.worn.tilt", slant.of("tilt_deg"))
    with suppress(OutOfRange):
        turned = ledger.work(
            tilt.tilted_lens,
            _lens(ledger, side),
            tilt_deg=slant.of("tilt_deg"),
            hinge_axis_deg=slant.of("hinge_axis_deg"),
            index=index,
        )
        parts: dict[str, Ref] = {name: turned.of(name) for name in _POWER}
        worn = ledger.work(prescription.minus_cylinder_form, parts)
        for name, field in (("sphere", "sphere_d"), ("cylinder", "cylinder_d"), ("axis", "axis_deg")):
            ledger.part(f"{side}.worn.{name}", worn.of(field))


def _uncut_by_bound(ledger: Ledger, side: Side) -> None:
    """Without an outline the effective diameter gives an upper bound."""
    ledger.compute(
        f"{side}.minimum_uncut",
        centration.minimum_uncut,
        ed_mm="frame.ed",
        decentration_mm=f"{side}.decentration",
    )


def _near_part(ledger: Ledger, spectacles: Spectacles) -> None:
    """How far inward the near parts stand from the distance centres, and from the middle of the box."""
    if spectacles.lens.design not in ("bifocal", "progressive") or "pair.near_pd" not in ledger:
        return
    if "pair.pd" in ledger:
        ledger.compute("pair.near_inset", centration.segment_inset, distance_pd_mm="pair.pd", near_pd_mm="pair.near_pd")
    if "frame.a" in ledger and "frame.dbl" in ledger:
        ledger.compute(
            "pair.near_inset.whole",
            centration.total_inset,
            a_mm="frame.a",
            dbl_mm="frame.dbl",
            near_pd_mm="pair.near_pd",
        )
