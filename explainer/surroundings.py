"""What the machine's settings may not decide: libraries read some of them when they are loaded, and fail over odd ones.

Nothing on a leaflet depends on the time zone, on a window system or on a user's own settings of the plotter.
"""

from __future__ import annotations

import contextlib
import importlib
import importlib.util
import logging
import os
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

_PLOTTERS_SETTINGS = "matplotlibrc"


@contextlib.contextmanager
def environment(**values: str | None) -> Iterator[None]:
    """In the block these variables have these values, or are not set where the value is None."""
    before = {name: os.environ.get(name) for name in values}
    _set(values)
    try:
        yield
    finally:
        _set(before)


@cache
def dates() -> Any:
    """Babel's module of dates. Loaded, it looks for the local time zone, which only a time of day would need."""
    with environment(TZ=None):
        return importlib.import_module("babel.dates")


@cache
def plotter() -> Any:
    """Matplotlib with its own settings: no user's, none that lies in the folder we were called in, no window."""
    spec = importlib.util.find_spec("matplotlib")
    homes = (spec and spec.submodule_search_locations) or []
    own = next((str(Path(home) / "mpl-data" / _PLOTTERS_SETTINGS) for home in homes), None)
    logging.getLogger("matplotlib").setLevel(logging.CRITICAL)  # it tells where it could not keep a list of fonts
    with environment(MPLBACKEND=None, MATPLOTLIBRC=own), _elsewhere():
        return importlib.import_module("matplotlib")


@contextlib.contextmanager
def _elsewhere() -> Iterator[None]:
    """In another folder for the block, if settings of the plotter lie in this one: it would read those first."""
    if not Path(_PLOTTERS_SETTINGS).exists():
        yield
        return
    here = os.open(".", os.O_RDONLY)
    try:
        os.chdir("/")
        yield
    finally:
        os.chdir(here)
        os.close(here)


def _set(values: dict[str, str | None]) -> None:
    for name, value in values.items():
        if value is None:
            os.environ.pop(name, None)
        else:
            os.environ[name] = value
