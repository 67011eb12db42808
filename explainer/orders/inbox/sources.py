"""Which files a run reads: the named files, and the orders in the named folders, each once and in a stable order."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from explainer.errors import Fault, InputError
from explainer.orders.inbox.entries import KINDS, KINDS_TEXT, Entry, entries
from explainer.orders.shop.workshop import WORKSHOP_FILE
from explainer.places import is_folder, real


def order_files(paths: Iterable[Path | str]) -> list[Path | InputError]:
    """The files to read; in the place of a folder that gives none, the reason."""
    found: dict[Path, Path | InputError] = {}
    for path in map(Path, paths):
        for item in _in_folder(path) if is_folder(path) else [path]:
            found.setdefault(real(path if isinstance(item, InputError) else item), item)
    return list(found.values())


def _in_folder(folder: Path) -> list[Path | InputError]:
    """The orders of a folder: not its workshop file, nor a FHIR file that an order beside it names."""
    try:
        files = sorted(path for path in folder.iterdir() if path.suffix.lower() in KINDS and not is_folder(path))
    except OSError as error:
        fault = Fault("folder", f"a folder that cannot be read ({error.strerror})", "a readable folder")
        return [InputError(str(folder), [fault])]
    files = [path for path in files if path.name != WORKSHOP_FILE]
    any_json = any(path.suffix.lower() == ".json" for path in files)
    named = {folder / name for path in files for name in _fhir_named_by(path)} if any_json else set()
    orders: list[Path | InputError] = [path for path in files if path not in named]
    fault = Fault("folder", "no order in it", f"a folder with orders: {KINDS_TEXT}")
    return orders or [InputError(str(folder), [fault])]


def _fhir_named_by(path: Path) -> Iterator[str]:
    try:
        for entry in entries(path):
            table = entry.data.get("prescription") if isinstance(entry, Entry) else None
            name = table.get("fhir") if isinstance(table, dict) else None
            if isinstance(name, str):
                yield name
    except Exception:
        return  # told when the file itself is read
