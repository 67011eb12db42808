"""All items of the sheet together: the marks of one leaflet."""

from __future__ import annotations

from pathlib import Path
from typing import Any, NamedTuple

from scoring import accessibility, comprehension, content, layout, safety, translation
from scoring.leaflet import Case, Made, NotMade, make
from scoring.marks import ALL_ITEMS, CHECKS, Mark, open_gates, share
from scoring.pages import measures

BLOCKS = (content, comprehension, layout, accessibility, safety, translation)


class Result(NamedTuple):
    """One leaflet, marked: points by item, measures of its pages; or why there is none."""

    case: Case
    marks: dict[str, Mark]
    pages: dict[str, Any]
    fault: str = ""

    @property
    def share(self) -> float:
        return 0.0 if self.fault else share(self.marks)

    @property
    def gates(self) -> list[str]:
        return ["not made"] if self.fault else open_gates(self.marks)


def score(case: Case, folder: Path | None = None) -> Result:
    """Makes a leaflet and marks it."""
    made = make(case, folder)
    if isinstance(made, NotMade):
        return Result(case, {}, {}, made.reason)
    return Result(case, marks_of(made), measures(made).as_dict())


def marks_of(made: Made) -> dict[str, Mark]:
    """Every item that a program can mark. A check that itself breaks is a 0: the page is not as it must be."""
    found = {}
    for name in sorted(CHECKS, key=ALL_ITEMS.index):
        try:
            found[name] = CHECKS[name](made)
        except Exception as error:
            found[name] = Mark(0, f"cannot be checked: {type(error).__name__}: {error}"[:200])
    return found
