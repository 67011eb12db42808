"""How often the interpreter looks for objects that refer to each other in a circle. An order leaves few of them."""

from __future__ import annotations

import atexit
import contextlib
import gc
from collections.abc import Iterator

_OBJECTS_BETWEEN = 200_000
_ORDERS_BETWEEN = 32


def end_at_once() -> None:
    """For the program's own process: look through nothing when it ends; that took as long as a seventh of a leaflet."""
    atexit.register(gc.freeze)


def tune_collector() -> None:
    """Looks seldom: at the usual rate it costs a tenth of an order's time, and as much of the program's start."""
    gc.set_threshold(_OBJECTS_BETWEEN)


def sweep(orders: int) -> None:
    """Between orders, after so many: what the last one left, so that memory stays flat; now and then what all left.

    The engine's documents refer to themselves. Those of ten orders together take as much memory as the whole program.
    """
    gc.collect(2 if orders % _ORDERS_BETWEEN == 0 else 0)


@contextlib.contextmanager
def collector_at_rest() -> Iterator[None]:
    """Look for nothing while a page is made: the engine builds large trees and drops none of them; a tenth faster."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
