"""Painting on a sheet of its own, so that what comes out can be copied: to other pages, and into other files."""

from __future__ import annotations

import contextlib
import logging
import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

OPACITY = re.compile(r"([aA])(\d+(?:\.\d+)?)")  # as the engine names one: of strokes or not, and how much
_SHARED = ("XObject", "Pattern", "Shading")


class Ink(NamedTuple):
    """What was painted: operations, the opacities that they call for by name, and the tag of each box."""

    operations: list[Any]
    opacities: Mapping[str, Any]
    tags: Mapping[Any, Mapping[str, Any]]


def painted_apart(stream: Any, paint: Callable[[Any], None]) -> Ink | None:
    """What `paint` leaves on an empty sheet like this stream.

    None if something was wrong, or if it leans on what cannot be copied; then it is to be painted on the stream itself,
    which tells again what is wrong.
    """
    resources: dict[str, dict[str, Any]] = {kind: {} for kind in ("ExtGState", "ColorSpace", *_SHARED)}
    images: dict[str, Any] = {}
    sheet = stream.clone(resources=resources, tags={}, images=images)
    with complaints() as found:
        paint(sheet)
    opacities = resources["ExtGState"]
    if found or images or any(resources[kind] for kind in _SHARED) or not all(map(OPACITY.fullmatch, opacities)):
        return None
    return Ink(sheet.stream, opacities, sheet._tags)


def as_bytes(operation: Any) -> bytes:
    """An operation as it stands in the file."""
    return operation if isinstance(operation, bytes) else str(operation).encode()


@contextlib.contextmanager
def complaints() -> Iterator[list[logging.LogRecord]]:
    """What the engine logs meanwhile, from warnings upward; told to nobody else."""
    logger, found = logging.getLogger("weasyprint"), []

    class Catcher(logging.Filter):
        def filter(self, record: logging.LogRecord) -> bool:
            if record.levelno >= logging.WARNING:
                found.append(record)
            return False

    catcher = Catcher()
    logger.addFilter(catcher)
    try:
        yield found
    finally:
        logger.removeFilter(catcher)
