"""A shop's export by the workshop's [export]: its headings, words, dates, signs and workbooks; nothing is guessed."""

from __future__ import annotations

import csv
import datetime as dt
import io
import tomllib
from pathlib import Path
from typing import Any

import pytest
import xlsxwriter
from click.testing import CliRunner

from explainer.cli import main
from explainer.errors import InputError
from explainer.optics.spectacles import Eye
from explainer.orders import read_orders
from explainer.orders.tables.proposal import sample_of
from explainer.orders.tables.proposed_toml import DOUBT, proposed_toml

HEADINGS = [
    *("Auftrag", "Bestellt am", "Kunde", "R Sph", "R Zyl", "R Achse", "L Sph", "L Zyl", "L Achse"),
    *("PD", "Glastyp", "Index", "Extras", "Größe", "Bemerkung"),
]
ROWS = [
    row.split("|")
    for row in (
        "#10450|24.11.2026|Zoë Ährenfeld|-2,25|-0,5|90|1,25|||63|Einstärken|1,6|Entspiegelt + Hart|52-18-140|klingeln",
        "#26/7|25.11.2026|Bo Übelacker|2,5|-0,75|10|10,5|-1|170|61,5|Gleitsicht|1,67|Entspiegelt|50-20-145|",
    )
]
WORKSHOP = """
name = "Fernlicht Werkstatt"
language = "de"
[export]
encoding = "cp1252"
dates = "dd.mm.yyyy"
numbers_with_sign = ["R Sph", "R Zyl", "L Sph", "L Zyl"]
order_numbers = { drop = "#", instead_of = { "/" = "-" } }
[export.columns]
"Auftrag" = "order"
"Bestellt am" = "date"
"Kunde" = "wearer_name"
"R Sph" = "right_sphere"
"R Zyl" = "right_cylinder"
"R Achse" = "right_axis"
"L Sph" = "left_sphere"
"L Zyl" = "left_cylinder"
"L Achse" = "left_axis"
"PD" = "pd_mm"
"Glastyp" = "lens_design"
"Index" = "lens_material"
"Extras" = "lens_coatings"
"Größe" = ["frame_a_mm", "frame_dbl_mm", ""]
"Bemerkung" = ""
[export.values.lens_design]
"Einstärken" = "single-vision"
"Gleitsicht" = "single-vision"
[export.values.lens_material]
"1.6" = "high-index-1.60"
"1.67" = "high-index-1.67"
[export.values.lens_coatings]
"Entspiegelt" = "anti-reflection"
"Hart" = "hard"
[export.always]
frame_material = "metal"
"""


def export(folder: Path, rows: list[list[str]] = ROWS, *, workshop: str = WORKSHOP, encoding: str = "cp1252") -> Path:
    written = io.StringIO()
    csv.writer(written, delimiter=";").writerows([HEADINGS, *rows])
    (folder / "workshop.toml").write_text(workshop, encoding="utf-8")
    path = folder / "shop.csv"
    path.write_bytes(written.getvalue().encode(encoding))
    return path


def test_a_shops_export_is_read_as_the_workshop_file_says(tmp_path: Path):
    first, second = (result.order for result in read_orders([export(tmp_path)]))

    assert first is not None
    assert second is not None
    assert (first.number, first.date, first.wearer_name) == ("10450", dt.date(2026, 11, 24), "Zoë Ährenfeld")
    assert first.spectacles.prescription.right == Eye(sphere_d=-2.25, cylinder_d=-0.5, axis_deg=90)
    assert first.spectacles.prescription.left == Eye(sphere_d=1.25)
    assert first.spectacles.frame.a_mm == 52
    assert first.spectacles.frame.dbl_mm == 18
    assert first.spectacles.frame.material == "metal"
    assert first.spectacles.lens.coatings == {"anti-reflection", "hard"}
    assert second.number == "26-7"
    assert second.spectacles.prescription.left == Eye(sphere_d=10.5, cylinder_d=-1, axis_deg=170)
    assert second.spectacles.lens.material == "high-index-1.67"


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('"Bemerkung" = ""\n', "", "Bemerkung"),
        ('"Hart" = "hard"\n', "", "Hart"),
        ('numbers_with_sign = ["R Sph", "R Zyl", "L Sph", "L Zyl"]\n', "", "1,25"),
        ('dates = "dd.mm.yyyy"', 'dates = "mm/dd/yyyy"', "24.11.2026"),
        ('"PD" = "pd_mm"', '"PD" = "pupils"', "pupils"),
        ('"PD" = "pd_mm"', '"PD" = "order"', "order filled 2 times"),
        ('encoding = "cp1252"\n', "", "UTF-8"),
        ('["frame_a_mm", "frame_dbl_mm", ""]', '["frame_a_mm", "frame_dbl_mm"]', "52-18-140"),
    ],
)
def test_what_is_not_named_is_refused_and_never_guessed(tmp_path: Path, old: str, new: str, told: str):
    assert old in WORKSHOP
    results = list(read_orders([export(tmp_path, workshop=WORKSHOP.replace(old, new))]))

    assert any(result.error and told in str(result.error) for result in results), [str(r.error) for r in results]
    assert results[0].order is None


