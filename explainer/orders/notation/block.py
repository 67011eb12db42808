"""One eye's tokens → its reading: the power, then addition, prism, near power and the rest, each at most once."""

from __future__ import annotations

from dataclasses import dataclass

from explainer.errors import InputError
from explainer.orders.notation import numbers
from explainer.orders.notation.ahead import is_prism_amount, starts_power, trailing_addition
from explainer.orders.notation.axis_scale import ASK_SCALE, OPEN_SCALE, scale_is_open
from explainer.orders.notation.cursor import EXAMPLE, Cursor
from explainer.orders.notation.power import Power, power
from explainer.orders.notation.prism import Prism, joined, prism
from explainer.orders.notation.reading import Reading
from explainer.orders.notation.tokens import Token

_ACUITY_SHAPE = "a visual acuity such as 6/6 or 1.0"


@dataclass(slots=True)
class _Parts:
    """What has been read of one eye so far."""

    power: Power | None = None
    add_d: float | None = None
    prism: Prism | None = None
    near: Power | None = None
    vertex_mm: float | None = None
    pd_mm: float | None = None
    acuity: str | None = None
    scale: str | None = None
    far_is_named: bool = False


def block(cursor: Cursor) -> Reading:
    """Read every token of one eye; a token that fits nowhere is refused."""
    parts = _Parts()
    parts.far_is_named = cursor.label("distance") is not None
    if starts_power(cursor):
        parts.power = power(cursor)
        _table_row_addition(cursor, parts)
    while cursor.kind() != "end":
        if cursor.place:
            cursor.between()
        _part(cursor, parts)
    if cursor.faults:
        raise InputError(cursor.rules.field, cursor.faults)
    _check_scale(cursor, parts)
    reading = _reading(cursor, parts)
    if reading == Reading(side=reading.side):
        cursor.refuse(cursor.look(-1), EXAMPLE)
    return reading


def _part(cursor: Cursor, parts: _Parts) -> None:
    kind = cursor.kind()
    token = cursor.look()
    if kind == "near" and cursor.kind(2 if cursor.kind(1) == "colon" else 1) == "add":
        cursor.label("near")  # near add +2.00
        kind = "add"
    if kind == "add" or _bracketed_addition(cursor) or (kind == "number" and trailing_addition(cursor)):
        _once(cursor, parts.add_d, "one addition")
        parts.add_d = _addition(cursor)
    elif kind in ("prism", "code", "base") or (kind == "number" and token and is_prism_amount(cursor, token)):
        _prism(cursor, parts)
    elif kind == "near":
        _once(cursor, parts.near, "one near power")
        _near(cursor, parts)
    elif kind == "vertex":
        _once(cursor, parts.vertex_mm, "one vertex distance")
        parts.vertex_mm = _length(cursor, 5, 30, "a vertex distance")
    elif kind == "pd":
        _once(cursor, parts.pd_mm, "one pupillary distance")
        parts.pd_mm = _length(cursor, 20, 100, "a pupillary distance")
    elif kind == "acuity" or (kind == "colon" and cursor.kind(1) == "fraction"):
        _once(cursor, parts.acuity, "one acuity")
        _acuity(cursor, parts)
    elif token and kind == "scale":
        _once(cursor, parts.scale, "one axis scale")
        cursor.take("scale")
        parts.scale = token.value
    else:
        cursor.refuse_rest()


def _once(cursor: Cursor, known: object, accepted: str) -> None:
    if known is not None:
        cursor.refuse(cursor.look(), accepted)


def _bracketed_addition(cursor: Cursor) -> bool:
    return cursor.kind() == "open" and cursor.kind(1) == "add"


def _addition(cursor: Cursor) -> float:
    opened = cursor.take("open")
    leading = cursor.label("add")
    token = cursor.take("number")
    if token is None:
        cursor.refuse(cursor.look() or leading, "an addition: Add +2.00")
    value = numbers.addition(cursor, token)
    cursor.take("unit")
    if not leading:
        cursor.take("add")
    elif cursor.kind() in ("code", "base"):
        cursor.refuse(
            token, "a comma between the addition and the prism, since the number may be either's: Add +2.00, BI 2"
        )
    if opened and not cursor.take("close"):
        cursor.refuse(opened, "a bracket that closes behind the addition: (Add +2.00)")
    return value


