"""Which files a run reads: the named files, and the orders in the named folders, each once and in a stable order."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from explainer.errors import Fault, InputError
from explainer.orders.files import read_json, read_toml
from explainer.orders.workshop import WORKSHOP_FILE

_KINDS = (".toml", ".json")


def order_files(paths: Iterable[Path | str]) -> list[Path | InputError]:
    """The files to read; in the place of a folder that gives none, the reason."""
    found: dict[Path, Path | InputError] = {}
    for path in map(Path, paths):
        for item in _in_folder(path) if path.is_dir() else [path]:
            found.setdefault((path if isinstance(item, InputError) else item).resolve(), item)
    return list(found.values())


def plain_data(path: Path) -> dict[str, Any]:
    """The content of an order file, TOML or JSON by its ending."""
    if path.suffix.lower() not in _KINDS:
        raise InputError(str(path), [Fault("file", "another kind of file", "an order ending in .toml or .json")])
    return read_toml(path) if path.suffix.lower() == ".toml" else read_json(path)


def _in_folder(folder: Path) -> list[Path | InputError]:
    """The orders of a folder: not its workshop file, nor a FHIR file that an order beside it names."""
    try:
        files = sorted(path for path in folder.iterdir() if path.suffix.lower() in _KINDS and not path.is_dir())
    except OSError as error:
        fault = Fault("folder", f"a folder that cannot be read ({error.strerror})", "a readable folder")
        return [InputError(str(folder), [fault])]
    files = [path for path in files if path.name != WORKSHOP_FILE]
    any_json = any(path.suffix.lower() == ".json" for path in files)
    named = {folder / name for path in files for name in _fhir_named_by(path)} if any_json else set()
    orders: list[Path | InputError] = [path for path in files if path not in named]
    fault = Fault("folder", "no order in it", "a folder with order files (.toml or .json)")
    return orders or [InputError(str(folder), [fault])]


def _fhir_named_by(path: Path) -> list[str]:
    try:
        table = plain_data(path).get("prescription")
    except InputError:
        return []
    name = table.get("fhir") if isinstance(table, dict) else None
    return [name] if isinstance(name, str) else []
