"""How many decimals a number shows, and which way it is rounded, so that print never contradicts a verdict.

A limit is rounded down and a deviation away from zero. Where even that would tell another story than the exact numbers
do (a limit of 2 % of a power has four decimals), both get the decimals that they need.
"""

from __future__ import annotations

from decimal import ROUND_DOWN, ROUND_HALF_UP, ROUND_UP, Decimal

from explainer.optics.claims.statements import Rounding

MOST_DIGITS = 6
_DUST = Decimal(1).scaleb(-9)  # floats miss a decimal number by less than this
_MODES = {"nearest": ROUND_HALF_UP, "down": ROUND_DOWN, "away": ROUND_UP}


def rounded(value: float, digits: int, rounding: Rounding = "nearest") -> Decimal:
    """The number with that many decimals; the dust of floats is swept away first, and there is no minus zero."""
    clean = Decimal(repr(float(value))).quantize(_DUST, ROUND_HALF_UP)
    found = clean.quantize(Decimal(1).scaleb(-digits), _MODES[rounding])
    return abs(found) if found == 0 else found


def exact_digits(value: float, least: int, most: int = 3) -> int:
    """The fewest decimals, from `least` on, that show the number as it is."""
    return next((digits for digits in range(least, most) if rounded(value, digits) == rounded(value, 9)), most)


def agreeing_digits(*, deviation: float, allowed: float, inside: bool, least: int) -> int:
    """The fewest decimals, from `least` on, with which the rounded numbers tell what the exact ones do."""
    for digits in range(least, MOST_DIGITS):
        seen = abs(rounded(deviation, digits, "away")) <= rounded(allowed, digits, "down")
        if seen == inside:
            return digits
    return MOST_DIGITS