def test_without_advice_an_old_encoding_says_what_to_do(tmp_path: Path):
    path = export(tmp_path, workshop='name = "Fernlicht"\n')
    (result,) = read_orders([path])
    assert "CSV UTF-8" in str(result.error)
    assert "encoding" in str(result.error)


def test_a_minus_is_never_lost_and_a_plus_never_made_of_nothing(tmp_path: Path):
    """In a column that was not declared, a bare number is refused; declared, the minus stays."""
    row = [*ROWS[0]]
    row[3] = "\u22122,25"
    (read,) = read_orders([export(tmp_path, [row], encoding="utf-8", workshop=WORKSHOP.replace("cp1252", "utf-8"))])
    assert read.order is not None, read.error
    assert read.order.spectacles.prescription.right.sphere_d == -2.25


def workbook(path: Path, rows: list[list[Any]]) -> Path:
    """A workbook as another library writes it, dates as numbers with a date format."""
    book = xlsxwriter.Workbook(str(path))
    day = book.add_format({"num_format": "dd/mm/yyyy"})
    sheet = book.add_worksheet("Orders")
    for y, row in enumerate(rows):
        for x, value in enumerate(row):
            if isinstance(value, dt.date):
                sheet.write_datetime(y, x, dt.datetime.combine(value, dt.time()), day)
            else:
                sheet.write(y, x, value)
    book.close()
    return path


def test_a_workbook_is_read_with_its_numbers_and_dates(tmp_path: Path):
    export(tmp_path)
    (tmp_path / "shop.csv").unlink()
    row = ["#10450", dt.date(2026, 11, 24), "Zoë Ährenfeld", -2.25, -0.5, 90, 10.5, "", "", 63, "Einstärken", 1.6]
    path = workbook(tmp_path / "shop.xlsx", [HEADINGS, [*row, "Hart", "52-18-140", ""]])
    (result,) = read_orders([path])

    assert result.order is not None, result.error
    assert result.order.date == dt.date(2026, 11, 24)
    assert result.order.spectacles.prescription.right == Eye(sphere_d=-2.25, cylinder_d=-0.5, axis_deg=90)
    assert result.order.spectacles.prescription.left == Eye(sphere_d=10.5)
    assert result.order.spectacles.lens.material == "high-index-1.60"


@pytest.mark.parametrize("body", [b"", b"PK\x03\x04", b"no workbook", b"PK\x05\x06" + bytes(18)])
def test_what_is_no_workbook_is_refused_in_words(tmp_path: Path, body: bytes):
    (tmp_path / "shop.xlsx").write_bytes(body)
    (result,) = read_orders([tmp_path / "shop.xlsx"])
    assert isinstance(result.error, InputError)
    assert "workbook" in str(result.error)


def test_a_proposal_reads_back_and_marks_what_it_does_not_know(tmp_path: Path):
    path = export(tmp_path)
    text = proposed_toml(sample_of(path))
    table = tomllib.loads(text)["export"]

    assert table["encoding"] == "cp1252"
    assert table["columns"]["R Sph"] == "right_sphere"
    assert table["columns"]["L Achse"] == "left_axis"
    assert table["columns"]["Größe"] == ["frame_a_mm", "frame_dbl_mm", ""]
    assert table["values"]["lens_material"] == {"1,6": "high-index-1.60", "1,67": "high-index-1.67"}
    assert f"{DOUBT}numbers_with_sign" in text, "whether a sign was lost only a person knows"
    assert "numbers_with_sign" not in table


