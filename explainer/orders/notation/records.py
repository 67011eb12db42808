"""Prescription records of the trade's Data Communication Standard: LABEL=right;left, one record a line.

Here, and only here, a power without a sign is plus: that format writes a sign only where it is minus. Both eyes must
be written; one value for two eyes is refused, not spread over them. A question mark or an empty value is "unknown".
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import NoReturn

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import SIDES, Side
from explainer.orders.notation import numbers
from explainer.orders.notation.cursor import Cursor, Rules
from explainer.orders.notation.prism import from_angle
from explainer.orders.notation.reading import Pair, Reading
from explainer.orders.notation.tokens import Token, clean

_RECORD = re.compile(r"([A-Z]{1,12})=([^=]*)")
_LABELS = ("SPH", "CYL", "AX", "ADD", "PRVM", "PRVA", "BVD")
_NUMBER = re.compile(r"(-?)([0-9]{1,3}(?:\.[0-9]{1,3})?|\.[0-9]{1,3})")
_BOTH = "a value for each eye: right;left"


def is_records(text: str) -> bool:
    """Whether every line of the text has the shape of a record."""
    lines = text.split("\n")
    return bool(text.strip()) and all(_RECORD.fullmatch(line.strip()) for line in lines if line.strip())


def records(text: str, rules: Rules) -> Pair:
    """The records as a pair. What no record speaks of stays None, so a single record gives a partial pair."""
    values: dict[str, tuple[Token | None, Token | None]] = {}
    cursor = Cursor(clean(text, field=rules.field)[0], [], rules)
    for line in filter(None, (line.strip() for line in text.split("\n"))):
        label, _, value = line.partition("=")
        if label not in _LABELS:
            _refuse(rules, label, f"records of a prescription: {' '.join(_LABELS)}")
        if label in values:
            _refuse(rules, f"{label} twice", "each record once")
        values[label] = _both(rules, label, value)
    pair = Pair(**{side: _eye(cursor, values, i, side) for i, side in enumerate(SIDES)})
    if cursor.faults:
        raise InputError(rules.field, cursor.faults)
    return pair


def _both(rules: Rules, label: str, value: str) -> tuple[Token | None, Token | None]:
    parts = [part.strip() for part in value.split(";")]
    if len(parts) != 2:
        _refuse(rules, f"{label} with {len(parts)} value{'s' * (len(parts) != 1)}", _BOTH)
    right, left = (_token(rules, label, part) for part in parts)
    if right is None and left is None:
        _refuse(rules, f"{label} unknown", _BOTH)
    return right, left


def _token(rules: Rules, label: str, part: str) -> Token | None:
    if part in ("", "?"):
        return None
    match = _NUMBER.fullmatch(part)
    if match is None:
        _refuse(rules, f"{label} with no number", "numbers such as 1.25 or -0.50")
    return Token("number", match.group(2), 0, 0, match.group(1) or "+")


def _eye(cursor: Cursor, values: dict[str, tuple[Token | None, Token | None]], place: int, side: Side) -> Reading:
    tokens = {label: both[place] for label, both in values.items()}
    sphere, cylinder, axis, add = (tokens.get(label) for label in ("SPH", "CYL", "AX", "ADD"))
    amount, base, vertex = (tokens.get(label) for label in ("PRVM", "PRVA", "BVD"))
    reading = Reading(
        side=side,
        sphere_d=numbers.power(cursor, sphere, "sphere") if sphere else None,
        cylinder_d=numbers.power(cursor, cylinder, "cylinder") if cylinder else None,
        axis_deg=numbers.axis(cursor, _unsigned(axis)) if axis else None,
        add_d=numbers.addition(cursor, add) if add else None,
        vertex_mm=numbers.measure(cursor, _unsigned(vertex), 5, 30, "a vertex distance") if vertex else None,
        received=" ".join(f"{label} {token.sign.strip('+')}{token.value}" for label, token in tokens.items() if token),
    )
    if reading.cylinder_d == 0:
        reading = replace(reading, axis_deg=None)  # the axis of a zero cylinder says nothing
    if reading.sphere_d is None and {"SPH", "CYL"} & values.keys():
        cursor.note(None, "a sphere for each eye", found=f"no sphere for the {side} eye")
    elif "SPH" in values and not reading.complete:
        cursor.note(None, "a cylinder and an axis together", found=f"half a cylinder for the {side} eye")
    return _with_prism(cursor, reading, amount, base, side)


def _unsigned(token: Token) -> Token:
    return token if token.sign == "-" else Token("number", token.value, 0, 0)


def _with_prism(cursor: Cursor, reading: Reading, amount: Token | None, base: Token | None, side: Side) -> Reading:
    if amount is None or amount.number == 0:
        return reading
    wrong = amount.sign == "-" or amount.number > numbers.MOST_PRISM_PD
    if wrong or base is None or base.sign == "-" or base.number > 360:
        cursor.note(None, "PRVM up to 20 with PRVA, its base, of 0 to 360", found="a prism without amount or base")
        return reading
    found = from_angle(amount.number, base.number, side)
    return replace(reading, prism_in_pd=found.in_pd or 0.0, prism_up_pd=found.up_pd or 0.0)


def _refuse(rules: Rules, found: str, accepted: str) -> NoReturn:
    raise InputError(rules.field, [Fault(rules.field, found, accepted)])
