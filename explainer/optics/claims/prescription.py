"""Claims about the prescription: as received, as made, and what the numbers add up to."""

from __future__ import annotations

from explainer.optics.claims.ledger import FACT, Ledger
from explainer.optics.claims.working import Working
from explainer.optics.formulas import change, comparison, power_vector, prescription, turn, vertex
from explainer.optics.spectacles import SIDES, Eye, Prescription, Side, Spectacles


def issue(ledger: Ledger, spectacles: Spectacles) -> None:
    """All claims about the numbers themselves, eye by eye, then about the pair."""
    ledger.fact("steps.size", "reference.step.power")
    ledger.fact("axis.scale.flat", "advice.axis.flat")
    ledger.fact("axis.scale.upright", "advice.axis.upright")
    ledger.fact("turn.angle.small", "reference.turn.small")
    ledger.fact("turn.angle.large", "reference.turn.large")
    if spectacles.lens.design is not None:
        ledger.ordered("lens.design", spectacles.lens.design)
    for side in SIDES:
        eye = spectacles.prescription.eye(side)
        _received(ledger, side, eye)
        _sums(ledger, side, eye)
        _made(ledger, side, eye, for_near=spectacles.lens.design == "reading")
        if eye.axis_deg is not None:
            _turned(ledger, side)
        if spectacles.previous is not None:
            _changed(ledger, side, spectacles.previous)
    _pair(ledger)


def received(ledger: Ledger, side: Side, *, name: str = "") -> Working:
    """The lens of a side as received, from its claims; with name="previous." the one before, "made." the one made."""
    parts = {"sphere_d": f"{side}.{name}sphere", "cylinder_d": f"{side}.{name}cylinder"}
    if f"{side}.{name}axis" in ledger:
        parts["axis_deg"] = f"{side}.{name}axis"
    return ledger.work(prescription.sphero_cylinder, parts)


def _received(ledger: Ledger, side: Side, eye: Eye) -> None:
    ledger.ordered(f"{side}.sphere", eye.sphere_d)
    ledger.compute(f"{side}.sphere.kind", comparison.kind_of_power, power_d=f"{side}.sphere")
    ledger.ordered(f"{side}.cylinder", eye.cylinder_d)
    if eye.axis_deg is not None:
        ledger.ordered(f"{side}.axis", eye.axis_deg)
    if eye.add_d is not None:
        ledger.ordered(f"{side}.add", eye.add_d)
        ledger.compute(f"{side}.near_sphere", prescription.near_sphere, sphere_d=f"{side}.sphere", add_d=f"{side}.add")
    if eye.prism_in_pd or eye.prism_up_pd:
        ledger.ordered(f"{side}.prism.horizontal", eye.prism_in_pd)
        ledger.ordered(f"{side}.prism.vertical", eye.prism_up_pd)


def _sums(ledger: Ledger, side: Side, eye: Eye) -> None:
    power = {"sphere_d": f"{side}.sphere", "cylinder_d": f"{side}.cylinder"}
    ledger.compute(f"{side}.steps.sphere", prescription.quarter_steps, power_d=f"{side}.sphere")
    ledger.compute(f"{side}.steps.cylinder", prescription.quarter_steps, power_d=f"{side}.cylinder")
    principal = ledger.work(prescription.principal_powers, power)
    ledger.part(f"{side}.power.along_axis", principal.of("along_axis_d"))
    ledger.part(f"{side}.power.across_axis", principal.of("across_axis_d"))
    ledger.compute(f"{side}.mean_sphere", prescription.mean_sphere, power)
    ledger.compute(f"{side}.strongest", comparison.greatest_power, power)
    axis = {"axis_deg": f"{side}.axis"} if eye.axis_deg is not None else {}
    vector = ledger.work(power_vector.power_vector, {**power, **axis})
    for name, field in (("M", "m_d"), ("J0", "j0_d"), ("J45", "j45_d")):
        ledger.part(f"{side}.vector.{name}", vector.of(field))
    if max(ledger.number(f"{side}.power.along_axis"), ledger.number(f"{side}.power.across_axis")) < 0:
        ledger.compute(f"{side}.far_point", vertex.far_point_cm, ocular_refraction_d=f"{side}.mean_sphere")


