"""Figures on disk: found again, drawn again when damaged, private, and read without the drawing library."""

from __future__ import annotations

import os
import random
import stat
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

from explainer import keeping
from explainer.errors import RenderError
from explainer.figures import cache, draw
from explainer.figures.cache import cached, default_folder, fingerprint
from explainer.figures.drawing import Drawing

VALUES: Mapping[str, object] = {"right_axis_deg": 172.0, "left_axis_deg": 8.0}


class Counting:
    """Draws, and counts how often."""

    def __init__(self) -> None:
        self.count = 0

    def __call__(self, name: str, values: Mapping[str, object]) -> Drawing:
        self.count += 1
        return draw(name, values)


@pytest.fixture
def counting() -> Counting:
    return Counting()


@pytest.fixture
def open_umask() -> Iterator[None]:
    before = os.umask(0)
    yield
    os.umask(before)


def test_a_kept_figure_is_the_drawn_one_and_is_not_drawn_again(tmp_path: Path, counting: Counting) -> None:
    first = cached("dial", counting, VALUES, tmp_path)
    again = cached("dial", counting, VALUES, tmp_path)
    assert again == first == draw("dial", VALUES)
    assert counting.count == 1


def test_other_values_another_name_or_other_source_are_another_figure(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    plain = fingerprint("dial", VALUES)
    assert fingerprint("dial", dict(reversed(list(VALUES.items())))) == plain
    assert fingerprint("dial", {**VALUES, "right_axis_deg": 8.0}) != plain
    assert fingerprint("dial", {"right_axis_deg": 8.0, "left_axis_deg": 172.0}) != plain
    assert fingerprint("ladder", VALUES) != plain
    monkeypatch.setattr(cache, "_source_hash", lambda: "changed")
    assert fingerprint("dial", VALUES) != plain


@pytest.mark.parametrize("damage", [b"", b"half", b"\xff\xfe", b"0" * 64 + b"\n{}"])
def test_a_damaged_file_is_drawn_again_and_mended(tmp_path: Path, counting: Counting, damage: bytes) -> None:
    first = cached("dial", counting, VALUES, tmp_path)
    (file,) = tmp_path.iterdir()
    good = file.read_bytes()
    file.write_bytes(damage)
    assert cached("dial", counting, VALUES, tmp_path) == first
    assert counting.count == 2
    assert file.read_bytes() == good


def test_one_changed_letter_is_damage(tmp_path: Path, counting: Counting) -> None:
    first = cached("dial", counting, VALUES, tmp_path)
    (file,) = tmp_path.iterdir()
    file.write_bytes(file.read_bytes().replace(b"172.0", b"127.0"))
    assert cached("dial", counting, VALUES, tmp_path) == first
    assert counting.count == 2


@pytest.mark.usefixtures("open_umask")
def test_the_folder_and_its_files_are_the_owners_alone(tmp_path: Path, counting: Counting) -> None:
    folder = tmp_path / "explainer" / "figures"
    cached("dial", counting, VALUES, folder)
    (file,) = folder.iterdir()
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


def test_nothing_is_left_aside(tmp_path: Path, counting: Counting) -> None:
    for axis in (10.0, 20.0, 30.0):
        cached("dial", counting, {**VALUES, "right_axis_deg": axis}, tmp_path)
    assert all(file.name.startswith("dial-") for file in tmp_path.iterdir())


def test_where_nothing_can_be_written_figures_are_just_drawn(tmp_path: Path, counting: Counting) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("not a folder")
    for _ in range(2):
        assert cached("dial", counting, VALUES, blocked / "figures") == draw("dial", VALUES)
    assert counting.count == 2


def test_a_rename_that_fails_leaves_nothing_behind(
    tmp_path: Path, counting: Counting, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(self: Path, target: Path) -> Path:
        raise OSError("disk full")

    monkeypatch.setattr(Path, "replace", refuse)
    cached("dial", counting, VALUES, tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_the_usual_folder_follows_the_xdg_rule(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """XDG Base Directory Specification: $XDG_CACHE_HOME, else ~/.cache; a relative path is to be ignored."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert default_folder() == tmp_path / "explainer" / "figures"
    monkeypatch.setenv("HOME", "/home/somebody")
    for useless in ("", "relative/path"):
        monkeypatch.setenv("XDG_CACHE_HOME", useless)
        assert default_folder() == Path("/home/somebody/.cache/explainer/figures")


def test_without_a_home_figures_are_just_drawn(monkeypatch: pytest.MonkeyPatch, counting: Counting) -> None:
    monkeypatch.setattr(cache, "default_folder", lambda: None)
    assert cached("dial", counting, VALUES) == draw("dial", VALUES)
    assert counting.count == 1


def test_names_and_values_that_cannot_stand_in_a_file_name_or_file_are_refused(
    tmp_path: Path, counting: Counting
) -> None:
    with pytest.raises(RenderError, match="no name"):
        cached("../dial", counting, VALUES, tmp_path)
    with pytest.raises(RenderError, match="written down"):
        cached("dial", counting, {"right_axis_deg": float("nan"), "left_axis_deg": object()}, tmp_path)


def test_a_kept_figure_is_read_without_the_drawing_library(tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path;"
        "from explainer.figures import draw; from explainer.figures.cache import cached;"
        f"cached('dial', draw, {dict(VALUES)!r}, Path(sys.argv[1]));"
        "print(bool({'matplotlib', 'numpy', 'PIL'} & set(sys.modules)))"
    )

    def run() -> str:
        return subprocess.run(
            [sys.executable, "-c", code, str(tmp_path)], capture_output=True, text=True, check=True
        ).stdout.strip()

    assert run() == "True"
    assert run() == "False"


def test_what_is_older_than_a_month_is_thrown_away(tmp_path: Path):
    """A kept file holds optical values of a wearer; the first writing of a run clears the folder of old ones."""
    folder = tmp_path / "of a run"
    folder.mkdir()
    for name, days in (("old.json", 31), ("young.json", 29)):
        (folder / name).write_text("{}")
        os.utime(folder / name, (time.time() - days * 86_400,) * 2)
    keeping.write_kept(folder / "new.json", "new", {})
    assert {path.name for path in folder.iterdir()} == {"young.json", "new.json"}


def test_a_file_copied_over_another_is_drawn_again(tmp_path: Path, counting: Counting) -> None:
    """Each file proves which figure it is: with another dial in its place, the page would show another axis."""
    first = cached("dial", counting, VALUES, tmp_path)
    (file,) = tmp_path.iterdir()
    cached("dial", counting, {**VALUES, "right_axis_deg": 12.0}, tmp_path)
    (other,) = set(tmp_path.iterdir()) - {file}
    file.write_bytes(other.read_bytes())
    assert cached("dial", counting, VALUES, tmp_path) == first
    assert counting.count == 3


def test_any_flipped_bit_is_damage(tmp_path: Path, counting: Counting) -> None:
    first = cached("dial", counting, VALUES, tmp_path)
    (file,) = tmp_path.iterdir()
    good = file.read_bytes()
    draw_bits = random.Random(3107)
    for _ in range(300):
        place, bit = draw_bits.randrange(len(good)), 1 << draw_bits.randrange(8)
        file.write_bytes(good[:place] + bytes([good[place] ^ bit]) + good[place + 1 :])
        assert cache._read(file, file.stem) is None, f"byte {place}, bit {bit}"
    assert cached("dial", counting, VALUES, tmp_path) == first


@pytest.mark.parametrize("mode", [0o777, 0o770, 0o722])
def test_a_folder_that_others_may_write_to_is_not_used(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, mode: int
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    ours = tmp_path / "explainer"
    for folder in (ours, ours / "figures"):
        folder.mkdir(0o700)
    assert default_folder() == ours / "figures"
    for open_one in (ours, ours / "figures"):
        open_one.chmod(mode)
        assert default_folder() is None
        open_one.chmod(0o700)


def test_a_folder_of_somebody_else_or_a_link_is_not_used(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    (tmp_path / "elsewhere").mkdir(0o700)
    (tmp_path / "explainer").symlink_to(tmp_path / "elsewhere")
    assert default_folder() is None
    (tmp_path / "explainer").unlink()
    (tmp_path / "explainer").mkdir(0o700)
    monkeypatch.setattr(os, "geteuid", lambda: (tmp_path / "explainer").stat().st_uid + 1)
    assert default_folder() is None
