"""Files that hold one order a line or a row, read a line at a time: a million orders need no more room than one."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import NoReturn

from explainer.errors import Fault, InputError
from explainer.places import plain_file, why_not

LONGEST_LINE = 200_000
_MARK = b"\xef\xbb\xbf"


def byte_lines(path: Path) -> Iterator[bytes]:
    """The lines of a file with their ends, without a byte order mark; a line too long comes cut, but too long still."""
    try:
        with os.fdopen(plain_file(path), "rb") as stream:
            if stream.read(len(_MARK)) != _MARK:
                stream.seek(0)
            while line := stream.readline(LONGEST_LINE + 1):
                yield line
                while len(line) > LONGEST_LINE and not line.endswith(b"\n"):
                    line = stream.readline(LONGEST_LINE + 1) or b"\n"
    except OSError as error:
        _refuse(path, why_not(error))


def text_of(line: bytes, *, encoding: str = "utf-8") -> str | Fault:
    """One line as text, or what is wrong with it."""
    if len(line) > LONGEST_LINE:
        return Fault("line", f"more than {LONGEST_LINE} bytes", f"at most {LONGEST_LINE} bytes")
    if b"\0" in line:
        return Fault("line", f"a NUL byte at {line.index(0)}", "a text in UTF-8")
    try:
        return line.decode(encoding)
    except UnicodeDecodeError as error:
        return Fault("line", f"a byte at {error.start} that is not {encoding.upper()}", f"a text in {encoding.upper()}")


def _refuse(path: Path, found: str) -> NoReturn:
    raise InputError(str(path), [Fault("file", found, "a readable file")])
