"""A file → its orders as plain data, one after the other: a TOML or JSON order, a FHIR Bundle, JSON lines, a table.

What breaks the file is raised; what is wrong with one line, row or entry comes in its place and stops no other.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from explainer.errors import Fault, InputError
from explainer.orders.fhir import bundle as fhir_bundle
from explainer.orders.fhir import prescription as fhir
from explainer.orders.shop.export import ExportTable
from explainer.orders.tables.table import Table
from explainer.orders.tables.workbook import WORKBOOKS
from explainer.orders.values.files import json_object, read_json, read_toml
from explainer.orders.values.lines import byte_lines, text_of

TABLES = (".csv", ".tsv", *WORKBOOKS)
JSON_LINES = (".jsonl", ".ndjson")
KINDS = (".toml", ".json", *JSON_LINES, *TABLES)
KINDS_TEXT = "a file ending in .toml, .json, .jsonl, .ndjson, .csv, .tsv or .xlsx"


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One order as plain data. `source` says where it stands, `faults` what could not be read of it."""

    source: str
    path: Path
    data: dict[str, Any]
    faults: tuple[Fault, ...] = ()
    warnings: tuple[str, ...] = ()
    in_columns: bool = False


def entries(path: Path, export: ExportTable | None = None) -> Iterator[Entry | InputError]:
    """The orders of one file, read as they are asked for. `export` says how a table with a shop's headings is read."""
    kind = path.suffix.lower()
    if kind in TABLES:
        return _rows(path, export)
    if kind in JSON_LINES:
        return _lines(path)
    if kind not in KINDS:
        raise InputError(str(path), [Fault("file", "another kind of file", KINDS_TEXT)])
    data = read_toml(path) if kind == ".toml" else read_json(path)
    if fhir_bundle.is_bundle(data):
        return _bundle(path, data)
    return iter([Entry(source=str(path), path=path, data=data)])


def numbers(path: Path, export: ExportTable | None = None) -> Iterator[tuple[str, str]]:
    """The numbers of the orders of a file, each with its place; entries that cannot be read have none."""
    if path.suffix.lower() in TABLES:
        table = Table(path, export)
        for row in table.rows:
            number = table.number(row)
            if number:
                yield number, f"{path}, {row.place}"
        return
    for entry in entries(path):
        number = _number_of(entry.data) if isinstance(entry, Entry) else None
        if number is not None:
            yield number, entry.source


def _number_of(data: dict[str, Any]) -> str | None:
    if fhir.is_fhir(data):
        return fhir.order_number(data) if data.get("status") == "active" else None  # a withdrawn one makes no leaflet
    number = data.get("order")
    return number if isinstance(number, str) else None


def _rows(path: Path, export: ExportTable | None) -> Iterator[Entry | InputError]:
    table = Table(path, export)
    for row in table.rows:
        source = f"{path}, {row.place}"
        faults: list[Fault] = []
        data = table.data(row, faults)
        if len(row.cells) == len(table.headings):
            yield Entry(source=source, path=path, data=data, faults=tuple(faults), in_columns=True)
        else:
            yield InputError(source, faults)


def _lines(path: Path) -> Iterator[Entry | InputError]:
    for number, line in enumerate(byte_lines(path), 1):
        source = f"{path}, line {number}"
        text = text_of(line)
        if isinstance(text, Fault):
            yield InputError(source, [text])
            continue
        if not text.strip():
            continue
        try:
            yield Entry(source=source, path=path, data=json_object(text.rstrip("\r\n"), source=source, what="line"))
        except InputError as error:
            yield error


def _bundle(path: Path, data: dict[str, Any]) -> Iterator[Entry | InputError]:
    found = fhir_bundle.prescriptions(data, source=str(path))
    warnings = fhir_bundle.warnings(data)
    for place, resource in found:
        source = f"{path}, {place}"
        if isinstance(resource, Fault):
            yield InputError(source, [resource])
        else:
            yield Entry(source=source, path=path, data=resource, warnings=warnings)