def _table_row_addition(cursor: Cursor, parts: _Parts) -> None:
    """A table row with a dash in the prism column and the addition last: -1.00 -0.50 180 - +2.00."""
    last = cursor.look(1)
    if cursor.kind() == "empty" and last and last.kind == "number" and cursor.kind(2) == "end":
        if last.sign != "+" or parts.power is None or parts.power.axis_deg is None:
            cursor.refuse_rest()
        cursor.place += 2
        parts.add_d = numbers.addition(cursor, last)


def _prism(cursor: Cursor, parts: _Parts) -> None:
    first = cursor.look()
    found = prism(cursor)
    together = found if parts.prism is None else joined(parts.prism, found)
    if together is None:
        cursor.refuse(first, "at most one horizontal and one vertical prism for an eye")
    parts.prism = together


def _near(cursor: Cursor, parts: _Parts) -> None:
    """The near power written out: the addition is its sphere minus the distance sphere."""
    label = cursor.label("near")
    if parts.power is None:
        cursor.refuse(label, "the distance power before the near power")
    start = cursor.place
    parts.near = near = power(cursor)
    far = parts.power
    bare = {token.kind for token in cursor.tokens[start : cursor.place]} <= {"number", "unit"}
    if bare and near.sphere_d > 0 and not parts.far_is_named:
        value = f"{near.sphere_d:+.2f}"
        accepted = f"Add {value} if it is the addition, near {value} DS if it is the whole power"
        cursor.refuse(label, accepted, found="a near value that may be an addition or a power")
    if bool(near.cylinder_d) != bool(far.cylinder_d) or (far.cylinder_d and near[1:] != far[1:]):
        cursor.refuse(label, "the near cylinder and axis as those for distance; else a second pair with its own order")
    add = near.sphere_d - far.sphere_d
    if not 0 < add <= numbers.MOST_ADD_D:
        cursor.refuse(label, f"a near sphere above the distance sphere by at most {numbers.MOST_ADD_D:g} D")
    if parts.add_d not in (None, add):
        cursor.refuse(label, "a near power that agrees with the addition")
    parts.add_d = add


def _length(cursor: Cursor, low: float, high: float, what: str) -> float:
    cursor.label("vertex", "pd")
    value = numbers.measure(cursor, cursor.take("number"), low, high, what)
    cursor.take("mm")
    return value


def _acuity(cursor: Cursor, parts: _Parts) -> None:
    label = cursor.label("acuity") or cursor.take("colon")
    token = cursor.take("fraction", "number")
    if parts.power is None or token is None or token.sign or not _is_acuity(token):
        cursor.refuse(label, f"{EXAMPLE}; behind it {_ACUITY_SHAPE}")
    parts.acuity = token.value.replace(",", ".")


def _is_acuity(token: Token) -> bool:
    """A fraction, or a decimal number up to 2."""
    return token.kind == "fraction" or (token.well_formed and 0 < token.number <= 2)


def _check_scale(cursor: Cursor, parts: _Parts) -> None:
    axis = parts.power.axis_deg if parts.power else None
    if parts.scale == "int":
        cursor.refuse(None, "the axis on the TABO scale; ask the prescriber", found="the scale INTERNAZIONALE")
    stated = "tabo" in (parts.scale, (cursor.rules.scale or "").lower())
    if not stated and scale_is_open(axis, language=cursor.rules.language, side=cursor.rules.side):
        cursor.refuse(None, ASK_SCALE, found=OPEN_SCALE)


def _reading(cursor: Cursor, parts: _Parts) -> Reading:
    sphere, cylinder, axis = parts.power or (None, None, None)
    first, last = cursor.tokens[0], cursor.tokens[-1]
    return Reading(
        side=cursor.rules.side,
        sphere_d=sphere,
        cylinder_d=cylinder,
        axis_deg=axis,
        add_d=parts.add_d,
        prism_in_pd=(parts.prism.in_pd if parts.prism else None) or 0.0,
        prism_up_pd=(parts.prism.up_pd if parts.prism else None) or 0.0,
        vertex_mm=parts.vertex_mm,
        pd_mm=parts.pd_mm,
        acuity=parts.acuity,
        received=" ".join(cursor.text[first.start : last.end].split()),
    )
