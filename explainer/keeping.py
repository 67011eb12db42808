"""Files of this program's own, kept for the next run: written whole or not at all, and never trusted when damaged.

They can hold optical values of one wearer but no name; only their owner may read them, and after a month they are
thrown away. What cannot be read is made again, and what cannot be written is not kept; neither is an error.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import tempfile
import time
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

_KEPT_DAYS = 30


def keeping_folder(name: str) -> Path | None:
    """The user's cache folder for files of one kind, or None where the user has no home."""
    base = os.environ.get("XDG_CACHE_HOME", "")
    if Path(base).is_absolute():  # a relative one is to be ignored, says the XDG base directory specification
        return Path(base) / "explainer" / name
    try:
        return Path.home() / ".cache" / "explainer" / name
    except RuntimeError:
        return None


@cache
def _throw_away_old(folder: Path) -> None:
    """Clear a folder of what is older than a month, the first time that this process writes to it."""
    oldest = time.time() - _KEPT_DAYS * 24 * 3600
    with contextlib.suppress(OSError):
        for entry in os.scandir(folder):
            if entry.is_file(follow_symlinks=False) and entry.stat().st_mtime < oldest:
                Path(entry.path).unlink(missing_ok=True)


def read_kept(file: Path) -> dict[str, Any] | None:
    """The fields of a kept file; None when there is none or it was damaged."""
    try:
        checksum, _, written = file.read_text("utf-8").partition("\n")
        fields = json.loads(written) if checksum == _checksum(written) else None
    except (OSError, ValueError, RecursionError):
        return None
    return fields if isinstance(fields, dict) else None


def write_kept(file: Path, fields: Mapping[str, Any]) -> None:
    """Put the fields aside first, then rename, so that nobody ever reads half of them."""
    written = json.dumps(fields, sort_keys=True)
    try:
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        handle, aside = tempfile.mkstemp(dir=file.parent, prefix=".aside-")  # mode 0600 from the start
    except OSError:
        return
    _throw_away_old(file.parent)
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as open_file:
            open_file.write(f"{_checksum(written)}\n{written}")
        Path(aside).replace(file)
    except OSError:
        with contextlib.suppress(OSError):
            Path(aside).unlink()


def _checksum(written: str) -> str:
    return hashlib.sha256(written.encode()).hexdigest()
