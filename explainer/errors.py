"""Every error that explainer raises on purpose, and what each one means.

One base, so that a caller can catch all of them; five kinds, so that a caller can tell whose turn it is:
the person who wrote the order, the person who keeps the facts, the formula that was asked too much, the
translator, or the machine that draws the page.
"""

from __future__ import annotations

from dataclasses import dataclass


class ExplainerError(Exception):
    """Base of all errors raised on purpose."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with an input: which field, what was found there, what is accepted."""

    field: str
    found: str
    accepted: str

    def __str__(self) -> str:
        return f"{self.field}: found {self.found}; accepted: {self.accepted}"


class InputError(ExplainerError):
    """An order or workshop file cannot be used. Carries every fault at once."""

    def __init__(self, source: str, faults: list[Fault]) -> None:
        self.source = source
        self.faults = tuple(faults)
        super().__init__("\n".join([f"{source}: refused", *(f"  - {fault}" for fault in faults)]))


class FactError(ExplainerError):
    """A fact or a source in the core's data is missing, unknown or incomplete."""


class OutOfRange(ExplainerError, ValueError):  # noqa: N818  (the name says what happened)
    """A formula was asked for something outside its stated range; never clamped silently."""

    def __init__(self, name: str, value: object, low: float, high: float, unit: str) -> None:
        self.name, self.value, self.low, self.high, self.unit = name, value, low, high, unit
        super().__init__(f"{name} = {value} is outside {low:g} to {high:g} {unit}".rstrip())

    @property
    def fault(self) -> Fault:
        """The same as a fault of an input."""
        return Fault(self.name, f"{self.value}", f"{self.low:g} to {self.high:g} {self.unit}")


class MissingText(ExplainerError):  # noqa: N818
    """A template or catalogue lacks a text, or uses a claim that was not issued."""


class RenderError(ExplainerError):
    """The page could not be made: engine, fonts, disk."""