def test_a_proposal_with_its_doubts_decided_reads_the_export(tmp_path: Path):
    path = export(tmp_path)
    text = proposed_toml(sample_of(path))
    decided = text.replace(DOUBT, "").replace('"Entspiegelt + Hart" = ""\n', "")
    (tmp_path / "workshop.toml").write_text(f'name = "Fernlicht"\n{decided}', encoding="utf-8")
    results = list(read_orders([path]))
    assert results[0].order is not None, results[0].error
    assert results[0].order.spectacles.prescription.left == Eye(sphere_d=1.25)


def test_dates_of_two_readings_are_a_doubt(tmp_path: Path):
    (tmp_path / "shop.csv").write_text("Order,Date,Rx\nA-1,03/04/2026,R -1.00 L -1.00\n", encoding="utf-8")
    text = proposed_toml(sample_of(tmp_path / "shop.csv"))
    assert f'{DOUBT}dates = "dd/mm/yyyy"' in text


def test_the_command_prints_the_proposal_and_counts_the_doubts(tmp_path: Path):
    result = CliRunner().invoke(main, ["headings", str(export(tmp_path))])
    assert result.exit_code == 0, result.output
    assert "[export.columns]" in result.stdout
    assert "in doubt" in result.stderr


def test_titles_above_the_headings_dashes_short_years_and_prisms_in_two_columns(tmp_path: Path):
    lines = [
        "November;;;;;;;;",
        "Nr;Datum;R sph;R Pr;R B;L sph;L Pr;L B;Farbe",
        "7;02.11.26;-2,25;1,5;i;-2,00;-;;phototrop grau",
        "8;02.11.26;-2,25;1,5;;-2,00;;;-",
    ]
    shop = """
name = "Fernlicht"
[export]
header_row = 2
dates = "dd.mm.yy"
nothing = ["-"]
[export.columns]
"Nr" = "order"
"Datum" = "date"
"R sph" = "right_sphere"
"R Pr" = "right_prism_amount"
"R B" = "right_prism_base"
"L sph" = "left_sphere"
"L Pr" = "left_prism_amount"
"L B" = "left_prism_base"
"Farbe" = ["lens_tint", "lens_tint_colour"]
[export.values.lens_tint]
"phototrop grau" = "photochromic"
[export.values.lens_tint_colour]
"phototrop grau" = "grey"
[export.values.right_prism_base]
"i" = "in"
"""
    (tmp_path / "workshop.toml").write_text(shop, encoding="utf-8")
    (tmp_path / "shop.csv").write_text("\n".join(lines), encoding="utf-8")
    first, second = read_orders([tmp_path / "shop.csv"])

    assert first.order is not None, first.error
    assert first.order.date == dt.date(2026, 11, 2)
    assert first.order.spectacles.prescription.right == Eye(sphere_d=-2.25, prism_in_pd=1.5)
    assert first.order.spectacles.lens.tint_colour == "grey"
    assert second.order is None
    assert "amount and base" in str(second.error)


def test_a_spreadsheets_count_of_days_is_a_date_only_where_that_is_said(tmp_path: Path):
    """46327 is 1 November 2026: day 1 is 1 January 1900, and 1900 counted as a leap year (common practice)."""
    row = "order,date,right,left\nA-1,46327,-1.00 DS,-1.00 DS\n".replace("order", "No")
    shop = 'name = "F"\n[export]\ndates = "serial"\n[export.columns]\n'
    shop += "".join(f'"{name}" = "{ours}"\n' for name, ours in (("No", "order"), ("date", "date")))
    shop += '"right" = "right"\n"left" = "left"\n'
    (tmp_path / "workshop.toml").write_text(shop, encoding="utf-8")
    (tmp_path / "shop.csv").write_text(row, encoding="utf-8")
    (read,) = read_orders([tmp_path / "shop.csv"])
    assert read.order is not None, read.error
    assert read.order.date == dt.date(2026, 11, 1)
    (tmp_path / "workshop.toml").write_text(shop.replace('dates = "serial"\n', ""), encoding="utf-8")
    (read,) = read_orders([tmp_path / "shop.csv"])
    assert read.order is None
