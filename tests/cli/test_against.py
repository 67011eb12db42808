"""`check --against`: the right paper is told from every wrong one."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest
from click.testing import CliRunner
from many import EXAMPLES, HOME
from readback import pdf_text

from explainer.cli import main


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.fixture(scope="module")
def leaflets(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("leaflets")
    for more in ([], ["--edition", "large-print", "--language", "de"]):
        result = run("make", EXAMPLES / "FL-3107.toml", EXAMPLES / "FL-3125.toml", "-o", folder, *more)
        assert result.exit_code == 0, result.output
    return folder


def changed(tmp_path: Path, *changes: tuple[str, str], name: str = "FL-3107") -> Path:
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    (tmp_path / "workshop.toml").write_bytes((EXAMPLES / "workshop.toml").read_bytes())
    path = tmp_path / "order.toml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.slow
@pytest.mark.parametrize("number", ["FL-3107", "FL-3125"])
@pytest.mark.parametrize("tail", ["en-GB", "de.large-print"])
def test_an_order_knows_its_own_leaflet_in_every_language_and_edition(leaflets: Path, number: str, tail: str):
    result = run("check", EXAMPLES / f"{number}.toml", "--against", leaflets / f"{number}.{tail}.pdf")

    assert result.exit_code == 0, result.output
    assert "this order's leaflet" in result.stdout


@pytest.mark.slow
@pytest.mark.parametrize("edition", ["standard", "large-print"])
def test_a_number_that_takes_two_lines_is_read_as_one(tmp_path: Path, edition: str):
    order = HOME / "tests" / "gallery" / "longest" / "everything-on.toml"
    assert run("make", order, "-o", tmp_path, "--edition", edition).exit_code == 0
    (leaflet,) = tmp_path.glob("*.pdf")
    result = run("check", order, "--against", leaflet)
    assert result.exit_code == 0, result.output
    wrong = tmp_path / "wrong.toml"
    (tmp_path / "workshop.toml").write_bytes((order.parent / "workshop.toml").read_bytes())
    wrong.write_text(order.read_text("utf-8").replace("FORTY-SIGNS-IN", "FORTY-SIGNS-ON"), "utf-8")
    assert "foot of page 1: found" in run("check", wrong, "--against", leaflet).output


@pytest.mark.slow
def test_another_persons_leaflet_is_told_by_number_word_and_powers(leaflets: Path):
    result = run("check", EXAMPLES / "FL-3107.toml", "--against", leaflets / "FL-3125.en-GB.pdf")

    assert result.exit_code == 1
    assert "foot of page 1: found FL-3125, " in result.stderr
    assert "; accepted: FL-3107, " in result.stderr
    assert 'row "Right eye": found +0.75 +2.25 × 38' in result.stderr
    assert "Quillon" not in result.output


@pytest.mark.slow
@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ([('right = "-4.25 -1.75 x 165"\n', 'right = "+4.25 -1.75 x 165"\n')], 'row "Right eye"'),
        ([('"-4.25 -1.75 x 165"', '"-4.25 -1.75 x 15"')], 'row "Right eye"'),
        ([('"-3.50 -0.75 x 22"', '"-3.50 -0.50 x 22"')], 'row "Left eye"'),
        (
            [
                ('"-4.25 -1.75 x 165"', '"?"'),
                ('"-3.50 -0.75 x 22"', '"-4.25 -1.75 x 165"'),
                ('"?"', '"-3.50 -0.75 x 22"'),
            ],
            'row "Right eye": found −4.25 −1.75 × 165',
        ),
        ([("Odalys Brackenwood", "Odile Brackenwood")], "foot of page 1: found FL-3107, "),
        ([('order = "FL-3107"', 'order = "FL-3170"')], "foot of page 4: found FL-3107, "),
    ],
    ids=["sign", "axis", "cylinder", "eyes exchanged", "name", "number"],
)
@pytest.mark.parametrize("tail", ["en-GB", "de.large-print"])
def test_whatever_was_changed_in_the_order_is_found(
    leaflets: Path, tmp_path: Path, changes: list[tuple[str, str]], told: str, tail: str
):
    path = changed(tmp_path, *changes)
    result = run("check", path, "--against", leaflets / f"FL-3107.{tail}.pdf")

    assert result.exit_code == 1
    assert "accepted" in result.stderr
    if tail == "en-GB":
        assert told in result.stderr


def test_a_prism_turned_round_is_found(leaflets: Path, tmp_path: Path):
    path = changed(tmp_path, ("base up", "base ?"), ("base down", "base up"), ("base ?", "base down"), name="FL-3125")
    result = run("check", path, "--against", leaflets / "FL-3125.en-GB.pdf")

    assert result.exit_code == 1
    assert 'row "Left eye"' in result.stderr


@pytest.mark.parametrize(
    "data",
    [b"", b"plain text", b"%PDF-1.7\n", b"%PDF-1.7\n1 0 obj << /Type /Catalog >> endobj\ntrailer << /Root 1 0 R >>"],
    ids=["empty", "text", "only a head", "without pages"],
)
def test_what_is_no_leaflet_is_refused_without_a_traceback(tmp_path: Path, data: bytes):
    path = tmp_path / "paper.pdf"
    path.write_bytes(data)
    result = run("check", EXAMPLES / "FL-3107.toml", "--against", path)

    assert result.exit_code == 1
    assert str(path) in result.stderr
    assert "accepted: a leaflet made by this program" in result.stderr
    assert "Traceback" not in result.output


def test_half_a_leaflet_is_refused(leaflets: Path, tmp_path: Path):
    path = tmp_path / "paper.pdf"
    path.write_bytes((leaflets / "FL-3107.en-GB.pdf").read_bytes()[:60_000])
    result = run("check", EXAMPLES / "FL-3107.toml", "--against", path)

    assert result.exit_code == 1
    assert "Traceback" not in result.output


@pytest.mark.parametrize("kept", [[0, 1, 2], [1, 0, 2, 3], [0, 1, 3, 2], [0, 0, 2, 3]], ids=str)
def test_pages_that_are_missing_or_in_another_order_are_found(leaflets: Path, tmp_path: Path, kept: list[int]):
    path = tmp_path / "paper.pdf"
    with pikepdf.open(leaflets / "FL-3107.en-GB.pdf") as whole, pikepdf.new() as torn:
        torn.pages.extend(whole.pages[number] for number in kept)
        torn.Root.Lang = whole.Root.Lang
        torn.save(path)
    result = run("check", EXAMPLES / "FL-3107.toml", "--against", path)

    assert result.exit_code == 1
    assert "foot of page " in result.stderr


def test_a_first_sheet_alone_is_the_orders_too(tmp_path: Path):
    made = run("make", EXAMPLES / "FL-3107.toml", "-o", tmp_path, "--document", "first-sheet")
    assert made.exit_code == 0, made.output
    (sheet,) = tmp_path.glob("*.pdf")
    with pikepdf.open(sheet) as pdf:
        assert len(pdf.pages) == 2
    assert "The second sheet" in " ".join(pdf_text(sheet).split())
    assert run("check", EXAMPLES / "FL-3107.toml", "--against", sheet).exit_code == 0
    assert run("check", EXAMPLES / "FL-3125.toml", "--against", sheet).exit_code == 1


def test_one_paper_belongs_to_one_order():
    result = run("check", EXAMPLES / "FL-3107.toml", EXAMPLES / "FL-3112.toml", "--against", HOME / "README.md")

    assert result.exit_code == 2


def test_the_word_is_told_before_anything_is_printed_and_is_the_one_on_the_page(leaflets: Path):
    told = run("check", EXAMPLES / "FL-3107.toml").stdout.split("check word ")[1][:4]

    text = pdf_text(leaflets / "FL-3107.en-GB.pdf")
    assert f"check word {told}" in text
    assert text.count(f"FL-3107, {told} · ") == 4
