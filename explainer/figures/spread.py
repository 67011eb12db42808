"""Pushing labels apart just as far as they need."""

from __future__ import annotations

from collections.abc import Sequence


def spread(places: Sequence[float], *, gap: float, low: float, high: float) -> list[float]:
    """Places at least `gap` apart and within low to high, in the old order and as near to the old places as can be.

    Least squares with an order constraint: neighbours that are too close become a block around their common middle.
    When they cannot all fit, they fill the room evenly.
    """
    count = len(places)
    if count == 0:
        return []
    gap = min(gap, (high - low) / max(count - 1, 1))
    order = sorted(range(count), key=lambda i: places[i])
    blocks: list[tuple[float, int]] = []  # mean of place minus its rank times gap, and how many
    for rank, i in enumerate(order):
        mean, size = places[i] - rank * gap, 1
        while blocks and blocks[-1][0] > mean:
            other, others = blocks.pop()
            mean, size = (mean * size + other * others) / (size + others), size + others
        blocks.append((mean, size))
    moved = [min(max(mean, low), high - (count - 1) * gap) for mean, size in blocks for _ in range(size)]
    result = [0.0] * count
    for rank, i in enumerate(order):
        result[i] = moved[rank] + rank * gap
    return result
