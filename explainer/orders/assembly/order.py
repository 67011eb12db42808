"""What the readers hand on: one order, ready for the core, or the reason why there is none."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field

from explainer.errors import InputError
from explainer.optics.rules import BenchRules
from explainer.optics.spectacles import Spectacles
from explainer.orders.shop.workshop import Workshop


@dataclass(frozen=True, slots=True, kw_only=True)
class Release:
    """The optician's written release of readings outside tolerance."""

    by: str
    date: dt.date
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """The optician's answers to what an order raises, each a word of its own closed set; None: not answered."""

    addition: str | None = None
    category_four: str | None = None
    glass: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """One order. `notes` say what was not given and is left out; `warnings` what looks odd and wants a second look."""

    number: str
    date: dt.date
    posted: dt.date | None = None
    language: str
    wearer_name: str | None = None
    spectacles: Spectacles
    received_right: str
    received_left: str
    prescription_written: dt.date | None = None
    workshop: Workshop | None = None
    release: Release | None = None
    answers: Answers = field(default_factory=Answers)
    notes: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    source: str = ""

    @property
    def country(self) -> str | None:
        """The country whose words, numbers and rules hold, by its two letters, if the workshop says."""
        return self.workshop.country if self.workshop else None

    @property
    def bench_rules(self) -> BenchRules:
        """By which limits the workshop judges its readings; the usual ones where there is no workshop file."""
        return self.workshop.bench_rules if self.workshop else BenchRules()


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadResult:
    """What became of one source: an order, or the error with every fault."""

    source: str
    order: Order | None = None
    error: InputError | None = None
