"""Packing by scanner, and one order out of many for every command."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner
from many import EXAMPLES

from explainer.cli import main
from explainer.orders import read_order
from explainer.orders.assembly.check_word import check_word


def run(*words: object, typed: str | None = None):
    return CliRunner().invoke(main, [str(word) for word in words], input=typed)


def code(number: str) -> str:
    return f"{number} {check_word(read_order(EXAMPLES / f'{number}.toml'))}\n"


def test_scanned_codes_are_held_against_their_orders():
    result = run("check", EXAMPLES, "--against", "-", typed=code("FL-3107") + "\n" + code("FL-3125"))
    assert result.exit_code == 0, result.output
    assert [line.split()[0] for line in result.stdout.splitlines()] == ["FL-3107", "FL-3125"]


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("FL-3107 DOKU\n", "check word"),
        ("FL-9999 DOKU\n", "FL-9999"),
        ("https://example.org/\n", "scanned code"),
    ],
)
def test_a_wrong_code_is_told_and_the_right_ones_go_on(typed: str, told: str):
    result = run("check", EXAMPLES, "--against", "-", typed=typed + code("FL-3125"))
    assert result.exit_code == 1
    assert told in result.stderr
    assert result.stdout.startswith("FL-3125")


def test_one_order_out_of_a_folder(tmp_path: Path):
    assert run("check", EXAMPLES, "--order", "fl-3107").stdout.startswith("FL-3107: ")
    made = run("make", EXAMPLES, "--order", "FL-3107", "-o", tmp_path)
    assert made.exit_code == 0, made.output
    assert [path.name for path in tmp_path.iterdir()] == ["FL-3107.en-GB.pdf"]
    held = run("check", EXAMPLES, "--order", "FL-3107", "--against", tmp_path / "FL-3107.en-GB.pdf")
    assert held.exit_code == 0, held.output
    claims = run("claims", EXAMPLES, "--order", "FL-3107", "--json")
    assert '"order": "FL-3107"' in claims.stdout
    assert claims.stdout.count('"order":') == 1


def test_a_folder_against_one_paper_needs_a_number(tmp_path: Path):
    assert run("check", EXAMPLES, "--against", EXAMPLES / "FL-3107.toml").exit_code == 2
