"""Files of this program's own, kept for the next run: written whole or not at all, and believed only if they prove it.

They can hold optical values of one wearer but no name; only their owner may read them, and after a month they are
thrown away. A kept file carries the key that it stands for and a checksum over both, so that a damaged file, and one
copied over another, is made again. A folder that is not ours, or that others may write to, is not used at all. What
cannot be written is not kept; that is slower and no error. Nothing kept is ever run as code.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import stat
import tempfile
import time
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from explainer.places import start_of

_KEPT_DAYS = 30
_LARGEST = 50_000_000


def keeping_folder(name: str) -> Path | None:
    """The user's cache folder for files of one kind; None where the user has no home, or others could write to it."""
    base = os.environ.get("XDG_CACHE_HOME", "")
    if not Path(base).is_absolute():  # a relative one is to be ignored, says the XDG base directory specification
        try:
            base = str(Path.home() / ".cache")
        except RuntimeError:
            return None
    ours = Path(base) / "explainer"
    return ours / name if _may_be_used(ours) and _may_be_used(ours / name) else None


def _may_be_used(folder: Path) -> bool:
    """Whether nobody else could have put files there: a folder of ours that no one else may write to, or none yet."""
    try:
        found = folder.lstat()
    except FileNotFoundError:
        return True
    except OSError:
        return False
    owner = getattr(os, "geteuid", lambda: found.st_uid)()
    return stat.S_ISDIR(found.st_mode) and found.st_uid == owner and not found.st_mode & 0o022


@cache
def _throw_away_old(folder: Path) -> None:
    """Clear a folder of what is older than a month, the first time that this process writes to it."""
    oldest = time.time() - _KEPT_DAYS * 24 * 3600
    with contextlib.suppress(OSError):
        for entry in os.scandir(folder):
            if entry.is_file(follow_symlinks=False) and entry.stat().st_mtime < oldest:
                Path(entry.path).unlink(missing_ok=True)


def read_kept(file: Path, key: str) -> dict[str, Any] | None:
    """The fields kept under this key; None when there are none, when they were damaged or stand for another key."""
    try:
        if file.is_symlink():  # we make none
            return None
        checksum, _, rest = start_of(file, _LARGEST).decode("utf-8").partition("\n")
        standing_for, _, written = rest.partition("\n")
        proved = standing_for == key and checksum == _checksum(key, written)
        fields = json.loads(written) if proved else None
    except (OSError, ValueError, RecursionError):
        return None
    return fields if isinstance(fields, dict) else None


def write_kept(file: Path, key: str, fields: Mapping[str, Any]) -> None:
    """Put the fields aside first, then rename, so that nobody ever reads half of them. The key is one line."""
    written = json.dumps(fields, sort_keys=True)
    try:
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        handle, aside = tempfile.mkstemp(dir=file.parent, prefix=".aside-")  # mode 0600 from the start
    except OSError:
        return
    _throw_away_old(file.parent)
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as open_file:
            open_file.write(f"{_checksum(key, written)}\n{key}\n{written}")
        Path(aside).replace(file)
    except OSError:
        with contextlib.suppress(OSError):
            Path(aside).unlink()


def _checksum(key: str, written: str) -> str:
    return hashlib.sha256(f"{key}\n{written}".encode()).hexdigest()
