"""The order file: what is read, what is refused, and that all faults of a file come at once."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import Eye, LensReading
from explainer.orders import Order, read_order
from explainer.orders.assembly.written import parse_eye

Data = dict[str, Any]
Read = Callable[..., Order]
Faults = Callable[..., list[Fault]]

TOML = """
order = "LT-2041"
date = 2026-11-20
[prescription]
written = 2026-10-28
right = "-3.25 -1.25 x 172"
left = "-2.75 -0.50 x 8"
add = "+2.00"
[bench.release]
by = "the optician"
date = 2026-11-21
reason = "agreed with the prescriber"
"""


def test_every_section_reaches_its_place(plain: Data, read: Read) -> None:
    order = read(plain)
    pair = order.spectacles

    assert (order.number, order.date, order.language) == ("TK-0417", dt.date(2026, 10, 5), "en-GB")
    assert order.wearer_name == "Odalys Brackenwhistle"
    assert order.prescription_written == dt.date(2026, 9, 21)
    assert pair.prescription.right == Eye(sphere_d=1.75, cylinder_d=-0.5, axis_deg=63)
    assert pair.prescription.left == Eye(sphere_d=2.25)
    assert pair.prescription.vertex_mm == 12.5
    assert (pair.measurements.pd_right_mm, pair.measurements.pd_left_mm) == (32.0, 31.5)
    assert (pair.frame.a_mm, pair.frame.b_mm, pair.frame.dbl_mm, pair.frame.ed_mm) == (51, 36, 18, 54)
    assert (pair.lens.design, pair.lens.material, pair.lens.coatings) == (
        "single-vision",
        "urethane-1.53",
        frozenset({"hard"}),
    )
    assert pair.readings is not None
    assert pair.readings.right == LensReading(sphere_d=1.78, cylinder_d=-0.52, axis_deg=62)
    assert pair.previous is not None
    assert pair.previous.left == Eye(sphere_d=1.75)
    assert (pair.wearer.age_years, pair.wearer.uses) == (55, frozenset({"driving"}))
    assert (order.received_right, order.received_left) == ("+1.75 -0.50 x 63", "+2.25 DS")


def test_toml_is_read_with_the_addition_for_both_and_the_written_release(tmp_path: Path) -> None:
    path = tmp_path / "order.toml"
    path.write_text(TOML, encoding="utf-8")
    order = read_order(path)

    assert order.spectacles.prescription.right == Eye(sphere_d=-3.25, cylinder_d=-1.25, axis_deg=172, add_d=2)
    assert order.spectacles.prescription.left == Eye(sphere_d=-2.75, cylinder_d=-0.5, axis_deg=8, add_d=2)
    assert order.received_left == "-2.75 -0.50 x 8 Add +2.00"
    assert order.release is not None
    assert (order.release.by, order.release.date) == ("the optician", dt.date(2026, 11, 21))
    assert order.language == "en"


def test_fields_are_read_as_notation_is(plain: Data, read: Read) -> None:
    plain["prescription"]["right"] = {
        "sphere": -3.25,
        "cylinder": -1.25,
        "axis": 0,
        "add": 2,
        "prism": [{"amount": 2.0, "base": "in"}, {"amount": 1.5, "base": 270}],
    }
    plain["prescription"]["left"] = {"sphere": 1.25, "add": 2.0}
    order = read(plain)

    assert order.spectacles.prescription.right == parse_eye("-3.25 -1.25 x 180 Add +2.00 2Δ BI 1.5Δ base down").eye()
    assert order.spectacles.prescription.left == Eye(sphere_d=1.25, add_d=2.0)
    assert parse_eye(order.received_right).eye() == order.spectacles.prescription.right


def test_both_eyes_may_stand_in_one_text(plain: Data, read: Read) -> None:
    plain["prescription"] = {"text": "OD +1.75 -0.50 x 63 / OS +2.25 DS"}

    assert read(plain).spectacles.prescription.left == Eye(sphere_d=2.25)


def test_a_vertex_distance_in_the_text_counts_for_the_pair(plain: Data, read: Read, faults: Faults) -> None:
    del plain["prescription"]["vertex_mm"]
    plain["prescription"]["right"] += " BVD 13"
    assert read(plain).spectacles.prescription.vertex_mm == 13

    plain["prescription"]["vertex_mm"] = 12.0
    assert [fault.field for fault in faults(plain)] == ["prescription.vertex_mm"]


def test_all_faults_of_a_file_come_at_once(plain: Data, faults: Faults) -> None:
    plain["order"] = "../../etc"
    plain["date"] = "2026-02-30"
    plain["colour"] = "red"
    plain["wearer"] |= {"uses": ["drivng", "swimmming"], "brith_year": 1971}
    plain["prescription"] |= {"right": "1.75 -0.50 x 200", "left": "OD +2.25", "vertex_mm": "12.5"}
    plain["measurements"] = {"pd_right_mm": 31.0}
    plain["frame"] |= {"ed_mm": 20.0, "material": "wood"}
    plain["bench"] |= {"left": "+2.25 -0.50", "release": {"by": "the optician"}}
    plain["previous"] = {"right": {"sphere": -1, "axis": "90", "prism": [{"amount": 1, "base": "sideways"}]}, "left": 5}
    found = {fault.field for fault in faults(plain)}

    assert found == {
        "order",
        "date",
        "colour",
        "wearer.uses[0]",
        "wearer.uses[1]",
        "wearer.brith_year",
        "prescription.right",
        "prescription.left",
        "prescription.vertex_mm",
        "measurements.pd_left_mm",
        "frame.ed_mm",
        "frame.material",
        "bench.left",
        "bench.release.date",
        "bench.release.reason",
        "previous.right.axis",
        "previous.right.prism[0].base",
        "previous.left",
    }


def test_a_misspelt_field_is_refused_with_the_name_that_was_meant(plain: Data, faults: Faults) -> None:
    plain["wearer"]["brith_year"] = 1971

    assert faults(plain) == [Fault("wearer.brith_year", "a field that is not known", "birth_year?")]


@pytest.mark.parametrize(
    ("path", "value", "field"),
    [
        ("order", "", "order"),
        ("order", "a b", "order"),
        ("order", "a/b", "order"),
        ("order", "a..b", "order"),
        ("order", ".hidden", "order"),
        ("order", "-o", "order"),
        ("order", "x" * 41, "order"),
        ("order", "x\n", "order"),
        ("order", 2041, "order"),
        ("date", "05/10/2026", "date"),
        ("date", 20261005, "date"),
        ("language", "english", "language"),
        ("prescription.right", "", "prescription.right"),
        ("prescription.right", None, "prescription.right"),
        ("prescription.right", "PD 62", "prescription.right"),
        ("prescription.right", "+1.75 DS PD 62", "prescription.right"),
        ("prescription.right", {"sphere": -1.13}, "prescription.right.sphere"),
        ("prescription.right", {"sphere": -30}, "prescription.right.sphere"),
        ("prescription.right", {"sphere": True}, "prescription.right.sphere"),
        ("prescription.right", {"sphere": "-1.00"}, "prescription.right.sphere"),
        ("prescription.right", {"sphere": -1, "cylinder": -1}, "prescription.right.axis"),
        ("prescription.right", {"sphere": -1, "axis": 90}, "prescription.right.axis"),
        ("prescription.right", {"sphere": -1, "cylinder": -1, "axis": 181}, "prescription.right.axis"),
        ("prescription.right", {"sphere": -1, "cylinder": -1, "axis": -10}, "prescription.right.axis"),
        ("prescription.right", {"sphere": -1, "add": 0}, "prescription.right.add"),
        ("prescription.right", {"cylinder": -1, "axis": 5}, "prescription.right.sphere"),
        (
            "prescription.right",
            {"sphere": 0, "prism": [{"amount": -1, "base": "in"}]},
            "prescription.right.prism[0].amount",
        ),
        ("prescription.add", "-2.00", "prescription.add"),
        ("prescription.add", "+2.00 2Δ base in", "prescription.add"),
        ("prescription.add", 5, "prescription.add"),
        ("prescription.fhir", "rx.json", "prescription"),
        ("prescription.axis_scale", "INT", "prescription.axis_scale"),
        ("prescription.vertex_mm", 0, "prescription.vertex_mm"),
        ("measurements.pd_mm", 70.0, "measurements.pd_mm"),
        ("measurements.pd_left_mm", None, "measurements.pd_left_mm"),
        ("measurements.height_left_mm", 37.0, "measurements.height_left_mm"),
        ("frame.ed_mm", 70.0, "frame.ed_mm"),
        ("frame.a_mm", 1e9, "frame.a_mm"),
        ("frame.trace", "/etc/passwd", "frame.trace"),
        ("frame.trace", "../job.txt", "frame.trace"),
        ("lens.material", "plastic", "lens.material"),
        ("lens.coatings", ["nano"], "lens.coatings[0]"),
        ("lens.tint_category", 2, "lens.tint"),
        ("lens.tint_colour", "grey", "lens.tint_colour"),
        ("lens.data", "mine", "lens.data"),
        ("bench.right", "1.75", "bench.right"),
        ("bench.pd_mm", 6.35, "bench.pd_mm"),
        ("wearer.birth_year", 2027, "wearer.birth_year"),
        ("wearer.first_pair", True, "wearer.first_pair"),
        ("wearer.only_seeing_eye", "both", "wearer.only_seeing_eye"),
    ],
)
def test_a_wrong_value_is_refused_by_its_field(
    path: str, value: object, field: str, plain: Data, faults: Faults
) -> None:
    *tables, name = path.split(".")
    place = plain
    for table in tables:
        place = place[table]
    place[name] = value

    assert {fault.field for fault in faults(plain)} == {field}


@pytest.mark.parametrize(
    "prescription",
    [{}, {"right": "+1.00 DS"}, {"text": "R -1.00 DS"}, {"text": "R plano L plano", "right": "plano", "left": "plano"}],
)
def test_a_prescription_without_exactly_one_way_for_both_eyes_is_refused(
    prescription: Data, plain: Data, faults: Faults
) -> None:
    plain["prescription"] = prescription

    assert all(fault.field.startswith("prescription") for fault in faults(plain))


def test_odd_steps_are_read_when_the_order_confirms_them(plain: Data, read: Read, faults: Faults) -> None:
    plain["prescription"]["left"] = "+2.30 DS"
    assert "confirmed_steps" in faults(plain)[0].accepted

    plain["prescription"]["confirmed_steps"] = True
    assert read(plain).spectacles.prescription.left.sphere_d == 2.3


def test_an_italian_left_axis_is_read_when_its_scale_is_stated(plain: Data, read: Read, faults: Faults) -> None:
    plain["language"] = "it"
    plain["prescription"] |= {"left": "+2.25 -0.50 x 20", "right": "+1.75 DS"}
    plain["previous"] = {"right": "+1.75 DS", "left": {"sphere": 2.25, "cylinder": -0.5, "axis": 20}}
    assert [fault.field for fault in faults(plain)] == ["prescription.left", "previous.left.axis"]

    plain["prescription"]["axis_scale"] = plain["previous"]["axis_scale"] = "TABO"
    assert read(plain).spectacles.prescription.left.axis_deg == 20


def test_a_left_axis_from_our_own_bench_needs_no_scale(plain: Data, read: Read) -> None:
    plain["language"] = "it"
    plain["bench"]["left"] = "+2.25 -0.25 x 20"
    readings = read(plain).spectacles.readings

    assert readings is not None
    assert readings.left is not None
    assert readings.left.axis_deg == 20


def test_words_are_read_in_the_prescribers_language(plain: Data, read: Read, faults: Faults) -> None:
    plain["prescription"]["right"] = "OP +1,75 -0,50 os 63"
    assert faults(plain)

    plain["prescription"]["written_in"] = "pl"
    assert read(plain).spectacles.prescription.right == Eye(sphere_d=1.75, cylinder_d=-0.5, axis_deg=63)


def test_the_option_language_decides_the_leaflet_but_not_how_words_are_read(plain: Data, read: Read) -> None:
    plain["prescription"]["left"] = "OS +2.25 DS"
    order = read(plain, language="pl")

    assert order.language == "pl"
    assert order.spectacles.prescription.left.sphere_d == 2.25


def test_what_is_not_given_is_named_as_left_out(plain: Data, read: Read) -> None:
    for section in ("measurements", "frame", "lens", "bench"):
        del plain[section]
    notes = " ".join(read(plain).notes)

    for missing in ("frame measurements", "lens material", "tint", "bench readings", "workshop"):
        assert missing in notes
    assert "vertex" not in notes


def test_a_missing_order_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        read_order(tmp_path / "nothing.toml")
