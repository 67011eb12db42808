"""Orders from spreadsheet exports: delimiters, decimal commas, quoted cells, and refusals by row and column.

The forms follow RFC 4180 (quoted cells, doubled quotation marks, CRLF) and what spreadsheets write beside it (common
practice): a byte order mark, semicolons where the comma is the decimal mark, tabs, empty columns at the end.
"""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import Eye, LensReading
from explainer.orders import Order, read_order, read_orders
from explainer.orders.assembly.models import OrderFile
from explainer.orders.tables.columns import COLUMNS
from explainer.orders.tables.example import example_csv

Data = dict[str, Any]

PLAIN = {
    "order": "TK-0417",
    "date": "2026-10-05",
    "language": "en-GB",
    "wearer_name": "Odalys Brackenwhistle",
    "wearer_birth_year": "1971",
    "wearer_uses": "driving",
    "written": "2026-09-21",
    "right": "+1.75 -0.50 x 63",
    "left": "+2.25 DS",
    "vertex_mm": "12.5",
    "pd_right_mm": "32.0",
    "pd_left_mm": "31.5",
    "frame_a_mm": "51",
    "frame_b_mm": "36.0",
    "frame_dbl_mm": "18",
    "frame_ed_mm": "54",
    "frame_material": "metal",
    "lens_design": "single-vision",
    "lens_material": "urethane-1.53",
    "lens_tint": "clear",
    "lens_coatings": "hard",
    "bench_right": "+1.78 -0.52 x 62",
    "bench_left": "+2.24 DS",
    "bench_pd_mm": "63.5",
    "previous_right": "+1.25 -0.50 x 60",
    "previous_left": "+1.75 DS",
}
SHORT = {"order": "A-1", "date": "2026-10-05", "right": "-1.00 DS", "left": "-2.00 -0.50 x 90"}


def table(*rows: dict[str, str], delimiter: str = ";", end: str = "\n") -> str:
    """The rows as a table with every column that one of them has."""
    names = list(dict.fromkeys(name for row in rows for name in row))
    sheet = io.StringIO()
    writer = csv.DictWriter(sheet, names, restval="", delimiter=delimiter, lineterminator=end)
    writer.writeheader()
    writer.writerows(rows)
    return sheet.getvalue()


@pytest.fixture
def write(tmp_path: Path) -> Callable[..., Path]:
    def writer(text: str, name: str = "orders.csv", encoding: str = "utf-8") -> Path:
        path = tmp_path / name
        path.write_bytes(text.encode(encoding))
        return path

    return writer


@pytest.fixture
def one(write: Callable[..., Path]) -> Callable[..., Order]:
    """The order in a table of one row."""
    return lambda row, **options: read_order(write(table(row, **options)))


@pytest.fixture
def refused(write: Callable[..., Path]) -> Callable[[str], list[Fault]]:
    """The faults of the only result of a table."""

    def reader(text: str) -> list[Fault]:
        (result,) = read_orders([write(text)])
        assert result.error is not None
        return list(result.error.faults)

    return reader


def test_a_row_says_what_the_same_order_file_says(one: Callable[..., Order], plain: Data, read: Callable[..., Order]):
    """`plain` is the same order as JSON of the order file."""
    assert replace(one(PLAIN), source="") == replace(read(plain), source="")


