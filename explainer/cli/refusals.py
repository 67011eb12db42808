"""Refused rows of a table, told together: one line for a fault that thirty rows share."""

from __future__ import annotations

import re
from collections.abc import Callable

from explainer.errors import Fault, InputError, visible

_ROW = re.compile(r"(?P<path>.+), (?P<place>row (?P<row>\d+)(?: \(line \d+\))?)", re.DOTALL)
_MOST_NAMED = 6
_MOST_FOUND = 3


class Refusals:
    """Tells refusals: at once what stands alone, and rows of one table when the next file begins or the run ends."""

    def __init__(self, tell: Callable[[str], None]) -> None:
        self._tell = tell
        self._path = ""
        self._rows: list[tuple[str, InputError]] = []

    def add(self, source: str, error: Exception) -> None:
        """One refused order."""
        found = _ROW.fullmatch(source) if isinstance(error, InputError) and error.faults else None
        if found is None or not isinstance(error, InputError):
            self.flush()
            self._tell(str(error))
            return
        if found["path"] != self._path:
            self.flush()
            self._path = found["path"]
        self._rows.append((found["row"], error))

    def flush(self) -> None:
        """Tell what has gathered."""
        rows, self._rows = self._rows, []
        if len(rows) == 1:
            self._tell(str(rows[0][1]))
        elif rows:
            lines = [f"{visible(self._path)}: {len(rows)} rows refused", *map(_line, _grouped(rows))]
            self._tell("\n  - ".join(lines))


def _grouped(rows: list[tuple[str, InputError]]) -> list[tuple[str, str, list[str], list[str]]]:
    """Field, what is accepted, rows and what was found, of each kind of fault; what most rows share comes first."""
    groups: dict[tuple[str, str], tuple[list[str], list[str]]] = {}
    for row, error in rows:
        for fault in error.faults:
            field, accepted = _of_kind(fault)
            in_rows, found = groups.setdefault((field, accepted), ([], []))
            in_rows += [row] if row not in in_rows else []
            found += [fault.found] if fault.found not in found else []
    return sorted(((*kind, *where) for kind, where in groups.items()), key=lambda group: -len(group[2]))


def _of_kind(fault: Fault) -> tuple[str, str]:
    return fault.field, fault.accepted


def _line(group: tuple[str, str, list[str], list[str]]) -> str:
    field, accepted, rows, found = group
    named = ", ".join(rows[:_MOST_NAMED]) + (f" and {len(rows) - _MOST_NAMED} more" if len(rows) > _MOST_NAMED else "")
    what = ", ".join(found[:_MOST_FOUND]) + (" …" if len(found) > _MOST_FOUND else "")
    return f"{field} ({'row' if len(rows) == 1 else 'rows'} {named}): found {what}; accepted: {accepted}"
