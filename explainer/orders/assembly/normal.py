"""An order in one normal form: the same text for the same content, wherever it was read and however it was written."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

from explainer.orders.assembly.order import Order

_NOT_CONTENT = frozenset(
    {"source", "notes", "warnings", "export"}
)  # where and how it was read, and what was said about it

_NOT_PRINTED = frozenset(
    {"language", "paper", "mail_greeting", "mail_opening", "mail_closing", "lenses", "parcel", "label"}
)


def normal_form(order: Order) -> str:
    """Everything in the order and its workshop that can reach a page, as one line of JSON."""
    return _written(order)


def digest(*texts: str) -> str:
    """One SHA-256 over several texts, in hexadecimal."""
    found = hashlib.sha256()
    for text in texts:
        found.update(text.encode() + b"\0")
    return found.hexdigest()


def printed_form(order: Order) -> str:
    """Everything of the order and its workshop that is printed on its leaflet, whatever the language and the edition.

    Left out is what the workshop keeps for mail and tables, and which documents it makes.
    """
    plain = _plain(order)
    shop = plain["workshop"] or {}
    return _as_line(
        {name: value for name, value in plain.items() if name not in _NOT_PRINTED}
        | {"workshop": {name: value for name, value in shop.items() if name not in _NOT_PRINTED}}
    )


def _written(value: object) -> str:
    return _as_line(_plain(value))


def _as_line(value: object) -> str:
    return json.dumps(value, sort_keys=True, ensure_ascii=False, separators=(",", ":"))


def _plain(value: object) -> Any:
    """The value in JSON's terms; a file counts by its bytes, a folder by its files."""
    if is_dataclass(value):
        kept = [field.name for field in fields(value) if field.name not in _NOT_CONTENT]
        return {name: _plain(getattr(value, name)) for name in kept}
    if isinstance(value, Mapping):
        return {str(key): _plain(held) for key, held in value.items()}
    if isinstance(value, tuple | list | frozenset):
        held_ones = [_plain(held) for held in value]
        return sorted(held_ones) if isinstance(value, frozenset) else held_ones
    if isinstance(value, Path):
        return digest_of_files([value] if value.is_file() else value.rglob("*"), value)
    if isinstance(value, dt.date):
        return value.isoformat()
    return float(value) if isinstance(value, int) and not isinstance(value, bool) else value


def digest_of_files(paths: Iterable[Path], home: Path) -> str:
    """One SHA-256 over names (below `home`) and bytes of the files; what cannot be read counts as empty."""
    found = hashlib.sha256()
    for path in sorted(path for path in paths if path.is_file()):
        try:
            body = path.read_bytes()
        except OSError:
            body = b""
        found.update(f"{path.relative_to(home).as_posix()}\0{len(body)}\0".encode() + body)
    return found.hexdigest()
