"""The program round its commands: streams made ready, and every way out a plain sentence with its exit code."""

from __future__ import annotations

import contextlib
import errno
import sys
from collections.abc import Sequence
from typing import Any

import click

from explainer.cli.early import STOPPED
from explainer.cli.streams import ready_streams, tell
from explainer.errors import place_of, visible


class Program(click.Group):
    """A group of commands that never shows its insides, whatever happens while it starts, runs or reads arguments."""

    def main(self, args: Sequence[str] | None = None, *, standalone_mode: bool = True, **more: Any) -> Any:  # type: ignore[override]
        """Runs the command line; ends with its exit code."""
        ready_streams()
        if not standalone_mode:
            return super().main(args, standalone_mode=False, **more)
        try:
            code = super().main(args, standalone_mode=False, **more)
        except click.ClickException as wrong:
            vars(wrong)["message"] = visible(wrong.message)  # it may repeat the name of a file
            with contextlib.suppress(OSError, ValueError):
                wrong.show()
            code = wrong.exit_code
        except (click.Abort, KeyboardInterrupt):
            tell("stopped")
            code = STOPPED
        except Exception as error:
            tell(in_words(error))
            code = 1
        return sys.exit(code or 0)


def in_words(error: Exception) -> str:
    """An error that no command turned into words: the machine's by its reason, one that nobody foresaw by its place."""
    if isinstance(error, MemoryError):
        return "there is not enough memory; what is made stays"
    if isinstance(error, OSError) and error.errno in (errno.EMFILE, errno.ENFILE):
        return "this process may open too few files (see ulimit -n); what is made stays"
    if isinstance(error, OSError) and error.strerror:
        name = f"{error.filename}: " if error.filename else ""
        return f"{name}{error.strerror}; what is made stays"
    return f"the program failed ({place_of(error)}); please report this"
