"""The workshop's own limits: one file with the numbers of its bought copy of a standard, under the name it gives them.

    name = "ISO 21987:2017, our copy"
    meridians = "both"                       # each principal meridian has the limit of power; or "stronger"

    [[power]]                                # rows in rising order; a last row without up_to has no upper end
    up_to = 3.0                              # ... of the greatest power of the lens
    allowed = 0.12

    [[cylinder]]
    power_up_to = 3.0                        # a column of its own for lenses of up to this power; or none
    up_to = 0.75
    allowed = 0.09

    [[axis]]                                 # above: smaller cylinders are not judged
    above = 0.125
    up_to = 0.25
    allowed = 16

    [[addition]]
    up_to = 4.0
    allowed = 0.12

    [[horizontal]]                           # prism of the pair; and [[vertical]]
    prism_up_to = 2.0                        # prism ordered
    power_up_to = 3.25                       # up to this power the prism counts, above it the distance
    prism = 0.67
    distance_mm = 2.0

    [lens]                                   # one lens at its reference point
    prism = 0.33
    or_mm = 1.0

    [points]                                 # fitting crosses, segments
    progressive_mm = 1.0
    height_mm = 1.0
    height_difference_mm = 1.0

The numbers above only show the form. [[progressive_power]] and [[progressive_cylinder]] stand beside the others where a
standard has them. A quantity without rows is read and not judged.
"""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path
from typing import Annotated

from pydantic import Field

from explainer.errors import Fault, InputError
from explainer.optics.rules import ImbalanceRow, LimitRow, Meridians, OwnLimits
from explainer.orders.values.field_types import ShortLine, Strict
from explainer.orders.values.files import read_toml
from explainer.orders.values.validate import validated

_Allowed = Annotated[float, Field(gt=0, le=30)]
_End = Annotated[float, Field(gt=0, le=100)]
_QUANTITIES = ("power", "cylinder", "axis", "addition", "progressive_power", "progressive_cylinder")


class RowTable(Strict):
    """One row of a table of limits."""

    allowed: _Allowed
    above: Annotated[float, Field(ge=0, le=100)] | None = None
    up_to: _End | None = None
    power_up_to: _End | None = None


class PairTable(Strict):
    """One row of the limits of a pair's prism."""

    prism: _Allowed
    prism_up_to: _End | None = None
    power_up_to: _End | None = None
    distance_mm: _Allowed | None = None


class LensPointTable(Strict):
    """Prism at the reference point of one lens, or how far off that point may be."""

    prism: _Allowed | None = None
    or_mm: _Allowed | None = None


class PointsTable(Strict):
    """Distances allowed for fitting crosses and segments [mm]."""

    progressive_mm: _Allowed | None = None
    height_mm: _Allowed | None = None
    height_difference_mm: _Allowed | None = None


Rows = Annotated[list[RowTable], Field(max_length=100)]
Pairs = Annotated[list[PairTable], Field(max_length=20)]


class LimitsFile(Strict):
    """The file as TOML."""

    name: ShortLine
    meridians: Meridians = "both"
    power: Rows
    cylinder: Rows
    axis: Rows
    addition: Rows = Field(default_factory=list)
    progressive_power: Rows = Field(default_factory=list)
    progressive_cylinder: Rows = Field(default_factory=list)
    horizontal: Pairs = Field(default_factory=list)
    vertical: Pairs = Field(default_factory=list)
    lens: LensPointTable = LensPointTable()
    points: PointsTable = PointsTable()


def read_limits(path: Path, faults: list[Fault]) -> OwnLimits | None:
    """The limits of a file, or None with every fault appended under the file's name."""
    own: list[Fault] = []
    try:
        model = validated(LimitsFile, read_toml(path), own)
    except InputError as error:
        model, own = None, list(error.faults)
    if model is not None:
        for quantity in _QUANTITIES:
            _check_rows(quantity, getattr(model, quantity), own)
        for direction in ("horizontal", "vertical"):
            _check_rising(direction, [row.prism_up_to for row in getattr(model, direction)], own)
    first = {fault.field: fault for fault in reversed(own)}  # a field that was refused is not also missing
    faults.extend(Fault(f"{path.name}: {name}", fault.found, fault.accepted) for name, fault in first.items())
    return None if model is None or own else _limits(model)


def _check_rows(quantity: str, rows: list[RowTable], faults: list[Fault]) -> None:
    """Rows of one column rise without a gap, so that each size has one row."""
    for column in dict.fromkeys(row.power_up_to for row in rows):
        of_column = [row for row in rows if row.power_up_to == column]
        _check_rising(quantity, [row.up_to for row in of_column], faults)
        for row in of_column:
            if row.above is not None and row.up_to is not None and row.above >= row.up_to:
                faults.append(Fault(f"{quantity}.above", f"{row.above:g}", "less than the row's up_to"))
        for before, row in pairwise(of_column):
            if row.above is not None and row.above != before.up_to:
                faults.append(Fault(f"{quantity}.above", f"{row.above:g}", "the up_to of the row before, or nothing"))


def _check_rising(name: str, ends: list[float | None], faults: list[Fault]) -> None:
    values = [math.inf if end is None else end for end in ends]
    if any(not before < after for before, after in pairwise(values)):
        faults.append(Fault(name, "rows whose upper ends do not rise", "each row above the one before it"))


def _limits(model: LimitsFile) -> OwnLimits:
    rows = {quantity: _rows(getattr(model, quantity)) for quantity in _QUANTITIES}
    return OwnLimits(
        name=model.name,
        meridians=model.meridians,
        **rows,
        horizontal=tuple(map(_pair, model.horizontal)),
        vertical=tuple(map(_pair, model.vertical)),
        prism_pd=model.lens.prism,
        prism_or_mm=model.lens.or_mm,
        progressive_point_mm=model.points.progressive_mm,
        height_mm=model.points.height_mm,
        height_difference_mm=model.points.height_difference_mm,
    )


def _rows(tables: list[RowTable]) -> tuple[LimitRow, ...]:
    """Each row begins where the one before it in its column ends."""
    ends: dict[float | None, float] = {}
    found = []
    for row in tables:
        above = ends.get(row.power_up_to, 0.0) if row.above is None else row.above
        up_to = math.inf if row.up_to is None else row.up_to
        ends[row.power_up_to] = up_to
        power = math.inf if row.power_up_to is None else row.power_up_to
        found.append(LimitRow(allowed=row.allowed, above=above, up_to=up_to, power_up_to=power))
    return tuple(found)


def _pair(row: PairTable) -> ImbalanceRow:
    return ImbalanceRow(
        prism_pd=row.prism,
        prism_up_to=math.inf if row.prism_up_to is None else row.prism_up_to,
        power_up_to=math.inf if row.power_up_to is None or row.distance_mm is None else row.power_up_to,
        distance_mm=math.inf if row.distance_mm is None else row.distance_mm,
    )
