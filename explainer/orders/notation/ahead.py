"""What a number is can show only behind it: a power, a prism's amount, or an addition with its label last."""

from __future__ import annotations

from explainer.orders.notation.cursor import Cursor
from explainer.orders.notation.tokens import Token


def starts_power(cursor: Cursor) -> bool:
    """Whether a power stands here, rather than an addition, a prism or nothing."""
    if cursor.kind() in ("sph", "plano", "open", "empty", "axis", "cyl", "ds", "unit"):
        return True
    token = cursor.look()
    if token is None or token.kind != "number":
        return False
    return not (is_prism_amount(cursor, token) or trailing_addition(cursor))


def is_prism_amount(cursor: Cursor, token: Token, ahead: int = 0) -> bool:
    """Whether this number, here or further on, is followed by what only a prism has."""
    word, after, beyond = cursor.look(ahead + 1), cursor.kind(ahead + 1), cursor.kind(ahead + 2)
    if after == "prism" and word and not word.value and (token.sign or beyond in ("number", "colon", "of")):
        return False  # "+1.00 prism 2 base in": the word opens the prism behind it
    if token.sign and _base_comes_first(cursor, ahead):
        return False
    if after in ("prism", "base", "to", "code", "oblique") or (
        after == "unit" and not token.sign and beyond in ("base", "code")
    ):
        return True
    if after == "pd":
        return beyond in ("base", "to", "code", "oblique", "meridian")
    if word and after == "collides":
        return word.value in ("bi", "bo", "bu", "bd")
    base = cursor.look(ahead + 2)
    return after == "meridian" and not token.sign and base is not None and _beyond_half_turn(base)


def _base_comes_first(cursor: Cursor, ahead: int) -> bool:
    """-2.00 BI 2Δ, -2.00 base in 2Δ: the base behind a power belongs to the number behind it."""
    one, two, three = (cursor.kind(ahead + i) for i in (1, 2, 3))
    return (one == "code" and two == "number") or (one == "base" and two == "to" and three == "number")


def trailing_addition(cursor: Cursor) -> bool:
    """Whether the number here is an addition with its label behind it: +2.00 add."""
    if cursor.kind(1) != "add":
        return False
    behind = 3 if cursor.kind(2) == "colon" else 2
    number = cursor.look(behind)
    if number is None or number.kind != "number":
        return behind == 2
    return is_prism_amount(cursor, number, behind)


def _beyond_half_turn(token: Token) -> bool:
    return token.kind == "number" and token.well_formed and token.number > 180
