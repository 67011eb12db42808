"""The report of a run: one line of JSON an order, written as it goes, and what lets a second run go on from there.

No name and no number of a prescription stands in it: faults are told by field, with every digit of what is accepted
masked. The file is for its owner alone. A line is whole or it is the last one; of several lines about the same leaflet
the last one counts, and at the end of a run only that one is left.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from explainer.errors import Fault, RenderError
from explainer.render.files import told_plainly, write_file

Line = Mapping[str, Any]
_BEGINS = '{"source": '


class Report:
    """An open report, with the lines of earlier runs. To be used in a `with` statement."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._lines = _read(path)
        self._had = len(self._lines)
        self._file: int | None = None

    def __enter__(self) -> Report:
        with told_plainly(self._path):
            if not self._path.exists() or _is_torn(self._path):
                write_file(self._path, _written(self._lines))
            self._path.chmod(0o600)
            self._file = os.open(self._path, os.O_WRONLY | os.O_APPEND | getattr(os, "O_NOFOLLOW", 0))
        return self

    def __exit__(self, *_: object) -> None:
        if self._file is not None:
            os.close(self._file)
        kept = _latest(self._lines)
        if len(kept) < len(self._lines):
            write_file(self._path, _written(kept))

    def add(self, line: Line) -> None:
        """Append a line; it is on its way to the disk when this returns."""
        assert self._file is not None
        with told_plainly(self._path):
            _write_whole(self._file, _written([line]))
        self._lines.append(line)

    def holds(self, leaflet: Path, made_from: str) -> bool:
        """Whether that document was made from just this, and its file and those beside it are still what was made."""
        name = self.name_of(leaflet)
        line = next((line for line in reversed(self._lines) if line.get("file") == name), None)
        if line is None or line.get("state") != "made" or line.get("made_from") != made_from:
            return False
        beside = line.get("beside")
        others = beside if isinstance(beside, dict) else {}
        return _is_still(leaflet, line.get("sha256")) and all(
            _is_still(self._path.absolute().parent / name, found) for name, found in others.items()
        )

    def name_of(self, leaflet: Path) -> str:
        """A leaflet's name in the report: its way from the report's folder, so that both may move together."""
        return Path(os.path.relpath(leaflet.absolute(), self._path.absolute().parent)).as_posix()


def _is_still(file: Path, found: object) -> bool:
    """Whether the file is what was made."""
    if file.is_symlink() or not file.is_file():
        return False
    try:
        return sha256(file.read_bytes()) == found
    except OSError:
        return False


def sha256(data: bytes) -> str:
    """The SHA-256 of some bytes, in hexadecimal."""
    return hashlib.sha256(data).hexdigest()


def fault_lines(faults: Sequence[Fault]) -> list[dict[str, str]]:
    """Faults without what was found, and without any digit: neither names nor prescriptions."""
    return [{"field": fault.field, "accepted": re.sub(r"\d", "#", fault.accepted)} for fault in faults]


def read_report(path: Path) -> list[Line]:
    """The lines of a report that must be there, read only. RenderError if there is none, or something else."""
    if not path.exists():
        raise RenderError(f"there is no report {path}")
    return _read(path)


def _read(path: Path) -> list[Line]:
    """The lines of an earlier run. Half a line at the end is what a killed run leaves, and is dropped."""
    if path.is_symlink():
        raise RenderError(f"{path} is a symbolic link; nothing was written")
    if not path.exists():
        return []
    if not path.is_file():
        raise RenderError(f"{path} is no plain file; nothing was written")
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise RenderError(f"the report {path} cannot be read ({type(error).__name__}); nothing was written") from None
    *whole, torn = text.split("\n")
    if not torn.startswith(_BEGINS) and not _BEGINS.startswith(torn):
        raise RenderError(f"{path} holds something that is no report of this program; nothing was written")
    return [_parsed(line, path) for line in whole]


def _parsed(text: str, path: Path) -> Line:
    try:
        line = json.loads(text)
    except (ValueError, RecursionError):
        line = None
    if not isinstance(line, dict) or not _is_ours(line):
        raise RenderError(f"{path} holds something that is no report of this program; nothing was written")
    return line


def _is_ours(line: Line) -> bool:
    """Whether a line has what the lines of a report have, in the kinds that they have it in."""
    file = line.get("file", 0)
    return (
        line.get("state") in ("made", "refused")
        and isinstance(line.get("source"), str)
        and (file is None or isinstance(file, str))
    )


def _is_torn(path: Path) -> bool:
    """Whether the file ends inside a line."""
    data = path.read_bytes()
    return bool(data) and not data.endswith(b"\n")


def _latest(lines: Sequence[Line]) -> list[Line]:
    """The last line about each leaflet; an order that was refused when it was read is known by its source alone."""
    kept: dict[tuple[object, object], Line] = {}
    for line in lines:
        for key in ((line["source"], None), (line["source"], line.get("file"))):
            kept.pop(key, None)
        kept[line["source"], line.get("file")] = line
    return list(kept.values())


def _written(lines: Sequence[Line]) -> bytes:
    return "".join(json.dumps(line, ensure_ascii=False) + "\n" for line in lines).encode("utf-8", "backslashreplace")


def _write_whole(file: int, data: bytes) -> None:
    while data:
        data = data[os.write(file, data) :]
