"""One order made, with nothing raised: what a worker process hands back. The engine is imported on the first call."""

from __future__ import annotations

import itertools
import time
from dataclasses import dataclass, replace

from explainer.batch import limit
from explainer.batch.documents import Document, Settings, make_document
from explainer.collector import collector_at_rest, sweep
from explainer.errors import ExplainerError, Fault, InputError, OutOfRange, place_of, visible
from explainer.orders import Order


@dataclass(frozen=True, slots=True)
class Made:
    """The finished documents of an order, not yet on the disk, the first one the main one."""

    documents: tuple[Document, ...]
    seconds: float
    notes: tuple[str, ...] = ()

    @property
    def data(self) -> bytes:
        """The main document."""
        return self.documents[0].data


@dataclass(frozen=True, slots=True)
class Refused:
    """Why there is no leaflet: words for the optician, and the faults if the order has any.

    `ends_run` when it is the machine's fault, so that no other order would fare better.
    """

    message: str
    faults: tuple[Fault, ...] = ()
    ends_run: bool = False

    def as_error(self, source: str) -> ExplainerError:
        """The same as an error: with its faults, if they are the order's own."""
        own = self.message.startswith(f"{visible(source)}: refused")
        return InputError(source, list(self.faults)) if self.faults and own else ExplainerError(self.message)


def portable(order: Order) -> Order:
    """The order without the workshop's list of lenses, which cannot travel and has served when the order was read."""
    return replace(order, workshop=replace(order.workshop, lenses={}, export=None)) if order.workshop else order


_orders_before = itertools.count()  # in this process


def make_one(order: Order, settings: Settings) -> Made | Refused:
    """The documents of one order, or why not. Whatever goes wrong with this order, the next one can be made."""
    begun = time.perf_counter()
    if before := next(_orders_before):
        sweep(before)
    try:
        with collector_at_rest(), limit.at_most(limit.SECONDS):
            return _made(order, settings, begun)
    except limit.TooLong:
        return Refused(f"{visible(order.source)}: no leaflet: it took more than {limit.SECONDS:g} seconds")


def _made(order: Order, settings: Settings, begun: float) -> Made | Refused:
    try:
        from explainer.render.press.engine import engine_notes

        notes = tuple(engine_notes())
    except (ExplainerError, ImportError) as error:
        return Refused(str(error), ends_run=True)
    try:
        documents = tuple(make_document(kind, order, settings) for kind in settings.kinds(order))
    except Exception as error:
        return refused(error, order.source)
    notes += tuple(note for document in documents for note in document.notes)
    return Made(documents, time.perf_counter() - begun, notes)


def refused(error: Exception, source: str) -> Refused:
    """An error in words. One that nobody foresaw is told by its place alone: its text may hold what is private."""
    source = visible(source)
    if isinstance(error, OutOfRange):
        error = InputError(source, [error.fault])
    if isinstance(error, InputError):
        own = visible(error.source) == source  # else the fault is in a file of the workshop
        order = "" if own else f"{source}: no leaflet: "
        return Refused(f"{order}{error}", error.faults)
    if isinstance(error, ExplainerError):
        return Refused(f"{source}: no leaflet: {error}")
    if isinstance(error, OSError) and error.filename:
        return Refused(f"{source}: no leaflet: cannot read {error.filename}: {error.strerror}")
    return Refused(f"{source}: no leaflet: the program failed ({place_of(error)}); please report this")