@pytest.mark.parametrize("delimiter", [";", ",", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", [b"", codecs.BOM_UTF8])
def test_delimiter_line_end_and_byte_order_mark_make_no_difference(
    delimiter: str, end: str, mark: bytes, write: Callable[..., Path], one: Callable[..., Order]
):
    before = one(PLAIN)
    path = write("")
    path.write_bytes(mark + table(PLAIN, delimiter=delimiter, end=end).encode())

    assert read_order(path) == before


@pytest.mark.parametrize("delimiter", [";", ",", "\t"])
def test_a_decimal_comma_is_a_decimal_point(delimiter: str, one: Callable[..., Order]):
    with_commas = {name: value.replace(".", ",") if name.endswith("mm") else value for name, value in PLAIN.items()}
    with_commas["right"] = "+1,75 -0,50 x 63"
    order = one(with_commas, delimiter=delimiter)

    assert order.spectacles == one(PLAIN).spectacles
    assert order.received_right == "+1,75 -0,50 x 63"


def test_cells_may_hold_line_ends_delimiters_and_doubled_quotation_marks(one: Callable[..., Order]):
    reason = 'agreed; "by letter"\nwith the prescriber'
    row = PLAIN | {
        "bench_release_by": 'the "old" optician',
        "bench_release_date": "2026-10-06",
        "bench_release_reason": reason,
    }
    order = one(row)

    assert order.release is not None
    assert (order.release.by, order.release.reason) == ('the "old" optician', reason)
    assert one(row, end="\r\n").release == order.release


def test_rows_are_orders_in_their_order_and_blank_rows_are_none(write: Callable[..., Path]):
    text = table(SHORT, SHORT | {"order": "A-2"}).replace("A-2", "\n;;;\nA-2", 1)
    results = list(read_orders([write(text)]))

    assert [result.order.number for result in results if result.order] == ["A-1", "A-2"]
    assert results[1].source.endswith("orders.csv, row 5")


def test_columns_stand_in_any_order_and_any_case(write: Callable[..., Path]):
    text = "LEFT; Right ;Date;order\n-2.00 DS;-1.00 DS;2026-10-05;A-1\n"
    order = read_order(write(text))

    assert order.spectacles.prescription.right == Eye(sphere_d=-1)
    assert order.spectacles.prescription.left == Eye(sphere_d=-2)


def test_an_eye_may_stand_in_numbers(one: Callable[..., Order]):
    """Powers, axis, addition and prism of each eye in cells of their own, as an export of a database has them."""
    order = one(
        {
            "order": "N-1",
            "date": "2026-10-05",
            "right_sphere": "-3,25",
            "right_cylinder": "\u22121.25",
            "right_axis": "172",
            "right_add": "2,00",
            "right_prism": "2 in & 1,5 down",
            "left_sphere": "0",
            "left_add": "+2.00",
            "bench_right_sphere": "-3.22",
            "bench_left_sphere": "+0.03",
            "bench_left_axis": "",
        }
    )
    pair = order.spectacles

    assert pair.prescription.right == Eye(
        sphere_d=-3.25, cylinder_d=-1.25, axis_deg=172, add_d=2, prism_in_pd=2, prism_up_pd=-1.5
    )
    assert pair.prescription.left == Eye(sphere_d=0, add_d=2)
    assert pair.readings is not None
    assert (pair.readings.right, pair.readings.left) == (LensReading(sphere_d=-3.22), LensReading(sphere_d=0.03))


@pytest.mark.parametrize(
    ("column", "cell"),
    [
        ("right_sphere", "1.25"),  # the sign may have been lost
        ("right_sphere", "-325"),
        ("right_sphere", "-12"),  # the point may have been lost
        ("right_sphere", "-12.5"),
        ("right_sphere", "- 3.25"),
        ("right_sphere", "-3.25 D"),
        ("right_sphere", "-3.2.5"),
        ("right_sphere", "-1e1"),
        ("right_sphere", "\u0661"),
        ("right_axis", "172.5.0"),
        ("right_axis", "-10"),
        ("right_axis", "181"),
        ("right_add", "-2.00"),
        ("right_add", "0"),
        ("right_prism", "2"),
        ("right_prism", "-2 in"),
        ("right_prism", "2 in &"),
        ("right_prism", "2 in 3 in"),
        ("right_cylinder", "-1.13"),
        ("pd_mm", "63 mm"),
        ("pd_mm", "6.35"),
        ("pd_mm", "1,063.5"),
        ("pd_mm", "-63"),
        ("frame_a_mm", "5,1E+01"),
        ("lens_tint_category", "2.0"),
        ("wearer_birth_year", "71"),
        ("wearer_first_pair", "maybe"),
        ("wearer_uses", "driving, swimmming"),
        ("lens_coatings", "hard nano"),
        ("lens_material", "plastic"),
        ("date", "05.10.2026"),
        ("date", "2026-02-30"),
        ("order", "../../etc"),
        ("language", "english"),
        ("frame_trace", "../job.txt"),
        ("fhir", "/etc/passwd"),
        ("job", "../../job.dcs"),
    ],
)
def test_a_wrong_cell_is_refused_by_its_column(column: str, cell: str, write: Callable[..., Path]):
    row = {
        "order": "N-1",
        "date": "2026-10-05",
        "right_sphere": "-1.00",
        "right_cylinder": "-1.00",
        "right_axis": "5",
        "left_sphere": "-1.00",
    }
    (result,) = read_orders([write(table(row | {column: cell}))])

    assert result.error is not None
    assert result.error.source.endswith("orders.csv, row 2")
    assert column in {fault.field for fault in result.error.faults} or column == "fhir"
    for fault in result.error.faults:
        assert fault.found
        assert fault.accepted


def test_all_faults_of_a_row_come_at_once_and_stop_no_other_row(write: Callable[..., Path]):
    bad = {
        "order": "A-2",
        "date": "5.10.2026",
        "right": "1.00",
        "left": "-2.00 x 90",
        "pd_mm": "x",
        "lens_tint": "dark",
    }
    results = list(read_orders([write(table(SHORT, bad, SHORT | {"order": "A-3"}))]))

    assert [result.order is not None for result in results] == [True, False, True]
    assert results[1].error is not None
    assert {fault.field for fault in results[1].error.faults} == {"date", "right", "left", "pd_mm", "lens_tint"}
    assert str(results[1].error).startswith(f"{results[1].source}: refused")
    assert results[1].source.endswith("orders.csv, row 3")


def test_the_line_is_named_too_where_it_is_not_the_row(write: Callable[..., Path]):
    row = SHORT | {"bench_release_by": "x", "bench_release_date": "2026-10-06", "bench_release_reason": "one\ntwo"}
    results = list(read_orders([write(table(row, SHORT | {"order": "?"}))]))

    assert results[1].source.endswith("orders.csv, row 3 (line 4)")


def test_faults_of_the_header_come_at_once(refused: Callable[[str], list[Fault]]):
    faults = refused("order;rihgt;left;left;colour\nA-1;-1.00 DS;-1.00 DS;;\n")

    assert [fault.field for fault in faults] == [
        "column 2",
        "column 5",
        "column left",
        "column date",
        "columns of the prescription",
    ]
    assert faults[0].accepted == "right?"


def test_text_and_numbers_for_one_eye_are_refused(refused: Callable[[str], list[Fault]]):
    assert [fault.field for fault in refused(table(SHORT | {"right_sphere": "-1.00"}))] == ["right_sphere"]


@pytest.mark.parametrize(
    ("row", "found"), [("A-1;2026-10-05;-1.00 DS", "3 cells"), ("A-1;2026-10-05;-1.00 DS;-2.00 DS;", "5 cells")]
)
def test_a_row_of_another_length_is_refused(row: str, found: str, refused: Callable[[str], list[Fault]]):
    (fault,) = refused(f"order;date;right;left\n{row}\n")

    assert (fault.field, fault.found) == ("row", found)


def test_columns_without_a_name_are_left_if_they_are_empty(write: Callable[..., Path]):
    head = "order;date;right;left;;\n"
    sound, faulty = "A-1;2026-10-05;-1.00 DS;-1.00 DS;;\n", "A-2;2026-10-05;-1.00 DS;-1.00 DS;;x\n"
    results = list(read_orders([write(head + sound + faulty)]))

    assert results[0].order is not None
    assert results[1].error is not None
    assert results[1].error.faults[0].field == "column 6"


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("", "empty first line"),
        ("\n\n", "empty first line"),
        ('order;date;right;left\n"A-1;2026-10-05;-1.00 DS;-1.00 DS\n', "never closed"),
        ('order;date;right;left\nA-1;"2026"-10-05;-1.00 DS;-1.00 DS\n', "not doubled"),
        ("order;date;right;left\nA-1;2026-10-05\r;-1.00 DS;-1.00 DS\n", "another kind"),
        ("order;date;right;left\nA-1;2026-10-05;-1.00 DS;-1.00\0 DS\n", "NUL"),
        ("order;date;right;left\n", "no order"),
    ],
)
def test_a_broken_table_is_refused_whole(text: str, found: str, refused: Callable[[str], list[Fault]]):
    assert found in refused(text)[0].found


