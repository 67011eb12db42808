"""The power part of a written prescription: sphere, cylinder and axis, in the forms prescribers use.

Forms: sphere alone; sphere, cylinder, axis with or without labels before or behind; the cylinder in brackets, with the
axis inside, behind or before it; two powers in meridians at right angles; two crossed cylinders.
"""

from __future__ import annotations

from typing import NamedTuple

from explainer.orders.notation import numbers
from explainer.orders.notation.ahead import is_prism_amount, starts_power
from explainer.orders.notation.cursor import EXAMPLE, Cursor
from explainer.orders.notation.tokens import Token

_NO_SPHERE = 'the sphere first, with its sign, or "plano"'
_NO_AXIS = "a cylinder with its axis: -1.25 x 172"
_AT_RIGHT_ANGLES = "two powers whose directions are 90 degrees apart"


class Power(NamedTuple):
    """Sphere [D], cylinder [D] (None: not written) and axis [deg]."""

    sphere_d: float
    cylinder_d: float | None = None
    axis_deg: float | None = None


def power(cursor: Cursor) -> Power:
    """Read one power from the cursor on; what follows it is left there."""
    if cursor.kind() == "open":
        cylinder, axis = _bracket(cursor)
        sphere, _ = _sphere(cursor)
        return _checked(cursor, sphere, cylinder, axis)
    if (cursor.kind(), cursor.kind(1), cursor.kind(2)) == ("number", "degree", "open"):
        axis = _axis(cursor)  # 175° (-0.75) -2.00, as French prescriptions have it
        opened = cursor.take("open")
        cylinder, inside = _bracketed_cylinder(cursor)
        if inside is not None or not cursor.take("close"):
            cursor.refuse(opened, "a bracket with the cylinder alone behind its axis: 175° (-0.75) -2.00")
        sphere, _ = _sphere(cursor)
        return _checked(cursor, sphere, cylinder, axis)
    first = cursor.look()
    sphere, label = _sphere(cursor)
    if cursor.kind() == "meridian":
        return _two_meridians(cursor, sphere)
    if label in ("cyl", "dc", "dcx"):
        return _crossed(cursor, first, sphere, label)
    return _behind_the_sphere(cursor, sphere)


def _sphere(cursor: Cursor) -> tuple[float, str]:
    """The first power, and the label that named it as something else than a sphere, if one did."""
    leading = cursor.label("sph")
    if cursor.take("plano"):
        value = 0.0
    else:
        token = cursor.take("number")
        if token is None:
            cursor.refuse(cursor.look(), _NO_SPHERE if cursor.kind() != "collides" else EXAMPLE)
        _refuse_detached(cursor, token)
        value = numbers.power(cursor, token, "sphere")
    cursor.take("unit")
    label = cursor.take("ds") if leading else cursor.take("sph", "ds", "cyl", "dc", "dcx")
    if label and label.kind == "cyl" and _opens_cylinder(cursor):
        cursor.place -= 1
        return value, ""
    return value, label.kind if label else ""


def _opens_cylinder(cursor: Cursor) -> bool:
    """Whether the label just taken names the number behind it: -2.00 cyl -0.75."""
    ahead = 1 if cursor.kind() == "colon" else 0
    token = cursor.look(ahead)
    return token is not None and token.kind == "number" and bool(token.sign)


def _refuse_detached(cursor: Cursor, token: Token) -> None:
    """A dash between a word and digits, blanks on both sides, may be a minus or a mere dash."""
    if not token.detached or token.sign != "-":
        return
    before = cursor.look(-2)
    if cursor.bare_start if before is None else before.kind in ("sph", "distance", "near"):
        cursor.refuse(token, "the minus sign joined to its digits (-2.00), or a plus sign if it was a mere dash")


def _behind_the_sphere(cursor: Cursor, sphere: float) -> Power:
    start = cursor.place
    if not _empty_brackets(cursor):
        cursor.between("cx")
    if cursor.kind() == "empty":
        return _no_cylinder(cursor, sphere)
    if cursor.kind() == "open" and cursor.kind(1) != "add":
        return _checked(cursor, sphere, *_bracket(cursor))
    if cursor.kind() == "axis":
        cursor.refuse(cursor.look(), "a cylinder between the sphere and the axis, or no axis")
    token = cursor.look()
    labelled = cursor.kind() in ("cyl", "dc")
    if labelled or (token and token.kind == "number" and starts_power(cursor)):
        cylinder, axis = _cylinder(cursor)
        if not cylinder:
            cursor.take("empty")
        return _checked(cursor, sphere, cylinder, axis)
    cursor.place = start
    return Power(sphere)


def _no_cylinder(cursor: Cursor, sphere: float) -> Power:
    """Stroked-through boxes: one dash for the cylinder, one for the axis."""
    dash = cursor.take("empty")
    cursor.between()
    if not cursor.take("empty"):
        cursor.refuse(dash, "a cylinder and an axis, or a dash in the place of each")
    return Power(sphere)


