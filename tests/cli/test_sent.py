"""What was made for an order can be asked, by number and by check word, and what has changed since is told."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from many import EXAMPLES

from explainer.cli import main


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    for name in ("FL-3107.toml", "workshop.toml"):
        (tmp_path / name).write_bytes((EXAMPLES / name).read_bytes())
    made = run("make", tmp_path / "FL-3107.toml", "-o", tmp_path, "--report", tmp_path / "report.jsonl")
    assert made.exit_code == 0, made.output
    return tmp_path


def asked(desk: Path, wanted: str) -> dict[str, str]:
    result = run("sent", wanted, desk / "FL-3107.toml", "--report", desk / "report.jsonl", "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def test_found_by_number_and_by_word_and_as_it_was_made(desk: Path):
    by_number = asked(desk, "fl-3107")
    assert by_number == asked(desk, by_number["check_word"].lower())
    assert (by_number["file_now"], by_number["order_now"]) == ("as made", "nothing")
    again = (desk / by_number["file"]).read_bytes()
    assert run("make", desk / "FL-3107.toml", "-o", desk / "again").exit_code == 0
    assert (desk / "again" / by_number["file"]).read_bytes() == again, "the same paper, byte for byte"


def test_what_changed_is_told_apart(desk: Path):
    shop, order = desk / "workshop.toml", desk / "FL-3107.toml"
    shop.write_text(shop.read_text("utf-8").replace("01632 960714", "01632 960715"), "utf-8")
    assert asked(desk, "FL-3107")["order_now"] == "the order or its workshop"
    order.write_text(order.read_text("utf-8").replace("-4.25 -1.75", "-4.50 -1.75"), "utf-8")
    assert asked(desk, "FL-3107")["order_now"] == "the order or its workshop"
    (desk / "FL-3107.en-GB.pdf").write_bytes(b"x")
    assert asked(desk, "FL-3107")["file_now"] == "changed"
    (desk / "FL-3107.en-GB.pdf").unlink()
    assert asked(desk, "FL-3107")["file_now"] == "gone"


def test_what_was_never_made_is_not_found(desk: Path):
    result = run("sent", "FL-9999", "--report", desk / "report.jsonl")
    assert (result.exit_code, result.stdout) == (1, "")
