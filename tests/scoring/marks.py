"""The sheet: its 35 items, which of them a program can mark, and what a mark is."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from scoring.leaflet import Made

GATES = frozenset("A1 A2 A3 D1 E1 E3 E6 F1 F2 F4 F5".split())
READERS_ONLY = {
    "B1": "one main message in the first block, set off, with a labelled picture",
    "E4": "settling-in effects, what is normal, when to stop; check of fit; way back",
}
READERS_TOO = frozenset("A3 A5 A6 B2 B4 B5 B6 B7 C4 D2 D3 D4 E2 F3 F5".split())
ALL_ITEMS = tuple(
    f"{block}{number}"
    for block, count in zip("ABCDEF", (6, 7, 5, 6, 6, 5), strict=True)
    for number in range(1, count + 1)
)


@dataclass(frozen=True)
class Mark:
    """2, 1, 0, or None where the item does not apply; with a reason below 2."""

    points: int | None
    reason: str = ""


FULL = Mark(2)
Check = Callable[["Made"], Mark]
CHECKS: dict[str, Check] = {}


def item(name: str) -> Callable[[Check], Check]:
    """Registers a function as the program's part of an item of the sheet."""

    def keep(check: Check) -> Check:
        CHECKS[name] = check
        return check

    return keep


def apart(reason: str) -> Mark:
    """The item does not apply to this leaflet."""
    return Mark(None, reason)


def worst(wrong: Iterable[str] = (), slight: Iterable[str] = ()) -> Mark:
    """0 with what is wrong, 1 with what is only slight, 2 with neither."""
    serious, small = list(wrong), list(slight)
    if serious:
        return Mark(0, _few([*serious, *small]))
    return Mark(1, _few(small)) if small else FULL


def _few(reasons: list[str]) -> str:
    shown = "; ".join(dict.fromkeys(reasons[:6]))
    return shown + (f"; and {len(reasons) - 6} more" if len(reasons) > 6 else "")


def share(marks: dict[str, Mark]) -> float:
    """Points of the sheet as a part of those that apply."""
    counted = [mark.points for mark in marks.values() if mark.points is not None]
    return sum(counted) / (2 * len(counted)) if counted else 1.0


def open_gates(marks: dict[str, Mark]) -> list[str]:
    """Gates that are not full."""
    return [name for name in ALL_ITEMS if name in GATES and name in marks and marks[name].points in (0, 1)]