def test_a_table_that_breaks_late_gives_no_order_at_all(write: Callable[..., Path]):
    """A stray quotation mark may have swallowed rows: nobody knows which."""
    (result,) = read_orders([write(table(SHORT, SHORT | {"order": "A-2"}) + '"A-3')])

    assert result.error is not None
    assert result.error.faults[0].field == "line 4"


def test_bytes_that_are_no_utf_8_refuse_the_table(write: Callable[..., Path]):
    path = write(table(SHORT | {"wearer_name": "Zoë Fernleigh"}), encoding="latin-1")
    (result,) = read_orders([path])

    assert result.error is not None
    assert "not UTF-8" in result.error.faults[0].found


def test_a_number_that_stands_twice_refuses_every_row_that_has_it(write: Callable[..., Path], tmp_path: Path):
    path = write(table(SHORT, SHORT | {"order": "A-2"}, SHORT | {"order": "a-1"}))
    other = write(table(SHORT), "other.csv")
    results = list(read_orders([path, other]))

    assert [result.order.number if result.order else None for result in results] == [None, "A-2", None, None]
    assert results[0].error is not None
    assert "orders.csv, row 4" in results[0].error.faults[0].found
    assert "other.csv, row 2" in results[0].error.faults[0].found


def test_files_named_in_a_row_lie_beside_the_table(write: Callable[..., Path], tmp_path: Path):
    example = Path(__file__).parents[2] / "data" / "VisionPrescription-33123.r4.json"
    (tmp_path / "rx.json").write_bytes(example.read_bytes())
    write(table({"order": "F-1", "date": "2026-10-05", "fhir": "rx.json"}))
    (result,) = read_orders([tmp_path])

    assert result.order is not None, result.error
    assert result.order.spectacles.prescription.left == Eye(
        sphere_d=-1, cylinder_d=-0.5, axis_deg=180, add_d=2, prism_up_pd=0.5
    )


