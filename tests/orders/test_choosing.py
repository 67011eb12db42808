"""One order out of a table, JSON lines or a folder, by its number or by the number that a message names."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest

from explainer.errors import InputError
from explainer.orders.choosing import choose_order, numbered, numbers_named

FOLDER = Path(__file__).parents[2] / "output_examples" / "orders"


def one_order(number: str) -> dict[str, object]:
    data = tomllib.loads((FOLDER / "FL-3112.toml").read_text(encoding="utf-8"))
    return json.loads(json.dumps({**data, "order": number}, default=str))


@pytest.fixture
def lines(tmp_path: Path) -> Path:
    path = tmp_path / "day.jsonl"
    orders = [one_order(f"DAY-{count}") for count in range(1, 30)]
    orders[4] = {**orders[4], "date": "yesterday"}
    path.write_text("\n".join(map(json.dumps, orders)) + "\n", encoding="utf-8")
    return path


def test_one_is_taken_from_json_lines_and_from_a_folder(lines: Path):
    for place in (lines, lines.parent):
        result = choose_order([place], "DAY-17")

        assert result.order is not None
        assert result.order.number == "DAY-17"


def test_one_is_taken_from_a_folder_of_files():
    result = choose_order([FOLDER], "#fl-3107")

    assert result.order is not None
    assert result.order.number == "FL-3107"


def test_a_refused_one_is_refused_with_its_faults_and_the_others_do_not_matter(lines: Path):
    result = choose_order([lines], "DAY-5")

    assert result.order is None
    assert result.error is not None
    assert "date" in str(result.error)


def test_a_number_that_is_not_there_is_told_with_some_that_are(lines: Path):
    with pytest.raises(InputError, match=r"DAY-99, which is not among 29 orders") as refused:
        choose_order([lines], "DAY-99")

    assert "DAY-1, DAY-2" in refused.value.faults[0].accepted


def test_a_number_in_two_files_is_not_chosen_from(lines: Path):
    (lines.parent / "again.jsonl").write_text(json.dumps(one_order("DAY-3")) + "\n", encoding="utf-8")

    with pytest.raises(InputError, match="2 places"):
        choose_order([lines.parent], "DAY-3")


def test_a_message_names_an_order_by_its_whole_number_only():
    known = ["DAY-1", "DAY-17", "3107"]

    assert numbers_named("About my order day-17, please.", known) == ["DAY-17"]
    assert numbers_named("Order #3107 and DAY-1.", known) == ["3107", "DAY-1"]
    assert numbers_named("Tel 031071", known) == []


def test_a_job_of_many_numbers_is_listed_without_reading_the_orders(lines: Path):
    assert [number for number, _, _ in numbered([lines])][:2] == ["DAY-1", "DAY-2"]
