"""How long it takes, each run in a fresh process: median of several.

.venv/bin/python tests/bench/speed.py [runs]
"""

from __future__ import annotations

import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HOME = Path(__file__).parents[2]
ORDER = HOME / "output_examples" / "orders" / "FL-3107.toml"


def timed(words: list[str], environment: dict[str, str]) -> float:
    """Seconds of wall clock for one process."""
    begun = time.perf_counter()
    command = [sys.executable, "-m", "explainer", *words]
    subprocess.run(command, check=True, cwd=HOME, env=environment, capture_output=True)
    return time.perf_counter() - begun


def without_figures(environment: dict[str, str]) -> dict[str, str]:
    """The environment, with every kept figure thrown away."""
    for kind in ("figures", "paintings"):
        shutil.rmtree(Path(environment["XDG_CACHE_HOME"]) / "explainer" / kind, ignore_errors=True)
    return environment


def main(runs: int) -> None:
    """Prints one line a case."""
    with tempfile.TemporaryDirectory() as folder:
        # the plotter keeps its own list of fonts, which is the machine's affair and not the leaflet's
        # and Python keeps what it compiled, unless a container's environment forbids it
        usual = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        kept = {**usual, "XDG_CACHE_HOME": f"{folder}/kept", "MPLCONFIGDIR": f"{folder}/plotter"}
        make = ["make", str(ORDER), "-o", f"{folder}/out"]
        reply = ["reply", str(ORDER), "--topic", "car", "-o", f"{folder}/out"]
        timed(make, kept)
        cases = {
            "--help": lambda i: timed(["--help"], kept),
            "check": lambda i: timed(["check", str(ORDER)], kept),
            "claims": lambda i: timed(["claims", str(ORDER), "--json"], kept),
            "leaflet, figures kept": lambda i: timed(make, kept),
            "leaflet, figures drawn": lambda i: timed(make, without_figures(kept)),
            "leaflet, nothing kept": lambda i: timed(make, {**kept, "XDG_CACHE_HOME": f"{folder}/new{i}"}),
            "reply, no pictures": lambda i: timed([*reply, "--no-pictures"], kept),
            "reply, pictures": lambda i: timed(reply, kept),
            "reply, figures drawn": lambda i: timed(reply, without_figures(kept)),
        }
        for name, run in cases.items():
            times = [run(i) for i in range(runs)]
            middle, least, most = statistics.median(times), min(times), max(times)
            sys.stdout.write(f"{name:24} median {middle:.2f} s   min {least:.2f} s   max {most:.2f} s\n")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 7)
