"""Bytes on disk → plain data. TOML and JSON, read strictly: no doubled keys, no NaN, no bottomless nesting."""

from __future__ import annotations

import json
import math
import re
import tomllib
from pathlib import Path
from typing import Any, NoReturn

from explainer.errors import Fault, InputError, visible
from explainer.orders.values.texts import is_field_name, quoted
from explainer.places import start_of, why_not

LARGEST_JSON = 5_000_000
LARGEST_TOML = 200_000
DEEPEST = 60
_WHERE = re.compile(r"\(at (line \d+, column \d+|end of document)\)")
_BRACKETS = re.compile(r'"(?:[^"\\]++|\\.)*+"?|[\[{\]}]', re.DOTALL)
_LONG_KEY = re.compile(r"(?<![\w\"'-])(?:[\w\"'-]++[ \t]*+\.[ \t]*+){30}")  # tomllib takes quadratic time over these


def read_text(path: Path, *, largest: int) -> str:
    """A file's text as UTF-8, with or without a byte order mark, never more than `largest` bytes."""
    return decoded(read_bytes(path, largest=largest), source=str(path), largest=largest)


def read_bytes(path: Path, *, largest: int) -> bytes:
    """A file's bytes, never more than `largest`; InputError when it holds more or cannot be read."""
    try:
        data = start_of(path, largest + 1)
    except OSError as error:
        raise _refusal(path, why_not(error), "a readable file") from error
    if len(data) > largest:
        raise _refusal(path, f"more than {largest} bytes", f"at most {largest} bytes")
    return data


def decoded(data: bytes, *, source: str, largest: int) -> str:
    """Bytes from outside as text; InputError when they are too many or no UTF-8."""
    found = accepted = None
    if len(data) > largest:
        found, accepted = f"more than {largest} bytes", f"at most {largest} bytes"
    try:
        text = data.decode("utf-8-sig") if found is None else ""
    except UnicodeDecodeError as error:
        found, accepted = f"a byte at {error.start} that is not UTF-8", "a text in UTF-8"
    if found is not None and accepted is not None:
        raise InputError(source, [Fault("file", found, accepted)])
    return text


def read_toml(path: Path) -> dict[str, Any]:
    """A TOML file as plain data, or a refusal that says where it stops being TOML."""
    text = read_text(path, largest=LARGEST_TOML)
    if _LONG_KEY.search(text):
        raise _refusal(path, "a name of thirty parts or more", "the tables and names of the order file")
    try:
        data = tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        where = _WHERE.search(str(error))
        found = f"a mistake at {where.group(1)}" if where else "nesting or numbers beyond measure"
        raise _refusal(path, found, "TOML: texts in quotation marks, each name once in its table") from error
    if _is_deep(data):
        raise _refusal(path, f"nesting deeper than {DEEPEST}", f"at most {DEEPEST} levels")
    return data


def read_json(path: Path) -> dict[str, Any]:
    """A JSON file's object as plain data."""
    return json_object(read_text(path, largest=LARGEST_JSON), source=str(path))


def json_object(text: str, *, source: str, what: str = "file") -> dict[str, Any]:
    """A JSON object, read strictly. `what` names the text in a refusal: the file, or one line of it."""
    if _depth(text) > DEEPEST:
        raise InputError(source, [Fault(what, f"nesting deeper than {DEEPEST}", f"at most {DEEPEST} levels")])

    def pairs(items: list[tuple[str, Any]]) -> dict[str, Any]:
        result = {name if name.isascii() else visible(name): value for name, value in items}  # no name of ours is other
        if len(result) < len(items):
            names = [visible(name) for name, _ in items]
            first, second = next((names.index(name), at) for at, name in enumerate(names) if name in names[:at])
            twice = quoted(names[first]) if is_field_name(names[first]) else f"names {first + 1} and {second + 1}"
            raise InputError(source, [Fault(twice, "the same name twice", "each name once in its object")])
        return result

    def number(digits: str) -> float:
        value = float(digits)
        return value if math.isfinite(value) else refuse_number(digits)

    def refuse_number(digits: str) -> NoReturn:
        raise InputError(source, [Fault(what, quoted(digits), "finite numbers")])

    try:
        data = json.loads(text, object_pairs_hook=pairs, parse_float=number, parse_constant=refuse_number)
    except json.JSONDecodeError as error:
        line = f"line {error.lineno}, " if what == "file" else ""
        raise InputError(source, [Fault(what, f"a mistake at {line}column {error.colno}", "JSON")]) from error
    except (ValueError, RecursionError) as error:
        raise InputError(source, [Fault(what, "a number beyond measure", "finite numbers")]) from error
    if not isinstance(data, dict):
        raise InputError(source, [Fault(what, "no object", "one JSON object")])
    return data


def _depth(text: str) -> int:
    """How deep brackets nest outside strings, found without recursion."""
    deepest = level = 0
    for piece in _BRACKETS.findall(text):
        if piece in "[{":
            level += 1
            deepest = max(deepest, level)
        elif piece in "]}":
            level -= 1
    return deepest


def _is_deep(data: object) -> bool:
    """Whether tables and lists nest deeper than allowed, found without recursion."""
    layer = [data]
    for _ in range(DEEPEST + 1):
        inner = [list(item.values()) if isinstance(item, dict) else item for item in layer]
        layer = [value for values in inner if isinstance(values, list) for value in values]
        if not layer:
            return False
    return True


def _refusal(path: Path, found: str, accepted: str) -> InputError:
    return InputError(str(path), [Fault("file", found, accepted)])
