"""The readers that the fuzzer feeds, and the watch that holds every input to the rules."""

from __future__ import annotations

import gc
import resource
import sys
import time
import tracemalloc
from collections.abc import Callable
from pathlib import Path

from explainer.errors import InputError
from explainer.orders import read_orders
from explainer.orders.assembly.written import parse_eye, parse_written
from explainer.orders.notation.reading import Reading, written
from explainer.orders.shop.workshop import read_workshop

SECONDS = 2.0
MOST_GROWTH = 400_000
LANGUAGES = (None, "en", "de", "fr", "es", "it", "pt", "pl")
ENDINGS = {
    "toml": ".toml",
    "json": ".json",
    "fhir": ".json",
    "job": ".job",
    "trace": ".txt",
    "workshop": ".toml",
    "csv": ".csv",
    "jsonl": ".jsonl",
}


def notation(data: bytes) -> None:
    """One text in the language that its first byte picks; what is read means what it is written back as."""
    language = LANGUAGES[data[0] % len(LANGUAGES)] if data else None
    text = data[1:].decode("utf-8", "replace")
    for reading in parse_written(text, language=language).values():
        again = parse_eye(written(reading))
        assert _near(again, reading), (text, language, reading, again)


def _near(one: Reading, other: Reading) -> bool:
    """Equal but for the thousandths to which a slanting prism is written."""
    numbers = ("sphere_d", "cylinder_d", "axis_deg", "add_d", "vertex_mm", "pd_mm", "acuity", "side")
    prisms = ((one.prism_in_pd, other.prism_in_pd), (one.prism_up_pd, other.prism_up_pd))
    return all(getattr(one, name) == getattr(other, name) for name in numbers) and all(
        abs(a - b) <= 6e-4 for a, b in prisms
    )


def of_file(name: str, folder: Path) -> Callable[[bytes], None]:
    """The reader of a kind of file, given its bytes."""
    path = folder / f"input{ENDINGS[name]}"
    if name == "trace":
        order = folder / "order.json"
        order.write_text(
            '{"order":"A","date":"2026-01-01","prescription":{"text":"R plano L plano"},"frame":{"trace":"input.txt"}}'
        )

    def read(data: bytes) -> None:
        path.write_bytes(data)
        if name == "workshop":
            read_workshop(path)
            return
        for result in read_orders([folder / "order.json" if name == "trace" else path]):
            if result.error is not None:
                raise result.error

    return read


class Watch:
    """Counts inputs, keeps some of them, and holds the clock to every one."""

    def __init__(self, read: Callable[[bytes], None]) -> None:
        self._read = read
        self.tried = self.accepted = 0
        self.slowest = 0.0
        self.kept: list[bytes] = []

    def __call__(self, data: bytes) -> None:
        started = time.perf_counter()
        try:
            self._read(data)
        except InputError as error:
            faults = error.faults
        else:
            faults = None
            self.accepted += 1
        assert faults is None or faults, data
        assert all(len(fault.found) <= 200 for fault in faults or ()), data
        took = time.perf_counter() - started
        assert took <= SECONDS, f"{took:.1f} s for {data[:200]!r}"
        self.slowest = max(self.slowest, took)
        self.tried += 1
        if self.tried % 97 == 0 and len(self.kept) < 150:
            self.kept.append(data)

    def growth(self) -> int:
        """Bytes that three more rounds over the kept inputs leave behind."""
        for _ in range(2):
            self._round()
        tracemalloc.start()
        self._round()
        before = tracemalloc.get_traced_memory()[0]
        for _ in range(3):
            self._round()
        after = tracemalloc.get_traced_memory()[0]
        tracemalloc.stop()
        return after - before

    def _round(self) -> None:
        for data in self.kept:
            try:
                self._read(data)
            except InputError:
                continue
        gc.collect()

    def report(self, name: str, how: str) -> None:
        growth = self.growth()
        most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
        sys.stdout.write(
            f"{name}: {self.tried} inputs ({how}), {self.accepted} read, slowest {self.slowest * 1000:.0f} ms,"
            f" {growth} bytes left by three rounds over {len(self.kept)} inputs, peak {most} MB\n"
        )
        sys.stdout.flush()
        assert growth <= MOST_GROWTH, growth
