"""Claims about the prescription: as received, as made, and what the numbers add up to."""

from __future__ import annotations

from explainer.optics.claims.ledger import Ledger
from explainer.optics.formulas import change, comparison, power_vector, prescription, turn, vertex
from explainer.optics.formulas.prescription import SpheroCylinder
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
            _changed(ledger, side, eye, spectacles.previous)
    _pair(ledger)


def issue_made(ledger: Ledger, spectacles: Spectacles) -> None:
    """Only what the bench is judged against: the numbers as received, and the lenses as they should have been made."""
    if spectacles.lens.design is not None:
        ledger.ordered("lens.design", spectacles.lens.design)
    for side in SIDES:
        eye = spectacles.prescription.eye(side)
        _received(ledger, side, eye)
        _in_minus_form(ledger, side, eye, for_near=spectacles.lens.design == "reading")
        made_mean_sphere(ledger, side)


def lens_of(eye: Eye) -> SpheroCylinder:
    """An eye's distance power as a lens."""
    return prescription.sphero_cylinder(
        sphere_d=eye.sphere_d, cylinder_d=eye.cylinder_d, axis_deg=eye.axis_deg or 180.0
    )


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
    ledger.compute(f"{side}.power.along_axis", prescription.principal_powers, power, pick="along_axis_d")
    ledger.compute(f"{side}.power.across_axis", prescription.principal_powers, power, pick="across_axis_d")
    ledger.compute(f"{side}.mean_sphere", prescription.mean_sphere, power)
    ledger.compute(f"{side}.strongest", comparison.greatest_power, power)
    lens = lens_of(eye)
    vector = power_vector.power_vector(sphere_d=lens.sphere_d, cylinder_d=lens.cylinder_d, axis_deg=lens.axis_deg)
    inputs = (*power.values(), *((f"{side}.axis",) if eye.axis_deg is not None else ()))
    for name, value in (("M", vector.m_d), ("J0", vector.j0_d), ("J45", vector.j45_d)):
        ledger.derived(f"{side}.vector.{name}", value + 0.0, power_vector.power_vector, inputs)
    if max(ledger.number(f"{side}.power.along_axis"), ledger.number(f"{side}.power.across_axis")) < 0:
        ledger.compute(f"{side}.far_point", vertex.far_point_cm, ocular_refraction_d=f"{side}.mean_sphere")


def _made(ledger: Ledger, side: Side, eye: Eye, *, for_near: bool) -> None:
    """The lens as made: minus-cylinder form, and for reading glasses the near power."""
    near = eye.add_d is not None
    inputs = _in_minus_form(ledger, side, eye, for_near=for_near)
    power = {"sphere_d": f"{side}.made.sphere", "cylinder_d": f"{side}.made.cylinder"}
    ledger.compute(f"{side}.made.kind", comparison.kind_of_power, power_d=f"{side}.made.sphere")
    ledger.compute(f"{side}.made.steps", prescription.quarter_steps, power_d=f"{side}.made.sphere")
    made_mean_sphere(ledger, side)
    ledger.compute(f"{side}.made.strongest", comparison.greatest_power, power)
    for direction in ("along_axis", "across_axis"):
        claim_id = f"{side}.made.power.{direction}"
        ledger.compute(claim_id, prescription.principal_powers, power, pick=f"{direction}_d")
    if near and for_near:
        ledger.derived(
            f"{side}.made.near_sphere",
            ledger.number(f"{side}.made.sphere"),
            prescription.minus_cylinder_form,
            inputs,
        )
    elif near:
        ledger.compute(
            f"{side}.made.near_sphere",
            prescription.near_sphere,
            sphere_d=f"{side}.made.sphere",
            add_d=f"{side}.add",
        )


def _in_minus_form(ledger: Ledger, side: Side, eye: Eye, *, for_near: bool) -> tuple[str, ...]:
    """The lens as made; returns the claims that it was turned from."""
    sphere = f"{side}.near_sphere" if for_near and eye.add_d is not None else f"{side}.sphere"
    axis = (f"{side}.axis",) if eye.axis_deg is not None else ()
    lens = prescription.minus_cylinder_form(
        sphere_d=ledger.number(sphere), cylinder_d=eye.cylinder_d, axis_deg=eye.axis_deg or 180.0
    )
    inputs = (sphere, f"{side}.cylinder", *axis)
    ledger.derived(f"{side}.made.sphere", lens.sphere_d, prescription.minus_cylinder_form, inputs)
    ledger.derived(f"{side}.made.cylinder", lens.cylinder_d, prescription.minus_cylinder_form, inputs)
    if axis:
        ledger.derived(f"{side}.made.axis", lens.axis_deg, prescription.minus_cylinder_form, inputs)
    return inputs


def made_mean_sphere(ledger: Ledger, side: Side) -> None:
    """Sphere plus half the cylinder of the lens as made."""
    power = {"sphere_d": f"{side}.made.sphere", "cylinder_d": f"{side}.made.cylinder"}
    ledger.compute(f"{side}.made.mean_sphere", prescription.mean_sphere, power)


def _turned(ledger: Ledger, side: Side) -> None:
    for angle, size in (("5", "small"), ("10", "large")):
        ledger.compute(
            f"{side}.turn.{angle}.residual",
            turn.residual_cylinder,
            cylinder_d=f"{side}.cylinder",
            turn_deg=f"turn.angle.{size}",
        )


def _changed(ledger: Ledger, side: Side, eye: Eye, previous: Prescription) -> None:
    before, now = lens_of(previous.eye(side)), lens_of(eye)
    inputs: tuple[str, ...] = (
        f"{side}.sphere",
        f"{side}.cylinder",
        f"{side}.previous.sphere",
        f"{side}.previous.cylinder",
    )
    ledger.ordered(f"{side}.previous.sphere", before.sphere_d)
    ledger.ordered(f"{side}.previous.cylinder", before.cylinder_d)
    if previous.eye(side).axis_deg is not None:
        ledger.ordered(f"{side}.previous.axis", before.axis_deg)
        inputs += (f"{side}.previous.axis",)
    if eye.axis_deg is not None:
        inputs += (f"{side}.axis",)
    strength = change.change_strength(previous=before, new=now)
    ledger.derived(f"{side}.change", strength, change.change_strength, inputs)
    threshold = "fact:reference.oblique_change.threshold"
    oblique = change.is_oblique_change(previous=before, new=now, threshold_d=ledger.number(threshold))
    ledger.derived(f"{side}.change.oblique", oblique, change.is_oblique_change, (*inputs, threshold))


def _pair(ledger: Ledger) -> None:
    powers = {"right_d": "right.made.strongest", "left_d": "left.made.strongest"}
    ledger.compute("pair.stronger", comparison.stronger_lens, powers)
    ledger.compute(
        "pair.anisometropia", comparison.difference, first_d="right.mean_sphere", second_d="left.mean_sphere"
    )
