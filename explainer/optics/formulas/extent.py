"""The extent of several ranges taken together."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple


class Extent(NamedTuple):
    """The least and the greatest of some values, in their unit."""

    least: float
    greatest: float


def of_ends(*, ends: Sequence[float]) -> Extent:
    """The extent of ranges given by their ends.

    Parameters: ends of all ranges, in one unit, in any order; at least one.
    Returns: the least and the greatest.
    Raises: nothing.
    Equation: minimum and maximum.
    Reference: definition.
    """
    return Extent(min(ends), max(ends))
