"""Whether a pair can exist at all, asked cheaply: what `explain` would refuse is refused, without its claims.

Bounds answer for nearly every order. Where they do not, and for traced rims, the one lens is computed.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from explainer.errors import OutOfRange
from explainer.optics import facts
from explainer.optics.claims import lens, sight, tint
from explainer.optics.claims.ledger import Ledger
from explainer.optics.formulas import centration, certainty, magnification, prescription, vertex
from explainer.optics.formulas.thickness import CutLens
from explainer.optics.spectacles import SIDES, Eye, LensChoice, LensData, Prescription, Side, Spectacles

USUAL_POWER_D = 20.0
_NO_POWER = Prescription(right=Eye(sphere_d=0.0), left=Eye(sphere_d=0.0))


def is_usual(spectacles: Spectacles) -> bool:
    """Whether every power is one that no formula refuses for its size alone."""
    pairs = [each for each in (spectacles.prescription, spectacles.previous) if each is not None]
    eyes = [pair.eye(side) for pair in pairs for side in SIDES]
    powers = [power for eye in eyes for power in (eye.sphere_d, eye.cylinder_d, eye.sphere_d + eye.cylinder_d)]
    return max(map(abs, powers)) <= USUAL_POWER_D


def check(ledger: Ledger, spectacles: Spectacles) -> None:
    """OutOfRange when the lenses cannot be made or seen through; the ledger has prescription and measures."""
    doubted = [s for s in SIDES if f"{s}.decentration" in ledger and not _surely(ledger, spectacles, s)]
    computed = {side: lens.as_made(ledger, spectacles, side) for side in doubted}
    for side in SIDES:
        _picture(ledger, spectacles, side, computed.get(side))
    refusal = _tint_refusal(_light_only(spectacles.lens))
    if refusal is not None:
        raise refusal


def _surely(ledger: Ledger, spectacles: Spectacles, side: Side) -> bool:
    frame, material = spectacles.frame, spectacles.lens.material
    if frame.outline(side) is not None:
        return False
    if frame.a_mm is None or frame.b_mm is None:
        return True  # there is no outline to cut
    above = 0.0
    if lens.height_counts(ledger, spectacles, side):
        above = centration.height_above_datum(height_mm=ledger.number(f"{side}.height"), b_mm=frame.b_mm)
    inward = ledger.number(f"{side}.decentration")
    reach = certainty.box_reach_mm(
        a_mm=frame.a_mm, b_mm=frame.b_mm, ed_mm=frame.ed_mm, inward_mm=inward, above_mm=above
    )
    if reach is None or material is None:
        return reach is not None
    lens.front_curve(ledger, spectacles, side)
    centre, edge = lens.limits(ledger, spectacles, material, supplied=True)
    return certainty.surely_cut(
        form=lens.form_of(ledger, spectacles, side, material),
        reach_mm=reach,
        minimum_centre_mm=ledger.number(centre),
        minimum_edge_mm=ledger.number(edge),
    )


def _picture(ledger: Ledger, spectacles: Spectacles, side: Side, made: CutLens | None) -> None:
    """The formulas of claims.sight that refuse: powers too strong for their distance from the eye, lenses too thick."""
    eye = spectacles.prescription.eye(side)
    mean = prescription.mean_sphere(sphere_d=eye.sphere_d, cylinder_d=eye.cylinder_d)
    given = spectacles.prescription.vertex_mm
    distance = ledger.number(sight.USUAL_VERTEX) if given is None else given
    magnification.eyes_seen(power_d=mean, vertex_mm=distance)
    vertex.ocular_refraction(spectacle_power_d=mean, vertex_mm=distance)
    if made is not None:
        index = facts.number(f"material.{spectacles.lens.material}.index_d")
        magnification.shape_factor(front_power_d=made.front_curve_d, thickness_mm=made.centre_mm, index=index)
    if f"{side}.front_curve" in ledger:
        magnification.power_factor(
            back_vertex_power_d=ledger.number(f"{side}.made.mean_sphere"),
            pupil_distance_mm=distance + facts.number("reference.entrance_pupil.behind_vertex"),
        )


def _light_only(choice: LensChoice) -> LensChoice:
    """The part of the choice that the tint depends on, so that one answer serves all orders of one lens."""
    data = choice.supplied
    known = LensData(
        clear_percent=data.clear_percent,
        dark_percent_by_celsius=data.dark_percent_by_celsius,
        darken_half_s=data.darken_half_s,
        fade_half_s=data.fade_half_s,
    )
    return replace(choice, design=None, material=None, tint_colour=None, coatings=frozenset(), supplied=known)


@lru_cache(maxsize=256)
def _tint_refusal(choice: LensChoice) -> OutOfRange | None:
    try:
        tint.issue(Ledger(), Spectacles(prescription=_NO_POWER, lens=choice))
    except OutOfRange as error:
        return error
    return None
