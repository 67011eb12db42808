"""A job file and its order: by name, by number in one run, alone; what is filled in, and what is refused."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from explainer.errors import Fault
from explainer.orders import Order, read_order, read_orders

Data = dict[str, Any]
Read = Callable[..., Order]
Faults = Callable[..., list[Fault]]
SAMPLE = Path(__file__).parents[2] / "data" / "dcs_job.txt"
BARE = "OMAV=03.10\nJOB=TK-0417\nDO=B\nSPH=1.75;2.25\nCYL=-0.50;0.00\nAX=63;0\n"
BOX = "HBOX=51.00;51.00\nVBOX=36.00;36.00\nDBL=18.00\nFED=54;54\nIPD=32.00;31.50\nBVD=12.50;12.50\n"
LENS = "LIND=1.530;1.530\nLMATTYPE=1;1\nLTYPE=SV;SV\n"


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "rx.job"
    path.write_text(BARE + BOX + LENS, encoding="utf-8")
    return path


def bare(plain: Data) -> Data:
    return {name: plain[name] for name in ("order", "date", "language", "wearer")}


def test_an_order_that_names_its_job_file_takes_from_it_what_it_lacks(plain: Data, read: Read, job: Path) -> None:
    whole = read(plain).spectacles
    found = read(bare(plain) | {"job": job.name}).spectacles

    assert found.prescription == whole.prescription
    assert found.measurements == whole.measurements
    assert (found.frame.a_mm, found.frame.b_mm, found.frame.dbl_mm, found.frame.ed_mm) == (51, 36, 18, 54)
    assert (found.lens.material, found.lens.design) == ("urethane-1.53", "single-vision")


def test_both_may_say_the_same_lens_in_another_cylinder_form(plain: Data, read: Read, job: Path) -> None:
    """+1.75 -0.50 x 63 is +1.25 +0.50 x 153: sphere plus cylinder, sign turned, axis turned by 90 (common practice)."""
    plain["prescription"]["right"] = "+1.25 +0.50 x 153"

    assert read(plain | {"job": job.name}).received_right == "+1.25 +0.50 x 153"


@pytest.mark.parametrize(
    "case",
    [
        ("prescription.right", "+1.50 -0.50 x 63", ("R +1.50", "R +1.75")),
        ("prescription.right", "+1.75 -0.50 x 117", ("x 117", "x 63")),
        ("prescription.right", "+1.75 -0.50 x 63 Add +2.00", ("Add +2.00", "R +1.75 -0.50 x 63 in")),
        ("prescription.left", "+2.25 DS 1Δ BI", ("base in", "L +2.25")),
        ("prescription.left", "-2.25 DS", ("-2.25", "+2.25")),
        ("prescription.vertex_mm", 14.0, ("12.5", "14")),
        ("measurements.pd_right_mm", 31.0, ("31", "32")),
        ("frame.a_mm", 53.0, ("53", "51")),
        ("frame.dbl_mm", 20.0, ("20", "18")),
        ("frame.ed_mm", 56.0, ("56", "54")),
        ("lens.material", "polycarbonate", ("polycarbonate", "urethane-1.53")),
        ("lens.design", "progressive", ("progressive", "single-vision")),
    ],
)
def test_where_the_two_disagree_both_values_are_named(
    case: tuple[str, object, tuple[str, str]], plain: Data, faults: Faults, job: Path
) -> None:
    path, value, both = case
    table, name = path.split(".")
    plain[table][name] = value
    (fault,) = faults(plain | {"job": job.name})

    assert fault.field == path
    assert all(word in fault.found for word in both)


def test_exchanged_eyes_are_a_disagreement_of_both(plain: Data, faults: Faults, job: Path) -> None:
    plain["prescription"] |= {"right": "+2.25 DS", "left": "+1.75 -0.50 x 63"}

    assert {fault.field for fault in faults(plain | {"job": job.name})} == {"prescription.right", "prescription.left"}


def test_a_pd_of_the_pair_is_compared_with_the_sum(plain: Data, read: Read, faults: Faults, job: Path) -> None:
    plain["measurements"] = {"pd_mm": 63.5}
    assert read(plain | {"job": job.name}).spectacles.measurements.pd_left_mm == 31.5

    plain["measurements"] = {"pd_mm": 62.0}
    assert any(fault.field == "measurements.pd_mm" for fault in faults(plain | {"job": job.name}))


def test_the_outline_of_a_traced_job_reaches_the_frame(plain: Data, read: Read, tmp_path: Path) -> None:
    (tmp_path / "sample.txt").write_bytes(SAMPLE.read_bytes())
    order = read(bare(plain) | {"job": "sample.txt"})
    frame = order.spectacles.frame

    assert frame.outline_right_mm is not None
    assert frame.outline_right_mm[0] == 24.82  # the first R record of the job is 2482
    assert (frame.a_mm, frame.ed_mm) == pytest.approx((51.0, 52.33), abs=0.02)
    assert order.spectacles.prescription.left.cylinder_d == -3.0
    assert order.spectacles.readings is None
    assert any("inspection values" in note for note in order.notes)


def test_a_faulty_job_refuses_its_order_with_the_labels(plain: Data, faults: Faults, job: Path) -> None:
    job.write_text(BARE + "STATUS=3\n", encoding="utf-8")

    assert [fault.field for fault in faults(plain | {"job": job.name})] == ["job: STATUS"]


def test_a_missing_or_odd_job_file_is_refused(plain: Data, faults: Faults) -> None:
    assert [fault.field for fault in faults(plain | {"job": "nothing.job"})] == ["job: file"]
    assert [fault.field for fault in faults(plain | {"job": "../rx.job"})] == ["job"]


def test_odd_steps_in_a_job_need_the_orders_confirmation(plain: Data, read: Read, faults: Faults, job: Path) -> None:
    job.write_text(BARE.replace("1.75", "1.73"), encoding="utf-8")
    order = bare(plain) | {"job": job.name}
    assert "confirmed_steps" in faults(order)[0].accepted

    order["prescription"] = {"confirmed_steps": True}
    assert read(order).spectacles.prescription.right.sphere_d == 1.73


INSPECTED = "JOB=TK-0417\nINSSPH=1.77;2.26\nINSCYL=-0.51;0.00\nINSAX=62;0\nINSCTHK=2.2;2.6\n"


def test_inspection_values_are_readings_only_if_bench_names_their_file(plain: Data, read: Read, tmp_path: Path) -> None:
    (tmp_path / "read.job").write_text(INSPECTED, encoding="utf-8")
    plain["bench"] = {"job": "read.job", "pd_mm": 63.5}
    readings = read(plain).spectacles.readings

    assert readings is not None
    assert readings.right is not None
    assert readings.right.sphere_d == 1.77
    assert (readings.reference_points_mm, readings.centre_thickness_left_mm) == (63.5, 2.6)


def test_readings_in_two_places_and_computed_ones_are_refused(plain: Data, faults: Faults, tmp_path: Path) -> None:
    (tmp_path / "read.job").write_text(INSPECTED, encoding="utf-8")
    (tmp_path / "sample.txt").write_bytes(SAMPLE.read_bytes())
    plain["bench"]["job"] = "read.job"
    assert [fault.field for fault in faults(plain)] == ["bench.job"]

    plain["bench"] = {"job": "sample.txt"}
    assert "computed" in faults(plain)[0].found


def folder_of(tmp_path: Path, *orders: Data) -> Path:
    folder = tmp_path / "orders"
    folder.mkdir()
    for order in orders:
        (folder / f"{order['order']}.json").write_text(json.dumps(order), encoding="utf-8")
    return folder


def test_a_job_of_the_same_number_in_the_same_run_is_joined(plain: Data, tmp_path: Path) -> None:
    jobs = tmp_path / "jobs"
    jobs.mkdir()
    (jobs / "a.txt").write_text(BARE + BOX, encoding="utf-8")
    (jobs / "readme.txt").write_text("what lies here\n", encoding="utf-8")
    order = bare(plain) | {"order": "tk-0417"}
    (result,) = read_orders([folder_of(tmp_path, order), jobs])

    assert result.order is not None
    assert result.order.spectacles.prescription.left.sphere_d == 2.25
    assert result.order.spectacles.frame.dbl_mm == 18


def test_jobs_beside_their_orders_are_no_orders_of_their_own(plain: Data, tmp_path: Path) -> None:
    folder = folder_of(tmp_path, plain | {"job": "a.job"})
    (folder / "a.job").write_text(BARE, encoding="utf-8")

    assert [result.error for result in read_orders([folder])] == [None]


def test_a_file_of_readings_is_not_taken_for_the_job_though_it_has_the_number(plain: Data, tmp_path: Path) -> None:
    folder = folder_of(tmp_path, bare(plain) | {"bench": {"job": "read.job"}})
    (folder / "read.job").write_text(INSPECTED, encoding="utf-8")
    (folder / "rx.job").write_text(BARE, encoding="utf-8")
    (result,) = read_orders([folder])

    assert result.order is not None
    assert result.order.spectacles.readings is not None
    assert result.order.spectacles.prescription.left.sphere_d == 2.25


def test_the_rows_of_a_table_take_their_prescription_from_job_files_by_name_or_number(tmp_path: Path) -> None:
    """A column `job` says that job files bring the prescription; an empty cell, that the number finds the file."""
    jobs = tmp_path / "jobs"
    jobs.mkdir()
    (jobs / "a.job").write_text(BARE, encoding="utf-8")
    (tmp_path / "b.job").write_text(BARE.replace("TK-0417", "LAB-9").replace("2.25", "-2.25"), encoding="utf-8")
    table = tmp_path / "orders.csv"
    table.write_text("order,date,job\nTK-0417,2026-10-05,\nTK-0418,2026-10-05,b.job\n", encoding="utf-8")
    lefts = [result.order and result.order.spectacles.prescription.left for result in read_orders([table, jobs])]

    assert [left and left.sphere_d for left in lefts] == [2.25, -2.25]


def test_a_job_that_disagrees_by_number_refuses_its_order(plain: Data, tmp_path: Path) -> None:
    folder = folder_of(tmp_path, plain)
    (folder / "a.job").write_text(BARE.replace("2.25", "-2.25"), encoding="utf-8")
    (result,) = read_orders([folder])

    assert result.error is not None
    assert "a.job" in str(result.error)


def test_two_jobs_of_one_number_are_refused(plain: Data, tmp_path: Path) -> None:
    folder = folder_of(tmp_path, plain)
    for name in ("a.job", "b.dcs"):
        (folder / name).write_text(BARE, encoding="utf-8")
    (result,) = read_orders([folder])

    assert result.error is not None
    assert "2 job files" in str(result.error)


def test_a_job_alone_is_an_order_if_it_carries_its_date(tmp_path: Path) -> None:
    path = tmp_path / "lt.job"
    path.write_text(BARE + BOX + LENS + "_DATE=2026-11-20\n", encoding="utf-8")
    order = read_order(path)
    (result,) = read_orders([tmp_path])

    assert (order.number, order.date.isoformat()) == ("TK-0417", "2026-11-20")
    assert order.spectacles.prescription.right.axis_deg == 63
    assert order.received_left == "SPH 2.25 CYL 0.00 AX 0"
    assert result.order is not None


@pytest.mark.parametrize(
    ("text", "field"),
    [
        (BARE, "date"),
        (BARE + "_DATE=20/11/2026\n", "date"),
        (BARE.replace("JOB=TK-0417\n", "_DATE=2026-11-20\n"), "JOB"),
        (BARE.replace("TK-0417", "TK 0417") + "_DATE=2026-11-20\n", "order"),
        ("JOB=TK-0417\n_DATE=2026-11-20\nDBL=18\n", "prescription"),
    ],
)
def test_a_job_alone_without_what_an_order_needs_is_refused(text: str, field: str, tmp_path: Path) -> None:
    path = tmp_path / "lt.txt"
    path.write_text(text, encoding="utf-8")
    (result,) = read_orders([path])

    assert result.error is not None
    assert [fault.field for fault in result.error.faults] == [field]


def test_a_named_text_that_is_no_job_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "letter.txt"
    path.write_text("Dear workshop\n", encoding="utf-8")
    (result,) = read_orders([path])

    assert result.error is not None
    assert "LABEL=value" in str(result.error)


def test_a_fhir_prescription_takes_the_rest_from_the_job_of_its_number(tmp_path: Path) -> None:
    """HL7 FHIR R4 example 33123: right -2.00 DS, 0.5 down; left -1.00 -0.50 x 180, 0.5 up; add 2.00; number 15013."""
    example = SAMPLE.parent / "VisionPrescription-33123.r4.json"
    (alone,) = read_orders([example])
    assert alone.order is not None
    records = (
        f"JOB={alone.order.number}\nSPH=-2.00;-1.00\nCYL=0.00;-0.50\nAX=0;180\nADD=2.00;2.00\n"
        "PRVM=0.5;0.5\nPRVA=270;90\n" + BOX
    )
    job = tmp_path / "rx.job"
    job.write_text(records, encoding="utf-8")
    (joined,) = read_orders([example, job])
    assert joined.order is not None
    assert joined.order.spectacles.measurements.pd_left_mm == 31.5
    assert joined.order.spectacles.prescription.vertex_mm == 12.5

    job.write_text(records.replace("PRVA=270;90", "PRVA=90;270"), encoding="utf-8")
    (refused,) = read_orders([example, job])
    assert refused.error is not None
    assert {fault.field for fault in refused.error.faults} == {"prescription.right", "prescription.left"}
