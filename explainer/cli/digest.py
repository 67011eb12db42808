"""What a run has to say in the end: warnings first, what was left out grouped, and one line that counts.

For one order everything is told as it is. For many, thirty orders without a frame are one line and not thirty.
"""

from __future__ import annotations

from collections.abc import Callable

from explainer.orders import Order

_MOST_NAMED = 4


class Digest:
    """Gathers the warnings and notes of the orders of a run."""

    def __init__(self) -> None:
        self._warnings: list[tuple[str, str]] = []
        self._left_out: dict[str, list[str]] = {}
        self._orders = 0

    def add(self, order: Order) -> None:
        """One order that was made or looked at."""
        self._orders += 1
        self._warnings += [(order.number, words) for words in order.warnings]
        for words in order.notes:
            self._left_out.setdefault(words, []).append(order.number)

    @property
    def to_look_at(self) -> int:
        """How many orders have a warning."""
        return len({number for number, _ in self._warnings})

    def told(self, tell: Callable[[str], None]) -> None:
        """Everything gathered, warnings first."""
        for number, words in self._warnings:
            tell(f"{number}: warning: {words}")
        for words, numbers in self._left_out.items():
            tell(f"{_named(numbers)}: {words}")


def finished(*, made: int, kept: int, refused: int, to_look_at: int) -> str:
    """The last line of a run: "30 made, 2 refused, 13 to look at"."""
    parts = [(made, "made"), (kept, "kept, unchanged since"), (refused, "refused"), (to_look_at, "to look at")]
    return ", ".join(f"{count} {words}" for count, words in parts if count) or "nothing to do"


def _named(numbers: list[str]) -> str:
    if len(numbers) <= _MOST_NAMED:
        return ", ".join(numbers)
    return f"{len(numbers)} orders ({', '.join(numbers[:_MOST_NAMED])} …)"
