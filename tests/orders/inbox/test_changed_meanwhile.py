"""A table that somebody changes while it is read: a number that appears then is seen, and makes no second leaflet."""

from __future__ import annotations

from pathlib import Path

import pytest

from explainer.orders import read_orders

HEAD = "order,date,right,left\n"


def row(number: str, power: str = "-1.00 DS") -> str:
    return f"{number},2026-11-20,{power},plano\n"


@pytest.mark.parametrize("appended", [row("A-1", "-3.00 DS"), row("a-1", "-3.00 DS"), row("C-9") + row("C-9")])
def test_a_number_that_appears_while_a_table_is_read_is_refused(tmp_path: Path, appended: str):
    table = tmp_path / "orders.csv"
    table.write_text(HEAD + row("A-1") + row("A-2"), "utf-8")
    results = read_orders([table])
    first = next(results)
    with table.open("a", encoding="utf-8") as more:
        more.write(appended)
    rest = list(results)

    assert first.order
    assert [bool(result.order) for result in rest][:1] == [True]
    assert len(rest) > 1
    for result in rest[1:]:
        assert result.error
        assert "since it was gone through" in str(result.error)


def test_what_stays_as_it_is_is_read_whole(tmp_path: Path):
    table = tmp_path / "orders.csv"
    table.write_text(HEAD + "".join(row(f"A-{number}") for number in range(300)), "utf-8")

    assert all(result.order for result in read_orders([table]))
    assert len(list(read_orders([table]))) == 300


def test_a_bad_row_keeps_no_place_of_a_good_one(tmp_path: Path):
    table = tmp_path / "orders.csv"
    table.write_text(HEAD + row("A-1", "nonsense") + row("A-2"), "utf-8")

    assert [bool(result.order) for result in read_orders([table])] == [False, True]
