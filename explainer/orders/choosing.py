"""One order out of many: by its number, or by the number that a message names."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from explainer.errors import Fault, InputError
from explainer.orders.assembly.order import ReadResult
from explainer.orders.inbox.entries import numbers
from explainer.orders.inbox.sources import order_files
from explainer.orders.reader import Workshops, read_orders

_SHOWN = 5


def choose_order(
    paths: Iterable[Path | str],
    number: str,
    *,
    workshop_path: Path | str | None = None,
    language: str | None = None,
) -> ReadResult:
    """The order of that number in files, tables, JSON lines and folders, read or refused; InputError if not there.

    Only the file that holds it is read. Capitals and a `#` before the number do not matter.
    """
    known = list(numbered(paths, workshop_path=workshop_path))
    found = [(path, place) for each, place, path in known if _alike(each, number)]
    if not found:
        shown = ", ".join(each for each, _, _ in known[:_SHOWN]) + (", …" if len(known) > _SHOWN else "")
        fault = Fault("order", f"{number}, which is not among {len(known)} orders", shown or "a number that is there")
        raise InputError(", ".join(map(str, paths)), [fault])
    places = {place for _, place in found}
    if len(places) > 1:
        fault = Fault("order", f"{number} in {len(places)} places: {'; '.join(sorted(places))}", "a number once")
        raise InputError(str(found[0][0]), [fault])
    path, place = found[0]
    results = read_orders([path], workshop_path=workshop_path, language=language)
    return next(result for result in results if result.source == place)


def numbers_named(text: str, known: Iterable[str]) -> list[str]:
    """Those of the known order numbers that a message names, in the order in which it names them."""
    places = {}
    for number in dict.fromkeys(known):
        hit = re.search(rf"(?<![\w-]){re.escape(number)}(?![\w-])", text, re.IGNORECASE)
        if hit:
            places[number] = hit.start()
    return sorted(places, key=places.__getitem__)


def numbered(
    paths: Iterable[Path | str], *, workshop_path: Path | str | None = None
) -> Iterator[tuple[str, str, Path]]:
    """Every order's number with its place and file; what cannot be read has none."""
    workshops = Workshops(Path(workshop_path) if workshop_path else None)
    for item in order_files(paths):
        if isinstance(item, InputError):
            continue
        try:
            for number, place in numbers(item, workshops.export_of(item)):
                yield number, place, item
        except InputError:
            continue


def _alike(one: str, other: str) -> bool:
    return one.strip().lstrip("#").casefold() == other.strip().lstrip("#").casefold()
