"""A limit of time for a single leaflet. One that would never end is refused, and the next one is made.

A leaflet takes a second or two; the limit is what no slow machine needs. Two means: an alarm that breaks off the
program's own code, and for worker processes a watch in another thread of the interpreter that ends the process when a
library does not come back to that code at all.
"""

from __future__ import annotations

import contextlib
import faulthandler
import os
import signal
import threading
from collections.abc import Iterator

SECONDS = 180.0
_AGAIN_S = 1.0


class TooLong(BaseException):
    """The leaflet has taken more than its time."""


@contextlib.contextmanager
def at_most(seconds: float) -> Iterator[None]:
    """In the block TooLong is raised after so many seconds, and again each second until the block is left."""
    if not hasattr(signal, "setitimer") or threading.current_thread() is not threading.main_thread():
        yield
        return
    running = True

    def stop(*_: object) -> None:
        if running:
            raise TooLong

    before = signal.signal(signal.SIGALRM, stop)
    try:
        try:
            signal.setitimer(signal.ITIMER_REAL, seconds, _AGAIN_S)
            yield
        finally:
            running = False
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


@contextlib.contextmanager
def or_end(seconds: float) -> Iterator[None]:
    """In the block this process is ended, whatever it does, a little after the time in which the alarm should have."""
    with open(os.devnull, "w", encoding="ascii") as nowhere:  # noqa: PTH123  (a device)
        faulthandler.dump_traceback_later(1.1 * seconds + 1, exit=True, file=nowhere)
        try:
            yield
        finally:
            faulthandler.cancel_dump_traceback_later()
