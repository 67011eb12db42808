"""The tables of facts/tolerance.toml as the bands that formulas.tolerance works with.

A quantity is one of sphere, cylinder, axis, addition, progressive-sphere, progressive-cylinder; a direction
is vertical or horizontal. `fact_ids` tells which facts a verdict rests on, so that a claim can name them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache
from typing import Literal

from explainer.errors import FactError
from explainer.optics.facts import get, topic_facts
from explainer.optics.formulas.tolerance import Band, band_of

Direction = Literal["vertical", "horizontal"]
TOPIC = "tolerance"


def has(standard: str, quantity: str) -> bool:
    """Whether that standard has rows for that quantity."""
    return f"{standard}.{quantity}.row_1.allowed" in topic_facts(TOPIC)


@cache
def bands(standard: str, quantity: str) -> tuple[Band, ...]:
    """The rows of a standard for a quantity; FactError when there are none."""
    found = tuple(_band(row) for row in _rows(standard, quantity))
    if not found:
        raise FactError(f"the tolerances of {standard} have no rows for {quantity}")
    return found


def fact_ids(standard: str, quantity: str, *, size: float) -> tuple[str, ...]:
    """The facts of the row that governs a size: the deviation allowed first, then the ends of the row."""
    table = bands(standard, quantity)
    band = band_of(table, size=size)
    if band is None:
        return ()
    row = f"{TOPIC}.{standard}.{quantity}.row_{table.index(band) + 1}"
    return tuple(f"{row}.{part}" for part in ("allowed", "above", "up_to") if _stands(f"{row}.{part}"))


def _rows(standard: str, quantity: str) -> Iterator[str]:
    number = 1
    while _stands(row := f"{TOPIC}.{standard}.{quantity}.row_{number}", part="allowed"):
        yield row
        number += 1


def _band(row: str) -> Band:
    amount = get(f"{row}.allowed")
    relative = amount.unit == "percent"
    return Band(
        above=get(f"{row}.above").number,
        up_to=_number_or_infinite(f"{row}.up_to"),
        allowed=amount.number / 100 if relative else amount.number,
        relative=relative,
    )


def _number_or_infinite(fact_id: str) -> float:
    return get(fact_id).number if _stands(fact_id) else math.inf


def _stands(fact_id: str, *, part: str | None = None) -> bool:
    whole = fact_id if part is None else f"{fact_id}.{part}"
    return whole.removeprefix(f"{TOPIC}.") in topic_facts(TOPIC)
