"""Figures kept on disk, so that a figure that was drawn before costs neither matplotlib nor time.

A figure is found again by its name, its values and the source text that draws it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping
from dataclasses import asdict
from functools import cache
from pathlib import Path

from explainer.errors import RenderError
from explainer.figures.drawing import Drawing, Label
from explainer.keeping import keeping_folder, read_kept, write_kept

Draw = Callable[[str, Mapping[str, object]], Drawing]

_HERE = Path(__file__).parent
_SOURCES = (_HERE, _HERE.parent / "optics" / "formulas")


def cached(name: str, draw: Draw, values: Mapping[str, object], folder: Path | None = None) -> Drawing:
    """The figure from the folder, or drawn and put there; the usual folder when none is given."""
    home = folder or default_folder()
    if home is None:
        return draw(name, values)
    key = f"{name}-{fingerprint(name, values)}"
    file = home / f"{key}.json"
    kept = _read(file, key)
    if kept is not None:
        return kept
    drawing = draw(name, values)
    _write(file, key, drawing)
    return drawing


def default_folder() -> Path | None:
    """The user's cache folder for figures, or None where the user has no home."""
    return keeping_folder("figures")


def fingerprint(name: str, values: Mapping[str, object]) -> str:
    """What tells this figure from every other one."""
    if not name.isidentifier():
        raise RenderError(f"{name!r} is no name for a figure")
    try:
        written = json.dumps([name, values, _source_hash()], sort_keys=True, allow_nan=False)
    except (TypeError, ValueError) as error:
        raise RenderError(f"the values of the figure {name} cannot be written down: {error}") from None
    return hashlib.sha256(written.encode()).hexdigest()[:32]


@cache
def _source_hash() -> str:
    found = hashlib.sha256()
    for file in sorted(file for folder in _SOURCES for file in folder.rglob("*.py")):
        found.update(file.name.encode() + b"\0" + file.read_bytes() + b"\0")
    return found.hexdigest()


def _read(file: Path, key: str) -> Drawing | None:
    """The kept drawing; None when there is none or its file was damaged."""
    fields = read_kept(file, key)
    if fields is None:
        return None
    try:
        labels = tuple(Label(**label) for label in fields.pop("labels"))
        return Drawing(svg=fields.pop("svg").encode(), labels=labels, **fields)
    except (TypeError, KeyError, AttributeError):
        return None


def _write(file: Path, key: str, drawing: Drawing) -> None:
    write_kept(file, key, {**asdict(drawing), "svg": drawing.svg.decode()})
