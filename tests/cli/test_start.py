"""A new workshop: from an empty folder to a first leaflet's check, and nothing that is there is replaced."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner

from explainer.cli import main
from explainer.orders import read_order
from explainer.orders.shop.first import first_workshop
from explainer.orders.shop.workshop import WorkshopFile


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


def test_an_empty_folder_becomes_a_workshop(tmp_path: Path):
    made = run("start", tmp_path / "shop", "--name", 'Fern & "Light"', "--country", "GB", "--language", "en-GB")

    assert made.exit_code == 0, made.output
    order = read_order(tmp_path / "shop" / "orders" / "first.toml")
    assert order.workshop is not None
    assert order.workshop.name == 'Fern & "Light"'
    assert run("check", tmp_path / "shop" / "orders").exit_code == 0


def test_nothing_that_is_there_is_replaced(tmp_path: Path):
    (tmp_path / "workshop.toml").write_text('name = "Mine"\n')
    result = run("start", tmp_path, "--name", "Other")
    assert result.exit_code == 2
    assert (tmp_path / "workshop.toml").read_text() == 'name = "Mine"\n'
    assert not (tmp_path / "orders").exists()


def test_what_is_wrong_is_told_and_leaves_nothing(tmp_path: Path):
    result = run("start", tmp_path, "--name", "Mine", "--country", "Britain")
    assert result.exit_code == 1
    assert "country" in result.stderr
    assert list(tmp_path.glob("*.toml")) == []


def test_without_a_name_and_nobody_to_ask_it_is_wrong_use(tmp_path: Path):
    assert run("start", tmp_path / "x").exit_code == 2


@pytest.mark.parametrize("line", [line for line in first_workshop({}).splitlines() if " = " in line])
def test_every_example_in_a_comment_is_accepted(line: str):
    field, _, value = line.removeprefix("# ").partition(" = ")
    WorkshopFile.model_validate({"name": "x", **tomllib.loads(f"{field} = {value}")})
    assert re.fullmatch(r"[a-z_]+", field)
