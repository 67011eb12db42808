"""Many orders by one command: going on, stopping, and what a fault of the machine leaves behind."""

from __future__ import annotations

import errno
import hashlib
import json
import os
import signal
import stat
from pathlib import Path

import pytest
from click.testing import CliRunner
from many import EXAMPLES, start, write_orders
from pypdf import PdfReader

from explainer.cli import main
from explainer.cli.progress import Progress

ORDER = EXAMPLES / "FL-3118.toml"


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


def lines(path: Path) -> list[dict[str, object]]:
    return [json.loads(text) for text in path.read_text(encoding="utf-8").splitlines()]


def made(result) -> list[str]:
    return sorted(Path(line).name for line in result.stdout.splitlines())


@pytest.fixture
def orders(tmp_path: Path) -> list[Path]:
    return write_orders(tmp_path / "orders", 2)


def make(tmp_path: Path, orders: list[Path], *more: object):
    report = tmp_path / "out" / "report.jsonl"
    return run("make", *orders, "-o", tmp_path / "out", "--report", report, "--workers", 1, *more)


def test_the_report_has_a_line_for_every_order(tmp_path: Path, orders: list[Path]):
    (tmp_path / "orders" / "bad.toml").write_text('order = "B-1"\n[prescription]\nright = "4.25 x 200"\n')
    result = make(tmp_path, [tmp_path / "orders"])

    assert result.exit_code == 1
    report = lines(tmp_path / "out" / "report.jsonl")
    assert [line["state"] for line in report] == ["refused", "made", "made"]
    assert [line["file"] for line in report[1:]] == ["M-000.en-GB.pdf", "M-001.en-GB.pdf"]
    for line in report[1:]:
        leaflet = tmp_path / "out" / str(line["file"])
        assert line["sha256"] == hashlib.sha256(leaflet.read_bytes()).hexdigest()
        assert line["pages"] == len(PdfReader(leaflet).pages)
        assert float(str(line["seconds"])) > 0
        assert line["warnings"] == 1  # the eyes of this example differ by more than 4 D
    assert any(str(fault["field"]).startswith("prescription") for fault in report[0]["faults"])  # type: ignore[attr-defined]
    assert stat.S_IMODE((tmp_path / "out" / "report.jsonl").stat().st_mode) == 0o600


@pytest.mark.slow
def test_a_second_run_makes_only_what_changed(tmp_path: Path, orders: list[Path]):
    assert made(make(tmp_path, orders)) == ["M-000.en-GB.pdf", "M-001.en-GB.pdf"]

    again = make(tmp_path, orders)
    assert (again.exit_code, made(again)) == (0, [])
    assert "2 kept, unchanged since" in again.stderr

    orders[1].write_text(orders[1].read_text().replace("x 112", "x 113"))
    assert made(make(tmp_path, orders)) == ["M-001.en-GB.pdf"]
    (tmp_path / "out" / "M-000.en-GB.pdf").write_bytes(b"%PDF-1.7 something else")
    assert made(make(tmp_path, orders)) == ["M-000.en-GB.pdf"]
    assert made(make(tmp_path, orders[:1], "--again")) == ["M-000.en-GB.pdf"]
    assert len(lines(tmp_path / "out" / "report.jsonl")) == 2


@pytest.mark.slow
@pytest.mark.parametrize(
    ("old", "new"), [("01632 960714", "01632 960715"), ('accent = "#0B4A57"', 'accent = "#5A2A00"')]
)
def test_another_workshop_file_makes_anew(tmp_path: Path, orders: list[Path], old: str, new: str):
    make(tmp_path, orders[:1])
    shop = tmp_path / "orders" / "workshop.toml"
    shop.write_text(shop.read_text().replace(old, new))

    assert made(make(tmp_path, orders[:1])) == ["M-000.en-GB.pdf"]


@pytest.mark.slow
def test_another_program_paper_or_template_makes_anew(
    tmp_path: Path, orders: list[Path], monkeypatch: pytest.MonkeyPatch
):
    from explainer.batch import run as batch

    make(tmp_path, orders[:1])
    assert made(make(tmp_path, orders[:1], "--paper", "Letter")) == ["M-000.en-GB.pdf"]
    monkeypatch.setattr(batch, "_program", lambda: "another template")
    assert made(make(tmp_path, orders[:1], "--paper", "Letter")) == ["M-000.en-GB.pdf"]


def test_the_program_is_known_by_its_templates_and_fonts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    import shutil

    from explainer.batch import run as batch
    from explainer.resources import root

    before = batch._program.__wrapped__()
    homes = {kind: tmp_path / kind for kind in ("templates", "locales")}
    for kind, home in homes.items():
        shutil.copytree(root(kind), home)  # type: ignore[arg-type]
    monkeypatch.setattr(batch, "root", homes.__getitem__)
    assert batch._program.__wrapped__() == before

    font = tmp_path / "templates" / "leaflet" / "fonts" / "LeafletSans-Regular.ttf"
    font.write_bytes(font.read_bytes() + b"\0")
    assert batch._program.__wrapped__() != before


def test_without_a_report_nothing_is_remembered(tmp_path: Path, orders: list[Path]):
    for _ in range(2):
        result = run("make", orders[0], "-o", tmp_path / "out")
        assert made(result) == ["M-000.en-GB.pdf"]
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["M-000.en-GB.pdf"]


