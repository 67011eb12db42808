"""Scores every leaflet of the gallery by the sheet.

    PYTHONPATH=tests python -m scoring [ORDER…] [--edition E] [--paper P] [--language L] [--json FILE] [--keep FOLDER]

Without options: the whole gallery in both editions, on both papers, in British English and in German. Exit code 1 when
a gate is open or the worst leaflet stays below 90 %.
"""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
from concurrent.futures import ProcessPoolExecutor
from itertools import product
from multiprocessing import get_context
from pathlib import Path

from scoring.leaflet import Case, gallery
from scoring.sheet import Result, score
from scoring.table import as_json, print_tables

EDITIONS, PAPERS, LANGUAGES = ("standard", "large-print"), ("A4", "Letter"), ("en-GB", "de")
PASS = 0.9


def main() -> int:
    """Reads the arguments, scores, prints."""
    given = _arguments()
    orders = [path for path in gallery() if not given.orders or path.stem in given.orders]
    if not orders:
        sys.stderr.write(f"no such order; there are: {', '.join(path.stem for path in gallery())}\n")
        return 2
    choices = product(orders, given.edition or EDITIONS, given.paper or PAPERS, given.language or LANGUAGES)
    cases = [Case(*choice) for choice in choices]
    with tempfile.TemporaryDirectory() as folder:
        results = scored(cases, given.keep or Path(folder), workers=given.workers)
    print_tables(results)
    if given.json:
        given.json.write_text(json.dumps(as_json(results), indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    return int(any(result.gates or result.share < PASS for result in results))


def scored(cases: list[Case], folder: Path, *, workers: int = 2) -> list[Result]:
    """Every case, by so many processes; each leaflet is made once."""
    folder.mkdir(parents=True, exist_ok=True)
    # begun anew and not forked: a fork of a process that has drawn pages may wait for ever for a lock of its libraries
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        return list(pool.map(score, cases, [folder] * len(cases), chunksize=4))


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="scoring", description="Scores the leaflets of the gallery by the sheet.")
    parser.add_argument("orders", nargs="*", help="names of orders of the gallery; else all")
    parser.add_argument("--edition", action="append", choices=EDITIONS)
    parser.add_argument("--paper", action="append", choices=PAPERS)
    parser.add_argument("--language", action="append")
    parser.add_argument("--json", type=Path, help="write everything to this file")
    parser.add_argument("--keep", type=Path, help="keep the leaflets in this folder and take them from there")
    parser.add_argument("--workers", type=int, default=2)
    return parser.parse_args()


if __name__ == "__main__":
    sys.exit(main())
