"""The report: whole lines, no private word, and nothing of another file ever lost."""

from __future__ import annotations

import json
import stat
from pathlib import Path

import pytest

from explainer.batch.report import Report, fault_lines, sha256
from explainer.errors import Fault, RenderError


def line(source: str, state: str = "made", file: str | None = "a.pdf", **more: object) -> dict[str, object]:
    return {"source": source, "order": "A", "state": state, "file": file, **more}


def lines(path: Path) -> list[dict[str, object]]:
    return [json.loads(text) for text in path.read_text(encoding="utf-8").splitlines()]


def test_every_line_is_on_the_disk_as_soon_as_it_is_added_and_for_the_owner_only(tmp_path: Path):
    path = tmp_path / "new" / "report.jsonl"
    with Report(path) as report:
        report.add(line("one"))
        assert [each["source"] for each in lines(path)] == ["one"]
        assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_lines_of_earlier_runs_stay_and_of_one_leaflet_the_last_counts(tmp_path: Path):
    path = tmp_path / "report.jsonl"
    with Report(path) as report:
        report.add(line("one", file="1.pdf"))
        report.add(line("two", "refused", file=None))
    with Report(path) as report:
        report.add(line("two", file="2.pdf"))
        report.add(line("one", file="1.pdf", pages=5))

    assert [(each["source"], each["state"], each.get("pages")) for each in lines(path)] == [
        ("two", "made", None),
        ("one", "made", 5),
    ]


def test_half_a_line_of_a_killed_run_is_dropped(tmp_path: Path):
    path = tmp_path / "report.jsonl"
    with Report(path) as report:
        report.add(line("one"))
    path.write_bytes(path.read_bytes() + b'{"source": "tw')
    with Report(path) as report:
        report.add(line("three", file="3.pdf"))

    assert [each["source"] for each in lines(path)] == ["one", "three"]


@pytest.mark.parametrize("text", ['order = "FL-3107"\n', "[1, 2]\n", '{"a": 1}\n', "\n"])
def test_a_file_that_is_no_report_is_left_as_it_is(tmp_path: Path, text: str):
    path = tmp_path / "order.toml"
    path.write_text(text, encoding="utf-8")

    with pytest.raises(RenderError, match=r"order\.toml"):
        Report(path)
    assert path.read_text(encoding="utf-8") == text


def test_a_symbolic_link_is_not_followed(tmp_path: Path):
    target = tmp_path / "target"
    target.write_text("", encoding="utf-8")
    (tmp_path / "report.jsonl").symlink_to(target)

    with pytest.raises(RenderError, match="symbolic link"):
        Report(tmp_path / "report.jsonl")


def test_a_full_disk_is_told_by_the_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    import errno
    import os

    def full(*_: object) -> int:
        raise OSError(errno.ENOSPC, "No space left on device")

    with Report(tmp_path / "report.jsonl") as report:
        monkeypatch.setattr(os, "write", full)
        with pytest.raises(RenderError, match=r"report\.jsonl: the disk is full"):
            report.add(line("one"))


def test_a_leaflet_is_held_only_while_its_bytes_are_those_of_the_report(tmp_path: Path):
    leaflet = tmp_path / "out" / "a.pdf"
    leaflet.parent.mkdir()
    leaflet.write_bytes(b"leaflet")
    with Report(tmp_path / "report.jsonl") as report:
        report.add(line("one", file="out/a.pdf", sha256=sha256(b"leaflet"), made_from="x"))

        assert report.holds(leaflet, "x")
        assert not report.holds(leaflet, "y")
        assert not report.holds(leaflet.parent / "b.pdf", "x")
        leaflet.write_bytes(b"leaflet!")
        assert not report.holds(leaflet, "x")
        leaflet.unlink()
        assert not report.holds(leaflet, "x")
        (tmp_path / "other.pdf").write_bytes(b"leaflet")
        leaflet.symlink_to(tmp_path / "other.pdf")
        assert not report.holds(leaflet, "x")


def test_faults_stand_without_what_was_found_and_without_digits():
    fault = Fault("bench.right.sphere", "-4.50 D", "-4.25 D, give or take 0.13 D")

    assert fault_lines([fault]) == [{"field": "bench.right.sphere", "accepted": "-#.## D, give or take #.## D"}]
