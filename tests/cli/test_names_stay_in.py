"""Messages tell place and kind: whatever was put in the wrong place, no message repeats a person's name."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from many import EXAMPLES
from plain_order import PLAIN
from readback import pdf_text

from explainer.cli import main
from explainer.orders import read_order
from explainer.orders.sample import as_sample, still_shown

NAME = "Zyxquil Vornbecker"
CANARY = re.compile("zyxquil|vornbecker", re.IGNORECASE)
ROW = f"A-1,2026-11-20,-1.00 DS,plano,{NAME}\n"

MISPLACED = {
    "a table without its headings": ("t.csv", ROW + ROW),
    "a table without its headings, two alike": ("t.csv", f"{NAME},{NAME},A-1\n" + ROW),
    "a heading that is a name": ("t.csv", f"order,date,right,left,{NAME}\n" + ROW),
    "columns that have moved": (
        "t.csv",
        f"order,date,right,left,frame_material\n{NAME},2026-11-20,{NAME},{NAME},{NAME}\n",
    ),
    "a name for a number": ("t.csv", f"order,date,right,left,pd_mm\nA-1,2026-11-20,plano,plano,{NAME}\n"),
    "a name for a date": ("t.csv", f"order,date,right,left\nA-1,{NAME},plano,plano\n"),
    "a name for yes or no": ("t.csv", f"order,date,right,left,wearer_first_pair\nA-1,2026-11-20,plano,plano,{NAME}\n"),
    "a name for a power": ("t.csv", f"order,date,right_sphere,left_sphere\nA-1,2026-11-20,{NAME},-1.00\n"),
    "an unknown name of JSON": ("o.json", json.dumps(PLAIN | {NAME: 1})),
    "an unknown name inside": ("o.json", json.dumps(PLAIN | {"wearer": {NAME: "x"}})),
    "a name twice": ("o.json", json.dumps(PLAIN)[:-1] + f', "{NAME}": 1, "{NAME}": 2}}'),
    "a name twice in a line": ("o.jsonl", json.dumps(PLAIN)[:-1] + f', "{NAME}": 1, "{NAME}": 2}}'),
    "an unknown name of TOML": ("o.toml", f'order = "A"\n"{NAME}" = 1\n'),
    "a name twice in TOML": ("o.toml", f'"{NAME}" = 1\n"{NAME}" = 1\n'),
    "a name that is no TOML": ("o.toml", f"{NAME}\n"),
    "a name that is no JSON": ("o.json", f"{{{NAME}}}"),
    "a line that is no record": ("o.job", f"JOB=A\n{NAME}\n"),
}


@pytest.mark.parametrize(("file", "text"), MISPLACED.values(), ids=MISPLACED.keys())
@pytest.mark.parametrize("command", ["check", "make"])
def test_a_name_in_the_wrong_place_is_not_repeated(tmp_path: Path, file: str, text: str, command: str):
    (tmp_path / file).write_text(text, "utf-8")
    more = ["-o", str(tmp_path / "out"), "--report", str(tmp_path / "report.jsonl")] if command == "make" else []
    done = CliRunner().invoke(main, [command, str(tmp_path / file), *more])

    assert done.exit_code == 1, done.output
    assert not CANARY.search(done.output), done.output
    if more:
        assert not CANARY.search((tmp_path / "report.jsonl").read_text("utf-8"))


@pytest.mark.parametrize(("letters", "kind"), [("\u4e2d\u6587", "cjk"), ("\u0926\u0947\u0935", "devanagari")])
def test_a_script_that_the_faces_lack_is_told_and_no_letter_of_the_name(tmp_path: Path, letters: str, kind: str):
    path = tmp_path / "o.json"
    path.write_text(json.dumps(PLAIN | {"wearer": {"name": f"{letters} Vornbecker"}}), "utf-8")
    done = CliRunner().invoke(main, ["make", str(path), "-o", str(tmp_path)])

    assert done.exit_code == 1
    assert f"letters that the leaflet's faces lack, of this kind: {kind}" in done.output
    assert not any(letter in done.output for letter in letters)
    assert not CANARY.search(done.output)


SHOP = '''
name = "Fernlight"
language = "en-GB"
address = """
12 Harbour Row
Upper Larkmere
"""
phone = "+44 20 7946 0714"
email = "bench@example.org"
signer = "A. Fernlight"
returns = "{returns}"
'''
WRITINGS = [
    "Write to 12 Harbour Row.",
    "Write to 12  HARBOUR / ROW.",
    "Write to 12, Harbour-Row.",
    "Call +44 20 7946 0714.",
    "Call +44(0)20.7946.0714 or +442079460714.",
    "Mail BENCH@EXAMPLE.ORG.",
    "Mail bench @ example . org.",
    "Ask A Fernlight, upper larkmere.",
]


def sample_order(folder: Path, returns: str, *, wording: str | None = None) -> Path:
    text = SHOP.format(returns=returns)
    if wording is not None:
        text = 'house_wording = "words"\n' + text
        (folder / "words" / "phrases").mkdir(parents=True)
        (folder / "words" / "phrases" / "clean.rinse.md").write_text(wording, "utf-8")
    (folder / "workshop.toml").write_text(text, "utf-8")
    path = folder / "order.json"
    path.write_text(json.dumps(PLAIN | {"wearer": {"name": NAME}}), "utf-8")
    return path


@pytest.mark.parametrize("returns", WRITINGS)
def test_a_sample_hides_what_is_private_in_every_writing(tmp_path: Path, returns: str):
    order = read_order(sample_order(tmp_path, returns))
    sample = as_sample(order)
    assert sample.workshop

    assert "…" in (sample.workshop.returns or "")
    assert still_shown(order, str(sample.workshop)) == []
    assert still_shown(order, str(order.workshop))


def test_what_is_printed_decides_and_not_what_was_replaced(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """The last net: a sample whose page still shows somebody is not written, and the message names nobody."""
    from explainer.batch import run

    path = sample_order(tmp_path, "Bring them back.")
    monkeypatch.setattr(run, "as_sample", lambda order: order)
    done = CliRunner().invoke(main, ["make", str(path), "--redact", "-o", str(tmp_path / "out"), "--workers", "1"])

    assert done.exit_code == 1
    assert "the wearer's name on the page" in done.output
    assert not CANARY.search(done.output)
    assert not list((tmp_path / "out").glob("*.pdf"))


def test_a_sample_says_what_it_could_not_be_sure_of(tmp_path: Path):
    done = CliRunner().invoke(main, ["make", str(sample_order(tmp_path, "Ask Bo.")), "--redact", "-o", str(tmp_path)])

    assert done.exit_code == 0, done.output
    assert "names of other people in the shop's own words (returns) are not known" in done.output
    (page,) = tmp_path.glob("*.pdf")
    assert not CANARY.search(pdf_text(page))
    assert EXAMPLES.is_dir()
