"""Round steps for the numbers along an axis."""

from __future__ import annotations

import math


def nice_step(length: float, pieces: int) -> float:
    """The smallest of 1, 2, 5 times a power of ten that cuts the length into no more than that many pieces."""
    rough = length / pieces
    power = 10.0 ** math.floor(math.log10(rough))
    return next(factor * power for factor in (1, 2, 5, 10) if factor * power >= rough * (1 - 1e-9))


def steps(high: float, pieces: int) -> list[float]:
    """Round numbers from zero up to `high`."""
    step = nice_step(high, pieces)
    return [i * step for i in range(int(high / step + 1e-9) + 1)]
