"""The PDF engine: imported once and late, with our own fonts and no others.

Four things happen only here. The import of the engine is kept from starting a compiler: `ctypes.util.find_library`
runs gcc and ldconfig for every name it is asked, and the engine asks some fifty times. The engine is shown a font
configuration that lists the leaflet's folder alone, so that every machine sets the same page. A missing system
library is named together with the command that installs it. And what comes into play only without one is loaded late.
"""

from __future__ import annotations

import contextlib
import ctypes.util
import importlib
import io
import os
import re
import sys
import tempfile
import warnings
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from html import escape
from pathlib import Path
from types import ModuleType
from typing import Any

from explainer import resources
from explainer.errors import RenderError
from explainer.render.press import patches

INSTALL = "sudo apt-get install --no-install-recommends libpangoft2-1.0-0 libharfbuzz-subset0"

# What the engine opens: name without "lib", file on Linux, Debian's package. Longer names first: the first fit counts.
_LIBRARIES = (
    ("gobject-2.0", "libgobject-2.0.so.0", "libglib2.0-0"),
    ("pangoft2-1.0", "libpangoft2-1.0.so.0", "libpangoft2-1.0-0"),
    ("pango-1.0", "libpango-1.0.so.0", "libpango-1.0-0"),
    ("harfbuzz-subset", "libharfbuzz-subset.so.0", "libharfbuzz-subset0"),
    ("harfbuzz-vector", "libharfbuzz-vector.so.0", "libharfbuzz-vector0"),
    ("harfbuzz", "libharfbuzz.so.0", "libharfbuzz0b"),
    ("fontconfig", "libfontconfig.so.1", "libfontconfig1"),
)

FACES = tuple(f"Leaflet{script}-{weight}.ttf" for script in ("Sans", "Arabic") for weight in ("Regular", "Bold"))

# What the engine subsets fonts with if it finds no libharfbuzz-subset, and variable fonts.
_FALLBACKS = ("fontTools.subset", "fontTools.varLib", "fontTools.varLib.instancer")

_FONTS_CONF = """<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig>
  <dir>{fonts}</dir>
  <cachedir>{cache}</cachedir>
</fontconfig>
"""


@dataclass(frozen=True, slots=True)
class Engine:
    """The loaded engine: its package, and the one font configuration of this process."""

    package: Any
    fonts: Any
    subsets_quickly: bool
    repaired: bool


def font_folder() -> Path:
    """Where the leaflet's own font files are."""
    return resources.root("templates") / "leaflet" / "fonts"


@lru_cache(maxsize=1)
def engine() -> Engine:
    """The engine, loaded on the first call; RenderError says what to install if it cannot be."""
    folder = font_folder().resolve()
    for name in FACES:
        _see_font(folder / name)
    with _only_fonts_of(folder):
        package = _imported()
        from weasyprint.text import ffi
        from weasyprint.text.fonts import FontConfiguration

        return Engine(
            package,
            FontConfiguration(),
            subsets_quickly=ffi.harfbuzz_subset is not None,
            repaired=patches.repair(package.__version__),
        )


def _see_font(path: Path) -> None:
    """A font that is missing or damaged would be replaced in silence by another one, with other letters."""
    try:
        with path.open("rb") as file:
            sound = file.read(4) in (b"\x00\x01\x00\x00", b"OTTO")
    except OSError as error:
        raise RenderError(f"cannot read the font {path}: {error.strerror}; install explainer again") from None
    if not sound:
        raise RenderError(f"the font {path} is damaged; install explainer again")


def engine_notes() -> list[str]:
    """What the person at the machine should know about the engine, one sentence each; empty when all is well."""
    notes = []
    if not engine().subsets_quickly:
        notes.append(
            "the system library libharfbuzz-subset is missing, so each PDF takes seconds longer; "
            f"install Debian's package libharfbuzz-subset0: {INSTALL}"
        )
    if not engine().repaired:
        notes.append(
            "this version of weasyprint is untried here: a line may break early, and screen readers are told "
            "neither the language of a passage nor the order of Arabic words; "
            f"run: pip install weasyprint=={patches.TRIED_WITH}"
        )
    return notes


