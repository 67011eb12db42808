"""The truth table of cautions: which order calls for which, and no other."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from pairs import ORDINARY, lens, pair, spectacles
from scoring.caution_table import called_for

from explainer.errors import OutOfRange
from explainer.optics.claims import explain
from explainer.optics.claims.cautions import RULES
from explainer.optics.spectacles import Eye, LensData, Prescription, Spectacles, Wearer

PLAIN = replace(
    lens(tint="clear", material="hard-resin"),
    prescription=Prescription(right=Eye(sphere_d=-1.0), left=Eye(sphere_d=-1.0)),
    previous=None,
    readings=None,
    wearer=Wearer(age_years=40),
)


def plain(**changes) -> Spectacles:
    return replace(PLAIN, **changes)


def choice(**changes) -> Spectacles:
    return replace(PLAIN, lens=replace(PLAIN.lens, **changes))


def prescription(right: Eye, left: Eye) -> Spectacles:
    return plain(prescription=Prescription(right=right, left=left))


MINUS_ONE = Eye(sphere_d=-1.0)
TABLE = [
    ("clear everyday lenses", PLAIN, {}),
    ("light-reactive", choice(tint="photochromic"), {"night_tint", "cold_tint", "sun"}),
    ("light-reactive to visible light", choice(tint="photochromic-visible"), {"night_tint", "cold_tint", "sun"}),
    (
        "light-reactive, supplied as dark even when clear",
        choice(tint="photochromic", supplied=LensData(clear_percent=72.0)),
        {"fixed_dark", "cold_tint", "sun"},
    ),
    ("fixed category 0", choice(tint="fixed", tint_category=0), {"sun"}),
    ("fixed category 1", choice(tint="fixed", tint_category=1), {"sun", "fixed_dark"}),
    ("fixed category 3", choice(tint="fixed", tint_category=3), {"sun", "fixed_dark"}),
    ("fixed category 4", choice(tint="fixed", tint_category=4), {"sun", "fixed_dark", "too_dark"}),
    ("fixed, measured at 74", choice(tint="fixed", tint_percent=74.0), {"sun", "fixed_dark"}),
    ("fixed, measured at 75", choice(tint="fixed", tint_percent=75.0), {"sun"}),
    ("progressive", choice(design="progressive"), {"stairs"}),
    ("bifocal", choice(design="bifocal"), {"stairs"}),
    ("reading", choice(design="reading"), {"near_only"}),
    ("change of 0.75", plain(previous=Prescription(right=Eye(sphere_d=-1.75), left=MINUS_ONE)), {}),
    (
        "change of 1.00 of reading glasses",
        replace(choice(design="reading"), previous=Prescription(right=Eye(sphere_d=-2.0), left=MINUS_ONE)),
        {"near_only"},
    ),
    ("change of 1.00", plain(previous=Prescription(right=Eye(sphere_d=-2.0), left=MINUS_ONE)), {"big_change"}),
    (
        "a new oblique half dioptre",
        replace(
            prescription(Eye(sphere_d=-1.0, cylinder_d=-0.5, axis_deg=45), MINUS_ONE),
            previous=Prescription(right=MINUS_ONE, left=MINUS_ONE),
        ),
        {"big_change"},
    ),
    (
        "a new upright half dioptre",
        replace(
            prescription(Eye(sphere_d=-1.0, cylinder_d=-0.5, axis_deg=90), MINUS_ONE),
            previous=Prescription(right=MINUS_ONE, left=MINUS_ONE),
        ),
        {},
    ),
    ("eyes 1.25 apart", prescription(Eye(sphere_d=-2.25), MINUS_ONE), {}),
    ("eyes 1.50 apart: 1.5 prism 10 mm down", prescription(Eye(sphere_d=-2.5), MINUS_ONE), {"unequal"}),
    (
        "eyes 2 apart sideways only",
        prescription(Eye(sphere_d=-1.0, cylinder_d=-4.0, axis_deg=90), MINUS_ONE),
        {"unequal"},
    ),
    ("prism", prescription(Eye(sphere_d=-1.0, prism_in_pd=1.0), MINUS_ONE), {"prism"}),
    ("vertical prism", prescription(MINUS_ONE, Eye(sphere_d=-1.0, prism_up_pd=-0.5)), {"prism"}),
    ("fifteen years old", plain(wearer=Wearer(age_years=15)), {"child"}),
    ("sixteen years old", plain(wearer=Wearer(age_years=16)), {}),
    ("age not given", plain(wearer=Wearer()), {}),
    (
        "one seeing eye, unequal lenses with prism: nothing about two eyes",
        replace(
            prescription(Eye(sphere_d=-4.0, prism_in_pd=2.0), MINUS_ONE),
            wearer=Wearer(age_years=40, only_seeing_eye="right"),
        ),
        {"one_eye"},
    ),
    ("one seeing eye", plain(wearer=Wearer(age_years=40, only_seeing_eye="left")), {"one_eye"}),
    ("glass", choice(material="crown-glass"), {"glass"}),
    ("nothing but powers", Spectacles(prescription=PLAIN.prescription), {}),
]


@pytest.mark.parametrize(("name", "order", "expected"), TABLE, ids=[row[0] for row in TABLE])
def test_the_order_calls_for_exactly_these_cautions(name: str, order: Spectacles, expected):
    claims = explain(order).claims
    found = {rule for rule in RULES if f"caution.{rule}" in claims}

    assert found == {"not_protective", *expected}


def test_every_caution_has_a_row_that_fires_it():
    fired = set().union(*(set(expected) for _, _, expected in TABLE)) | {"not_protective"}

    assert fired == set(RULES)


@pytest.mark.parametrize(("name", "order", "expected"), TABLE, ids=[row[0] for row in TABLE])
def test_every_caution_gives_its_reason(name: str, order: Spectacles, expected):
    claims = explain(order).claims

    for rule in {"not_protective", *expected}:
        assert claims.value(f"caution.{rule}.reason")


def test_the_first_progressive_is_told_apart():
    first = replace(choice(design="progressive"), wearer=Wearer(age_years=50, first_pair=True))

    assert explain(first).claims.value("caution.stairs.reason") == "first-progressive"
    assert explain(choice(design="progressive")).claims.value("caution.stairs.reason") == "progressive"


def test_an_ordinary_driver_with_reactive_lenses_is_warned_of_the_night():
    assert explain(ORDINARY).claims.value("caution.night_tint") is True
    assert "caution.night_tint" not in explain(pair(lens=PLAIN.lens)).claims


@given(spectacles(), st.data())
@settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck))
def test_cautions_of_random_orders_agree_with_a_second_table(order: Spectacles, data: st.DataObject):
    """The table of tests/scoring was written apart, from the limits named there."""
    seeing = data.draw(st.sampled_from([None, None, "right", "left"]))
    age = data.draw(st.sampled_from([None, 9, 15, 16, 40, 80]))
    before = data.draw(st.sampled_from([None, order.prescription, ORDINARY.prescription]))
    order = replace(order, wearer=Wearer(age_years=age, only_seeing_eye=seeing), previous=before, readings=None)
    try:
        claims = explain(order).claims
    except OutOfRange:
        assume(False)
        raise
    fired = {name for name in RULES if claims.value(f"caution.{name}")}
    must, may = called_for(order)

    assert must <= fired <= must | may
