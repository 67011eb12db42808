"""Many real orders at once: leaflets a second, memory of the workers, and the share of the engine.

    PYTHONPATH=tests .venv/bin/python tests/bench/many.py [orders] [workers…]

The share of the engine is the time inside its two calls, in one process: what remains is ours. What the engine takes
for the same pages when it is called as its manual says stands in rivals.py.
"""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path
from typing import NamedTuple

from varied import varied_orders

from explainer.batch.documents import Settings
from explainer.batch.pool import made_by_workers
from explainer.batch.work import Made
from explainer.orders import Order

MEASURE_AT = (20, 100, 250, 500)


class Memory(NamedTuple):
    """A worker's memory [MB]: all that is resident, and the part that is its own; the rest are shared libraries."""

    resident: int
    own: int


def memory_of_workers() -> list[Memory]:
    """This process's children, the largest first; /proc only."""
    found = []
    for path in Path("/proc").glob("[0-9]*/status"):
        try:
            fields = dict(line.split(":", 1) for line in path.read_text().splitlines() if ":" in line)
        except OSError:
            continue
        if int(fields.get("PPid", 0)) == os.getpid() and "RssAnon" in fields:
            found.append(Memory(*(int(fields[name].split()[0]) // 1024 for name in ("VmRSS", "RssAnon"))))
    return sorted(found, reverse=True)


def run(orders: list[Order], workers: int) -> None:
    """One run with so many workers, with the memory on the way."""
    begun, made, memory = time.perf_counter(), 0, []
    for _, result in made_by_workers(orders, Settings(), workers):
        made += isinstance(result, Made)
        if made in MEASURE_AT:
            found = memory_of_workers()[:workers]
            memory.append(f"after {made}: " + ", ".join(f"{one.resident} MB, {one.own} of it own" for one in found))
    seconds = time.perf_counter() - begun
    rate = made / seconds
    sys.stdout.write(f"{workers} workers: {made} of {len(orders)} in {seconds:.1f} s, {rate:.2f} leaflets/s\n")
    sys.stdout.write("".join(f"    {line}\n" for line in memory))


def engine_share(orders: list[Order]) -> None:
    """The share of the engine in one process, warm."""
    from weasyprint import Document

    from explainer.render.leaflet import make_leaflet

    make_leaflet(orders[0])
    inside = 0.0

    def timed(call: object) -> object:
        def measured(*args: object, **named: object) -> object:
            nonlocal inside
            begun = time.perf_counter()
            try:
                return call(*args, **named)  # type: ignore[operator]
            finally:
                inside += time.perf_counter() - begun

        return measured

    Document._render = timed(Document._render)
    Document.write_pdf = timed(Document.write_pdf)
    begun = time.perf_counter()
    for order in orders:
        make_leaflet(order)
    whole = time.perf_counter() - begun
    each, engine = whole / len(orders), inside / len(orders)
    sys.stdout.write(f"warm, one process: {each:.2f} s a leaflet, engine {engine:.2f} s, ratio {each / engine:.2f}\n")


def main(count: int, crews: list[int]) -> None:
    """All measurements."""
    orders = varied_orders(count)
    engine_share(orders[:60])
    for workers in crews:
        run(orders, workers)


if __name__ == "__main__":
    numbers = [int(word) for word in sys.argv[1:]]
    main(numbers[0] if numbers else 500, numbers[1:] or [1, 2])
