"""Where a result may be written: never over anything that was read, nor over a file that is of another kind."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from explainer.errors import visible
from explainer.places import is_folder, is_there, real, start_of

if TYPE_CHECKING:
    from explainer.orders import Workshop

_RECORD = re.compile(rb"\s*(?:\xef\xbb\xbf)?_?[A-Z][A-Z0-9_]{0,15}=")  # how job and trace files begin


def is_one_file(output: Path) -> bool:
    """Whether an output names a file, not a folder to write into."""
    return bool(output.suffix) and not is_folder(output)


def free(path: Path, ending: str, inputs: Iterable[Path]) -> Path:
    """The path, if a result with that ending may stand there. UsageError when it is an input, or might be one."""
    if path.suffix.lower() != f".{ending}":
        raise click.UsageError(f"{visible(str(path))} does not end in .{ending}, as this result does")
    behind = real(path)
    for each in inputs:
        if behind == real(each) or (is_folder(each) and is_there(path) and _read_from(path, each)):
            raise click.UsageError(f"{visible(str(path))} is read from; nothing was written")
    if _begins_with_a_record(path):
        raise click.UsageError(f"{visible(str(path))} is a job or trace file; nothing was written")
    return path


def read_for(workshop: Workshop | None, *paths: Path | None) -> list[Path]:
    """All that was read for an order: the paths given, the workshop file, its logo and its words."""
    found = [path for path in paths if path is not None]
    if workshop:
        found += [Path(workshop.source), *(path for path in (workshop.logo, workshop.house_wording) if path)]
    return found


def _read_from(path: Path, folder: Path) -> bool:
    """Whether a file lies in a folder of inputs and is of a kind that is read there."""
    return real(path).is_relative_to(real(folder)) and path.suffix.lower() in (".txt", ".md")


def _begins_with_a_record(path: Path) -> bool:
    try:
        return path.suffix.lower() == ".txt" and _RECORD.match(start_of(path, 200)) is not None
    except OSError:
        return False
