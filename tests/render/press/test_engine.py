"""The engine comes late, starts nothing, sees only our fonts, and says in plain words what is missing."""

from __future__ import annotations

import ctypes.util
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from explainer.render.press import engine as module
from explainer.render.press.engine import FACES, INSTALL, engine, engine_notes, font_folder, known_library

ROOT = Path(__file__).parents[3]
linux_only = pytest.mark.skipif(sys.platform != "linux", reason="the quick look-up of libraries is for Linux")


def run(program: str, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        check=False,
        cwd=ROOT,
        env={**os.environ, **environment},
    )


WITHOUT = """
import cffi
real = cffi.FFI.dlopen
def dlopen(self, name, flags=0):
    if "{name}" in str(name):
        raise OSError("cannot load library " + repr(name))
    return real(self, name, flags)
cffi.FFI.dlopen = dlopen
"""

PAGE = """
from datetime import date
from explainer.render.press.pdf import write_pdf
made = write_pdf("<html lang=en><body><p>x", assets={}, stylesheets=[], title="t", language="en", direction="ltr",
                 created=date(2026, 11, 20), identifier="t")
"""


@linux_only
def test_the_import_starts_no_other_program() -> None:
    """Python raises an audit event for each program it starts (PEP 578)."""
    told = run(
        "import sys\nstarted = []\n"
        "sys.addaudithook(lambda event, args: started.append(args) if event in ('subprocess.Popen', 'os.posix_spawn', "
        "'os.exec', 'os.fork', 'os.system') else None)\n"
        "from explainer.render.press.engine import engine\nengine()\nprint(len(started))"
    )
    assert told.stdout.strip() == "0", told.stderr


def test_the_modules_of_this_package_do_not_bring_the_engine_in() -> None:
    told = run("import sys, explainer.render.press.pdf, explainer.render.files\nprint('weasyprint' in sys.modules)")
    assert told.stdout.strip() == "False", told.stderr


def test_a_missing_library_is_named_with_the_command_that_installs_it() -> None:
    told = run(
        WITHOUT.format(name="pangoft2")
        + "from explainer.errors import RenderError\nfrom explainer.render.press.engine import engine\n"
        "try:\n    engine()\nexcept RenderError as error:\n    print(error)"
    )
    assert told.stdout.count("\n") == 1, "one message, and nothing else on stdout"
    assert "libpangoft2-1.0-0" in told.stdout
    assert INSTALL in told.stdout


def test_without_the_quick_subsetter_the_page_is_made_and_a_note_says_what_to_install() -> None:
    told = run(
        WITHOUT.format(name="harfbuzz-subset")
        + PAGE
        + "from explainer.render.press.engine import engine_notes\nprint(made.pages, made.log, engine_notes())"
    )
    assert told.stdout.startswith("1 () ["), told.stderr
    assert "libharfbuzz-subset0" in told.stdout
    assert told.stderr == ""


def test_another_version_of_the_engine_is_noted(monkeypatch: pytest.MonkeyPatch) -> None:
    loaded = engine()
    odd = module.Engine(loaded.package, loaded.fonts, subsets_quickly=True, repaired=False)
    monkeypatch.setattr(module, "engine", lambda: odd)
    assert len(engine_notes()) == 1


def test_the_environment_is_left_as_it_was() -> None:
    told = run(
        "import os\nfrom explainer.render.press.engine import engine\nengine()\nprint(os.environ['FONTCONFIG_FILE'])",
        FONTCONFIG_FILE="/nowhere/fonts.conf",
    )
    assert told.stdout.strip() == "/nowhere/fonts.conf", told.stderr


def test_the_look_up_of_libraries_is_left_as_it_was() -> None:
    engine()
    assert ctypes.util.find_library.__module__ == "ctypes.util"


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("libgobject-2.0-0", "libgobject-2.0.so.0"),
        ("gobject-2.0", "libgobject-2.0.so.0"),
        ("libpango-1.0-0", "libpango-1.0.so.0"),
        ("pangoft2-1.0", "libpangoft2-1.0.so.0"),
        ("harfbuzz", "libharfbuzz.so.0"),
        ("libharfbuzz-subset-0", "libharfbuzz-subset.so.0"),
        ("libfontconfig.1.dylib", "libfontconfig.so.1"),
        ("c", None),
        ("harfbuzzy", None),
        ("libcairo-2", None),
    ],
)
def test_only_the_engines_own_libraries_are_answered_from_the_table(name: str, file: str | None) -> None:
    """The file names are the ones of the libraries' Debian packages."""
    assert known_library(name) == file


def test_the_fonts_stay_small_and_carry_their_licence() -> None:
    files = list(font_folder().iterdir())
    assert sum(file.stat().st_size for file in files) < 900_000
    licence = (font_folder() / "OFL.txt").read_text("utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence


@pytest.mark.parametrize("face", FACES)
def test_all_digits_and_signs_of_a_face_have_one_width_without_being_asked(face: str) -> None:
    """Columns of figures line up by the font alone: each use of a font feature costs the engine memory for good."""
    font = TTFont(font_folder() / face)
    widths = {font["hmtx"][font.getBestCmap()[ord(digit)]][0] for digit in "0123456789"}
    assert len(widths) == 1
    for style in (font_folder().parent).glob("*.css"):
        assert not re.search(r"font-(variant|feature|kerning)", style.read_text("utf-8"))


def test_the_slow_subsetter_is_loaded_when_it_is_called_and_not_before() -> None:
    program = (
        "from explainer.render.press.engine import engine; import sys; engine()\n"
        "slow = [name for name in sys.modules if name.startswith(('fontTools.subset', 'fontTools.varLib'))]\n"
        "from weasyprint.pdf import fonts\n"
        "print(slow, fonts.subset.Options().__class__.__module__)\n"
    )
    assert run(program).stdout.split() == ["[]", "fontTools.subset"]