def _cylinder(cursor: Cursor) -> tuple[float, float | None]:
    leading = cursor.label("cyl", "dc")
    token = cursor.take("number")
    if token is None:
        cursor.refuse(cursor.look(), "a cylinder with its sign: -1.25")
    value = numbers.power(cursor, token, "cylinder")
    cursor.take("unit")
    behind = None if leading else cursor.take("cyl", "dc", "dcx", "dx")
    marked = (behind is not None and behind.kind in ("dcx", "dx")) or cursor.take("dx") is not None
    if cursor.kind() == "meridian":
        cursor.refuse_rest()
    return value, _axis(cursor, marked=marked)


def _axis(cursor: Cursor, *, marked: bool = False) -> float | None:
    """An axis with or without its mark; None if no number stands here that could be one."""
    start = cursor.place
    if not marked:
        if cursor.kind() == "sep":
            cursor.between()
        marked = cursor.label("axis", "cx", "os") is not None
        if marked:
            cursor.label("axis")  # "x axis 90", "cyl axis x 90"
    token = cursor.look()
    if token is None or token.kind != "number" or (not marked and (token.sign or is_prism_amount(cursor, token))):
        if marked:
            cursor.refuse(token, "the axis in degrees: x 172")
        cursor.place = start
        return None
    cursor.place += 1
    value = numbers.axis(cursor, token)
    marked = cursor.take("degree") is not None or marked
    trailing = cursor.look()
    if trailing and trailing.kind == "axis" and trailing.end - trailing.start > 1:
        marked = cursor.take("axis") is not None  # "180 AXIS"
    if not marked and (token.decimals or len(token.whole) < 2):
        cursor.refuse(token, f"the axis with its mark, since it might be an addition: x {token.value}")
    return value


def _bracket(cursor: Cursor) -> tuple[float, float | None]:
    """(cyl) axis, (cyl axis) or (axis° cyl), as French prescriptions have it."""
    opened = cursor.take("open")
    if cursor.kind() == "number" and cursor.kind(1) == "degree":
        axis: float | None = _axis(cursor)
        cylinder, _ = _bracketed_cylinder(cursor)
    else:
        cylinder, axis = _bracketed_cylinder(cursor)
    if not cursor.take("close"):
        cursor.refuse(opened, "a bracket that closes behind the cylinder: (-0.50) 180°")
    return cylinder, axis if axis is not None else _axis(cursor)


def _bracketed_cylinder(cursor: Cursor) -> tuple[float, float | None]:
    if cursor.kind() not in ("number", "cyl", "dc"):
        cursor.refuse(cursor.look(), "the cylinder with its sign inside the brackets: (-0.50) 180°")
    return _cylinder(cursor)


def _empty_brackets(cursor: Cursor) -> bool:
    """An empty pair of brackets, either way round, stands for the sign "combined with"."""
    if {cursor.kind(), cursor.kind(1)} != {"open", "close"}:
        return False
    cursor.place += 2
    return True


def _checked(cursor: Cursor, sphere: float, cylinder: float, axis: float | None) -> Power:
    if cylinder and axis is None:
        cursor.refuse(cursor.look(), _NO_AXIS, found="a cylinder without an axis")
    if not cylinder and axis not in (None, 180.0):
        cursor.refuse(cursor.look(-1), "a cylinder with this axis, or no axis", found="an axis with a zero cylinder")
    return Power(sphere, cylinder, axis if cylinder else None)


def _two_meridians(cursor: Cursor, first: float) -> Power:
    """Power @ meridian, twice (the optical cross): the power along the axis is the sphere."""
    cursor.take("meridian")
    one = _direction(cursor)
    cursor.between()
    second, _ = _sphere(cursor)
    if not cursor.take("meridian"):
        cursor.refuse(cursor.look(), "the second power with its meridian: -3.00 @ 85")
    return _squared(cursor, first, one, second, _direction(cursor))


def _crossed(cursor: Cursor, first: Token | None, value: float, label: str) -> Power:
    """Two cylinders with crossed axes: the first acts across its own axis, which is the second's axis."""
    one = _axis(cursor, marked=label == "dcx")
    cursor.between()
    if one is None or cursor.kind() not in ("number", "plano"):
        cursor.refuse(first, f"{_NO_SPHERE}: plano -0.75 x 90", found="a cylinder without a sphere")
    second, other = _sphere(cursor)
    two = _axis(cursor, marked=other == "dcx")
    if other not in ("cyl", "dc", "dcx") or two is None:
        cursor.refuse(cursor.look(), "two cylinders, each with its axis: +3.25 DC x 180 / +2.75 DC x 90")
    return _squared(cursor, value, two, second, one)


def _direction(cursor: Cursor) -> float:
    token = cursor.take("number")
    if token is None:
        cursor.refuse(cursor.look(), "a meridian in degrees: -2.25 @ 175")
    value = numbers.axis(cursor, token)
    cursor.take("degree")
    return value


def _squared(cursor: Cursor, first: float, one: float, second: float, two: float) -> Power:
    """Sphere, cylinder and axis of two powers in meridians at right angles."""
    if (one - two) % 180 != 90:
        cursor.refuse(cursor.look(-1), _AT_RIGHT_ANGLES, found="two directions that are not 90 degrees apart")
    cylinder = second - first
    if abs(cylinder) > numbers.MOST_POWER_D:
        cursor.refuse(cursor.look(-1), f"powers that differ by at most {numbers.MOST_POWER_D:g} D")
    return Power(first, cylinder, one if cylinder else None)
