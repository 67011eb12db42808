"""Hostile tables, JSON lines and Bundles: read or refused, never a traceback, in room that does not grow with them."""

from __future__ import annotations

import copy
import csv
import io
import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from explainer.orders import read_orders
from explainer.orders.assembly.order import ReadResult
from explainer.orders.tables.columns import COLUMNS
from explainer.orders.tables.example import example_csv
from explainer.orders.values.lines import LONGEST_LINE

Data = dict[str, Any]
HERE = Path(__file__).parents[2]
HEAD = "order;date;right;left;wearer_name\n"
SPECTACLES = json.loads((HERE / "data" / "VisionPrescription-33123.r4.json").read_text(encoding="utf-8"))
ANY = settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=300)


def results_of(path: Path, data: bytes | str) -> list[ReadResult]:
    path.write_bytes(data if isinstance(data, bytes) else data.encode("utf-8", "surrogatepass"))
    return list(read_orders([path]))


def row(**cells: str) -> str:
    """A table of one sound row with some cells changed."""
    sheet = io.StringIO()
    plain = {"order": "H-1", "date": "2026-10-05", "right": "-1.00 DS", "left": "-2.00 DS"} | cells
    writer = csv.DictWriter(sheet, list(plain), delimiter=";", lineterminator="\n")
    writer.writeheader()
    writer.writerow(plain)
    return sheet.getvalue()


def sound(results: list[ReadResult]) -> None:
    """Each result is one of the two, and what is said of a refusal is short and visible."""
    for result in results:
        assert (result.order is None) != (result.error is None)
        for fault in result.error.faults if result.error else ():
            assert len(fault.found) <= 200
            assert (fault.field + fault.found + fault.accepted).isprintable()


@pytest.mark.parametrize(
    "name",
    [
        "Odalys\u202eBrackenwhistle",
        "Odalys\u2067B",
        "Odalys\x1b[31mB",
        "Odalys\nB",
        "Odalys\ue000",
        "O" * 10_000,
        "\ufeffOdalys",
    ],
)
def test_a_name_that_hides_something_is_refused_without_being_repeated(name: str, tmp_path: Path):
    (result,) = results_of(tmp_path / "o.csv", row(wearer_name=name))

    assert result.error is not None
    assert [fault.field for fault in result.error.faults] == ["wearer_name"]
    assert "Odalys" not in str(result.error)


@pytest.mark.parametrize(
    "cell",
    [
        '=HYPERLINK("https://example.org";"x")',
        "=1+1",
        "=cmd|' /C calc'!A0",
        "@SUM(1)",
        "+SUM(1)",
        "-SUM(1)",
        "-(1)",
        "+ cmd",
        "\t=1",
    ],
)
@pytest.mark.parametrize("column", ["wearer_name", "right", "bench_release_reason", "lens_data", "order"])
def test_a_cell_that_a_spreadsheet_would_compute_is_refused_in_any_column(cell: str, column: str, tmp_path: Path):
    cells = {"bench_release_by": "x", "bench_release_date": "2026-10-06", "bench_release_reason": "y"} | {column: cell}
    (result,) = results_of(tmp_path / "o.csv", row(**cells))

    assert result.error is not None
    assert column in {fault.field for fault in result.error.faults}


@pytest.mark.parametrize("text", ["+2.00 DS", "+2,00 -0,50 x 90", "-0.25 DS", "\u22122.00 DS", "+2.00 +1.00 X 5"])
def test_a_power_that_begins_with_its_sign_is_no_formula(text: str, tmp_path: Path):
    (result,) = results_of(tmp_path / "o.csv", row(right=text))

    assert result.order is not None, result.error


