"""Tables on the command line: the printed example passes the program's own check, and refusals name row and column."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from explainer.cli import main


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


def test_the_columns_are_printed_with_rows_that_pass_the_check(tmp_path: Path):
    printed = run("schema", "--csv")
    path = tmp_path / "orders.csv"
    path.write_text(printed.stdout, encoding="utf-8")
    result = run("check", path)

    assert printed.exit_code == result.exit_code == 0, result.output
    assert printed.stdout.startswith("order;date;")
    assert "TB-0001: order is complete enough" in result.stdout
    assert "TB-0002: order is complete enough" in result.stdout
    assert "bench.right.axis: 166 deg, off by 1 deg, limit 7 deg: inside" in result.stdout


def test_a_refused_row_is_named_and_stops_no_other(tmp_path: Path):
    path = tmp_path / "orders.csv"
    path.write_text("order;date;right;left\nA-1;2026-10-05;1.00;plano\nA-2;2026-10-05;plano;plano\n", encoding="utf-8")
    result = run("check", path)

    assert result.exit_code == 1
    assert "orders.csv, row 2: refused\n  - right: found" in result.stderr
    assert "A-2: order is complete enough" in result.stdout


def test_readings_outside_the_limits_are_refused_by_row(tmp_path: Path):
    """ANSI Z80.1-2015, as printed in a published quick reference: 0.13 D on a sphere of 1.00 D."""
    path = tmp_path / "orders.csv"
    row = "A-1;2026-10-05;-1.00 DS;-1.00 DS;-1.25 DS;-1.00 DS\n"
    path.write_text(f"order;date;right;left;bench_right;bench_left\n{row}", encoding="utf-8")
    result = run("check", path)

    assert result.exit_code == 1
    assert "row 2: refused" in result.stderr
    assert "bench.right.stronger" in result.stderr


def test_a_workshop_file_is_no_table():
    assert run("schema", "--csv", "--workshop").exit_code == 2


@pytest.mark.parametrize("name", ["orders.ods", "orders.csv.bak"])
def test_other_kinds_of_files_are_refused_with_the_kinds_that_are_read(name: str, tmp_path: Path):
    path = tmp_path / name
    path.write_bytes(b"PK")
    result = run("check", path)

    assert result.exit_code == 1
    assert ".csv" in result.stderr
