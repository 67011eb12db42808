"""How one cell of a table is read. Everything in a cell is text: signs, decimal commas and words are checked here.

A power needs its sign, since text can lose one on the way; a spreadsheet writes it with the number format
+0.00;-0.00. A cell that begins like a formula is refused, whatever its column: it is never evaluated nor printed.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, NamedTuple

_FORMULA = re.compile(r"[=@]|[+-]\s*(?:[^\W\d]|[(=@'\"])")
_NUMBER = re.compile(r"\d{1,6}(?:[.,]\d{1,6})?", re.ASCII)
_WHOLE = re.compile(r"\d{1,6}", re.ASCII)
_POWER = re.compile(r"[+-](?:\d(?:[.,]\d{1,3})?|\d\d[.,]\d{2,3})|0(?:[.,]0{1,3})?", re.ASCII)
_ADDITION = re.compile(r"\+?\d(?:[.,]\d{1,3})?", re.ASCII)
_AXIS = re.compile(r"(\d{1,3}(?:[.,]\d)?) ?°?", re.ASCII)
_PRISM = re.compile(r"(\d{1,2}(?:[.,]\d{1,3})?) ?(in|out|up|down)", re.ASCII)
_BETWEEN_PRISMS = re.compile(r" ?[;&|/] ?|,? ")
_BETWEEN_WORDS = re.compile(r"[\s,;|]+")
_SAID = {"true": True, "yes": True, "false": False, "no": False}


class Kind(NamedTuple):
    """A kind of cell: what is accepted, and the reader, which gives None for anything else."""

    accepted: str
    read: Callable[[str], Any]


def is_formula(text: str) -> bool:
    """Whether a spreadsheet would take the text for a formula; +2.00 is a number and no formula."""
    return _FORMULA.match(text) is not None


def _number(text: str) -> float | None:
    return float(text.replace(",", ".")) if _NUMBER.fullmatch(text) else None


def _whole(text: str) -> int | None:
    return int(text) if _WHOLE.fullmatch(text) else None


def _power(text: str) -> float | None:
    plain = text.replace("\u2212", "-")
    return float(plain.replace(",", ".")) if _POWER.fullmatch(plain) else None


def _addition(text: str) -> float | None:
    return float(text.replace(",", ".")) if _ADDITION.fullmatch(text) else None


def _axis(text: str) -> float | None:
    found = _AXIS.fullmatch(text)
    return float(found[1].replace(",", ".")) if found else None


def _prisms(text: str) -> list[dict[str, Any]] | None:
    """Every prism of a cell; "2 in & 1.5 up"."""
    prisms: list[dict[str, Any]] = []
    end = 0
    while found := _PRISM.match(text, end):
        prisms.append({"amount": float(found[1].replace(",", ".")), "base": found[2]})
        end = found.end()
        if end == len(text):
            return prisms
        between = _BETWEEN_PRISMS.match(text, end)
        if between is None:
            return None
        end = between.end()
    return None


def _words(text: str) -> list[str]:
    return [word for word in _BETWEEN_WORDS.split(text) if word]


TEXT = Kind("a text", str)
WORDS = Kind("words with a blank between them", _words)
YES_NO = Kind("yes or no, true or false", lambda text: _SAID.get(text.lower()))
WHOLE = Kind("a whole number", _whole)
MILLIMETRES = Kind("a number without unit or sign, such as 51.5 or 51,5", _number)
POWER = Kind("a power with its sign, such as -3.25 or +1,50, from 10 D with two decimals; 0 for none", _power)
ADDITION = Kind("an addition such as +2.00 or 2,00", _addition)
AXIS = Kind("an axis in degrees, such as 5 or 172", _axis)
PRISMS = Kind('prisms as amount and base, such as "2 in" or "2 in & 1.5 up"', _prisms)
