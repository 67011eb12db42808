"""Files of this program's own, kept for the next run: written whole or not at all, and never trusted when damaged.

They can hold optical values of one wearer but no name; only their owner may read them. What cannot be read is made
again, and what cannot be written is not kept; neither is an error.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any


def keeping_folder(name: str) -> Path | None:
    """The user's cache folder for files of one kind, or None where the user has no home."""
    base = os.environ.get("XDG_CACHE_HOME", "")
    if Path(base).is_absolute():  # a relative one is to be ignored, says the XDG base directory specification
        return Path(base) / "explainer" / name
    try:
        return Path.home() / ".cache" / "explainer" / name
    except RuntimeError:
        return None


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
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as open_file:
            open_file.write(f"{_checksum(written)}\n{written}")
        Path(aside).replace(file)
    except OSError:
        with contextlib.suppress(OSError):
            Path(aside).unlink()


def _checksum(written: str) -> str:
    return hashlib.sha256(written.encode()).hexdigest()
