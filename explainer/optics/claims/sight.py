"""Claims about what the eye sees: blur without glasses, picture size, how the eyes look to others, focusing reserve."""

from __future__ import annotations

from explainer.optics.claims.ledger import FACT, Ledger
from explainer.optics.claims.prescription import received
from explainer.optics.formulas import accommodation, blur, comparison, imbalance, magnification, vertex
from explainer.optics.spectacles import SIDES, Side, Spectacles

USUAL_VERTEX = f"{FACT}reference.vertex.at_refraction"


def issue(ledger: Ledger, spectacles: Spectacles) -> None:
    """Blur for everybody; magnification with the lens body; focusing where the age is known."""
    ledger.fact("sight.pupil", "reference.pupil.assumed")
    given = spectacles.prescription.vertex_mm
    if given is not None:
        ledger.ordered("pair.vertex", given)
    distance = USUAL_VERTEX if given is None else "pair.vertex"
    for side in SIDES:
        _blur(ledger, side)
        ledger.compute(
            f"{side}.magnification.eyes_seen",
            magnification.eyes_seen,
            power_d=f"{side}.mean_sphere",
            vertex_mm=distance,
        )
        ledger.compute(
            f"{side}.vertex.power_at_eye",
            vertex.ocular_refraction,
            spectacle_power_d=f"{side}.mean_sphere",
            vertex_mm=distance,
        )
        if f"{side}.thickness.centre" in ledger:
            _picture_size(ledger, side, distance)
    _focusing(ledger, spectacles)
    _down(ledger)


def _blur(ledger: Ledger, side: Side) -> None:
    for direction in ("along_axis", "across_axis"):
        ledger.compute(
            f"{side}.blur.{direction}",
            blur.blur_angle_mrad,
            pupil_mm="sight.pupil",
            defocus_d=f"{side}.power.{direction}",
        )


def _picture_size(ledger: Ledger, side: Side, distance: str) -> None:
    """Magnification counts to the entrance pupil, which lies behind the cornea."""
    index = f"{FACT}material.{ledger.value('lens.material')}.index_d"
    pupil = f"{side}.pupil_distance"
    ledger.compute(
        pupil,
        comparison.pupil_distance,
        vertex_mm=distance,
        entrance_pupil_mm=f"{FACT}reference.entrance_pupil.behind_vertex",
    )
    ledger.compute(
        f"{side}.magnification.spectacle",
        magnification.spectacle_magnification,
        front_power_d=f"{side}.front_curve",
        back_vertex_power_d=f"{side}.made.mean_sphere",
        thickness_mm=f"{side}.thickness.centre",
        index=index,
        pupil_distance_mm=pupil,
    )


def _focusing(ledger: Ledger, spectacles: Spectacles) -> None:
    if spectacles.wearer.age_years is None:
        return
    age = ledger.number("wearer.age")
    if not 5 <= age <= 120:  # the range of the published formulas
        return
    amplitude = ledger.work(
        accommodation.amplitude_range, age_years="wearer.age", rule=f"{FACT}rules.accommodation.by_age"
    )
    ledger.part("wearer.accommodation", amplitude.span("least_d", "greatest_d"))
    for side in SIDES:
        if ledger.number(f"{side}.mean_sphere") > 0:
            ledger.compute(
                f"{side}.focus_help",
                accommodation.focused_away,
                refraction_d=f"{side}.mean_sphere",
                amplitude_d="wearer.accommodation",
            )


def _down(ledger: Ledger) -> None:
    """Vertical prism that both lenses give when the eyes look below the centres."""
    ledger.compute(
        "pair.prism.vertical_at_10mm_down",
        imbalance.vertical_difference_down,
        right=received(ledger, "right"),
        left=received(ledger, "left"),
        down_mm=f"{FACT}reference.reading.drop",
    )
