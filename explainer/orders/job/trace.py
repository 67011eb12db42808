"""A traced rim from the trade's Data Communication Standard: TRCFMT=1, equal angles, whole hundredths of a millimetre.

Records are LABEL=value, one a line; two-eye values are right;left. Only what a frame needs is taken: the radii, and
the boxing measures the file states itself, against which the radii are checked. Other trace formats are refused by
name. The radii start at the observer's right and run anticlockwise, facing the wearer.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import NoReturn

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import SIDES, Side
from explainer.orders.values.agreement import ONE_LENGTH_MM
from explainer.orders.values.files import read_text

LARGEST_TRACE = 1_000_000
_WHOLE = re.compile(r"[0-9]{1,5}")
_NUMBER = re.compile(r"[0-9]{1,3}(?:\.[0-9]{1,3})?")
_BOX = {"HBOX": "a_mm", "VBOX": "b_mm", "DBL": "dbl_mm"}


@dataclass(slots=True)
class Trace:
    """The outlines by side [mm] and what the file says of the box [mm]."""

    outlines: dict[Side, tuple[float, ...]] = field(default_factory=dict)
    stated: dict[str, float] = field(default_factory=dict)

    def box(self, side: Side) -> tuple[float, float]:
        """Width and height of that outline's box [mm]."""
        return box_of(self.outlines[side])


def box_of(outline: tuple[float, ...]) -> tuple[float, float]:
    """Width and height of the box round an outline of equal angles [mm]."""
    points = list(_points(outline))
    across, upward = [x for x, _ in points], [y for _, y in points]
    return max(across) - min(across), max(upward) - min(upward)


def effective_diameter(outline: tuple[float, ...]) -> float:
    """Twice the longest distance from the centre of the box to the outline [mm]."""
    points = list(_points(outline))
    across, upward = [x for x, _ in points], [y for _, y in points]
    centre_x, centre_y = (max(across) + min(across)) / 2, (max(upward) + min(upward)) / 2
    return 2 * max(math.hypot(x - centre_x, y - centre_y) for x, y in points)


def read_trace(path: Path) -> Trace:
    """Read a trace file, or refuse it with its line."""
    trace = trace_of(read_text(path, largest=LARGEST_TRACE), path)
    if not trace.outlines:
        _refuse(path, "TRCFMT", "no trace", "a trace with TRCFMT=1 and its R lines")
    return trace


def trace_of(text: str, path: Path) -> Trace:
    """The traces and the box among the records of a file; without a trace there are no outlines."""
    trace = Trace()
    pending: tuple[Side, int] | None = None
    radii: list[float] = []
    for number, line in enumerate(re.split(r"\r\n|\r|\n", text), 1):
        label, mark, value = line.strip().partition("=")
        if not mark:
            if label:
                _refuse(path, f"line {number}", "a line without =", "LABEL=value on each line")
            continue
        if label == "R" and pending:
            radii.extend(_radius(path, number, part.strip(" ")) for part in value.split(";"))
            continue
        if pending:
            _keep(path, trace, pending, radii)
            pending, radii = None, []
        if label == "TRCFMT":
            pending = _header(path, number, value)
        elif label in _BOX:
            _state(path, trace, number, label, value)
        elif label == "R":
            _refuse(path, f"line {number}", "radii without TRCFMT before them", "TRCFMT, then its R lines")
    if pending:
        _keep(path, trace, pending, radii)
    _check_box(path, trace)
    return trace


def _header(path: Path, number: int, value: str) -> tuple[Side, int]:
    parts = [part.strip() for part in value.split(";")]
    where = f"line {number}, TRCFMT"
    if parts[0] != "1":
        _refuse(path, where, f"trace format {parts[0][:4] or 'missing'}", "trace format 1; others are not read yet")
    if len(parts) < 4 or parts[2] != "E":
        _refuse(path, where, "angles of its own or missing fields", "TRCFMT=1;points;E;R or L;F: equal angles")
    sides: dict[str, Side] = {"R": "right", "L": "left"}
    if parts[3] not in sides:
        _refuse(path, where, "no eye", "R or L in the fourth field")
    if not _WHOLE.fullmatch(parts[1]) or not 36 <= int(parts[1]) <= 4000:
        _refuse(path, where, "an unusable number of points", "36 to 4000 points")
    return sides[parts[3]], int(parts[1])


def _radius(path: Path, number: int, part: str) -> float:
    if not _WHOLE.fullmatch(part) or not 500 <= int(part) <= 6000:
        _refuse(path, f"line {number}, R", "a radius that is no rim's", "whole hundredths of a millimetre, 500 to 6000")
    return int(part) / 100


def _keep(path: Path, trace: Trace, pending: tuple[Side, int], radii: list[float]) -> None:
    side, points = pending
    if len(radii) != points:
        _refuse(path, f"the {side} trace", f"{len(radii)} radii", f"the {points} that TRCFMT announces")
    if side in trace.outlines:
        _refuse(path, f"the {side} trace", "a second trace of this eye", "one trace for each eye")
    trace.outlines[side] = tuple(radii)


def _state(path: Path, trace: Trace, number: int, label: str, value: str) -> None:
    """Keep a boxing measure; for two unlike rims none is kept, since a frame has one."""
    parts = [part.strip() for part in value.split(";")]
    known = [float(part) for part in parts if _NUMBER.fullmatch(part)]
    if len(parts) > 2 or any(part not in ("", "?") and not _NUMBER.fullmatch(part) for part in parts):
        _refuse(path, f"line {number}, {label}", "no measure", "millimetres such as 51.00;51.00")
    if known and max(known) - min(known) <= ONE_LENGTH_MM:
        trace.stated[_BOX[label]] = known[0]


def _check_box(path: Path, trace: Trace) -> None:
    for side in SIDES:
        if side not in trace.outlines:
            continue
        for name, measured in zip(("a_mm", "b_mm"), trace.box(side), strict=True):
            stated = trace.stated.get(name)
            if stated is not None and abs(stated - measured) > ONE_LENGTH_MM:
                label = next(label for label, field_name in _BOX.items() if field_name == name)
                _refuse(path, label, f"{stated:g} mm stated, {measured:.2f} mm traced", "a box that fits the trace")


def _points(outline: tuple[float, ...]) -> list[tuple[float, float]]:
    step = 2 * math.pi / len(outline)
    return [(r * math.cos(i * step), r * math.sin(i * step)) for i, r in enumerate(outline)]


def _refuse(path: Path, field_name: str, found: str, accepted: str) -> NoReturn:
    raise InputError(str(path), [Fault(field_name, found, accepted)])
