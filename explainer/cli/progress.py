"""One line at the foot of the terminal while a long run goes on: how many, how fast, how long still."""

from __future__ import annotations

import sys
import time

from explainer.cli.streams import OutputLost, say_path, tell, write_error

_CLEAR = "\r\x1b[K"
_BAR = 24


class Progress:
    """Results and messages, and below them the bar: only on a terminal, and for more than one order."""

    def __init__(self, total: int) -> None:
        self._total, self._done, self._made = total, 0, 0
        self._begun = time.monotonic()
        self._shown = total > 1 and sys.stderr is not None and sys.stderr.isatty()
        self.lost = False

    def __enter__(self) -> Progress:
        self._draw()
        return self

    def __exit__(self, *_: object) -> None:
        self._clear()

    def step(self, *, made: bool) -> None:
        """One order more is done with; those that were made tell the rate."""
        self._done += 1
        self._made += made
        self._draw()

    def result(self, path: object) -> None:
        """The path of a leaflet, on standard output. When that takes no more, the run goes on and says so once."""
        self._clear()
        if self.lost:
            return
        try:
            say_path(path)
        except OutputLost as error:
            self.lost = True
            self.tell(f"{error}; the leaflets are made all the same")

    def tell(self, message: str) -> None:
        """A line on standard error."""
        self._clear()
        tell(message)

    def line(self, seconds: float) -> str:
        """The bar after so many seconds."""
        full = _BAR * self._done // max(self._total, 1)
        shown = f"[{'#' * full}{'.' * (_BAR - full)}] {self._done} of {self._total}"
        if not self._made or seconds <= 0:
            return shown
        rate = self._made / seconds
        left = round((self._total - self._done) / rate)
        return f"{shown}  {rate:.1f} a second  {left // 60}:{left % 60:02d} left"

    def _draw(self) -> None:
        if self._shown:
            write_error(_CLEAR + self.line(time.monotonic() - self._begun), nl=False)

    def _clear(self) -> None:
        if self._shown:
            write_error(_CLEAR, nl=False)
