"""Who wears the glasses stands on the page and nowhere else; what they see through stands in no record."""

from __future__ import annotations

import json
import re
import stat
from pathlib import Path

import pytest
from click.testing import CliRunner
from many import EXAMPLES
from pypdf import PdfReader
from readback import pdf_text

from explainer.cli import main

NAME = "Zyxquil Vornbecker"
CANARY = re.compile("zyxquil|vornbecker", re.IGNORECASE)


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.fixture(scope="module")
def ran(tmp_path_factory: pytest.TempPathFactory):
    """One order made, one that is refused with the name in the wrong place, and one whose engine fails on the name."""
    folder = tmp_path_factory.mktemp("canary")
    (folder / "workshop.toml").write_bytes((EXAMPLES / "workshop.toml").read_bytes())
    text = (EXAMPLES / "FL-3125.toml").read_text(encoding="utf-8").replace("Bartholomew Quillon-Ashgrove", NAME)
    (folder / "good.toml").write_text(text, encoding="utf-8")
    bad = text.replace('material = "metal"', f'material = "{NAME}"').replace("FL-3125", "FL-3126")
    (folder / "bad.toml").write_text(bad, encoding="utf-8")
    unread = text.replace(NAME, NAME + " \\u0416\\u4e2d").replace("FL-3125", "FL-3127")
    (folder / "unread.toml").write_text(unread, encoding="utf-8")
    out = folder / "out"
    result = run("make", folder, "-o", out, "--report", out / "report.jsonl")
    return out, result


def test_the_name_stands_on_the_page_alone(ran):
    out, result = ran
    page = out / "FL-3125.en-GB.pdf"

    assert result.exit_code == 1
    assert CANARY.search(pdf_text(page))
    assert not CANARY.search(result.output)
    assert not CANARY.search((out / "report.jsonl").read_text(encoding="utf-8"))
    assert not any(CANARY.search(path.name) for path in out.rglob("*"))


def test_nothing_that_the_file_says_of_itself_names_the_wearer(ran):
    out, _ = ran
    reader = PdfReader(out / "FL-3125.en-GB.pdf")
    metadata = reader.root_object["/Metadata"].get_object().get_data().decode()  # type: ignore[attr-defined]
    bookmarks = json.dumps([str(entry) for entry in reader.outline])

    assert reader.metadata
    for text in (*map(str, reader.metadata.values()), metadata, bookmarks, str(reader.trailer["/ID"])):
        assert not CANARY.search(text)
        assert not re.search(r"[+−-]\d\.\d\d", text)


def test_the_report_holds_no_power_and_no_axis(ran):
    out, _ = ran
    for line in map(json.loads, (out / "report.jsonl").read_text(encoding="utf-8").splitlines()):
        text = json.dumps(
            {name: value for name, value in line.items() if name not in ("sha256", "made_from", "source", "seconds")}
        )
        assert not re.search(r"[+−-]?\d\.\d\d\b|\b(38|128|131|141)\b", text), text


def test_files_are_for_their_owner_and_so_are_new_folders(ran):
    out, _ = ran

    assert stat.S_IMODE(out.stat().st_mode) == 0o700
    assert {stat.S_IMODE(path.stat().st_mode) for path in out.iterdir()} == {0o600}


def test_a_sample_names_nobody_even_on_the_page(tmp_path: Path, ran):
    out, _ = ran
    result = run("make", out.parent / "good.toml", "--redact", "-o", tmp_path)
    page = tmp_path / "FL-3125.en-GB.sample.pdf"
    text = pdf_text(page)

    assert result.exit_code == 0, result.output
    for private in ("Zyxquil", "Vornbecker", "Harbour Row", "TW9", "960714", "bench@", "A. Fernlight", "trial frame"):
        assert private not in text
    assert "+0.75" in text
    assert not CANARY.search(page.read_bytes().decode("latin-1"))
