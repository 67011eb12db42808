"""FHIR Bundles: every VisionPrescription is an order, other resources are left, a faulty entry stops no other.

Source of fields and types: HL7 FHIR R4 and R5, resource Bundle. The prescriptions are HL7's examples 33123
(spectacles) and 33124 (contact lenses).
"""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from explainer.errors import InputError
from explainer.orders import read_order, read_orders
from explainer.orders.assembly.order import ReadResult

Data = dict[str, Any]
HERE = Path(__file__).parents[2] / "data"
SPECTACLES: Data = json.loads((HERE / "VisionPrescription-33123.r4.json").read_text(encoding="utf-8"))
CONTACTS: Data = json.loads((HERE / "VisionPrescription-33124.r4.json").read_text(encoding="utf-8"))
PATIENT: Data = {"resourceType": "Patient", "id": "p", "name": [{"family": "Brackenwhistle", "given": ["Odalys"]}]}


def numbered(number: str, **changes: Any) -> Data:
    """Example 33123 under another number."""
    return copy.deepcopy(SPECTACLES) | {"id": number, "identifier": [{"value": number}]} | changes


def bundle(*resources: Any, kind: str = "collection", **changes: Any) -> Data:
    return {"resourceType": "Bundle", "type": kind, "entry": [{"resource": each} for each in resources]} | changes


@pytest.fixture
def results(tmp_path: Path) -> Callable[[Data], list[ReadResult]]:
    def reader(data: Data) -> list[ReadResult]:
        path = tmp_path / "bundle.json"
        path.write_text(json.dumps(data), encoding="utf-8")
        return list(read_orders([path]))

    return reader


def field_of(data: Data, results: Callable[[Data], list[ReadResult]]) -> list[str]:
    (result,) = results(data)
    assert result.error is not None
    return [fault.field for fault in result.error.faults]


@pytest.mark.parametrize("kind", ["document", "message", "transaction", "batch", "searchset", "collection"])
def test_every_prescription_of_a_bundle_is_an_order(kind: str, results: Callable[[Data], list[ReadResult]]):
    found = results(bundle(PATIENT, numbered("RX-1"), {"resourceType": "Practitioner"}, numbered("RX-2"), kind=kind))

    assert [result.order.number for result in found if result.order] == ["RX-1", "RX-2"]
    assert [result.source.rpartition(", ")[2] for result in found] == ["entry[1]", "entry[3]"]


def test_a_prescription_in_a_bundle_reads_as_it_does_alone(results: Callable[[Data], list[ReadResult]]):
    (result,) = results(bundle(SPECTACLES))
    alone = read_order(HERE / "VisionPrescription-33123.r4.json")

    assert result.order is not None
    assert result.order.spectacles == alone.spectacles
    assert (result.order.number, result.order.date) == (alone.number, alone.date)


def test_nobody_is_named_by_a_patient_beside_the_prescription(results: Callable[[Data], list[ReadResult]]):
    (result,) = results(bundle(PATIENT, SPECTACLES))

    assert result.order is not None
    assert result.order.wearer_name is None


def test_contact_lenses_and_withdrawn_entries_are_refused_alone(results: Callable[[Data], list[ReadResult]]):
    found = results(
        bundle(
            numbered("RX-1"),
            CONTACTS,
            numbered("RX-2", status="entered-in-error"),
            numbered("RX-3", status="cancelled"),
            numbered("RX-4"),
        )
    )

    assert [result.order is not None for result in found] == [True, False, False, False, True]
    assert "contact lenses" in str(found[1].error)
    assert found[2].error is not None
    assert found[2].error.faults[0].field == "status"
    assert found[2].source.endswith("entry[2]")


def test_value_sets_and_sense_are_checked_in_every_entry(results: Callable[[Data], list[ReadResult]]):
    wrong = numbered("RX-2")
    wrong["lensSpecification"][1]["axis"] = 200
    found = results(bundle(numbered("RX-1"), wrong))

    assert found[0].order is not None
    assert found[1].error is not None
    assert [fault.field for fault in found[1].error.faults] == ["lensSpecification[1].axis"]


def test_two_entries_with_one_number_are_both_refused(results: Callable[[Data], list[ReadResult]]):
    found = results(bundle(numbered("RX-1"), numbered("RX-1"), numbered("RX-2")))

    assert [result.order is not None for result in found] == [False, False, True]


