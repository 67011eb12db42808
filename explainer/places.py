"""Paths from outside: whatever stands there (a loop of links, a pipe, a folder that is closed to us), asking is safe.

The standard library's questions raise where a folder above is closed or a name is too long, and opening a pipe waits
for a writer. Here the answer is no, or an OSError that says why, and nothing ever waits.
"""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path


def is_plain_file(path: Path) -> bool:
    """Whether a plain file stands there that we may look at."""
    return _is(path, stat.S_ISREG)


def is_folder(path: Path) -> bool:
    """Whether a folder stands there that we may look at."""
    return _is(path, stat.S_ISDIR)


def is_there(path: Path) -> bool:
    """Whether anything stands there, were it a link to nowhere or a thing that we may not look at."""
    try:
        path.lstat()
    except OSError as error:
        return error.errno not in (errno.ENOENT, errno.ENOTDIR, errno.ENAMETOOLONG)
    return True


def real(path: Path) -> Path:
    """The file behind the links, to tell whether two paths are one file; a loop of links stands for itself."""
    return Path(os.path.realpath(path))


def plain_file(path: Path) -> int:
    """An open handle to read a plain file by; OSError says why not. A pipe or a device is never waited for."""
    if not stat.S_ISREG(path.stat().st_mode):
        raise OSError(errno.EINVAL, "no plain file")
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_NOCTTY", 0))
    if not stat.S_ISREG(os.fstat(handle).st_mode):  # put there since we looked
        os.close(handle)
        raise OSError(errno.EINVAL, "no plain file")
    return handle


def start_of(path: Path, most: int) -> bytes:
    """The first bytes of a plain file, or OSError."""
    with os.fdopen(plain_file(path), "rb") as stream:
        return stream.read(most)


def why_not(error: OSError) -> str:
    """Why a file could not be read, as what was found in its place."""
    if error.errno == errno.ENOENT:
        return "no such file"
    if error.errno == errno.EINVAL:
        return "no plain file"
    return f"a file that cannot be read ({error.strerror or type(error).__name__})"


def _is(path: Path, kind: object) -> bool:
    try:
        return bool(kind(path.stat().st_mode))  # type: ignore[operator]
    except OSError:
        return False
