"""The rules for single numbers: signs, decimals, steps and ranges. A number that may have lost something is refused."""

from __future__ import annotations

from explainer.orders.notation.cursor import Cursor
from explainer.orders.notation.tokens import Token

MOST_POWER_D = 25.0
MOST_ADD_D = 4.0
MOST_PRISM_PD = 20.0
_SHORT_EIGHTHS = {0.12: 0.125, 0.37: 0.375, 0.62: 0.625, 0.87: 0.875}
"""Eighths of a dioptre are commonly written with their third decimal cut off (+3.12, -1.87)."""


def power(cursor: Cursor, token: Token, what: str) -> float:
    """A sphere or cylinder [D] from its token; faults are noted at the cursor and reading goes on."""
    whole_digits(cursor, token, what)
    value = token.number
    if value == 0:
        return 0.0
    sign = token.sign or "+"
    if value > MOST_POWER_D:
        cursor.note(token, f"a {what} of at most {MOST_POWER_D:g} D; has a decimal mark been lost or moved?")
        return value
    if not token.sign:
        cursor.note(token, f"the {what} with its sign, as the prescriber meant it: +{token.value} or -{token.value}")
    if _mark_may_be_lost(token):
        cursor.note(token, f"the {what} with two decimals, so that no decimal mark is lost: {sign}{value:.2f}")
        return value
    return float(f"{sign}{step(cursor, token, value, what)}")


def step(cursor: Cursor, token: Token, value: float, what: str) -> float:
    """The value if it is a step the trade makes (0.25 or 0.125 D), or if odd steps were confirmed."""
    if cursor.rules.any_step or is_step(value):
        return value
    whole = float(int(value))
    eighth = _SHORT_EIGHTHS.get(round(value - whole, 3)) if token.decimals == 2 else None
    if eighth is not None:
        return whole + eighth
    cursor.note(
        token, f"a {what} in steps of 0.25 or 0.125 D; if it is meant, confirmed_steps = true in [prescription]"
    )
    return value


def is_step(value: float) -> bool:
    """Whether a power is a multiple of an eighth of a dioptre."""
    return float(value * 8).is_integer()


def addition(cursor: Cursor, token: Token) -> float:
    """A reading addition [D]. It is plus by definition, so the sign may be left out."""
    whole_digits(cursor, token, "addition")
    value = token.number
    if token.sign == "-":
        cursor.note(token, f"an addition is never minus: Add +{token.value}")
    if not 0 < value <= MOST_ADD_D:
        cursor.note(token, f"an addition above 0 and up to {MOST_ADD_D:g} D: Add +2.00")
        return 1.0
    return step(cursor, token, value, "addition")


def axis(cursor: Cursor, token: Token) -> float:
    """An axis or meridian [deg], 1 to 180; 0 is the same line as 180 and is kept as 180."""
    accepted = "an axis of 0 to 180 in whole or half degrees, without a sign: x 172"
    if token.sign or not token.well_formed or not token.whole or token.decimals > 1:
        cursor.note(token, accepted)
        return 180.0
    value = token.number
    if value > 180 or not float(value * 2).is_integer():
        cursor.note(token, accepted)
        return 180.0
    return value or 180.0


def measure(cursor: Cursor, token: Token | None, low: float, high: float, what: str) -> float:
    """A length [mm] without a sign, inside its range."""
    accepted = f"{what} of {low:g} to {high:g} mm"
    if token is None:
        cursor.refuse(cursor.look(), accepted)
    if token.sign or not token.well_formed or not low <= token.number <= high:
        cursor.note(token, accepted)
        return low
    return token.number


def whole_digits(cursor: Cursor, token: Token, what: str) -> None:
    """Refuse a number that has lost a part of its digits: -2. or -2.25.75."""
    behind = cursor.look()
    if not token.well_formed or (behind and behind.kind == "stop" and behind.start == token.end):
        cursor.refuse(token, f"the {what} with its decimals: -3.25")


def _mark_may_be_lost(token: Token) -> bool:
    """A power of two digits needs its decimals: -75 may be -0.75, -22.5 may be -2.25, -025 may be -0.25."""
    return len(token.whole) >= 2 and token.decimals < 2