def test_a_withdrawn_prescription_does_not_stand_against_the_one_that_replaces_it(
    results: Callable[[Data], list[ReadResult]],
):
    found = results(bundle(numbered("RX-1", status="entered-in-error"), numbered("RX-1")))

    assert [result.order is not None for result in found] == [False, True]


@pytest.mark.parametrize(
    ("changes", "fields"),
    [
        ({"type": "history"}, ["type"]),  # old versions stand beside new ones
        ({"type": "transaction-response"}, ["type"]),
        ({"type": "bogus"}, ["type"]),
        ({"type": None}, ["type"]),
        ({"implicitRules": "https://example.org/rules"}, ["implicitRules"]),
        ({"entry": []}, ["entry"]),
        ({"entry": None}, ["entry"]),
        ({"entry": {"resource": {}}}, ["entry"]),
        ({"entry": [{"resource": PATIENT}]}, ["entry"]),
        ({"type": "history", "entry": []}, ["type", "entry"]),
    ],
)
def test_a_bundle_without_sense_is_refused_whole(
    changes: Data, fields: list[str], results: Callable[[Data], list[ReadResult]]
):
    assert field_of(bundle(SPECTACLES) | changes, results) == fields


@pytest.mark.parametrize(
    ("entry", "field"),
    [
        ({"resource": SPECTACLES, "modifierExtension": []}, "modifierExtension"),
        ({"resource": SPECTACLES, "request": {"method": "DELETE"}}, "request.method"),
        ({"resource": bundle(SPECTACLES)}, "resource"),
        ({"resource": SPECTACLES | {"lensSpecification": "x"}}, "lensSpecification"),
    ],
)
def test_an_entry_without_sense_is_refused(entry: Data, field: str, results: Callable[[Data], list[ReadResult]]):
    assert field_of(bundle() | {"entry": [entry]}, results) == [field]


def test_an_entry_that_is_no_object_is_refused_beside_a_sound_one(results: Callable[[Data], list[ReadResult]]):
    found = results(bundle() | {"entry": [7, {"resource": SPECTACLES}, None, {"fullUrl": "urn:x"}]})

    assert [result.order is not None for result in found] == [False, True, False]


def test_entries_that_were_written_to_a_server_are_read(results: Callable[[Data], list[ReadResult]]):
    entry = {"resource": SPECTACLES, "request": {"method": "POST", "url": "VisionPrescription"}}
    (result,) = results(bundle(kind="transaction") | {"entry": [entry]})

    assert result.order is not None


def test_unknown_fields_of_bundle_and_entry_are_ignored(results: Callable[[Data], list[ReadResult]]):
    data = bundle(SPECTACLES, issues={"resourceType": "OperationOutcome"}, total=1, link=[7], future="x")
    data["entry"][0] |= {"search": {"mode": "match"}, "future": 1}
    (result,) = results(data)

    assert result.order is not None
    assert not result.order.warnings


def test_one_page_of_a_search_says_so(results: Callable[[Data], list[ReadResult]]):
    link = [{"relation": "self", "url": "https://example.org"}, {"relation": "next", "url": "https://example.org?2"}]
    (result,) = results(bundle(SPECTACLES, kind="searchset", link=link))

    assert result.order is not None
    assert "page" in result.order.warnings[0]


def test_a_bundle_of_one_is_one_order_and_of_two_is_not(tmp_path: Path):
    path = tmp_path / "bundle.json"
    path.write_text(json.dumps(bundle(SPECTACLES)), encoding="utf-8")
    assert read_order(path).number == "15013"

    path.write_text(json.dumps(bundle(numbered("A"), numbered("B"))), encoding="utf-8")
    with pytest.raises(InputError, match="more than one order"):
        read_order(path)


def test_a_bundle_lies_in_a_folder_as_any_order_does(tmp_path: Path):
    (tmp_path / "bundle.json").write_text(json.dumps(bundle(numbered("A"), numbered("B"))), encoding="utf-8")
    (tmp_path / "single.json").write_text(json.dumps(SPECTACLES), encoding="utf-8")

    assert [result.order.number for result in read_orders([tmp_path]) if result.order] == ["A", "B", "15013"]


def test_a_bundle_named_by_an_order_is_refused(plain: Data, faults: Callable[..., list[Any]], tmp_path: Path):
    """An order names the prescription of one person."""
    (tmp_path / "rx.json").write_text(json.dumps(bundle(SPECTACLES)), encoding="utf-8")
    plain["prescription"] = {"fhir": "rx.json"}

    assert faults(plain)[0].field == "rx.json: resourceType"
