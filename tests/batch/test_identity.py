"""No leaflet takes another's place: not in one run, and not among the files that stand there already."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from pathlib import Path

import pytest

from explainer.batch.run import Plan, make_all
from explainer.orders import Order, read_order, read_orders
from explainer.orders.assembly.file_names import name_key
from explainer.render.leaflet import leaflet_name

NUMBERS = ("1234", "1234-de", "1234.de", "1234.", "1234-", "1234-de-de", "1234.large-print", "1234.sample", "1234_de")
LANGUAGES = ("de", "de-de", "en-GB")


def an_order() -> Order:
    return read_order(Path(__file__).parents[1] / "gallery" / "low-myope.toml")


def test_no_two_orders_share_a_file_name() -> None:
    kinds = [("standard", False), ("large-print", False), ("standard", True)]
    wanted = list(product(NUMBERS, LANGUAGES, kinds))
    order = an_order()
    names = {
        leaflet_name(replace(order, number=number, language=code), kind, sample=sample)
        for number, code, (kind, sample) in wanted
    }
    assert len(names) == len(wanted)


@pytest.mark.parametrize("text", ["JOB={number}\r", "\ufeffJOB={number}\n", "  JOB={number}\n", "JOB= {number} \r\n"])
def test_jobs_of_one_number_are_seen_however_their_lines_are_written(tmp_path: Path, text: str) -> None:
    """Two jobs of one number once made one leaflet, the second over the first, when one had CR line ends."""
    end = "\r" if text.endswith("\r") else "\n"
    rest = end.join(["_DATE=2026-11-20", "SPH=-{power};-1.00", "CYL=0;0", "AX=0;0", ""])
    for name, power, start in (("one", "1.00", "JOB={number}\n"), ("two", "4.00", text)):
        body = (start + rest).format(number="J-77", power=power)
        (tmp_path / f"{name}.job").write_bytes(body.encode())
    results = list(read_orders([tmp_path]))
    assert len(results) == 2
    assert all(result.error and "each number once" in str(result.error) for result in results)


def test_numbers_that_differ_in_capitals_alone_make_no_leaflet_in_one_run(tmp_path: Path) -> None:
    for folder, number in (("a", "ab-1"), ("b", "AB-1")):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "order.toml").write_text(ORDER.format(number=number))
    results = [result for folder in "ab" for result in read_orders([tmp_path / folder])]
    outcomes = list(make_all(results, Plan(folder=tmp_path / "out", workers=1)))
    assert all(outcome.refusal for outcome in outcomes)
    assert not (tmp_path / "out").exists()


def test_a_file_of_another_order_is_not_replaced(tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / "AB-1.en-GB.pdf").write_bytes(b"another order's")
    (tmp_path / "order.toml").write_text(ORDER.format(number="ab-1"))
    (outcome,) = make_all(list(read_orders([tmp_path / "order.toml"])), Plan(folder=out, workers=1))
    assert outcome.refusal
    assert "AB-1.en-GB.pdf" in outcome.refusal.message
    assert [path.name for path in out.iterdir()] == ["AB-1.en-GB.pdf"]


def test_capitals_are_no_difference() -> None:
    assert name_key("Straße.de.pdf") == name_key("STRASSE.de.pdf")


ORDER = """
order = "{number}"
date = 2026-11-20
language = "en-GB"
[prescription]
right = "-1.00 DS"
left = "-1.00 DS"
"""