@pytest.mark.parametrize(
    "number", ["../../etc/passwd", "/etc", "A/B", "A\\B", "..", "A..B", ".hidden", "-o", "C:", "nul\n", "A" * 41]
)
@pytest.mark.parametrize("kind", ["csv", "jsonl"])
def test_an_order_number_is_never_a_path(number: str, kind: str, plain: Data, tmp_path: Path):
    text = row(order=number) if kind == "csv" else json.dumps(plain | {"order": number})
    (result,) = results_of(tmp_path / f"o.{kind}", text)

    if number == "nul\n" and kind == "csv":  # blanks round a cell do not count
        assert result.order is not None
        assert result.order.number == "nul"
    else:
        assert result.error is not None
        assert "order" in {fault.field for fault in result.error.faults}


@pytest.mark.parametrize("column", list(COLUMNS))
@pytest.mark.parametrize(
    "cell", ["x" * 10_000, "9" * 5000, "a\u202eb", "\x1b[31m", "\udc80", "\u0660", "[]", "NaN", "-", "'"]
)
def test_no_cell_breaks_the_reader(column: str, cell: str, tmp_path: Path):
    sound(results_of(tmp_path / "o.csv", row(**{column: cell})))


@pytest.mark.parametrize(
    "text",
    [
        ";" * 150_000,
        ";".join(f"c{i}" for i in range(20_000)),
        ";".join(["order"] * 20_000),
        HEAD + ";" * 150_000,
        HEAD + "x" * (LONGEST_LINE + 1),
        HEAD + '"' + "x\n" * LONGEST_LINE,
        HEAD + '"\n";' * LONGEST_LINE,
        HEAD + '"' + "x" * 140_000 + '"',
        HEAD + '""' * 60_000,
        "\ufeff" * 3 + HEAD,
        "\n" * 100_000 + HEAD,
        HEAD + "\n" * 100_000,
        '"order";"date";"right";"left"\n' + '"' * 9,
        "order" + "\n",
        "=1;=2",
    ],
    ids=range(15),
)
def test_tables_without_measure_are_refused_with_few_words(text: str, tmp_path: Path):
    results = results_of(tmp_path / "o.csv", text)

    assert all(result.order is None for result in results)
    sound(results)
    assert sum(len(result.error.faults) for result in results if result.error) <= 40


def test_a_huge_line_is_passed_over_and_the_next_is_read(plain: Data, tmp_path: Path):
    path = tmp_path / "o.jsonl"
    with path.open("wb") as stream:
        stream.write(b'{"order": "')
        stream.writelines(b"x" * 1_000_000 for _ in range(20))
        stream.write(b"\n" + json.dumps(plain).encode() + b"\n")
    huge, small = read_orders([path])

    assert huge.error is not None
    assert small.order is not None
    assert small.source.endswith("line 2")


@pytest.mark.parametrize(
    "line", ['{"a":' * 61 + "1" + "}" * 61, "[" * 100_000, '{"order": ' + "9" * 5000 + "}", '{"a": "' + '\\"' * 90_000]
)
def test_deep_and_endless_lines_are_refused(line: str, tmp_path: Path):
    (result,) = results_of(tmp_path / "o.jsonl", line)

    assert result.error is not None


def test_a_folder_of_broken_files_gives_a_refusal_for_each(tmp_path: Path):
    (tmp_path / "a.csv").write_bytes(b"\xff\xfe")
    (tmp_path / "b.jsonl").write_bytes(b"\0\n\0\n")
    (tmp_path / "c.json").write_bytes(b'{"resourceType": "Bundle", "entry": [[[[]]]]}')
    (tmp_path / "d.ndjson").mkdir()
    results = list(read_orders([tmp_path]))

    assert [Path(result.source).name for result in results] == ["a.csv", "b.jsonl, line 1", "b.jsonl, line 2", "c.json"]
    assert all(result.error for result in results)


def test_a_file_that_vanishes_between_the_two_walks_is_refused(tmp_path: Path):
    first, second = tmp_path / "a.csv", tmp_path / "b.csv"
    first.write_text(row(), encoding="utf-8")
    second.write_text(row(order="H-2"), encoding="utf-8")
    walk = read_orders([first, second])

    assert next(walk).order is not None
    second.unlink()
    assert "no such file" in str(next(walk).error)


