"""How a written prescription is understood, as plain data: for a web shop's form, or for a second look by a person.

A text is understood only if a lens could be made of every eye it speaks of. What is readable but half a prescription
is refused, with what was read of it beside the faults.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from explainer.errors import Fault, InputError
from explainer.orders.assembly.plausibility import warnings_for_eye, warnings_for_pair
from explainer.orders.assembly.written import Whom, parse_written
from explainer.orders.notation.reading import Reading, written
from explainer.orders.values.field_types import LANGUAGE
from explainer.orders.values.texts import quoted

FIELD = "notation"
_NUMBERS = ("sphere_d", "cylinder_d", "axis_deg", "add_d", "prism_in_pd", "prism_up_pd", "vertex_mm", "pd_mm")


def understood(text: str, *, language: str | None = None) -> dict[str, Any]:
    """The eyes of the text with their numbers, or the faults for which it is refused. Never raises InputError."""
    if language is not None and not re.fullmatch(LANGUAGE, language):
        return _refused([Fault("language", quoted(language), "a tag such as en-GB or de")])
    try:
        readings = parse_written(text, language=language, field=FIELD)
    except InputError as error:
        return _refused(error.faults)
    faults = [fault for whom, reading in readings.items() for fault in _missing(whom, reading)]
    eyes: dict[str, Any] = {whom: _eye(reading) for whom, reading in readings.items()}
    if faults:
        return {**_refused(faults), "partial": eyes}
    return {"understood": True, **eyes, "warnings": _warnings(readings)}


def _eye(reading: Reading) -> dict[str, Any]:
    numbers = {name: getattr(reading, name) for name in _NUMBERS}
    return {**numbers, "acuity": reading.acuity, "written": written(reading), "received": reading.received}


def _missing(whom: Whom, reading: Reading) -> list[Fault]:
    place = FIELD if whom == "eye" else f"{FIELD}.{whom}"
    if reading.sphere_d is None:
        found = f"{_what_there_is(reading)}, and no sphere"
        return [Fault(f"{place}.sphere", found, 'a sphere with its sign, or "plano"')]
    if not reading.complete:
        found = "half a cylinder"
        return [Fault(f"{place}.cylinder", found, "cylinder and axis together: -1.25 x 172; or neither")]
    return []


def _what_there_is(reading: Reading) -> str:
    if reading.cylinder_d or reading.axis_deg is not None:
        return "an axis" if not reading.cylinder_d else "a cylinder"
    if reading.add_d is not None:
        return "an addition"
    if reading.prism_in_pd or reading.prism_up_pd:
        return "a prism"
    return "a measure in millimetres"


def _warnings(readings: dict[Whom, Reading]) -> list[str]:
    if set(readings) == {"right", "left"}:
        return list(warnings_for_pair(readings["right"].eye(), readings["left"].eye()))
    return [line for whom, reading in readings.items() for line in warnings_for_eye(reading.eye(), whom)]


def _refused(faults: Iterable[Fault]) -> dict[str, Any]:
    plain = [{"field": fault.field, "found": fault.found, "accepted": fault.accepted} for fault in faults]
    return {"understood": False, "faults": plain}
