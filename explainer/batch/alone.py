"""Orders made one after the other in this process, and how many processes a run is worth."""

from __future__ import annotations

import os
from collections.abc import Generator, Iterable

from explainer.batch.documents import Settings
from explainer.batch.work import Made, Refused, make_one
from explainer.collector import tune_collector
from explainer.orders import Order

Result = Made | Refused


def cores() -> int:
    """The processors this program may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def workers_for(orders: int, wanted: int | None) -> int:
    """How many processes to use. Starting one costs as much time as two leaflets, so a few orders need none."""
    most = min(cores(), (orders + 1) // 2) if wanted is None else wanted
    return max(1, min(most, orders))


def made_here(orders: Iterable[Order], settings: Settings) -> Generator[tuple[Order, Result], None, None]:
    """The orders one after the other in this process."""
    tune_collector()
    for order in orders:
        yield order, make_one(order, settings)
