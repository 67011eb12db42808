"""Bytes to a file: whole or not at all, and for the owner's eyes only.

A run that is killed in the middle of a file leaves it aside, under a name that no leaflet has; the next run into the
same folder takes it away.
"""

from __future__ import annotations

import contextlib
import errno
import os
import re
import stat
import tempfile
from collections.abc import Iterator
from pathlib import Path

from explainer.errors import RenderError

_ASIDE = re.compile(r"\.explainer-(\d+)-\w+\.part")


class DiskError(RenderError):
    """The disk takes no more files: this one is not the last that would fail."""


def ready_folder(folder: Path) -> None:
    """Make the folder, see that it takes files, and clear away what runs that were killed have left in it."""
    with told_plainly(folder):
        _make_folder(folder)
        _write_aside(folder / "probe", b"").unlink()
        for path in folder.iterdir():
            found = _ASIDE.fullmatch(path.name)
            if found and not _is_running(int(found[1])):
                _clear_away(path)


def _clear_away(path: Path) -> None:
    """Take away a file of ours; what belongs to somebody else in a shared folder stays, and is no fault."""
    with contextlib.suppress(OSError):
        there = path.lstat()
        if stat.S_ISREG(there.st_mode) and there.st_uid == getattr(os, "geteuid", lambda: there.st_uid)():
            path.unlink()


def _is_running(process: int) -> bool:
    """Whether there is a process of that number other than this one."""
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return process != os.getpid()


def write_file(path: Path, data: bytes) -> None:
    """Write `data` to `path`: aside in the same folder, to the disk, then renamed; mode 0600.

    Folders that are missing are made for the owner alone (0700). A symbolic link is never written through or replaced.
    What was at `path` before stays whole until the new file is whole.
    """
    if path.is_symlink():
        raise RenderError(f"{path} is a symbolic link; nothing was written")
    with told_plainly(path):
        _make_folder(path.parent)
        aside = _write_aside(path, data)
        try:
            aside.replace(path)
        except BaseException:
            aside.unlink(missing_ok=True)
            raise
        _settle(path.parent)


def _make_folder(folder: Path) -> None:
    """Make the folder and those above it that are missing; Path.mkdir would open the upper ones to others."""
    missing = []
    while not folder.exists():
        missing.append(folder)
        folder = folder.parent
    for step in reversed(missing):
        step.mkdir(mode=0o700, exist_ok=True)


def _write_aside(path: Path, data: bytes) -> Path:
    """The data in a new file beside `path`, on the disk. mkstemp makes it with mode 0600 whatever the umask."""
    handle, name = tempfile.mkstemp(prefix=f".explainer-{os.getpid()}-", suffix=".part", dir=path.parent)
    aside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
    except BaseException:
        aside.unlink(missing_ok=True)
        raise
    return aside


def _settle(folder: Path) -> None:
    """Bring the renaming itself to the disk, where the system can do that for a folder."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


@contextlib.contextmanager
def told_plainly(path: Path) -> Iterator[None]:
    """Turn the system's errors into ours, in words a person can act on."""
    try:
        yield
    except OSError as error:
        kind: type[RenderError] = DiskError
        if error.errno in (errno.ENOSPC, errno.EDQUOT):
            reason = "the disk is full"
        elif error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
            reason = "the folder cannot be written to"
        elif error.errno in (errno.EISDIR, errno.ENOTDIR, errno.EEXIST, errno.ENOTEMPTY):
            kind, reason = RenderError, "a folder is in the place of the file, or a file in the place of a folder"
        else:
            reason = error.strerror or type(error).__name__
        raise kind(f"cannot write {path}: {reason}; nothing was written") from error
