"""Nothing that was read is ever written over, and one file never holds what several orders should have."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner
from many import EXAMPLES

from explainer.cli import main

FILES = ("order.toml", "workshop.toml", "question.txt", "rim.txt", "words/topics/ours.md", "logo.svg", "notes.txt")
LOGO = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0h9"/></svg>'


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Path]:
    """A shop's folder; afterwards every file in it is as it was."""
    text = (EXAMPLES / "FL-3107.toml").read_text("utf-8")
    (tmp_path / "order.toml").write_text(text, "utf-8")
    shop = (EXAMPLES / "workshop.toml").read_text("utf-8")
    (tmp_path / "workshop.toml").write_text(f'logo = "logo.svg"\nhouse_wording = "words"\n{shop}', "utf-8")
    (tmp_path / "logo.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0h9"/></svg>'
    )
    (tmp_path / "words" / "topics").mkdir(parents=True)
    (tmp_path / "words" / "topics" / "ours.md").write_text("# Ours\n\nWords.\n", "utf-8")
    (tmp_path / "question.txt").write_text("How do I clean them?\n", "utf-8")
    (tmp_path / "rim.txt").write_text("TRCFMT=1;4;E;R;F\nR=2500;2500;2500;2500\n", "utf-8")
    (tmp_path / "notes.txt").write_text("JOB=A\n", "utf-8")
    before = {name: (tmp_path / name).read_bytes() for name in FILES}
    yield tmp_path
    assert {name: (tmp_path / name).read_bytes() for name in FILES} == before


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.mark.parametrize("name", FILES)
@pytest.mark.parametrize("form", ["eml", "text", "markdown", "html"])
def test_a_reply_is_not_written_over_what_it_was_made_from(shop: Path, name: str, form: str):
    order = shop / "order.toml"
    done = run(
        "reply", order, "--topic", "care", "--question", shop / "question.txt", "--form", form, "-o", shop / name
    )

    assert done.exit_code == 2, done.output
    assert "nothing was written" in done.output or "does not end in" in done.output


@pytest.mark.parametrize("name", FILES)
def test_a_sheet_is_not_written_over_what_it_was_made_from(shop: Path, name: str):
    assert run("claims", shop / "order.toml", "-o", shop / name).exit_code == 2


@pytest.mark.parametrize("name", FILES)
def test_a_print_set_and_a_report_are_not_written_over_what_they_were_made_from(shop: Path, name: str):
    out = shop.parent / f"{shop.name}-out"

    assert run("make", shop / "order.toml", "-o", out, "--print-set", shop / name).exit_code == 2
    assert run("make", shop / "order.toml", "-o", out, "--report", shop / name).exit_code == 1
    assert not out.exists()


def test_a_link_to_an_input_is_that_input(shop: Path):
    (shop / "draft.txt").symlink_to("question.txt")
    words = ("--topic", "care", "--question", shop / "question.txt", "--form", "text", "-o", shop / "draft.txt")

    assert run("reply", shop / "order.toml", *words).exit_code == 2


def test_several_orders_have_a_sheet_each_or_none(shop: Path, tmp_path: Path):
    second = shop / "second.toml"
    second.write_text((EXAMPLES / "FL-3118.toml").read_text("utf-8"), "utf-8")
    sheets = tmp_path / "sheets"

    assert run("claims", shop / "order.toml", second, "-o", tmp_path / "one.pdf").exit_code == 2
    assert not (tmp_path / "one.pdf").exists()
    assert run("claims", shop / "order.toml", second, "-o", sheets).exit_code == 0
    assert {path.name for path in sheets.iterdir()} == {"FL-3107.en-GB.evidence.pdf", "FL-3118.en-GB.evidence.pdf"}


def test_a_table_of_several_orders_has_no_single_sheet(tmp_path: Path):
    table = tmp_path / "orders.csv"
    table.write_text("order,date,right,left\nA-1,2026-11-20,-1.00 DS,plano\nA-2,2026-11-20,-2.00 DS,plano\n", "utf-8")
    done = run("claims", table, "-o", tmp_path / "one.pdf")

    assert done.exit_code == 1
    assert "one file for several orders" in done.output
