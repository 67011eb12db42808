"""A parcel from one command: what the workshop file says, resumed as leaflets are, printed in packing order."""

from __future__ import annotations

import io
import json
import subprocess
from dataclasses import replace
from pathlib import Path

import pikepdf
import pytest
import zxingcpp
from click.testing import CliRunner
from many import EXAMPLES
from PIL import Image
from pypdf import PdfReader

from explainer.cli import main
from explainer.orders import read_order
from explainer.orders.assembly.check_word import check_word
from explainer.orders.assembly.page_name import page_name
from explainer.render.leaflet import make_leaflet

ORDERS = ("FL-3125", "FL-3107")


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    shop = (EXAMPLES / "workshop.toml").read_text(encoding="utf-8")
    (tmp_path / "workshop.toml").write_text('parcel = ["label", "card"]\n' + shop, encoding="utf-8")
    (tmp_path / "FL-3107.toml").write_bytes((EXAMPLES / "FL-3107.toml").read_bytes())
    return tmp_path


def test_the_workshop_file_says_what_a_parcel_has(desk: Path):
    made = run("make", desk / "FL-3107.toml", "-o", desk / "out", "--report", desk / "report.jsonl")
    assert made.exit_code == 0, made.output
    assert {path.name for path in (desk / "out").iterdir()} == {"FL-3107.en-GB.card.pdf", "FL-3107.en-GB.label.pdf"}


def test_a_second_run_keeps_a_parcel_only_if_all_of_it_is_still_there(desk: Path):
    words = ("make", desk / "FL-3107.toml", "-o", desk, "--report", desk / "report.jsonl")
    assert "1 made" in run(*words).stderr
    assert "1 kept" in run(*words).stderr
    (desk / "FL-3107.en-GB.label.pdf").write_bytes(b"x")
    assert "1 made" in run(*words).stderr
    (line,) = [json.loads(text) for text in (desk / "report.jsonl").read_text().splitlines()]
    assert list(line["beside"]) == ["FL-3107.en-GB.label.pdf"]


@pytest.mark.slow
def test_a_print_set_comes_in_packing_order_with_a_list_and_no_order_on_anothers_back(tmp_path: Path):
    """Read back by another library than the one that joined it: order, fronts, tags."""
    orders = [EXAMPLES / f"{name}.toml" for name in ORDERS]
    made = run("make", *orders, "-o", tmp_path, "--print-set", tmp_path / "all.pdf", "--workers", 2)
    assert made.exit_code == 0, made.output
    pages = [page.extract_text() for page in PdfReader(tmp_path / "all.pdf").pages]
    for number in ORDERS:
        assert number in pages[0]
        assert check_word(read_order(EXAMPLES / f"{number}.toml")) in pages[0]
    firsts = []
    for number in ORDERS:
        leaflet = [page.extract_text() for page in PdfReader(tmp_path / f"{number}.en-GB.pdf").pages]
        firsts.append(pages.index(leaflet[0]))
        assert pages[firsts[-1] : firsts[-1] + len(leaflet)] == leaflet
    assert firsts == sorted(firsts)
    assert all(place % 2 == 0 for place in firsts), "page one of a leaflet is a front"
    with pikepdf.open(io.BytesIO((tmp_path / "all.pdf").read_bytes())) as pdf:
        assert [str(part.T).split()[0] for part in pdf.Root.StructTreeRoot.K[0].K][1:] == list(ORDERS)


def test_a_page_for_a_server_is_named_as_its_address_ends(desk: Path):
    place = 'parcel = ["card", "page"]\npages_at = "https://pages.example/{page}.html"\n'
    shop = (EXAMPLES / "workshop.toml").read_text(encoding="utf-8")
    (desk / "workshop.toml").write_text(place + shop, encoding="utf-8")
    made = run("make", desk / "FL-3107.toml", "-o", desk / "out", "--report", desk / "report.jsonl")
    assert made.exit_code == 0, made.output
    name = f"{page_name(read_order(desk / 'FL-3107.toml'))}.html"
    assert {path.name for path in (desk / "out").iterdir()} == {"FL-3107.en-GB.card.pdf", name}
    (line,) = [json.loads(text) for text in (desk / "report.jsonl").read_text().splitlines()]
    assert list(line["beside"]) == [f"out/{name}"]
    assert "FL-3107" in (desk / "out" / name).read_text(encoding="utf-8")


def test_a_page_alone_is_no_paper_to_print_and_its_sample_shows_nobody(desk: Path):
    order = read_order(desk / "FL-3107.toml")
    made = run("make", desk / "FL-3107.toml", "-o", desk / "out", "--document", "page", "--redact")
    assert made.exit_code == 0, made.output
    (path,) = (desk / "out").iterdir()
    assert path.name == "FL-3107.en-GB.page.sample.html"
    text = path.read_text(encoding="utf-8")
    assert order.wearer_name
    assert order.wearer_name not in text
    assert order.workshop
    assert str(order.workshop.phone) not in text
    assert "tel:" not in text


@pytest.mark.slow
def test_page_one_prints_the_address_and_a_code_that_another_program_reads(desk: Path):
    """ISO/IEC 18004, read back from the page at 150 dpi by a reader that is not the writer."""
    order = read_order(desk / "FL-3107.toml")
    assert order.workshop
    order = replace(order, workshop=replace(order.workshop, pages_at="https://pages.example/{page}.html"))
    (desk / "leaflet.pdf").write_bytes(make_leaflet(order).pdf)
    address = f"pages.example/{page_name(order)}.html"
    assert address in PdfReader(desk / "leaflet.pdf").pages[0].extract_text().replace("\n", "")
    command = ["pdftoppm", "-r", "150", "-l", "1", "-png", str(desk / "leaflet.pdf")]
    page = subprocess.run(command, capture_output=True, check=True).stdout
    assert [code.text for code in zxingcpp.read_barcodes(Image.open(io.BytesIO(page)))] == [f"https://{address}"]
