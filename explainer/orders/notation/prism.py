"""Prism: an amount and the direction of its base, as a word (base in), a code (BI) or an angle (base 217).

Angles follow ISO 8429, 0 to 360 as seen by someone facing the wearer: for the right eye 0 is base in, for the left
eye 0 is base out, 90 is base up for both. So an angle needs to know the eye.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from explainer.optics.spectacles import Side
from explainer.orders.notation.cursor import Cursor
from explainer.orders.notation.numbers import MOST_PRISM_PD, whole_digits
from explainer.orders.notation.tokens import Token

WANTED = "a prism's amount and base, such as 2Δ base in"


class Prism(NamedTuple):
    """Components [prism dioptre], base in and base up positive. None: this prism says nothing of that direction."""

    in_pd: float | None
    up_pd: float | None


def from_word(amount_pd: float, direction: str) -> Prism:
    """The prism of that amount with its base in, out, up or down."""
    signed = amount_pd if direction in ("in", "up") else -amount_pd
    return Prism(signed, None) if direction in ("in", "out") else Prism(None, signed)


def from_angle(amount_pd: float, base_deg: float, side: Side) -> Prism:
    """The prism of that amount with its base at an angle of the 0 to 360 scale."""
    towards_right = amount_pd * math.cos(math.radians(base_deg))
    up = amount_pd * math.sin(math.radians(base_deg))
    return Prism(_no_dust(towards_right if side == "right" else -towards_right), _no_dust(up))


def joined(first: Prism, second: Prism) -> Prism | None:
    """Both prisms as one; None if both speak of the same direction."""
    if None not in (first.in_pd, second.in_pd) or None not in (first.up_pd, second.up_pd):
        return None
    return Prism(
        first.in_pd if second.in_pd is None else second.in_pd,
        first.up_pd if second.up_pd is None else second.up_pd,
    )


def prism(cursor: Cursor) -> Prism:
    """Read one prism from the cursor on: its amount, its unit, its base."""
    named = cursor.label("prism") is not None
    if named:
        cursor.take("of")
    if cursor.kind() in ("base", "code"):
        return _base_first(cursor)
    token = cursor.take("number")
    if token is None:
        cursor.refuse(cursor.look(), WANTED)
    amount = _amount(cursor, token)
    unit = _unit(cursor, named=named)
    code = cursor.take("oblique")
    if code:
        return _oblique(cursor, token, amount, code.value)
    base = cursor.label("base") is not None
    if cursor.kind() == "collides":
        cursor.refuse_rest()
    if cursor.take("meridian") or (base and cursor.kind() == "number"):
        return _at_angle(cursor, amount, marked=unit or base)
    direction = cursor.take("to", "code")
    if direction is None:
        accepted = f"{WANTED}; in, out, up or down"
        cursor.refuse(cursor.look() or token, accepted, found="a prism without a base direction")
    if direction.kind == "to" and not (unit or base):
        cursor.refuse(direction, f"{WANTED}; a number alone before a direction may be something else")
    beside = cursor.look(1) if cursor.kind() == "and" else cursor.look()
    if beside and beside.kind in ("to", "code"):
        cursor.refuse(beside, "each direction with its own amount: 1Δ base up 2Δ base in")
    if cursor.kind() == "prism" and cursor.kind(1) not in ("number", "colon", "of"):
        cursor.take("prism")  # 2 base in prism
    return from_word(amount, direction.value)


def _unit(cursor: Cursor, *, named: bool) -> bool:
    """The unit behind an amount, if there is one; "dioptres" counts where a prism or a base is spoken of."""
    if cursor.take("prism", "pd"):
        return True
    if cursor.kind() == "unit" and (named or cursor.kind(1) in ("base", "code")):
        cursor.take("unit")
        return True
    return named


def _base_first(cursor: Cursor) -> Prism:
    """The forms "base in 2Δ" and "BI 2": the direction stands before its amount."""
    first = cursor.look()
    code = cursor.take("code")
    if code is None:
        cursor.label("base")
        code = cursor.take("to")
    cursor.take("colon")
    token = cursor.take("number") if code else None
    if code is None or token is None:
        cursor.refuse(first, f"a prism's amount before its base: {WANTED}")
    amount = _amount(cursor, token)
    _unit(cursor, named=True)
    if cursor.kind() in ("base", "code", "to", "oblique") and not _another_base_first(cursor):
        cursor.refuse(token, f"each direction with its own amount: {WANTED}")
    return from_word(amount, code.value)


def _another_base_first(cursor: Cursor) -> bool:
    return cursor.kind(1) == "number" or (cursor.kind(1) == "to" and cursor.kind(2) == "number")


def _at_angle(cursor: Cursor, amount: float, *, marked: bool) -> Prism:
    token = cursor.take("number")
    angle = _angle(cursor, token, 360)
    if not marked and angle <= 180:
        cursor.refuse(token, "Δ behind the amount of a prism, so that it is not taken for a cylinder: 2.5Δ @ 37")
    if cursor.rules.side is None:
        cursor.refuse(token, "the eye, since the same angle is base in for one eye and base out for the other")
    return from_angle(amount, angle, cursor.rules.side)


def _oblique(cursor: Cursor, token: Token, amount: float, directions: str) -> Prism:
    """2.5 BU&I @ 37: the letters give the directions, the angle the line on which the base lies."""
    if not cursor.take("meridian", "axis"):
        cursor.refuse(token, "the angle of a slanting base (2.5 BU&I @ 37), or an amount for each direction")
    angle_token = cursor.take("number")
    angle = math.radians(_angle(cursor, angle_token, 180))
    vertical, horizontal = directions.split()
    result = Prism(
        from_word(amount * abs(math.cos(angle)), horizontal).in_pd,
        from_word(amount * math.sin(angle), vertical).up_pd,
    )
    if cursor.rules.side:
        assert result.in_pd is not None
        assert result.up_pd is not None
        slope = result.in_pd * result.up_pd * (1 if cursor.rules.side == "right" else -1)
        if slope * math.cos(angle) < 0:
            cursor.refuse(angle_token, "an angle that agrees with the directions, as seen by someone facing the wearer")
    return result


def _angle(cursor: Cursor, token: Token | None, highest: int) -> float:
    accepted = f"the base as an angle of 0 to {highest} degrees"
    if token is None or token.sign or not token.well_formed or token.number > highest:
        cursor.refuse(token or cursor.look(), accepted)
    cursor.take("degree")
    return token.number


def _amount(cursor: Cursor, token: Token) -> float:
    whole_digits(cursor, token, "prism")
    if token.sign:
        cursor.note(token, "a prism without a sign; its base gives the direction")
    if not 0 < token.number <= MOST_PRISM_PD or (len(token.whole) > 1 and token.whole.startswith("0")):
        cursor.note(token, f"a prism above 0 and up to {MOST_PRISM_PD:g} prism dioptres, such as 2.00Δ")
        return 1.0
    return token.number


def _no_dust(value: float) -> float | None:
    """None where a right angle leaves a trace of rounding: this prism says nothing of that direction."""
    return None if abs(value) < 1e-9 else value
