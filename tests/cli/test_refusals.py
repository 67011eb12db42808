"""Refused rows are told together: each kind of fault once, with its rows, and nothing is lost."""

from __future__ import annotations

from explainer.cli.refusals import Refusals
from explainer.errors import Fault, InputError


def told(*errors: InputError) -> list[str]:
    lines: list[str] = []
    refusals = Refusals(lines.append)
    for error in errors:
        refusals.add(error.source, error)
    refusals.flush()
    return lines


def row(number: int, *faults: tuple[str, str], path: str = "shop.csv") -> InputError:
    return InputError(
        f"{path}, row {number}", [Fault(field, found, "single-vision, reading") for field, found in faults]
    )


def test_a_fault_that_thirty_rows_share_is_one_line():
    (message,) = told(*(row(number, ("lens_design", '"Single Vision"')) for number in range(2, 32)))
    assert message.splitlines() == [
        "shop.csv: 30 rows refused",
        '  - lens_design (rows 2, 3, 4, 5, 6, 7 and 24 more): found "Single Vision"; accepted: single-vision, reading',
    ]


def test_every_fault_of_every_row_is_told_and_the_most_frequent_first():
    (message,) = told(row(2, ("pd_mm", '"x"')), row(3, ("lens_design", '"a"')), row(4, ("lens_design", '"b"')))
    assert message.splitlines()[1:] == [
        '  - lens_design (rows 3, 4): found "a", "b"; accepted: single-vision, reading',
        '  - pd_mm (row 2): found "x"; accepted: single-vision, reading',
    ]


def test_a_row_alone_and_other_files_are_told_as_before():
    alone, other = row(2, ("pd_mm", '"x"')), InputError("order.toml", [Fault("date", "nothing", "a date")])
    assert told(alone, other) == [str(alone), str(other)]


def test_each_table_is_told_by_itself():
    assert len(told(row(2, ("a", "x")), row(3, ("a", "x")), row(2, ("a", "x"), path="b.csv"))) == 2