@pytest.mark.slow
def test_ctrl_c_stops_cleanly_and_what_is_made_stays(tmp_path: Path):
    orders = write_orders(tmp_path / "orders", 30)
    report = tmp_path / "report.jsonl"
    process = start("make", *orders, "-o", tmp_path / "out", "--report", report, "--workers", 2)
    assert process.stdout
    first = process.stdout.readline().strip()
    os.killpg(process.pid, signal.SIGINT)  # as a terminal does: to the workers too
    out, err = process.communicate(timeout=60)

    assert process.returncode == 130
    assert "Traceback" not in err
    assert "stopped" in err
    told = {Path(path).name for path in [first, *out.split()]}
    assert told == {path.name for path in (tmp_path / "out").iterdir()}
    assert told == {line["file"].removeprefix("out/") for line in lines(report)}  # type: ignore[attr-defined]
    assert len(told) < 30


def test_a_full_disk_ends_the_run_and_keeps_what_was_made(
    tmp_path: Path, orders: list[Path], monkeypatch: pytest.MonkeyPatch
):
    from explainer.render import files

    room = [1]
    write = files._write_aside

    def write_while_there_is_room(path: Path, data: bytes) -> Path:
        if data and not room:
            raise OSError(errno.ENOSPC, "No space left on device")
        if path.suffix == ".pdf":
            room.clear()
        return write(path, data)

    monkeypatch.setattr(files, "_write_aside", write_while_there_is_room)
    result = make(tmp_path, orders)

    assert result.exit_code == 1
    assert "M-001.en-GB.pdf: the disk is full" in result.stderr
    assert "1 order was not made" in result.stderr
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == ["M-000.en-GB.pdf", "report.jsonl"]
    assert [line["file"] for line in lines(tmp_path / "out" / "report.jsonl")] == ["M-000.en-GB.pdf"]


def test_an_output_that_is_a_file_is_told_before_anything_is_made(tmp_path: Path):
    (tmp_path / "out").write_text("mine")
    result = run("make", ORDER, "-o", tmp_path / "out")

    assert result.exit_code == 1
    assert "a file in the place of a folder" in result.stderr
    assert (tmp_path / "out").read_text() == "mine"


def test_a_link_in_the_place_of_a_leaflet_refuses_this_order_alone(tmp_path: Path, orders: list[Path]):
    target = tmp_path / "precious"
    target.write_text("mine")
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "M-000.en-GB.pdf").symlink_to(target)
    result = make(tmp_path, orders)

    assert result.exit_code == 1
    assert "M-000.en-GB.pdf is a symbolic link" in result.stderr
    assert target.read_text() == "mine"
    assert made(result) == ["M-001.en-GB.pdf"]


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_may_not_be_written_to_is_named(tmp_path: Path):
    (tmp_path / "out").mkdir(mode=0o500)
    result = run("make", ORDER, "-o", tmp_path / "out")

    assert result.exit_code == 1
    assert f"{tmp_path / 'out'}" in result.stderr
    assert "cannot be written to" in result.stderr


def test_a_clock_that_is_wrong_changes_nothing(tmp_path: Path, orders: list[Path], monkeypatch: pytest.MonkeyPatch):
    import time

    make(tmp_path, orders[:1])
    right = (tmp_path / "out" / "M-000.en-GB.pdf").read_bytes()
    monkeypatch.setattr(time, "time", lambda: -86_400.0)
    result = make(tmp_path, orders[:1], "--again")

    assert result.exit_code == 0, result.stderr
    assert (tmp_path / "out" / "M-000.en-GB.pdf").read_bytes() == right


@pytest.mark.parametrize("what", ["missing", "damaged"])
def test_a_font_that_is_not_there_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, what: str):
    import shutil

    from explainer.render.press import engine

    fonts = tmp_path / "fonts"
    shutil.copytree(engine.font_folder(), fonts)
    font = fonts / "LeafletSans-Bold.ttf"
    font.unlink() if what == "missing" else font.write_bytes(b"no font")
    monkeypatch.setattr(engine, "font_folder", lambda: fonts)
    engine.engine.cache_clear()
    result = run("make", ORDER, "-o", tmp_path / "out")
    engine.engine.cache_clear()

    assert result.exit_code == 1
    assert "LeafletSans-Bold.ttf" in result.stderr
    assert not list(tmp_path.rglob("*.pdf"))


def test_a_catalogue_that_cannot_be_read_is_named_and_stops_only_its_language(
    tmp_path: Path, orders: list[Path], monkeypatch: pytest.MonkeyPatch
):
    from explainer.render import language

    catalogue = tmp_path / "locales" / "de" / "LC_MESSAGES" / "explainer.po"
    catalogue.parent.mkdir(parents=True)
    catalogue.write_text('msgid "unfinished', encoding="utf-8")
    monkeypatch.setattr(language, "root", lambda _: tmp_path / "locales")
    language.language.cache_clear()
    orders[0].write_text(orders[0].read_text().replace('"en-GB"', '"de"'))
    result = make(tmp_path, orders)
    language.language.cache_clear()

    assert result.exit_code == 1
    assert "the catalogue explainer.po of de cannot be read" in result.stderr
    assert made(result) == ["M-001.en-GB.pdf"]


def test_the_bar_is_for_terminals_only(tmp_path: Path, orders: list[Path]):
    result = make(tmp_path, orders)

    assert "\r" not in result.stderr
    assert "[" not in result.stderr


def test_the_bar_tells_rate_and_time_left():
    progress = Progress(1000)
    for _ in range(250):
        progress.step(made=True)

    assert progress.line(62.5) == "[######..................] 250 of 1000  4.0 a second  3:08 left"


def test_orders_that_were_skipped_do_not_count_for_the_rate():
    progress = Progress(100)
    for number in range(60):
        progress.step(made=number >= 50)

    assert progress.line(5.0).endswith("60 of 100  2.0 a second  0:20 left")