def test_every_field_of_the_order_file_has_a_column():
    leaves = set()
    for name, field in OrderFile.model_fields.items():
        tables = [field.annotation, *getattr(field.annotation, "__args__", ())]
        inner = next((kind for kind in tables if hasattr(kind, "model_fields")), None)
        for leaf, below in getattr(inner, "model_fields", {}).items():
            deeper = next((k for k in getattr(below.annotation, "__args__", ()) if hasattr(k, "model_fields")), None)
            nested = deeper.model_fields if deeper is not None and leaf == "release" else {}
            leaves |= {f"{name}.{leaf}.{last}" for last in nested} or {f"{name}.{leaf}"}
        if inner is None:
            leaves.add(name)

    assert leaves == {
        ".".join(column.path) for column in COLUMNS.values() if column.path[-2:-1] not in (("right",), ("left",))
    }


def test_the_printed_example_reads_back_in(write: Callable[..., Path]):
    first, second = read_orders([write(example_csv())])

    assert first.order is not None, first.error
    assert second.order is not None, second.error
    assert first.order.spectacles.prescription.left == Eye(sphere_d=-3, cylinder_d=-0.75, axis_deg=12)
    assert second.order.spectacles.prescription.right == Eye(
        sphere_d=1.25, cylinder_d=-0.75, axis_deg=90, add_d=2, prism_in_pd=2
    )
    assert not first.order.warnings + second.order.warnings
    assert example_csv().splitlines()[0].split(";") == list(COLUMNS)


def test_several_orders_are_not_one(write: Callable[..., Path]):
    with pytest.raises(InputError, match="more than one order"):
        read_order(write(table(SHORT, SHORT | {"order": "A-2"})))
