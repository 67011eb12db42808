"""Faults of a whole file at once: pydantic's findings in our words, without ever repeating a person's name."""

from __future__ import annotations

import copy
import datetime as dt
import difflib
from collections.abc import Iterable, Mapping
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from explainer.errors import Fault
from explainer.orders.values.field_types import AS_FIELDS, AS_TEXT
from explainer.orders.values.texts import FOUND_LIMIT, clip, is_field_name, quoted

Model = TypeVar("Model", bound=BaseModel)
_MOST_ROUNDS = 4
_STAND_INS: dict[str, Any] = {"order": "X", "date": dt.date(2000, 1, 1), "name": "X", "prescription": {}}
_NO_PART_OF_THE_PATH = (AS_TEXT, AS_FIELDS, "[key]")
_MOST_FAULTS = 200
_MOST_BITS = 200


def described(value: object) -> str:
    """A value found in a file, as it may stand in a message."""
    if value is None or isinstance(value, bool):
        return {None: "nothing", True: "true", False: "false"}[value]
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, int) and value.bit_length() > _MOST_BITS:
        return "a number beyond measure"
    if isinstance(value, (int, float, dt.date)):
        return clip(str(value), FOUND_LIMIT)
    if isinstance(value, Mapping):
        return "a table"
    return f"a list of {len(value)}" if isinstance(value, list) else "something else"


def validated(model: type[Model], data: Mapping[str, Any], faults: list[Fault]) -> Model | None:
    """The data as that model.

    With faults, the model of what is left without them, so that the rest of the file is checked too; it serves for
    nothing else. None if nothing usable is left.
    """
    rest = dict(data)
    for _ in range(_MOST_ROUNDS):
        try:
            return model.model_validate(rest)
        except ValidationError as error:
            findings = error.errors(include_url=False)
            new = [_fault(model, finding) for finding in findings[:_MOST_FAULTS]]
            faults.extend(fault for fault in new if fault not in faults)
            rest = copy.deepcopy(rest)
            for finding in reversed(findings):  # from the end, so that places in lists stay true
                _drop(rest, _path(finding), missing=finding["type"] == "missing")
    return None


def _drop(data: dict[str, Any], path: list[Any], *, missing: bool) -> None:
    """Take a faulty value out of the data; where a value is missing, put a stand-in or take its table out."""
    if missing and len(path) == 1:
        data.update({path[0]: _STAND_INS.get(path[0], "?")})
        return
    place: Any = data
    for part in path[: -2 if missing else -1]:
        place = place[part] if _has(place, part) else None
    key = path[-2] if missing else path[-1]
    if _has(place, key):
        del place[key]


def _has(place: Any, key: Any) -> bool:
    if isinstance(place, dict):
        return key in place
    return isinstance(place, list) and isinstance(key, int) and key < len(place)


def redacted(faults: Iterable[Fault], name: object) -> list[Fault]:
    """The faults without any part of the wearer's name in what was found."""
    parts = [part for part in str(name).split() if len(part) >= 2] if isinstance(name, str) else []
    return [Fault(fault.field, _without(fault.found, parts), fault.accepted) for fault in faults]


def without_echoes(faults: Iterable[Fault]) -> list[Fault]:
    """Each fault once, and none about a field (or a part of it) that an earlier fault has named."""
    kept: list[Fault] = []
    named: set[str] = set()
    for fault in faults:
        if fault in kept or any(fault.field.startswith(f"{field}.") for field in named):
            continue
        if fault.found == "nothing" and any(f"{name}.".startswith(f"{fault.field}.") for name in named):
            continue
        kept.append(fault)
        named.add(fault.field)
    return kept


def _without(found: str, parts: list[str]) -> str:
    if found.startswith('"') and any(part.casefold() in found.casefold() for part in parts):
        return "a text with the wearer's name in it"
    return found


def _fault(model: type[BaseModel], finding: Mapping[str, Any]) -> Fault:
    path = _path(finding)
    kind, context = finding["type"], finding.get("ctx", {})
    field = _joined(path)
    if kind == "extra_forbidden":
        known = _fields_at(model, path[:-1])
        near = difflib.get_close_matches(str(path[-1]), known, n=1)
        accepted = f"{near[0]}?" if near else f"one of: {', '.join(known)}"
        if near or is_field_name(str(path[-1])):
            return Fault(field, "a field that is not known", accepted)
        inside = _joined(path[:-1]) if path[:-1] else "file"
        kind = f"a field that is not known, of {len(str(path[-1]))} characters"  # not its name: it may be a person's
        return Fault(inside, kind, accepted)
    if kind == "missing":
        return Fault(field, "nothing", f"this field is needed{_hint(field)}")
    if kind == "explainer":
        return Fault(field, context["found"], context["accepted"])
    private = path[:2] == ["wearer", "name"]
    found = "something that is no text" if private else described(finding["input"])
    return Fault(field, found, _accepted(kind, context))


def _path(finding: Mapping[str, Any]) -> list[Any]:
    return [part for part in finding["loc"] if part not in _NO_PART_OF_THE_PATH]


def _joined(path: list[Any]) -> str:
    text = ""
    for part in path:
        text += f"[{part}]" if isinstance(part, int) else f".{clip(str(part), 40)}" if text else clip(str(part), 40)
    return text or "file"


def _fields_at(model: type[BaseModel], path: list[Any]) -> list[str]:
    """The names known at that place of the file."""
    for part in path:
        found = next((m for m in _models_in(model, part)), None)
        if found is None:
            return []
        model = found
    return list(model.model_fields)


def _models_in(model: type[BaseModel], part: Any) -> list[type[BaseModel]]:
    field = model.model_fields.get(part) if isinstance(part, str) else None
    if field is None:
        return [model] if isinstance(part, int) or not hasattr(model, "model_fields") else []
    queue: list[Any] = [field.annotation]
    found: list[type[BaseModel]] = []
    while queue:
        kind = queue.pop()
        if isinstance(kind, type) and issubclass(kind, BaseModel):
            found.append(kind)
        queue.extend(getattr(kind, "__args__", ()))
    return found


def _hint(field: str) -> str:
    return {"order": ': order = "LT-2041"', "date": ": date = 2026-11-20"}.get(field, "")


def _accepted(kind: str, context: Mapping[str, Any]) -> str:
    if kind == "literal_error":
        return f"one of {context['expected']}".replace("'", "").replace(" or ", ", ")
    if kind in ("greater_than_equal", "greater_than", "less_than_equal", "less_than"):
        limit = next(iter(context.values()))
        words = {"greater_than_equal": "at least", "greater_than": "more than", "less_than_equal": "at most"}
        return f"{words.get(kind, 'less than')} {limit:g}"
    return _ACCEPTED.get(kind, "a value of the documented form")


_ACCEPTED = {
    "string_type": "a text in quotation marks",
    "float_type": "a number",
    "int_type": "a whole number",
    "bool_type": "true or false",
    "list_type": "a list",
    "dict_type": "a table",
    "model_type": "a table",
    "model_attributes_type": "a table",
    "finite_number": "a finite number",
    "union_tag_not_found": "a text, or a table with sphere, cylinder, axis",
    "too_long": "fewer entries",
}
