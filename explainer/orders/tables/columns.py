"""The columns of a table of orders: their names, the field of the order file that each fills, and how a cell is read.

One rule names them: table and field joined by _, but the prescription and the measurements without their table, as
right or pd_mm. An eye may stand in one cell as written, or in numbers: right_sphere, right_cylinder, right_axis, …
"""

from __future__ import annotations

import difflib
import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from explainer.errors import Fault, InputError
from explainer.orders.tables.cells import (
    ADDITION,
    AXIS,
    MILLIMETRES,
    POWER,
    PRISMS,
    TEXT,
    WHOLE,
    WORDS,
    YES_NO,
    Kind,
)
from explainer.orders.values.texts import of_a_kind

_MOST_UNKNOWN = 20
_BASE = re.compile(r"(\d{1,3})|in|out|up|down", re.ASCII)
_THE_NAMES = "the names that `explainer schema --csv` prints"
_EYE = {
    "sphere": POWER,
    "cylinder": POWER,
    "axis": AXIS,
    "add": ADDITION,
    "prism": PRISMS,
    "prism_amount": MILLIMETRES,
    "prism_base": TEXT,
}
_BASES = ("in", "out", "up", "down")
_TABLES: Mapping[str, Mapping[str, Kind]] = {
    "": {"order": TEXT, "date": TEXT, "posted": TEXT, "language": TEXT, "job": TEXT},
    "wearer": {
        "name": TEXT,
        "birth_year": WHOLE,
        "uses": WORDS,
        "first_pair": YES_NO,
        "only_seeing_eye": TEXT,
        "falls": YES_NO,
        "patching": YES_NO,
    },
    "prescription": {
        "written": TEXT,
        "right": TEXT,
        "left": TEXT,
        "text": TEXT,
        "fhir": TEXT,
        "add": TEXT,
        "vertex_mm": MILLIMETRES,
        "confirmed_steps": YES_NO,
        "written_in": TEXT,
        "axis_scale": TEXT,
    },
    "measurements": dict.fromkeys(
        ("pd_mm", "pd_right_mm", "pd_left_mm", "near_pd_mm", "height_right_mm", "height_left_mm"), MILLIMETRES
    ),
    "frame": {
        **dict.fromkeys(("a_mm", "b_mm", "dbl_mm", "ed_mm", "pantoscopic_tilt_deg", "wrap_deg"), MILLIMETRES),
        "material": TEXT,
        "trace": TEXT,
        "own": YES_NO,
    },
    "lens": {
        "design": TEXT,
        "material": TEXT,
        "tint": TEXT,
        "tint_colour": TEXT,
        "tint_category": WHOLE,
        "tint_percent": MILLIMETRES,
        "dye": TEXT,
        "balance": TEXT,
        "coatings": WORDS,
        "front_curve_d": MILLIMETRES,
        "data": TEXT,
    },
    "bench": {
        "right": TEXT,
        "left": TEXT,
        "job": TEXT,
        **dict.fromkeys(("prism_right", "prism_left"), TEXT),
        **dict.fromkeys(("reference_points_mm", "optical_centres_mm", "pd_mm"), MILLIMETRES),
        **dict.fromkeys(("reference_point_right_mm", "reference_point_left_mm"), MILLIMETRES),
        **dict.fromkeys(("height_right_mm", "height_left_mm"), MILLIMETRES),
        **dict.fromkeys(("centre_thickness_right_mm", "centre_thickness_left_mm"), MILLIMETRES),
        "release.by": TEXT,
        "release.date": TEXT,
        "release.reason": TEXT,
    },
    "answers": dict.fromkeys(("addition", "category_four", "glass"), TEXT),
    "previous": {
        "right": TEXT,
        "left": TEXT,
        "vertex_mm": MILLIMETRES,
        "confirmed_steps": YES_NO,
        "axis_scale": TEXT,
    },
}
_WITHOUT_PREFIX = ("", "prescription", "measurements")


class Column(NamedTuple):
    """One column: its name, the path of its field in the order file, and how its cells are read."""

    name: str
    path: tuple[str, ...]
    kind: Kind


def _every_column() -> Iterable[Column]:
    for table, fields in _TABLES.items():
        prefix = "" if table in _WITHOUT_PREFIX else f"{table}_"
        for field, kind in fields.items():
            path = tuple(part for part in (table, *field.split(".")) if part)
            yield Column(prefix + field.replace(".", "_"), path, kind)
            if field in ("right", "left"):
                yield from (Column(f"{prefix}{field}_{part}", (*path, part), kind) for part, kind in _EYE.items())


