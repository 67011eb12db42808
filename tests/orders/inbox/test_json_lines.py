"""Orders as JSON lines: one a line, each read or refused on its own, a fault named by its line."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from explainer.errors import Fault
from explainer.orders import Order, read_order, read_orders
from explainer.orders.assembly.order import ReadResult
from explainer.orders.values.lines import LONGEST_LINE

Data = dict[str, Any]
EXAMPLE = Path(__file__).parents[2] / "data" / "VisionPrescription-33123.r4.json"


@pytest.fixture
def results(tmp_path: Path) -> Callable[..., list[ReadResult]]:
    def reader(*lines: str | bytes, name: str = "orders.jsonl", end: bytes = b"\n") -> list[ReadResult]:
        path = tmp_path / name
        path.write_bytes(end.join(line if isinstance(line, bytes) else line.encode() for line in lines))
        return list(read_orders([path]))

    return reader


def test_a_line_says_what_a_file_of_its_own_says(
    results: Callable[..., list[ReadResult]], plain: Data, read: Callable[..., Order]
):
    (result,) = results(json.dumps(plain))

    assert result.order is not None
    assert replace(result.order, source="") == replace(read(plain), source="")


@pytest.mark.parametrize("name", ["orders.jsonl", "orders.ndjson"])
@pytest.mark.parametrize("end", [b"\n", b"\r\n"])
def test_line_ends_blank_lines_and_a_byte_order_mark_make_no_difference(
    name: str, end: bytes, results: Callable[..., list[ReadResult]], plain: Data
):
    first = b"\xef\xbb\xbf" + json.dumps(plain).encode()
    found = results(first, "", json.dumps(plain | {"order": "TK-2"}), "", name=name, end=end)

    assert [result.order.number for result in found if result.order] == ["TK-0417", "TK-2"]
    assert found[1].source.endswith(f"{name}, line 3")


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("{", "a mistake at column 2"),
        ('{"order": "A",}', "a mistake at column"),
        ("[]", "no object"),
        ("7", "no object"),
        ('{"order": NaN}', '"NaN"'),
        ('{"order": 1e999}', '"1e999"'),
        ("[" * 1000, "nesting deeper than 60"),
        (b'{"order": "\xff"}', "not UTF-8"),
        (b'{"order": "A\0"}', "NUL"),
        (" " * (LONGEST_LINE + 5) + "{}", f"more than {LONGEST_LINE} bytes"),
        ('{"order": "A"} {"order": "B"}', "a mistake at column"),
    ],
    ids=range(11),
)
def test_a_broken_line_is_refused_by_its_number_and_stops_no_other(
    line: str | bytes, found: str, results: Callable[..., list[ReadResult]], plain: Data
):
    before, broken, after = results(json.dumps(plain), line, json.dumps(plain | {"order": "TK-2"}))

    assert before.order is not None
    assert after.order is not None
    assert broken.error is not None
    assert broken.source.endswith("orders.jsonl, line 2")
    (fault,) = broken.error.faults
    assert fault.field == "line"
    assert found in fault.found


def test_a_name_that_stands_twice_in_a_line_is_refused(results: Callable[..., list[ReadResult]]):
    (result,) = results('{"prescription": {"right": "-1.00 DS", "right": "+1.00 DS"}}')

    assert result.error is not None
    assert result.error.faults == (Fault('"right"', "the same name twice", "each name once in its object"),)


def test_faults_inside_an_order_are_named_by_field_in_their_line(results: Callable[..., list[ReadResult]], plain: Data):
    plain["prescription"]["right"] = "1.75 DS"
    (result,) = results(json.dumps(plain))

    assert result.error is not None
    assert [fault.field for fault in result.error.faults] == ["prescription.right"]
    assert result.error.source.endswith("orders.jsonl, line 1")


def test_a_line_may_be_a_fhir_prescription(results: Callable[..., list[ReadResult]]):
    """FHIR's bulk exports are such files: one resource a line."""
    example = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    (result,) = results(json.dumps(example))

    assert result.order is not None
    assert result.order.spectacles == read_order(EXAMPLE).spectacles


def test_a_file_without_lines_is_refused(results: Callable[..., list[ReadResult]]):
    (result,) = results("", "  ")

    assert result.error is not None
    assert result.error.faults[0].found == "no order in it"


def test_lines_rows_and_files_of_a_folder_come_in_the_order_of_names(plain: Data, tmp_path: Path):
    (tmp_path / "a.csv").write_text("order;date;right;left\nA-1;2026-10-05;plano;plano\n", encoding="utf-8")
    (tmp_path / "b.jsonl").write_text(json.dumps(plain | {"order": "B-1"}), encoding="utf-8")
    (tmp_path / "c.json").write_text(json.dumps(plain | {"order": "C-1"}), encoding="utf-8")
    (tmp_path / "d.toml").write_text(
        'order = "D-1"\ndate = 2026-01-01\n[prescription]\nright = "plano"\nleft = "plano"', encoding="utf-8"
    )
    (tmp_path / "e.TSV").write_text("order\tdate\tright\tleft\nE-1\t2026-10-05\tplano\tplano\n", encoding="utf-8")
    (tmp_path / "workshop.toml").write_text('name = "The Lantern Workshop"', encoding="utf-8")
    found = list(read_orders([tmp_path]))

    assert [result.order.number if result.order else str(result.error) for result in found] == [
        "A-1",
        "B-1",
        "C-1",
        "D-1",
        "E-1",
    ]
    assert {result.order.workshop.name for result in found if result.order and result.order.workshop} == {
        "The Lantern Workshop"
    }
