"""The eyes of an order, for prescription, bench and previous pair: notation, fields or a FHIR file → readings."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field, replace
from pathlib import Path

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import SIDES, Prescription, Side
from explainer.orders.assembly.models import EyeTable, PrescriptionTable, PreviousTable
from explainer.orders.assembly.written import parse_eye, parse_pair, tongue
from explainer.orders.fhir import prescription as fhir
from explainer.orders.notation.axis_scale import ASK_SCALE, OPEN_SCALE, scale_is_open
from explainer.orders.notation.fields import Numbers, PrismField, reading_of
from explainer.orders.notation.numbers import MOST_ADD_D
from explainer.orders.notation.reading import Reading, power, written
from explainer.orders.values.files import read_json

Written = str | EyeTable | None
_WAYS = 'right and left, or text = "R ... L ...", or fhir = "file.json": one of these'


@dataclass(frozen=True, slots=True, kw_only=True)
class How:
    """Under which rules the eyes of one table are read."""

    table: str
    language: str | None
    any_step: bool = False
    scale: str | None = None
    in_order: bool = True  # bench readings come from our own instrument, whose scale is known


@dataclass(slots=True)
class Received:
    """The prescription as read: both eyes, and what came along with a FHIR file."""

    readings: dict[Side, Reading] = field(default_factory=dict)
    written: dt.date | None = None
    warnings: tuple[str, ...] = ()


def one_eye(value: Written, side: Side, how: How, faults: list[Fault]) -> Reading | None:
    """The reading of one eye, or None with its faults appended."""
    place = f"{how.table}.{side}"
    if value is None:
        return None
    scale = how.scale if how.in_order else "TABO"
    try:
        if isinstance(value, str):
            found = parse_eye(
                value, language=how.language, side=side, field=place, any_step=how.any_step, axis_scale=scale
            )
        else:
            found = _from_fields(value, side, place, how.any_step)
            if not scale and scale_is_open(found.axis_deg, language=tongue(how.language), side=side):
                faults.append(Fault(f"{place}.axis", OPEN_SCALE, ASK_SCALE))
    except InputError as error:
        faults.extend(error.faults)
        return None
    return _whole(found, place, faults)


def prescription_of(table: PrescriptionTable, folder: Path, language: str | None, faults: list[Fault]) -> Received:
    """The prescription of an order, in whichever way it is given."""
    how = How(
        table="prescription",
        language=table.written_in or language,
        any_step=table.confirmed_steps,
        scale=table.axis_scale,
    )
    singly = table.right is not None or table.left is not None
    if [singly, table.text is not None, table.fhir is not None].count(True) != 1:
        count = "more than one way" if singly or table.text or table.fhir else "no prescription"
        faults.append(Fault("prescription", count, _WAYS))
        return Received()
    received = Received(written=table.written)
    if table.fhir is not None:
        received = _from_fhir(table, folder, faults)
    elif table.text is not None:
        received.readings = _from_text(table.text, how, faults)
    else:
        for side in SIDES:
            value: Written = getattr(table, side)
            reading = one_eye(value, side, how, faults)
            if value is None:
                faults.append(Fault(f"prescription.{side}", "nothing", "both eyes; plano if no power is needed"))
            elif reading:
                received.readings[side] = reading
    _add_for_both(table.add, received.readings, how, faults)
    return received


def previous_of(table: PreviousTable, language: str | None, faults: list[Fault]) -> Prescription | None:
    """The prescription worn before."""
    how = How(table="previous", language=language, any_step=table.confirmed_steps, scale=table.axis_scale)
    right = one_eye(table.right, "right", how, faults)
    left = one_eye(table.left, "left", how, faults)
    if right is None or left is None:
        return None
    vertex = vertex_of({"right": right, "left": left}, (table.vertex_mm,), "previous", faults)
    return Prescription(right=right.eye(), left=left.eye(), vertex_mm=vertex)


def vertex_of(
    readings: dict[Side, Reading], stated_mm: tuple[float | None, ...], table: str, faults: list[Fault]
) -> float | None:
    """The one vertex distance [mm] that the table, the written texts and a job file agree on."""
    known = {value for value in (*stated_mm, *(r.vertex_mm for r in readings.values())) if value is not None}
    if len(known) > 1:
        found = f"different vertex distances: {', '.join(f'{value:g}' for value in sorted(known))}"
        faults.append(Fault(f"{table}.vertex_mm", found, "one vertex distance for the pair"))
    return min(known) if known else None


def _from_fields(table: EyeTable, side: Side, place: str, any_step: bool) -> Reading:
    prism = tuple(PrismField(item.amount, item.base) for item in table.prism)
    numbers = Numbers(table.sphere, table.cylinder, table.axis, table.add, prism)
    found = reading_of(numbers, side=side, field=place, any_step=any_step)
    return replace(found, received=written(replace(found, side=None)))


def _from_text(text: str, how: How, faults: list[Fault]) -> dict[Side, Reading]:
    try:
        pair = parse_pair(
            text, language=how.language, field="prescription.text", any_step=how.any_step, axis_scale=how.scale
        )
    except InputError as error:
        faults.extend(error.faults)
        return {}
    eyes = {side: _whole(pair.eye(side), "prescription.text", faults) for side in SIDES}
    return {side: reading for side, reading in eyes.items() if reading}


def _from_fhir(table: PrescriptionTable, folder: Path, faults: list[Fault]) -> Received:
    name = table.fhir or ""
    try:
        found = fhir.prescription(read_json(folder / name), source=name, any_step=table.confirmed_steps)
    except InputError as error:
        faults.extend(Fault(f"{name}: {fault.field}", fault.found, fault.accepted) for fault in error.faults)
        return Received(written=table.written)
    if table.written and found.written and table.written != found.written:
        accepted = "the same date, or none in the order"
        faults.append(Fault("prescription.written", f"{table.written} here, {found.written} in {name}", accepted))
    return Received({side: found.pair.eye(side) for side in SIDES}, table.written or found.written, found.warnings)


def _whole(found: Reading, place: str, faults: list[Fault]) -> Reading | None:
    """The reading if a lens can be made of it; what belongs elsewhere in the file is pointed there."""
    if found.pd_mm is not None:
        faults.append(Fault(place, "a pupillary distance", "pd_mm, or pd_right_mm and pd_left_mm, in [measurements]"))
    if not found.complete:
        faults.append(Fault(place, "no power", "a sphere with its sign, or plano"))
        return None
    return found


def _add_for_both(add: str | float | None, readings: dict[Side, Reading], how: How, faults: list[Fault]) -> None:
    if add is None:
        return
    value = _addition(add, how, faults)
    if value is None:
        return
    for side, reading in readings.items():
        if reading.add_d is not None:
            faults.append(Fault("prescription.add", f"a second addition for the {side} eye", "one addition"))
        readings[side] = replace(reading, add_d=value, received=f"{reading.received} Add {power(value)}")


def _addition(add: str | float, how: How, faults: list[Fault]) -> float | None:
    place = "prescription.add"
    if not isinstance(add, str):
        if 0 < add <= MOST_ADD_D:
            return add
        faults.append(Fault(place, f"{add:g}", f"an addition above 0 and up to {MOST_ADD_D:g} D"))
        return None
    try:
        text = add if add.strip()[:1].isalpha() else f"Add {add}"
        found = parse_eye(text, language=how.language, field=place, any_step=how.any_step)
    except InputError as error:
        faults.extend(error.faults)
        return None
    if found != Reading(add_d=found.add_d) or found.add_d is None:
        faults.append(Fault(place, "more than an addition", 'the addition alone: add = "+2.00"'))
        return None
    return found.add_d