@ANY
@given(data=st.binary(max_size=400), kind=st.sampled_from(["csv", "tsv", "jsonl", "ndjson", "json", "toml"]))
def test_any_bytes_are_read_or_refused(data: bytes, kind: str, tmp_path: Path):
    sound(results_of(tmp_path / f"o.{kind}", data))


PIECES = [*';,\t"\n\r\0\ufeff=+-@1. aé', "order", "date", "right", "-1.00 DS", "2026-10-05", "H-1", ";;;;"]
TABLE_TEXT = st.lists(st.sampled_from(PIECES), max_size=60).map("".join)


@ANY
@given(text=TABLE_TEXT)
def test_any_text_below_a_header_is_read_or_refused(text: str, tmp_path: Path):
    sound(results_of(tmp_path / "o.csv", HEAD + text))


@ANY
@given(place=st.integers(0, len(example_csv()) - 1), new=st.text(max_size=3), gone=st.integers(0, 40))
def test_a_damaged_table_is_read_or_refused(place: int, new: str, gone: int, tmp_path: Path):
    text = example_csv()
    sound(results_of(tmp_path / "o.csv", text[:place] + new + text[place + gone :]))


@ANY
@given(
    data=st.data(),
    value=st.recursive(
        st.none() | st.booleans() | st.integers() | st.text(max_size=9),
        lambda x: (
            st.lists(x, max_size=3)
            | st.dictionaries(st.sampled_from(["resource", "resourceType", "type", "entry", "method"]), x, max_size=3)
        ),
        max_leaves=6,
    ),
)
def test_any_value_in_any_place_of_a_bundle_is_read_or_refused(data: st.DataObject, value: Any, tmp_path: Path):
    bundle: Data = {
        "resourceType": "Bundle",
        "type": "collection",
        "link": [{"relation": "self"}],
        "entry": [
            {"resource": copy.deepcopy(SPECTACLES), "request": {"method": "PUT"}},
            {"resource": {"resourceType": "X"}},
        ],
    }
    *steps, last = data.draw(st.sampled_from(list(places(bundle))))
    place: Any = bundle
    for step in steps:
        place = place[step]
    place[last] = value
    sound(results_of(tmp_path / "o.json", json.dumps(bundle)))


def places(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Every place inside a JSON value."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, below in inner:
        yield (*path, key)
        yield from places(below, (*path, key))


ROWS = 40_000
PLANO = {"right": "plano", "left": "plano"}
WALK = """
import resource, sys
from explainer.orders import read_orders
count = sum(result.order is not None for result in read_orders([sys.argv[1]]))
print(count, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""


@pytest.mark.slow
@pytest.mark.parametrize("kind", ["csv", "jsonl"])
def test_many_orders_need_hardly_more_room_than_ten(kind: str, tmp_path: Path):
    """Peak memory of two processes. An order kept would add more than a kilobyte each."""

    def peak(count: int) -> int:
        path = tmp_path / f"o{count}.{kind}"
        with path.open("w", encoding="utf-8") as stream:
            stream.writelines(lines(kind, count))
        shown = subprocess.run(
            [sys.executable, "-c", WALK, str(path)], capture_output=True, text=True, check=True, cwd=HERE.parent
        )
        read, kilobytes = map(int, shown.stdout.split())
        assert read == count
        return kilobytes

    assert peak(ROWS) - peak(10) < ROWS // 5  # kilobytes, that is two hundred bytes an order


def lines(kind: str, count: int) -> Iterator[str]:
    if kind == "csv":
        yield "order;date;right;left\n"
    for number in range(count):
        if kind == "csv":
            yield f"H-{number};2026-10-05;plano;plano\n"
        else:
            yield json.dumps({"order": f"H-{number}", "date": "2026-10-05", "prescription": PLANO}) + "\n"
