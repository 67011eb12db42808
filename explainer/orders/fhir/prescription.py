"""FHIR VisionPrescription of R4, R4B and R5: read as a prescription, alone, in a Bundle or named by an order.

Only an active prescription for spectacles is read. Unknown fields of the resource are ignored, as the standard asks;
unknown fields inside a lens are refused, since a misspelt power would be lost in silence.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from explainer.errors import Fault, InputError
from explainer.optics.spectacles import SIDES, Side
from explainer.orders.fhir.lens import lens
from explainer.orders.notation.reading import Pair, Reading
from explainer.orders.values.field_types import ORDER_NUMBER
from explainer.orders.values.validate import described

_STATUS = ("active", "cancelled", "draft", "entered-in-error")
_DATE = re.compile(r"(\d{4}-\d{2}-\d{2})(?:T.*)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class FhirPrescription:
    """What a VisionPrescription says that an order can use."""

    pair: Pair
    number: str | None
    written: dt.date | None
    created: dt.date | None
    warnings: tuple[str, ...]


def is_fhir(data: object) -> bool:
    """Whether a JSON document is a FHIR resource of any kind."""
    return isinstance(data, Mapping) and "resourceType" in data


def prescription(data: Mapping[str, Any], *, source: str, any_step: bool = False) -> FhirPrescription:
    """The prescription in a VisionPrescription resource, or every fault in it."""
    kind = data.get("resourceType")
    if kind != "VisionPrescription":
        raise InputError(source, [Fault("resourceType", described(kind), "a single VisionPrescription")])
    faults: list[Fault] = []
    _check_status(data, faults)
    _check_modifiers(data, faults)
    eyes, warnings = _eyes(data.get("lensSpecification"), any_step, faults)
    written = _date(data, "dateWritten", faults)
    created = _date(data, "created", faults)
    if faults:
        raise InputError(source, faults)
    return FhirPrescription(
        pair=Pair(right=eyes["right"], left=eyes["left"]),
        number=order_number(data),
        written=written,
        created=created,
        warnings=tuple(warnings),
    )


def order_number(data: Mapping[str, Any]) -> str | None:
    """The first identifier, else the id, that can be an order number."""
    listed = data.get("identifier")
    values = [item.get("value") for item in listed if isinstance(item, Mapping)] if isinstance(listed, list) else []
    usable = (value for value in [*values, data.get("id")] if isinstance(value, str))
    return next((value for value in usable if re.fullmatch(ORDER_NUMBER, value) and ".." not in value), None)


def _check_status(data: Mapping[str, Any], faults: list[Fault]) -> None:
    status = data.get("status")
    if status not in _STATUS:
        faults.append(Fault("status", described(status), "active"))
    elif status != "active":
        faults.append(Fault("status", str(status), "active; no spectacles are made from any other"))


def _check_modifiers(data: Mapping[str, Any], faults: list[Fault]) -> None:
    """Elements that may change the meaning of all others, so that ignoring them would be a guess."""
    faults.extend(
        Fault(name, "an element that changes the meaning", "a resource without it")
        for name in ("modifierExtension", "implicitRules")
        if name in data
    )


def _eyes(specified: object, any_step: bool, faults: list[Fault]) -> tuple[dict[Side, Reading], list[str]]:
    eyes: dict[Side, Reading] = {}
    warnings: list[str] = []
    if not isinstance(specified, list) or not specified:
        faults.append(Fault("lensSpecification", described(specified), "a list with one lens for each eye"))
        return eyes, warnings
    before = len(faults)
    for i, raw in enumerate(specified[:20]):
        field = f"lensSpecification[{i}]"
        try:
            found = lens(raw, field=field, any_step=any_step)
        except InputError as error:
            faults.extend(error.faults)
            continue
        if found.side in eyes:
            faults.append(Fault(f"{field}.eye", f"the {found.side} eye again", "each eye once"))
        eyes[found.side] = found.reading
        warnings.extend(found.warnings)
    if len(faults) == before:
        missing = [side for side in SIDES if side not in eyes]
        faults.extend(Fault("lensSpecification", f"no {side} eye", "one lens for each eye") for side in missing)
    return eyes, warnings


def _date(data: Mapping[str, Any], name: str, faults: list[Fault]) -> dt.date | None:
    """The day of a FHIR dateTime; a year or a month alone names no day and gives None."""
    value = data.get(name)
    if value is None or (isinstance(value, str) and re.fullmatch(r"\d{4}(-\d{2})?", value)):
        return None
    match = _DATE.fullmatch(value) if isinstance(value, str) else None
    try:
        if match:
            return dt.date.fromisoformat(match.group(1))
    except ValueError:
        pass  # 30 February and the like: refused below with all that is no date
    faults.append(Fault(name, described(value), "a date such as 2026-11-20"))
    return None
