"""Orders spread over worker processes, results as they come, and what happens when a worker is killed.

A killed worker takes the pool with it, and nobody can tell which of the orders in flight it was. So each of them is
tried once more, alone in a new pool: an order that ends a second worker is refused, the others lose nothing.
"""

from __future__ import annotations

import contextlib
import gc
import multiprocessing
import os
import signal
import threading
from collections import deque
from collections.abc import Generator, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool

from explainer.batch import limit
from explainer.batch.alone import Result
from explainer.batch.documents import Settings
from explainer.batch.work import Refused, make_one, portable
from explainer.collector import tune_collector
from explainer.orders import Order
from explainer.surroundings import environment

_AHEAD = 1  # orders that wait beside the workers, so that none is ever idle
_KILLED = (
    "{source}: no leaflet: the process that made it was ended from outside or took too long, twice; "
    "is there enough memory? Try this order alone with --workers 1"
)


def made_by_workers(
    orders: Iterable[Order], settings: Settings, workers: int
) -> Generator[tuple[Order, Result], None, None]:
    """The orders by so many processes, in the order in which they are ready."""
    crew = _Crew(orders, settings, workers)
    try:
        while crew.has_work():
            yield from crew.next_results()
    finally:
        crew.dismiss()


class _Crew:
    """The pool, what is in flight in it, what waits, and what was in flight when a pool broke."""

    def __init__(self, orders: Iterable[Order], settings: Settings, workers: int) -> None:
        self._waiting = deque(orders)
        self._settings, self._workers = settings, workers
        self._suspects: deque[Order] = deque()
        self._on_trial = False
        self._running: dict[Future[Result], Order] = {}
        self._executor = self._new_executor()

    def has_work(self) -> bool:
        return bool(self._waiting or self._suspects or self._running)

    def dismiss(self) -> None:
        """Start nothing more; what is in flight ends within seconds and is dropped."""
        self._executor.shutdown(wait=True, cancel_futures=True)

    def next_results(self) -> Iterator[tuple[Order, Result]]:
        """What is ready now. A broken pool is replaced."""
        whole = self._fill()
        done = wait(self._running, return_when=FIRST_COMPLETED).done if whole else set(self._running)
        if whole and not any(isinstance(future.exception(), BrokenProcessPool) for future in done):
            for future in done:
                yield self._result(future)
            return
        wait(self._running)
        for future in [future for future in self._running if future.exception() is None]:
            yield self._result(future)
        yield from self._after_the_break()

    def _result(self, future: Future[Result]) -> tuple[Order, Result]:
        order = self._running.pop(future)
        self._on_trial = False
        error = future.exception()
        return order, Refused(f"{order.source}: no leaflet: {type(error).__name__}") if error else future.result()

    def _fill(self) -> bool:
        """Keep the workers busy; suspects go alone. False if the pool is broken."""
        try:
            while not self._on_trial and (self._suspects or self._waiting):
                if len(self._running) >= (1 if self._suspects else self._workers + _AHEAD):
                    break
                source = self._suspects or self._waiting
                self._on_trial = bool(self._suspects)
                with _signals_held(), environment(PYTHONSAFEPATH="1"):  # a new worker inherits both
                    future = self._executor.submit(_make_in_time, portable(source[0]), self._settings)
                self._running[future] = source.popleft()
        except BrokenProcessPool:
            self._on_trial = self._on_trial and bool(self._running)
            return False
        return True

    def _after_the_break(self) -> Iterator[tuple[Order, Result]]:
        in_flight = list(self._running.values())
        self._running.clear()
        self._executor.shutdown(wait=True)
        self._executor = self._new_executor()
        if not self._on_trial:
            self._suspects.extend(in_flight)
            return
        self._on_trial = False
        for order in in_flight:
            yield order, Refused(_KILLED.format(source=order.source))

    def _new_executor(self) -> ProcessPoolExecutor:
        with environment(PYTHONSAFEPATH="1"):  # what lies in the folder we were called in is no module of ours
            return ProcessPoolExecutor(
                self._workers, multiprocessing.get_context("spawn"), _begin_work, (limit.SECONDS,)
            )


def _make_in_time(order: Order, settings: Settings) -> Result:
    """One leaflet in a worker, which ends if the leaflet would not."""
    with limit.or_end(limit.SECONDS):
        return make_one(order, settings)


def _begin_work(seconds: float) -> None:
    """What a worker does before its first order: leave Ctrl-C to the first process, end with it, load the engine."""
    limit.SECONDS = seconds
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    tune_collector()
    with contextlib.suppress(Exception):  # the first order will tell
        from explainer.render import leaflet
        from explainer.render.press.engine import engine

        engine()
        del leaflet
        gc.freeze()


def _end_with_parent() -> None:
    """End this process as soon as its parent is gone; else a killed run would leave its workers behind for good."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


@contextlib.contextmanager
def _signals_held() -> Iterator[None]:
    """Ctrl-C waits until the end of the block; for a worker begun in it for ever: it is for the first process alone."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
