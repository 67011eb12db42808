"""`explainer check` on many orders in one file: seconds, orders a second, peak memory, each run in a fresh process.

.venv/bin/python tests/bench/check.py [orders] [kind: csv jsonl both]
"""

from __future__ import annotations

import csv
import json
import os
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any, get_args

from explainer.optics.spectacles import FrameMaterial, Material

HOME = Path(__file__).parents[2]
Data = dict[str, Any]


def notation(dice: random.Random, sphere: float, cylinder: float, axis: int) -> str:
    """One eye as a prescription pad has it, in one of several habits."""
    if cylinder == 0:
        return f"{sphere:+.2f} DS"
    habit = dice.choice(("{:+.2f} {:+.2f} x {}", "{:+.2f} / {:+.2f} x {}", "{:+.2f} ({:+.2f}) {}°"))
    return habit.format(sphere, cylinder, f"{axis:03d}")


def random_order(dice: random.Random, number: int) -> Data:
    """A varied order: strong and weak lenses, with and without additions, previous pairs, wearers and prisms."""
    eyes = {}
    read = {}
    sphere = dice.randint(-32, 20) / 4
    for side in ("right", "left"):
        cylinder = dice.choice([0.0, 0.0, *(-step / 4 for step in range(1, 13))])
        axis = dice.randint(1, 180)
        power = sphere + dice.randint(-4, 4) / 4
        eyes[side] = notation(dice, power, cylinder, axis)
        read[side] = notation(dice, power + dice.choice([-0.03, 0, 0.02]), cylinder, axis)
    progressive = dice.random() < 0.3
    data: Data = {
        "order": f"BN-{number:07d}",
        "date": "2026-11-20",
        "wearer": {"name": f"Invented Person {number}", "birth_year": dice.randint(1930, 2015)},
        "prescription": {"written": "2026-10-12", **eyes, "vertex_mm": dice.choice([12.0, 13.0, 13.5])},
        "measurements": {"pd_right_mm": dice.randint(56, 68) / 2, "pd_left_mm": dice.randint(56, 68) / 2},
        "frame": {
            "a_mm": dice.randint(88, 112) / 2,
            "b_mm": dice.randint(60, 84) / 2,
            "dbl_mm": float(dice.randint(15, 21)),
            "material": dice.choice(get_args(FrameMaterial)),
        },
        "lens": {
            "design": "progressive" if progressive else "single-vision",
            "material": dice.choice(get_args(Material)),
            "tint": dice.choice(["clear", "photochromic"]),
            "coatings": ["hard", "anti-reflection"],
        },
    }
    if progressive:
        data["prescription"]["add"] = f"+{dice.randint(3, 12) / 4:.2f}"
    if dice.random() < 0.8:
        data["bench"] = {**read, "pd_mm": sum(data["measurements"].values())}
    if dice.random() < 0.3:
        data["previous"] = {side: notation(dice, sphere, 0.0, 180) for side in eyes}
    return data


def flat(data: Data) -> dict[str, str]:
    """The same order as cells by column."""
    cells: dict[str, str] = {}
    for table, fields in data.items():
        if not isinstance(fields, dict):
            cells[table] = str(fields)
            continue
        prefix = "" if table in ("prescription", "measurements") else f"{table}_"
        for field, value in fields.items():
            cells[prefix + field] = " ".join(value) if isinstance(value, list) else str(value)
    return cells


def random_orders(count: int) -> Iterator[Data]:
    """The same orders every time."""
    dice = random.Random(11)
    return (random_order(dice, number) for number in range(count))


def write_csv(path: Path, orders: Iterable[Data]) -> None:
    """A table with every column that any order uses."""
    from explainer.orders.tables.columns import COLUMNS

    with path.open("w", encoding="utf-8", newline="") as stream:
        sheet = csv.DictWriter(stream, COLUMNS, delimiter=";")
        sheet.writeheader()
        sheet.writerows(map(flat, orders))


def write_jsonl(path: Path, orders: Iterable[Data]) -> None:
    """One order a line."""
    with path.open("w", encoding="utf-8") as stream:
        stream.writelines(json.dumps(order) + "\n" for order in orders)


def checked(path: Path) -> tuple[float, float, int]:
    """Seconds of wall clock, of processor, and peak memory [MB] of one `explainer check`."""
    with (path.with_suffix(".out")).open("wb") as out:
        begun = time.perf_counter()
        process = subprocess.Popen(
            [sys.executable, "-m", "explainer", "check", str(path)], cwd=HOME, stdout=out, stderr=out
        )
        _, _, used = os.wait4(process.pid, 0)
        return time.perf_counter() - begun, used.ru_utime + used.ru_stime, used.ru_maxrss // 1024


def main(count: int, kinds: str) -> None:
    """Prints one line a kind of file."""
    writers: dict[str, Callable[[Path, Iterable[Data]], None]] = {"csv": write_csv, "jsonl": write_jsonl}
    with tempfile.TemporaryDirectory() as folder:
        for kind, write in writers.items():
            if kinds not in (kind, "both"):
                continue
            path = Path(folder) / f"orders.{kind}"
            write(path, random_orders(count))
            wall, processor, peak = checked(path)
            said = path.with_suffix(".out").read_text(encoding="utf-8")
            refused = said.count(": refused\n")
            sys.stdout.write(
                f"{kind:6} {count} orders  {wall:.1f} s ({processor:.1f} s of processor)  {count / wall:.0f} a second"
                f"  peak {peak} MB  refused {refused}  complete {said.count('order is complete')}\n"
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000, sys.argv[2] if len(sys.argv) > 2 else "both")
