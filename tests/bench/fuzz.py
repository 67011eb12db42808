"""Throw damaged input at one reader for some minutes: python tests/bench/fuzz.py READER --minutes N

Guided by coverage where atheris is installed (in an environment of its own; nothing here needs it), else driven by
hypothesis. What must hold for every input: nothing but InputError escapes, no input takes over 2 seconds, a reading
means what it is written back as, and reading the same inputs again and again does not take more memory. Whole runs
(orders, house, logos, cache) are driven by dice: see fuzz_runs.py.
"""

from __future__ import annotations

import argparse
import importlib
import importlib.util
import os
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

READERS = ("notation", "toml", "json", "fhir", "job", "trace", "workshop", "csv", "jsonl")
RUNS = ("orders", "house", "logos", "cache")
HOME = Path(__file__).parents[2]
GUIDED = importlib.util.find_spec("atheris") is not None


def readers() -> Any:
    """The module with the readers, instrumented for coverage if that is to be had."""
    sys.path[:0] = [str(HOME), str(HOME / "tests"), str(HOME / "tests" / "bench")]
    if not GUIDED:
        return importlib.import_module("fuzz_readers")
    atheris = importlib.import_module("atheris")
    with atheris.instrument_imports(include=["explainer"]):
        return importlib.import_module("fuzz_readers")


def by_coverage(watch: Any, name: str, seconds: float, folder: Path) -> None:
    """Let atheris search for inputs that reach new lines; it ends the process itself."""
    atheris = importlib.import_module("atheris")
    fuzz_seeds = importlib.import_module("fuzz_seeds")
    corpus = folder / "corpus"
    corpus.mkdir()
    for i, seed in enumerate(fuzz_seeds.seeds(name)):
        (corpus / str(i)).write_bytes(seed)
    (folder / "words").write_text("".join(f'"{word}"\n' for word in fuzz_seeds.dictionary(name)), encoding="ascii")
    ends = time.monotonic() + seconds

    def one(data: bytes) -> None:
        watch(data)
        if time.monotonic() > ends:
            watch.report(name, "guided by coverage")
            sys.stdout.flush()
            os._exit(0)

    options = ["-rss_limit_mb=2500", "-timeout=200", "-max_len=6000", "-verbosity=0", "-len_control=20"]
    paths = [f"-dict={folder / 'words'}", f"-artifact_prefix={tempfile.gettempdir()}/fuzz-{name}-", str(corpus)]
    atheris.Setup([sys.argv[0], *options, *paths], one)
    atheris.Fuzz()


def by_hypothesis(watch: Any, name: str, seconds: float) -> None:
    """Seeds with pieces cut, doubled, exchanged and put in, until the time is over."""
    from hypothesis import HealthCheck, given, settings
    from hypothesis import strategies as st

    fuzz_seeds = importlib.import_module("fuzz_seeds")
    known = list(fuzz_seeds.seeds(name))
    piece = st.one_of(
        st.binary(max_size=6), st.sampled_from([word.encode("latin-1") for word in fuzz_seeds.dictionary(name)])
    )
    edits = st.lists(st.tuples(st.integers(0, 10_000), st.integers(0, 40), piece), max_size=6)

    @settings(max_examples=2000, deadline=None, database=None, suppress_health_check=list(HealthCheck))
    @given(st.sampled_from(known), edits)
    def batch(seed: bytes, changes: list[tuple[int, int, bytes]]) -> None:
        for place, length, put in changes:
            start = place % (len(seed) + 1)
            seed = seed[:start] + put + seed[start + length :]
        watch(seed)

    ends = time.monotonic() + seconds
    while time.monotonic() < ends:
        batch()
    watch.report(name, "driven by hypothesis")


def main() -> None:
    """One reader for the time asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("reader", choices=(*READERS, *RUNS))
    parser.add_argument("--seed", type=int, default=14)
    parser.add_argument("--minutes", type=float, default=1.0)
    found = parser.parse_args()
    name, seconds = found.reader, found.minutes * 60
    if name in RUNS:
        sys.path[:0] = [str(HOME), str(HOME / "tests"), str(HOME / "tests" / "bench")]
        with tempfile.TemporaryDirectory() as place:
            sys.stdout.write(importlib.import_module("fuzz_runs").run(name, seconds, Path(place), found.seed) + "\n")
        return
    module = readers()
    with tempfile.TemporaryDirectory(dir="/dev/shm" if Path("/dev/shm").is_dir() else None) as place:
        folder = Path(place)
        watch = module.Watch(module.notation if name == "notation" else module.of_file(name, folder))
        if GUIDED:
            by_coverage(watch, name, seconds, folder)
        else:
            by_hypothesis(watch, name, seconds)


if __name__ == "__main__":
    main()