def _made(ledger: Ledger, side: Side, eye: Eye, *, for_near: bool) -> None:
    """The lens as made: minus-cylinder form, and for reading glasses the near power."""
    near = eye.add_d is not None
    lens = _in_minus_form(ledger, side, eye, for_near=for_near)
    power = {"sphere_d": f"{side}.made.sphere", "cylinder_d": f"{side}.made.cylinder"}
    ledger.compute(f"{side}.made.kind", comparison.kind_of_power, power_d=f"{side}.made.sphere")
    ledger.compute(f"{side}.made.steps", prescription.quarter_steps, power_d=f"{side}.made.sphere")
    ledger.compute(f"{side}.made.mean_sphere", prescription.mean_sphere, power)
    ledger.compute(f"{side}.made.strongest", comparison.greatest_power, power)
    principal = ledger.work(prescription.principal_powers, power)
    for direction in ("along_axis", "across_axis"):
        ledger.part(f"{side}.made.power.{direction}", principal.of(f"{direction}_d"))
    if near and for_near:
        ledger.part(f"{side}.made.near_sphere", lens.of("sphere_d"))
    elif near:
        ledger.compute(
            f"{side}.made.near_sphere",
            prescription.near_sphere,
            sphere_d=f"{side}.made.sphere",
            add_d=f"{side}.add",
        )


def _in_minus_form(ledger: Ledger, side: Side, eye: Eye, *, for_near: bool) -> Working:
    """The lens as made, and the lens that its parts are taken from."""
    sphere = f"{side}.near_sphere" if for_near and eye.add_d is not None else f"{side}.sphere"
    written = {"sphere_d": sphere, "cylinder_d": f"{side}.cylinder"}
    if eye.axis_deg is not None:
        written["axis_deg"] = f"{side}.axis"
    lens = ledger.work(prescription.minus_cylinder_form, written)
    ledger.part(f"{side}.made.sphere", lens.of("sphere_d"))
    ledger.part(f"{side}.made.cylinder", lens.of("cylinder_d"))
    if eye.axis_deg is not None:
        ledger.part(f"{side}.made.axis", lens.of("axis_deg"))
    return lens


def _turned(ledger: Ledger, side: Side) -> None:
    for angle, size in (("5", "small"), ("10", "large")):
        ledger.compute(
            f"{side}.turn.{angle}.residual",
            turn.residual_cylinder,
            cylinder_d=f"{side}.cylinder",
            turn_deg=f"turn.angle.{size}",
        )


def _changed(ledger: Ledger, side: Side, previous: Prescription) -> None:
    before = previous.eye(side)
    ledger.ordered(f"{side}.previous.sphere", before.sphere_d)
    ledger.ordered(f"{side}.previous.cylinder", before.cylinder_d)
    if before.axis_deg is not None:
        ledger.ordered(f"{side}.previous.axis", before.axis_deg)
    both = {"previous": received(ledger, side, name="previous."), "new": received(ledger, side)}
    ledger.compute(f"{side}.change", change.change_strength, both)
    ledger.compute(
        f"{side}.change.oblique",
        change.is_oblique_change,
        both,
        threshold_d=f"{FACT}reference.oblique_change.threshold",
    )


def _pair(ledger: Ledger) -> None:
    powers = {"right_d": "right.made.strongest", "left_d": "left.made.strongest"}
    ledger.compute("pair.stronger", comparison.stronger_lens, powers)
    ledger.compute(
        "pair.alike",
        comparison.about_equally_strong,
        right_mean_d="right.made.mean_sphere",
        left_mean_d="left.made.mean_sphere",
        right_strongest_d="right.strongest",
        left_strongest_d="left.strongest",
        step_d=f"{FACT}reference.step.power",
    )
    ledger.compute(
        "pair.anisometropia", comparison.difference, first_d="right.mean_sphere", second_d="left.mean_sphere"
    )
