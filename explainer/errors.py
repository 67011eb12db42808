"""Every error that explainer raises on purpose, and what each one means.

One base, so that a caller can catch all of them; five kinds, so that a caller can tell whose turn it is:
the person who wrote the order, the person who keeps the facts, the formula that was asked too much, the
translator, or the machine that draws the page.
"""

from __future__ import annotations

import traceback
import unicodedata
from dataclasses import dataclass
from pathlib import Path


def visible(text: str) -> str:
    """The text on one line, with every character that a terminal would obey or could not show written as its code."""
    return "".join(
        sign if sign.isprintable() or unicodedata.category(sign) == "Zs" else f"<U+{ord(sign):04X}>" for sign in text
    )


def place_of(error: BaseException) -> str:
    """Where an error came from that nobody foresaw, without its text, which may hold what is private."""
    last = traceback.extract_tb(error.__traceback__)[-1:]
    where = f" in {Path(last[0].filename).name}, line {last[0].lineno}" if last else ""
    return f"{type(error).__name__}{where}"


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
        lines = [f"{source}: refused", *(f"- {fault}" for fault in faults)]
        super().__init__("\n  ".join(map(visible, lines)))


class Unforeseen(InputError):  # noqa: N818
    """An input on which the program itself failed. It is refused like any other, and stops no other."""

    def __init__(self, source: str, error: BaseException) -> None:
        super().__init__(source, [Fault("program", f"a failure of its own ({place_of(error)})", "please report this")])


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
