"""Kills `explainer make` (SIGKILL, no chance to tidy up) at random moments and looks at what is left.

.venv/bin/python tests/bench/kill.py [moments] [orders]
"""

from __future__ import annotations

import json
import os
import random
import re
import signal
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
from many import is_whole, start, write_orders


@dataclass(frozen=True)
class Killed:
    """What stood there after the kill, and after one more run of the same command."""

    leaflets_before: int
    reported_before: int
    strays_before: int
    broken: list[str]
    left_running: list[int]
    code_after: int
    told_after: str
    skipped_after: int
    missing_after: list[str]
    strays_after: list[str]


def kill_at(folder: Path, moment_s: float, orders: int) -> Killed:
    """One run killed after so many seconds, then a second one left alone."""
    paths = write_orders(folder / "orders", orders)
    out, report = folder / "out", folder / "out" / "report.jsonl"
    words = ("make", *paths, "-o", out, "--report", report, "--workers", 2)
    process = start(*words)
    time.sleep(moment_s)
    os.kill(process.pid, signal.SIGKILL)  # the first process alone: its workers have to notice
    process.wait()
    left_running = list(_still_there(process.pid))
    for pipe in (process.stdout, process.stderr):
        if pipe:
            pipe.close()
    leaflets = list(out.glob("*.pdf"))
    broken = [path.name for path in leaflets if not is_whole(path)]
    reported, strays = len(_whole_lines(report)), len(list(out.glob(".*")))
    process = start(*words)
    _, told = process.communicate()
    skipped = re.search(r"(\d+) kept", told)
    return Killed(
        leaflets_before=len(leaflets),
        reported_before=reported,
        strays_before=strays,
        broken=broken + [path.name for path in out.glob("*.pdf") if not is_whole(path)],
        left_running=left_running,
        code_after=process.returncode,
        told_after=told,
        skipped_after=int(skipped[1]) if skipped else 0,
        missing_after=[p.stem for p in paths if not (out / f"{p.stem}.en-GB.pdf").is_file()],
        strays_after=[path.name for path in out.glob(".*")],
    )


def _whole_lines(report: Path) -> list[object]:
    if not report.exists():
        return []
    return [json.loads(line) for line in report.read_text(encoding="utf-8").split("\n")[:-1]]


def _still_there(group: int, patience_s: float = 5.0) -> Iterator[int]:
    """Processes of a killed run's group that have not ended by themselves after a while (Linux only)."""
    until = time.monotonic() + patience_s
    while (left := list(_members(group))) and time.monotonic() < until:
        time.sleep(0.1)
    yield from left


def _members(group: int) -> Iterator[int]:
    for entry in Path("/proc").glob("[0-9]*/stat"):
        try:
            state, _, of_group = entry.read_text().rpartition(")")[2].split()[:3]
        except OSError:
            continue
        if int(of_group) == group and state != "Z":
            yield int(entry.parent.name)


def whole_run_s(orders: int) -> float:
    """How long the run takes when nobody kills it."""
    with tempfile.TemporaryDirectory() as folder:
        paths = write_orders(Path(folder) / "orders", orders)
        begun = time.monotonic()
        start("make", *paths, "-o", Path(folder) / "out", "--workers", 2).communicate()
        return time.monotonic() - begun


def main(moments: int, orders: int) -> None:
    """Prints one line a kill, and a sum."""
    dice = random.Random(11)
    longest_s = whole_run_s(orders)
    bad = 0
    for number in range(moments):
        moment_s = dice.uniform(0.1, longest_s)
        with tempfile.TemporaryDirectory() as folder:
            found = kill_at(Path(folder), moment_s, orders)
        faulty = found.broken or found.left_running or found.missing_after or found.strays_after or found.code_after
        bad += bool(faulty)
        sys.stdout.write(
            f"{number:3} at {moment_s:5.2f} of {longest_s:.2f} s: {found.leaflets_before} leaflets, "
            f"{found.reported_before} reported, {found.strays_before} set aside; then {found.skipped_after} skipped, "
            f"{f'FAULT {found}' if faulty else 'complete'}\n"
        )
        sys.stdout.flush()
    sys.stdout.write(f"{moments} kills, {bad} with a fault\n")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 40, int(sys.argv[2]) if len(sys.argv) > 2 else 12)
