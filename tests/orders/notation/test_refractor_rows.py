"""Rows as an autorefractor's table has them: blanks, odd steps, axis 0 to 180. Read exactly, or refused; never guessed.

The shape of the rows is that of public clinical tables (PAPILA, doi 10.1038/s41597-022-01388-1: sphere, cylinder, axis
with empty fields); the numbers are made here.
"""

from __future__ import annotations

import random
from typing import NamedTuple

import pytest

from explainer.orders.assembly.understood import understood

COUNT = 400


class Row(NamedTuple):
    sphere: float | None
    cylinder: float | None
    axis: int | None


def rows() -> list[Row]:
    """Three in four on quarter steps, one in eight with a blank somewhere."""
    draw = random.Random(20261125)
    found = []
    for _ in range(COUNT):
        step = draw.choice([0.25, 0.25, 0.25, 0.01])
        values: list[float | int | None] = [
            round(draw.randint(-int(9 / step), int(6 / step)) * step, 2),
            -round(draw.randint(0, int(4 / step)) * step, 2),
            draw.randint(0, 180),
        ]
        if draw.random() < 0.125:
            values[draw.randrange(3)] = None
        found.append(Row(*values))  # type: ignore[arg-type]
    return found


def signed(value: float | None) -> str:
    return "" if value is None else f"{value:+.2f}" if value else "0.00"


def readable(row: Row) -> bool:
    """Whole, on steps of an eighth (which two decimals cut short), and an axis only where there is a cylinder."""
    if None in row:
        return False
    assert row.sphere is not None
    assert row.cylinder is not None
    steps = all(
        round(abs(value) * 100) % 100 in {0, 12, 25, 37, 50, 62, 75, 87} for value in (row.sphere, row.cylinder)
    )
    return steps and (row.cylinder != 0 or row.axis in (0, 180))


def same(value: float, wanted: float) -> bool:
    """Equal, or the eighth that two decimals cut short."""
    return value == wanted or round(abs(value) - abs(wanted), 3) == 0.005


def texts(row: Row) -> list[str]:
    axis = "" if row.axis is None else f"{row.axis}"
    sphere, cylinder = signed(row.sphere), signed(row.cylinder)
    return [
        f"sphere={sphere} cylinder={cylinder} axis={axis}",
        f"SPH {sphere} CYL {cylinder} AX {axis}",
        f"{sphere} / {cylinder} x {axis}",
    ]


@pytest.mark.parametrize("form", range(3))
def test_every_row_is_read_exactly_or_refused(form: int) -> None:
    read = 0
    for row in rows():
        found = understood(texts(row)[form])
        if not readable(row):
            assert found["understood"] is False, row
            assert found["faults"], row
            continue
        assert found["understood"] is True, (row, found)
        eye = found["eye"]
        assert same(eye["sphere_d"], row.sphere or 0.0), row
        assert same(eye["cylinder_d"], row.cylinder or 0.0), row
        assert eye["axis_deg"] == ((row.axis or 180) if row.cylinder else None), row
        read += 1

    assert read > COUNT / 2


def test_a_row_without_signs_is_refused_unless_it_is_zero() -> None:
    for row in rows():
        if row.sphere:
            text = f"sphere={abs(row.sphere):.2f} cylinder={signed(row.cylinder)} axis={row.axis}"
            assert understood(text)["understood"] is False, row


def test_an_odd_step_says_how_it_would_be_confirmed() -> None:
    (fault,) = understood("sphere=+0.53 cylinder=-0.50 axis=93")["faults"]

    assert "confirmed_steps" in fault["accepted"]


@pytest.mark.parametrize("code", ["88", "888", "-88", "NaN", "nan", "None", "N/A", "9.99E+02", "", "  ", "-"])
def test_a_code_for_no_value_is_refused_in_every_place(code: str) -> None:
    for row in ((code, "-0.50", "93"), ("+0.50", code, "93"), ("+0.50", "-0.50", code)):
        assert understood(f"sphere={row[0]} cylinder={row[1]} axis={row[2]}")["understood"] is (
            code == "88" and row[2] == code
        )