def known_library(name: str) -> str | None:
    """The file of a library the engine asks for under one of its many names; None for any other library."""
    bare = name.removeprefix("lib")
    for stem, file, _ in _LIBRARIES:
        if re.fullmatch(re.escape(stem) + r"(?:[-.].*)?", bare):
            return file
    return None


def _imported() -> Any:
    """The engine's package. Where the quick look-up of libraries fails, the system's own is tried before giving up."""
    try:
        with _quick_look_up(), _quiet_import(), _late_fallbacks():
            import weasyprint
    except ModuleNotFoundError as error:
        raise RenderError(f"the PDF engine is not installed ({error}); run: pip install weasyprint") from error
    except OSError:
        try:
            with _quiet_import():
                import weasyprint
        except OSError as error:
            raise RenderError(_missing_library(str(error))) from error
    return weasyprint


def _missing_library(message: str) -> str:
    for stem, _, package in _LIBRARIES:
        if re.search(rf"\b(?:lib)?{re.escape(stem)}(?![a-z])", message):
            return f"the PDF engine needs Debian's package {package}, which is not installed; run: {INSTALL}"
    return f"the PDF engine cannot load a system library ({message}); run: {INSTALL}"


@contextlib.contextmanager
def _quick_look_up() -> Iterator[None]:
    """Answer the engine's known names from the table while it is imported; ask the system for all others."""
    if sys.platform != "linux":
        yield
        return
    real: Callable[[str], str | None] = ctypes.util.find_library

    def find(name: str) -> str | None:
        return known_library(name) or real(name)

    setattr(ctypes.util, "find_library", find)  # noqa: B010  (a plain assignment is refused by the type checker)
    try:
        yield
    finally:
        setattr(ctypes.util, "find_library", real)  # noqa: B010


class _Late(ModuleType):
    """Stands for a module until something in it is called."""

    def __getattr__(self, name: str) -> Any:
        if name == "__path__":  # it may be asked for what is in it
            return []
        if name.startswith("__"):
            raise AttributeError(name)

        def called(*given: Any, **named: Any) -> Any:
            return getattr(importlib.import_module(self.__name__), name)(*given, **named)

        return called


@contextlib.contextmanager
def _late_fallbacks() -> Iterator[None]:
    """Leave out what only comes into play where a system library is missing; it is a third of the engine's import."""
    late = {name: _Late(name) for name in _FALLBACKS if name not in sys.modules}
    sys.modules.update(late)
    try:
        yield
    finally:
        for name, stand_in in late.items():
            if sys.modules.get(name) is stand_in:
                del sys.modules[name]


@contextlib.contextmanager
def _quiet_import() -> Iterator[None]:
    """Keep stdout for results and turn the engine's one warning of missing libraries into `engine_notes`."""
    with contextlib.redirect_stdout(io.StringIO()), warnings.catch_warnings():
        warnings.filterwarnings("ignore", message="HarfBuzz-Subset", category=DeprecationWarning)
        yield


@contextlib.contextmanager
def _only_fonts_of(folder: Path) -> Iterator[None]:
    """Show fontconfig our folder and no other, through a configuration that is gone once it was read."""
    before = os.environ.get("FONTCONFIG_FILE")
    with tempfile.TemporaryDirectory(prefix="explainer-") as private:
        conf = Path(private) / "fonts.conf"
        cache = Path(private) / "cache"
        conf.write_text(_FONTS_CONF.format(fonts=escape(str(folder)), cache=escape(str(cache))), "utf-8")
        os.environ["FONTCONFIG_FILE"] = str(conf)
        try:
            yield
        finally:
            if before is None:
                del os.environ["FONTCONFIG_FILE"]
            else:
                os.environ["FONTCONFIG_FILE"] = before
