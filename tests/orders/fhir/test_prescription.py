"""FHIR VisionPrescription: the published examples, and that value sets and sense are checked here.

Source: HL7 FHIR R4, resource VisionPrescription, examples 33123 and 33124. The wrong resources are changes of 33123; a
shape checker of the standard accepts those marked so, which is why the reader has its own rules.
"""

from __future__ import annotations

import copy
import datetime as dt
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import Eye
from explainer.orders import Order, read_order, read_orders
from explainer.orders.assembly.written import parse_eye

Data = dict[str, Any]
HERE = Path(__file__).parents[2] / "data"
SPECTACLES = HERE / "VisionPrescription-33123.r4.json"
CONTACTS = HERE / "VisionPrescription-33124.r4.json"


@pytest.fixture
def example() -> Data:
    data: Data = json.loads(SPECTACLES.read_text(encoding="utf-8"))
    return data


def refused(data: Data, folder: Path) -> list[Fault]:
    path = folder / "rx.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(InputError) as refusal:
        read_order(path)
    return list(refusal.value.faults)


def accepted(data: Data, folder: Path) -> Order:
    path = folder / "rx.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    return read_order(path)


def test_example_33123_is_an_order_of_its_own() -> None:
    """R -2.00 DS, prism 0.5 down, add 2.00; L -1.00 -0.50 x 180, prism 0.5 up, add 2.00."""
    order = read_order(SPECTACLES)

    assert order.number == "15013"
    assert order.date == order.prescription_written == dt.date(2014, 6, 15)
    assert order.language == "en"
    assert order.spectacles.prescription.right == Eye(sphere_d=-2, add_d=2, prism_up_pd=-0.5)
    assert order.spectacles.prescription.left == Eye(
        sphere_d=-1, cylinder_d=-0.5, axis_deg=180, add_d=2, prism_up_pd=0.5
    )
    assert parse_eye(order.received_left).eye() == order.spectacles.prescription.left


def test_example_33124_is_refused_as_contact_lenses() -> None:
    with pytest.raises(InputError) as refusal:
        read_order(CONTACTS)

    assert len(refusal.value.faults) == 2
    assert all("contact lenses" in fault.accepted for fault in refusal.value.faults)


def test_an_order_may_name_a_fhir_file(plain: Data, read: Callable[..., Order], tmp_path: Path) -> None:
    (tmp_path / "rx.json").write_text(SPECTACLES.read_text(encoding="utf-8"), encoding="utf-8")
    plain["prescription"] = {"fhir": "rx.json", "vertex_mm": 13.0}
    order = read(plain)

    assert order.number == "TK-0417"
    assert order.prescription_written == dt.date(2014, 6, 15)
    assert order.spectacles.prescription.left.prism_up_pd == 0.5
    assert order.spectacles.prescription.vertex_mm == 13


def test_in_a_folder_a_fhir_file_named_by_an_order_is_no_order_of_its_own(plain: Data, tmp_path: Path) -> None:
    (tmp_path / "rx.json").write_text(SPECTACLES.read_text(encoding="utf-8"), encoding="utf-8")
    plain["prescription"] = {"fhir": "rx.json"}
    (tmp_path / "order.json").write_text(json.dumps(plain), encoding="utf-8")

    assert [result.order.number for result in read_orders([tmp_path]) if result.order] == ["TK-0417"]


def test_faults_of_a_named_fhir_file_name_the_file(
    plain: Data, faults: Callable[..., list[Fault]], tmp_path: Path
) -> None:
    (tmp_path / "rx.json").write_text(CONTACTS.read_text(encoding="utf-8"), encoding="utf-8")
    plain["prescription"] = {"fhir": "rx.json"}

    assert faults(plain)[0].field == "rx.json: lensSpecification[0].product"


