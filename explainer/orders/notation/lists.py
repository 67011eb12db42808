"""What a text says of both eyes behind them: a near list, an addition on its own line, the distance of each pupil.

Each function takes its part out of the row of tokens and hands on the rest, so that the eyes are read without it.
"""

from __future__ import annotations

from typing import NamedTuple

from explainer.orders.notation.tokens import Token

MOST_MONOCULAR_MM = 40.0
_LEAST_MONOCULAR_MM = 20.0
_EYES = ("right", "left", "both")


class Lists(NamedTuple):
    """The tokens of the distance prescription, and what stood behind it."""

    far: list[Token]
    near: list[Token]
    addition: list[Token]
    pds_mm: tuple[float, float] | None
    far_is_named: bool


def split(tokens: list[Token], text: str) -> Lists:
    """Take the lists out of the tokens of a text that names both eyes."""
    far, pds = _pds(tokens)
    far, near = _near(far)
    addition: list[Token] = []
    if not near:
        far, addition = _addition_line(far, text)
    elif all(token.kind not in _EYES for token in near):
        near, addition = [], near
    named = any(token.kind == "distance" for token in far)
    return Lists(far, near, addition, pds, named)


def _near(tokens: list[Token]) -> tuple[list[Token], list[Token]]:
    """Far: R ... L ... Near: R ... L ..., or Near: Add +2.00. The near heading must come once, behind both eyes."""
    places = [i for i, token in enumerate(tokens) if token.kind == "near"]
    if len(places) != 1:
        return tokens, []
    start = end = places[0]
    if start and tokens[start - 1].kind == "for":
        start -= 1
    end += 2 if _kind(tokens, end + 1) == "colon" else 1
    before = {token.kind for token in tokens[:start]}
    if not ({"right", "left"} <= before or "both" in before):
        return tokens, []
    if _kind(tokens, end) not in (*_EYES, "add"):
        return tokens, []
    if start and tokens[start - 1].kind in ("sep", "and", "stop"):
        start -= 1
    return tokens[:start], tokens[end:]


def _addition_line(tokens: list[Token], text: str) -> tuple[list[Token], list[Token]]:
    """An addition alone on a line behind both eyes, where no other is written: it is for both."""
    places = [i for i, token in enumerate(tokens) if token.kind == "add"]
    if len(places) != 1 or not places[0]:
        return tokens, []
    start = places[0]
    end = start + (2 if _kind(tokens, start + 1) == "colon" else 1)
    if _kind(tokens, end) != "number":
        return tokens, []
    end += 2 if _kind(tokens, end + 1) == "unit" else 1
    behind = tokens[end] if end < len(tokens) else None
    alone = "\n" in text[tokens[start - 1].end : tokens[start].start] and (
        behind is None or "\n" in text[tokens[end - 1].end : behind.start]
    )
    both_named = {"right", "left"} <= {token.kind for token in tokens[:start]}
    if not (alone and both_named):
        return tokens, []
    return tokens[:start] + tokens[end:], tokens[start:end]


def _pds(tokens: list[Token]) -> tuple[list[Token], tuple[float, float] | None]:
    """PD 31/32, right before left as the eyes before it, or PD R 31 L 32."""
    eyes = [token.kind for token in tokens if token.kind in ("right", "left")]
    for start, token in enumerate(tokens):
        if token.kind != "pd":
            continue
        found = (_slashed(tokens, start) if eyes[:1] != ["left"] else None) or _named(tokens, start)
        if found:
            end, right, left = found
            return tokens[:start] + tokens[end:], (right, left)
    return tokens, None


def _slashed(tokens: list[Token], start: int) -> tuple[int, float, float] | None:
    place = _behind_colon(tokens, start + 1)
    one, place = _millimetres(tokens, place)
    if one is None or place >= len(tokens) or tokens[place].value != "/":
        return None
    two, place = _millimetres(tokens, place + 1)
    return None if two is None else (place, one, two)


def _named(tokens: list[Token], start: int) -> tuple[int, float, float] | None:
    place = _behind_colon(tokens, start + 1)
    values: dict[str, float] = {}
    for _ in range(2):
        eye = _kind(tokens, place)
        value, place = _millimetres(tokens, _behind_colon(tokens, place + 1))
        if eye not in ("right", "left") or value is None:
            return None
        values[eye] = value
        if len(values) == 1 and _kind(tokens, place) in ("sep", "and"):
            place += 1
    return (place, values["right"], values["left"]) if len(values) == 2 else None


def _millimetres(tokens: list[Token], place: int) -> tuple[float | None, int]:
    token = tokens[place] if place < len(tokens) else None
    if token is None or token.kind != "number" or token.sign or not token.well_formed:
        return None, place
    if not _LEAST_MONOCULAR_MM <= token.number <= MOST_MONOCULAR_MM:
        return None, place
    return token.number, place + (2 if _kind(tokens, place + 1) == "mm" else 1)


def _behind_colon(tokens: list[Token], place: int) -> int:
    return place + 1 if _kind(tokens, place) == "colon" else place


def _kind(tokens: list[Token], place: int) -> str:
    return tokens[place].kind if place < len(tokens) else "end"
