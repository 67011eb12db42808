"""The names that other programs may rely on, and what every claim must carry."""

from __future__ import annotations

import pytest
from pairs import ORDINARY, lens, pair

from explainer.optics import facts
from explainer.optics.claim import Basis, Interval
from explainer.optics.claims import explain
from explainer.optics.claims.ledger import FACT
from explainer.optics.spectacles import Eye, Prescription

EYE_NAMES = """sphere cylinder axis steps.sphere steps.cylinder power.along_axis power.across_axis mean_sphere far_point
turn.5.residual turn.10.residual axis_tolerance blur.along_axis blur.across_axis decentration minimum_uncut
thickness.centre thickness.thinnest thickness.thickest thickness.nasal thickness.temporal weight saving.thickness
saving.weight reflection.per_surface transmission.uncoated colour_fringe.at_10mm magnification.spectacle
magnification.eyes_seen""".split()
PLACES = """bench summer_noon open_shade overcast snow windscreen_low_sun windscreen_shaded side_window_clear
side_window_green convertible""".split()
CLAIMS = explain(ORDINARY).claims


@pytest.mark.parametrize("side", ["right", "left"])
@pytest.mark.parametrize("name", EYE_NAMES)
def test_every_promised_name_of_an_eye_is_issued(side: str, name: str):
    assert f"{side}.{name}" in CLAIMS


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("celsius", [5, 23, 35])
def test_every_place_has_its_light_as_an_interval_of_percent(place: str, celsius: int):
    claim = CLAIMS[f"tint.{place}.{celsius}.transmittance"]

    assert claim.unit == "percent"
    assert isinstance(claim.value, Interval)
    assert 0 < claim.value.low < claim.value.high <= 100


@pytest.mark.parametrize("name", ["tint.fade.23.to_75", "tint.darken.5.half", "tint.fade.35.to_75"])
def test_the_times_of_the_tint_are_in_seconds(name: str):
    assert CLAIMS[name].unit == "s"


def test_pair_names_are_issued():
    assert {"pair.anisometropia", "pair.prism.vertical_at_10mm_down"} <= set(CLAIMS)


def test_bench_verdicts_are_words_of_the_closed_set():
    verdicts = [claim.value for claim in CLAIMS.values() if claim.id.endswith(".verdict")]

    assert len(verdicts) == 7
    assert set(verdicts) <= {"inside", "outside", "not-checked"}


def test_addition_and_prism_are_issued_when_prescribed():
    eye = Eye(sphere_d=1.0, add_d=2.0, prism_in_pd=-1.5, prism_up_pd=0.5)

    claims = explain(pair(prescription=Prescription(right=eye, left=eye))).claims

    assert claims.value("right.add") == 2.0
    assert claims.value("left.near_sphere") == 3.0
    assert claims.value("right.prism.horizontal") == -1.5
    assert claims.value("left.prism.vertical") == 0.5


@pytest.mark.parametrize("claim", CLAIMS.values(), ids=lambda claim: claim.id)
def test_every_claim_shows_how_it_came_about(claim):
    assert claim.unit
    assert isinstance(claim.basis, Basis)
    if claim.basis is Basis.COMPUTED:
        assert claim.formula
        assert claim.inputs
    for ref in claim.inputs:
        assert facts.get(ref.removeprefix(FACT)) if ref.startswith(FACT) else ref in CLAIMS


@pytest.mark.parametrize("claim", CLAIMS.values(), ids=lambda claim: claim.id)
def test_no_claim_is_stronger_than_what_it_rests_on(claim):
    below = [
        facts.get(ref.removeprefix(FACT)).basis if ref.startswith(FACT) else CLAIMS[ref].weakest for ref in claim.inputs
    ]

    assert all(claim.weakest.strength >= each.strength for each in below)


def test_a_remembered_minimum_marks_the_thickness_as_remembered():
    from explainer.optics.spectacles import LensData

    claims = explain(lens(supplied=LensData())).claims

    assert claims["right.thickness.thickest"].weakest is Basis.MEMORY
    assert claims["right.thickness.thickest"].basis is Basis.COMPUTED


def test_inputs_come_before_what_rests_on_them():
    order = list(CLAIMS)

    for claim in CLAIMS.values():
        assert all(order.index(ref) < order.index(claim.id) for ref in claim.inputs if not ref.startswith(FACT))
