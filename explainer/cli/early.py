"""Ctrl-C while the program is still being loaded: a word and exit 130, where the interpreter would show its insides.

This module is loaded first and itself loads nothing: of `signal` only the part that the interpreter holds already.
"""

from __future__ import annotations

import _signal as signal  # type: ignore[import-not-found, unused-ignore]
import os

STOPPED = 130


class StoppedQuietly:
    """In its block Ctrl-C ends the process at once; nothing has been begun yet that could be left half done."""

    def __init__(self) -> None:
        self._changed = False

    def __enter__(self) -> None:
        try:
            if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
                signal.signal(signal.SIGINT, _stop)
                self._changed = True
        except ValueError:  # in another thread than the main one, where nobody may change it
            return

    def __exit__(self, *_: object) -> None:
        if self._changed:
            signal.signal(signal.SIGINT, signal.default_int_handler)


def _stop(*_: object) -> None:
    os.write(2, b"stopped\n")
    os._exit(STOPPED)
