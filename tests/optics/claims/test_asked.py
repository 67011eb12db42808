"""What an order must answer and what is to be looked at twice, by a table written by hand and by a second reading.

The second reading works from the order itself and asks no claim for an answer; thresholds are typed in again here.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from pairs import ORDINARY, lens, pair, read_as
from readings import read_pairs

from explainer.compose.asked import HOLDS, WARNINGS
from explainer.errors import OutOfRange
from explainer.optics.claims import ClaimSet, explain
from explainer.optics.claims.statements import statement
from explainer.optics.rules import BenchRules
from explainer.optics.spectacles import (
    SIDES,
    Eye,
    LensReading,
    Measurements,
    Prescription,
    Readings,
    Spectacles,
    Wearer,
)

MANY = settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck))
MINUS = Eye(sphere_d=-1.0)
PLAIN = replace(
    lens(tint="clear", material="hard-resin"),
    prescription=Prescription(right=MINUS, left=MINUS),
    previous=None,
    readings=Readings(right=read_as(MINUS), left=read_as(MINUS)),
    wearer=Wearer(age_years=40),
)
HEIGHTS = Measurements(pd_right_mm=31.0, pd_left_mm=31.0, height_right_mm=20.0, height_left_mm=20.0)
DRIVER = Wearer(age_years=40, uses=frozenset({"driving"}))


def plain(**changes: Any) -> Spectacles:
    return replace(PLAIN, **changes)


def choice(**changes: Any) -> Spectacles:
    return replace(PLAIN, lens=replace(PLAIN.lens, **changes))


def eyes(right: Eye, left: Eye = MINUS) -> Spectacles:
    return plain(prescription=Prescription(right=right, left=left), readings=None)


def reasons(claims: ClaimSet, kind: str) -> dict[str, str]:
    return {
        name.split(".")[1]: str(claim.value)
        for name, claim in claims.items()
        if name.startswith(f"{kind}.") and name.endswith(".reason")
    }


ADDED = Eye(sphere_d=-1.0, add_d=2.0)
HELD: list[tuple[str, Spectacles, dict[str, str]]] = [
    ("nothing to ask", PLAIN, {}),
    ("progressive, all measured", replace(choice(design="progressive"), measurements=HEIGHTS), {}),
    (
        "progressive, one distance and no heights",
        replace(choice(design="progressive"), measurements=Measurements(pd_mm=62.0)),
        {"heights": "no-heights", "distances": "one-distance"},
    ),
    (
        "progressive, one height",
        replace(choice(design="progressive"), measurements=replace(HEIGHTS, height_left_mm=None)),
        {"heights": "no-heights"},
    ),
    ("bifocal, one distance", replace(choice(design="bifocal"), measurements=Measurements(pd_mm=62.0)), {}),
    ("single vision with an addition", eyes(ADDED, ADDED), {"addition": "addition-in-one-power"}),
    ("reading with an addition", replace(eyes(ADDED, ADDED), lens=replace(PLAIN.lens, design="reading")), {}),
    (
        "driver, category 4",
        replace(choice(tint="fixed", tint_category=4), wearer=DRIVER),
        {"category_four": "driver-and-darkest-tint"},
    ),
    ("category 4, no driver", choice(tint="fixed", tint_category=4), {}),
    ("driver, category 3", replace(choice(tint="fixed", tint_category=3), wearer=DRIVER), {}),
    (
        "motorcyclist, 7 %",
        replace(choice(tint="fixed", tint_percent=7.0), wearer=replace(DRIVER, uses=frozenset({"motorcycle"}))),
        {"category_four": "driver-and-darkest-tint"},
    ),
    (
        "driver, tint of unknown darkness",
        replace(choice(tint="fixed"), wearer=DRIVER),
        {"unknown_tint": "driver-and-unknown-tint"},
    ),
    ("tint of unknown darkness, no driver", choice(tint="fixed"), {}),
    (
        "child, glass",
        replace(choice(material="crown-glass"), wearer=Wearer(age_years=9)),
        {"glass": "glass-and-child"},
    ),
    (
        "one seeing eye, glass",
        replace(choice(material="crown-glass"), wearer=Wearer(age_years=50, only_seeing_eye="left")),
        {"glass": "glass-and-one-eye"},
    ),
    ("grown up, glass", choice(material="crown-glass"), {}),
]


@pytest.mark.parametrize(("name", "order", "expected"), HELD, ids=[row[0] for row in HELD])
def test_exactly_this_is_asked(name: str, order: Spectacles, expected: dict[str, str]):
    assert reasons(explain(order).claims, "hold") == expected


@pytest.mark.parametrize(
    ("readings", "asked"),
    [
        (None, True),
        (Readings(reference_points_mm=62.0), True),
        (Readings(right=read_as(MINUS), left=read_as(MINUS)), True),  # no centring
        (Readings(right=read_as(MINUS), reference_points_mm=62.0), True),
        (Readings(right=LensReading(sphere_d=-1.0), left=read_as(MINUS), reference_points_mm=62.0), True),
        (Readings(right=read_as(MINUS), left=read_as(MINUS), reference_points_mm=62.0), False),
    ],
)
def test_a_workshop_that_demands_readings_gets_them_whole(readings: Readings | None, asked: bool):
    order = plain(readings=readings)

    assert ("hold.unread" in explain(order, rules=BenchRules(required=True)).claims) == asked
    assert "hold.unread" not in explain(order).claims


def test_prescribed_prism_must_be_read_where_readings_are_demanded():
    eye = Eye(sphere_d=-1.0, prism_in_pd=2.0)
    read = Readings(
        right=replace(read_as(eye), prism_up_pd=None), left=replace(read_as(eye), prism_up_pd=None),
        reference_points_mm=62.0,
    )  # fmt: skip
    order = plain(prescription=Prescription(right=eye, left=eye), readings=read)

    assert "hold.unread" in explain(order, rules=BenchRules(required=True)).claims


WARNED: list[tuple[str, Spectacles, dict[str, str]]] = [
    ("nothing", PLAIN, {}),
    ("no readings", plain(readings=None), {"no_readings": "no-lens-read"}),
    ("a distance alone", plain(readings=Readings(reference_points_mm=62.0)), {"no_readings": "no-lens-read"}),
    ("one lens", plain(readings=Readings(right=read_as(MINUS))), {"no_readings": "one-lens-not-read"}),
    (
        "prism",
        eyes(Eye(sphere_d=-1.0, prism_in_pd=1.0)),
        {"centres": "prism-moves-centres", "no_readings": "no-lens-read"},
    ),
    (
        "prism on a plano lens",
        eyes(Eye(sphere_d=0.0, prism_in_pd=1.0), Eye(sphere_d=-0.5)),
        {"centres": "prism-without-centre", "no_readings": "no-lens-read"},
    ),
    (
        "eyes 1.00 apart",
        eyes(Eye(sphere_d=-2.0)),
        {"imbalance": "imbalance-at-reading-level", "no_readings": "no-lens-read"},
    ),
    (
        "eyes 4 apart, one of them seeing",
        replace(eyes(Eye(sphere_d=-5.0)), wearer=Wearer(age_years=40, only_seeing_eye="left")),
        {"no_readings": "no-lens-read"},
    ),
    ("eyes 0.75 apart", eyes(Eye(sphere_d=-1.75)), {"no_readings": "no-lens-read"}),
    ("fifty, far only", plain(wearer=Wearer(age_years=50)), {"far_only": "one-power-at-reading-age"}),
    ("forty-four, far only", plain(wearer=Wearer(age_years=44)), {}),
    ("fifty, reading", replace(choice(design="reading"), wearer=Wearer(age_years=50)), {}),
    (
        "strong minus",
        eyes(Eye(sphere_d=-6.0), Eye(sphere_d=-6.0)),
        {"high_power": "high-minus", "no_readings": "no-lens-read"},
    ),
    (
        "strong plus",
        eyes(Eye(sphere_d=6.0), Eye(sphere_d=6.0)),
        {"high_power": "high-plus", "no_readings": "no-lens-read"},
    ),
    (
        "half a dioptre more",
        plain(previous=Prescription(right=Eye(sphere_d=-0.5), left=MINUS)),
        {"change": "changed-power"},
    ),
    ("a quarter more", plain(previous=Prescription(right=Eye(sphere_d=-0.75), left=MINUS)), {}),
    (
        "a new oblique half",
        replace(
            eyes(Eye(sphere_d=-1.0, cylinder_d=-0.5, axis_deg=45.0)),
            previous=Prescription(right=MINUS, left=MINUS),
        ),
        {"change": "oblique-change", "no_readings": "no-lens-read"},
    ),
    ("sport", plain(wearer=Wearer(age_years=40, uses=frozenset({"sport"}))), {"sport": "rough-use"}),
    ("fifteen", plain(wearer=Wearer(age_years=15)), {"child": "under-sixteen"}),
    (
        "lenses exchanged",
        plain(
            prescription=Prescription(right=MINUS, left=Eye(sphere_d=-1.5)),
            readings=Readings(right=LensReading(sphere_d=-1.5, cylinder_d=0.0), left=read_as(MINUS)),
        ),
        {"exchanged": "lenses-exchanged"},
    ),
]


@pytest.mark.parametrize(("name", "order", "expected"), WARNED, ids=[row[0] for row in WARNED])
def test_exactly_this_is_pointed_out(name: str, order: Spectacles, expected: dict[str, str]):
    assert reasons(explain(order).claims, "warn") == expected


def test_unequal_pictures_are_pointed_out_from_three_percent():
    """About 1.5 percent a dioptre: one dioptre apart is not worth a line, four are."""
    one, four = (explain(eyes(Eye(sphere_d=power))).claims for power in (-2.0, -5.0))

    assert "warn.image_size" not in one
    assert four.value("warn.image_size.reason") == "unequal-picture-size"
    assert 1 < one.number("pair.image_size") < 2.2


def test_each_reason_has_its_words_and_each_word_its_reason():
    assert set(statement("hold.x.reason").among) == set(HOLDS)
    assert set(statement("warn.x.reason").among) == set(WARNINGS)


def test_every_row_of_both_tables_is_reached():
    held = {reason for _, _, expected in HELD for reason in expected.values()} | {"not-read"}
    warned = {reason for _, _, expected in WARNED for reason in expected.values()} | {"unequal-picture-size"}

    assert held == set(HOLDS)
    assert warned == set(WARNINGS)


USES = st.sets(st.sampled_from(["driving", "night-driving", "motorcycle", "cycling", "screen", "sport", "workshop"]))


@MANY
@given(read_pairs(), USES, st.integers(3, 95), st.sampled_from([None, "right", "left"]), st.booleans(), st.booleans())
def test_a_second_reading_asks_and_warns_the_same(  # noqa: PLR0917
    order: Spectacles, uses: set[str], age: int, only: Any, measured: bool, with_previous: bool
):
    wearer = replace(order.wearer, uses=frozenset(uses), age_years=age, only_seeing_eye=only)
    before = Prescription(right=order.prescription.left, left=order.prescription.right) if with_previous else None
    order = replace(order, wearer=wearer, previous=before)
    if not measured:
        order = replace(order, measurements=replace(order.measurements, height_left_mm=None))
    try:
        claims = explain(order).claims
    except OutOfRange:
        assume(False)
        raise

    assert reasons(claims, "hold") == held_again(order)
    again = warned_again(order)
    found = reasons(claims, "warn")
    assert {name: found.get(name) for name in again} == again


def held_again(order: Spectacles) -> dict[str, str]:
    """Which questions an order raises, worked out from the order alone."""
    lens_, wearer, m = order.lens, order.wearer, order.measurements
    drives = bool(wearer.uses & {"driving", "night-driving", "motorcycle"})
    held = {}
    if lens_.design == "progressive" and None in (m.height_right_mm, m.height_left_mm):
        held["heights"] = "no-heights"
    if lens_.design == "progressive" and None in (m.pd_right_mm, m.pd_left_mm):
        held["distances"] = "one-distance"
    if lens_.design == "single-vision" and any(order.prescription.eye(side).add_d for side in SIDES):
        held["addition"] = "addition-in-one-power"
    if drives and lens_.tint_category == 4:
        held["category_four"] = "driver-and-darkest-tint"
    if lens_.material == "crown-glass":
        if wearer.only_seeing_eye:
            held["glass"] = "glass-and-one-eye"
        elif (wearer.age_years or 99) < 16:
            held["glass"] = "glass-and-child"
    return held


def warned_again(order: Spectacles) -> dict[str, str | None]:
    """The warnings that follow from the order without optics of any depth; None where there must be none."""
    wearer, readings, design = order.wearer, order.readings, order.lens.design
    assert readings is not None
    assert wearer.age_years is not None
    read = [
        side
        for side in SIDES
        if (lens_ := readings.eye(side)) is not None and None not in (lens_.sphere_d, lens_.cylinder_d)
    ]
    made = [made_powers(order, side) for side in SIDES]
    strong = {"high-minus" if sum(powers) < 0 else "high-plus" for powers in made if max(map(abs, powers)) >= 6}
    return {
        "no_readings": {0: "no-lens-read", 1: "one-lens-not-read", 2: None}[len(read)],
        "far_only": "one-power-at-reading-age" if design == "single-vision" and wearer.age_years >= 45 else None,
        "high_power": min(strong, default=None),
        "sport": "rough-use" if wearer.uses & {"sport", "workshop", "water"} else None,
        "child": "under-sixteen" if wearer.age_years < 16 else None,
        "change": changed(order),
    }


def made_powers(order: Spectacles, side: Any) -> tuple[float, float]:
    eye = order.prescription.eye(side)
    near = (eye.add_d or 0.0) if order.lens.design == "reading" else 0.0
    return (eye.sphere_d + near, eye.sphere_d + eye.cylinder_d + near)


def changed(order: Spectacles) -> str | None:
    """By the old way of crossed cylinders: the change as a lens of its own, by its matrix."""
    if order.previous is None:
        return None
    reasons_ = set()
    for side in SIDES:
        now, then = (matrix(p.eye(side)) for p in (order.prescription, order.previous))
        xx, yy, xy = (a - b for a, b in zip(now, then, strict=True))
        mean, straight = (xx + yy) / 2, (xx - yy) / 2
        if 2 * abs(xy) >= 0.5 - 1e-9:
            reasons_.add("oblique-change")
        if math.sqrt(mean**2 + straight**2 + xy**2) >= 0.5 - 1e-12:
            reasons_.add("changed-power")
    return max(reasons_, default=None)


def matrix(eye: Eye) -> tuple[float, float, float]:
    angle = math.radians(eye.axis_deg or 180.0)
    s, c = eye.sphere_d, eye.cylinder_d
    return (s + c * math.sin(angle) ** 2, s + c * math.cos(angle) ** 2, -c * math.sin(angle) * math.cos(angle))


def test_an_ordinary_pair_asks_nothing():
    assert reasons(explain(pair(wearer=Wearer(age_years=41))).claims, "hold") == {}
    assert reasons(explain(ORDINARY).claims, "warn") == {"imbalance": "imbalance-at-reading-level"}