WRONG: list[tuple[str, object, str]] = [
    # path in example 33123, value, field that must be named
    ("lensSpecification.0.eye", "both", "lensSpecification[0].eye"),  # a shape checker accepts this
    ("lensSpecification.0.eye", "Right", "lensSpecification[0].eye"),
    ("lensSpecification.0.prism.0.base", "sideways", "lensSpecification[0].prism[0].base"),  # accepted by shape
    ("lensSpecification.0.prism.0.amount", -0.5, "lensSpecification[0].prism[0].amount"),
    ("lensSpecification.0.prism.0.amount", None, "lensSpecification[0].prism[0].amount"),
    ("status", "bogus", "status"),  # accepted by shape
    ("status", "entered-in-error", "status"),  # accepted by shape
    ("status", "cancelled", "status"),
    ("status", "draft", "status"),
    ("status", None, "status"),
    ("lensSpecification.1.axis", 200, "lensSpecification[1].axis"),  # accepted by shape
    ("lensSpecification.1.axis", -181, "lensSpecification[1].axis"),
    ("lensSpecification.1.axis", "180", "lensSpecification[1].axis"),  # accepted by shape
    ("lensSpecification.1.axis", 90.5, "lensSpecification[1].axis"),
    ("lensSpecification.1.axis", True, "lensSpecification[1].axis"),
    ("lensSpecification.1.axis", None, "lensSpecification[1].axis"),  # cylinder without axis: accepted by shape
    ("lensSpecification.1.cylinder", None, "lensSpecification[1].axis"),
    ("lensSpecification.1.sphere", "-1.00", "lensSpecification[1].sphere"),  # accepted by shape
    ("lensSpecification.1.sphere", -1.13, "lensSpecification[1].sphere"),  # accepted by shape
    ("lensSpecification.1.sphere", -200, "lensSpecification[1].sphere"),  # accepted by shape
    ("lensSpecification.1.sphere", 10**400, "lensSpecification[1].sphere"),
    ("lensSpecification.1.sphere", None, "lensSpecification[1].sphere"),
    ("lensSpecification.1.add", -2, "lensSpecification[1].add"),
    ("lensSpecification.1.add", 0, "lensSpecification[1].add"),
    ("lensSpecification.1.eye", "right", "lensSpecification[1].eye"),  # two right eyes: accepted by shape
    ("lensSpecification.1.power", -2.75, "lensSpecification[1].power"),
    ("lensSpecification.1.cylindre", -0.5, "lensSpecification[1].cylindre"),
    ("lensSpecification.1._sphere", {}, "lensSpecification[1]._sphere"),
    ("lensSpecification.1.modifierExtension", [], "lensSpecification[1].modifierExtension"),
    ("lensSpecification.1.product", None, "lensSpecification[1].product"),
    ("lensSpecification.1.product", {"text": "lens"}, "lensSpecification[1].product"),
    ("lensSpecification.1", 7, "lensSpecification[1]"),
    ("lensSpecification", [], "lensSpecification"),  # accepted by shape
    ("lensSpecification", {}, "lensSpecification"),
    ("modifierExtension", [], "modifierExtension"),
    ("implicitRules", "https://example.org/rules", "implicitRules"),
    ("dateWritten", "15.6.2014", "dateWritten"),
    ("created", "2014-02-30", "created"),
    ("resourceType", "Patient", "resourceType"),
]


@pytest.mark.parametrize(("path", "value", "field"), WRONG, ids=[f"{path}={value!s:.20}" for path, value, _ in WRONG])
def test_a_resource_without_sense_is_refused(
    path: str, value: object, field: str, example: Data, tmp_path: Path
) -> None:
    *steps, last = [int(step) if step.isdigit() else step for step in path.split(".")]
    place: Any = example
    for step in steps:
        place = place[step]
    if value is None:
        del place[last]
    else:
        place[last] = value

    assert {fault.field for fault in refused(example, tmp_path)} == {field}


def test_all_faults_of_a_resource_come_at_once(example: Data, tmp_path: Path) -> None:
    example["status"] = "draft"
    example["lensSpecification"][0]["eye"] = "both"
    example["lensSpecification"][1]["axis"] = 200

    assert len(refused(example, tmp_path)) == 3


def test_a_lens_for_one_eye_alone_is_refused(example: Data, tmp_path: Path) -> None:
    del example["lensSpecification"][0]

    assert refused(example, tmp_path)[0].found == "no right eye"


def test_a_negative_axis_is_the_same_line_half_a_turn_on(example: Data, tmp_path: Path) -> None:
    """The element's comment in the standard: limits are +180 and -180."""
    example["lensSpecification"][1]["axis"] = -10
    order = accepted(example, tmp_path)

    assert order.spectacles.prescription.left.axis_deg == 170
    assert any("negative" in warning for warning in order.warnings)


@pytest.mark.parametrize("axis", [0, 180, -180])
def test_the_horizontal_is_kept_as_180(axis: int, example: Data, tmp_path: Path) -> None:
    example["lensSpecification"][1]["axis"] = axis

    assert accepted(example, tmp_path).spectacles.prescription.left.axis_deg == 180


def test_unknown_fields_of_the_resource_are_ignored(example: Data, tmp_path: Path) -> None:
    """Drafts of the next release add intent, basedOn and groupIdentifier."""
    before = accepted(copy.deepcopy(example), tmp_path)
    example |= {"intent": "order", "basedOn": [], "groupIdentifier": {"value": "x"}}

    assert accepted(example, tmp_path) == before


def test_the_order_number_falls_back_to_the_id_and_is_never_a_path(example: Data, tmp_path: Path) -> None:
    example["identifier"][0]["value"] = "../../etc"
    assert accepted(example, tmp_path).number == "33123"

    del example["id"]
    assert refused(example, tmp_path)[0].field == "identifier"


def test_a_resource_without_any_full_date_is_refused(example: Data, tmp_path: Path) -> None:
    example |= {"created": "2014", "dateWritten": "2014-06"}

    assert refused(example, tmp_path)[0].field == "created"


def test_a_date_with_a_time_counts_by_its_day(example: Data, tmp_path: Path) -> None:
    example["created"] = "2014-06-16T08:30:00+02:00"

    assert accepted(example, tmp_path).date == dt.date(2014, 6, 16)


def test_a_note_beside_a_lens_is_pointed_out(example: Data, tmp_path: Path) -> None:
    example["lensSpecification"][0]["note"] = [{"text": "tint"}]

    assert "note" in accepted(example, tmp_path).warnings[0]
