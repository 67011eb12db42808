"""The standard streams: they may be closed, full, or unable to write a minus sign, and nothing may be lost in silence.

Results go through `say`, messages through `tell`. What cannot be written in the stream's alphabet is written as its
code, so that no sign goes missing; JSON escapes it in its own way.
"""

from __future__ import annotations

import contextlib
import errno
import json
import os
import re
import sys

import click

from explainer.errors import RenderError, visible


class OutputLost(RenderError):  # noqa: N818
    """Standard output takes no more; what was to stand there cannot be told."""


def ready_streams() -> None:
    """At the start: no stream fails over a letter, and no file that is opened later takes a closed stream's place."""
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            with contextlib.suppress(OSError):
                os.open(os.devnull, os.O_RDWR)  # takes the lowest number that is free: this one
    for stream in (sys.stdin, sys.stdout, sys.stderr):
        with contextlib.suppress(AttributeError, ValueError, OSError):
            stream.reconfigure(errors="backslashreplace")  # type: ignore[union-attr]


def say(words: object, *, nl: bool = True) -> None:
    """A result on standard output. OutputLost when it cannot be written."""
    try:
        if sys.stdout is None:
            raise OSError(errno.EBADF, "closed")
        click.echo(words, nl=nl)
    except (OSError, ValueError) as error:
        _let_go(1)
        raise OutputLost(f"standard output cannot be written: {_reason(error)}") from None


def say_json(text: str) -> None:
    """A result in JSON; letters that the stream lacks are escaped as JSON does it, so that it stays JSON."""
    if (getattr(sys.stdout, "encoding", None) or "").lower().replace("-", "") != "utf8":
        text = re.sub(r"[^\x00-\x7f]", lambda found: json.dumps(found[0])[1:-1], text)
    say(text)


def say_path(path: object) -> None:
    """The path of a file that was made, with nothing in it that a terminal would obey."""
    say(visible(str(path)))


def tell(message: str, *, nl: bool = True) -> None:
    """A message on standard error, line by line with nothing in it that a terminal would obey."""
    write_error("\n".join(map(visible, message.split("\n"))), nl=nl)


def write_error(text: str, *, nl: bool = True) -> None:
    """Text as it is on standard error. When that takes nothing, only the exit code is left to tell."""
    try:
        click.echo(text, err=True, nl=nl)
    except (OSError, ValueError):
        _let_go(2)


def _reason(error: Exception) -> str:
    number = getattr(error, "errno", None)
    if number == errno.EPIPE:
        return "nobody reads it any more"
    if number in (errno.ENOSPC, errno.EDQUOT):
        return "the disk is full"
    return "it is closed" if number in (errno.EBADF, None) else getattr(error, "strerror", "") or type(error).__name__


def _let_go(number: int) -> None:
    """Turn a stream that failed to nowhere, or the interpreter would fail over what is left in it when it ends."""
    stream = sys.stdout if number == 1 else sys.stderr
    with contextlib.suppress(OSError, ValueError, AttributeError):
        if stream.fileno() == number:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, number)
            os.close(nowhere)