class Heading(NamedTuple):
    """What stands over the cells of one column of a table, and the columns of ours that they fill.

    No columns: cells that are left out on purpose, or, without a name, cells that must be empty. `signed` cells are
    numbers that carry their own sign.
    """

    name: str
    columns: tuple[Column, ...]
    signed: bool = False
    left_out: bool = False


COLUMNS: Mapping[str, Column] = {column.name: column for column in _every_column()}
_BY_FIELD = {".".join(column.path): column.name for column in COLUMNS.values()}
_NEEDED = ("order", "date")
_WAYS = (("right", "left"), ("right_sphere", "left_sphere"), ("text",), ("fhir",), ("job",))


def plain_name(name: str) -> str:
    """A column's name as it is compared: without blanks around it, in small letters."""
    return name.strip().lower()


def headings_of(header: Sequence[str], *, source: str) -> list[Heading]:
    """The headings of a table in our own names; InputError with every fault."""
    names = [plain_name(name) for name in header]
    unknown = [(name, place) for place, name in enumerate(names, 1) if name and name not in COLUMNS]
    faults = [_unknown(name, place) for name, place in unknown[:_MOST_UNKNOWN]]
    if len(unknown) > _MOST_UNKNOWN:
        faults.append(Fault("header", f"{len(unknown) - _MOST_UNKNOWN} unknown names more", _THE_NAMES))
    for name, times in Counter(names).items():
        if name in COLUMNS and times > 1:
            faults.append(Fault(f"column {name}", f"this name {times} times", "each name once"))
    faults += needed_columns(set(names))
    if faults:
        raise InputError(source, faults)
    return [Heading(name, (COLUMNS[name],) if name else ()) for name in names]


def needed_columns(names: set[str]) -> list[Fault]:
    """What no table can do without, where it is missing among these names."""
    faults = [Fault(f"column {name}", "nothing", "this column is needed") for name in _NEEDED if name not in names]
    if not any(set(way) <= names for way in _WAYS):
        accepted = "right and left, or right_sphere and left_sphere, or text, fhir or job"
        faults.append(Fault("columns of the prescription", "nothing", accepted))
    return faults


def fill(data: dict[str, Any], column: Column, text: str, faults: list[Fault]) -> None:
    """Put one cell into the plain data of an order; a cell that cannot be read is left out and becomes a fault."""
    value = column.kind.read(text)
    if value is None:
        faults.append(Fault(column.name, of_a_kind(text, [column.kind.accepted]), column.kind.accepted))
        return
    place = data
    for part in column.path[:-1]:
        inner = place.setdefault(part, {})
        if not isinstance(inner, dict):
            faults.append(Fault(column.name, "numbers beside the written text", "one of the two ways for an eye"))
            return
        place = inner
    place[column.path[-1]] = value


def column_fault(fault: Fault) -> Fault:
    """The same fault, named by its column instead of by its field in an order file."""
    parts = fault.field.replace("[", ".[").split(".")
    for end in range(len(parts), 0, -1):
        name = _BY_FIELD.get(".".join(part for part in parts[:end] if not part.startswith("[")))
        if name is not None:
            return Fault(name, fault.found, fault.accepted)
    return fault


def join_prisms(data: dict[str, Any], faults: list[Fault]) -> None:
    """Amount and base of a prism that stand in two columns become one prism; neither is anything alone."""
    for table in ("prescription", "bench", "previous"):
        for side in ("right", "left"):
            eye = data.get(table, {}).get(side)
            if isinstance(eye, dict) and {"prism_amount", "prism_base"} & eye.keys():
                amount, base = eye.pop("prism_amount", None), eye.pop("prism_base", None)
                name = f"{'' if table in _WITHOUT_PREFIX else f'{table}_'}{side}_prism"
                read = _BASE.fullmatch(base or "")
                if amount is None or read is None:
                    found = "an amount alone" if base is None else "a base alone" if amount is None else "another word"
                    faults.append(Fault(f"{name}_base", found, f"amount and base: {', '.join(_BASES)}, or an angle"))
                elif amount:
                    eye["prism"] = [{"amount": amount, "base": float(base) if read[1] else base}]


def _unknown(name: str, place: int) -> Fault:
    near = difflib.get_close_matches(name[:60], COLUMNS, n=1)
    accepted = f"{near[0]}?" if near else _THE_NAMES
    return Fault(f"column {place}", f"an unknown name, {of_a_kind(name, [near[0]] if near else [])}", accepted)
