"""A file is written whole or not at all, and for its owner only."""

from __future__ import annotations

import errno
import os
import stat
import tempfile
from pathlib import Path
from typing import Any, NoReturn

import pytest

from explainer.errors import RenderError
from explainer.render.files import write_file


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def failing(number: int) -> Any:
    def fail(*_: object, **__: object) -> NoReturn:
        raise OSError(number, os.strerror(number))

    return fail


def test_the_bytes_arrive_for_the_owner_alone_whatever_the_umask(tmp_path: Path) -> None:
    before = os.umask(0)
    try:
        write_file(tmp_path / "a" / "b" / "x.pdf", b"words")
    finally:
        os.umask(before)
    assert (tmp_path / "a" / "b" / "x.pdf").read_bytes() == b"words"
    assert mode(tmp_path / "a" / "b" / "x.pdf") == 0o600
    assert mode(tmp_path / "a") == mode(tmp_path / "a" / "b") == 0o700


def test_a_folder_that_is_there_keeps_its_mode(tmp_path: Path) -> None:
    tmp_path.chmod(0o755)
    write_file(tmp_path / "x.pdf", b"words")
    assert mode(tmp_path) == 0o755


def test_writing_again_replaces_the_file_and_closes_it_to_others(tmp_path: Path) -> None:
    path = tmp_path / "x.pdf"
    path.write_bytes(b"old")
    path.chmod(0o644)
    write_file(path, b"new")
    assert path.read_bytes() == b"new"
    assert mode(path) == 0o600
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("step", [(os, "fsync"), (Path, "replace")], ids=["on the way to the disk", "at the last step"])
@pytest.mark.parametrize(
    ("number", "words"),
    [(errno.ENOSPC, "the disk is full"), (errno.EACCES, "cannot be written to"), (errno.EIO, "error")],
)
def test_a_failure_leaves_the_old_file_whole_and_nothing_else(
    step: tuple[Any, str], number: int, words: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "x.pdf"
    path.write_bytes(b"old")
    monkeypatch.setattr(*step, failing(number))
    with pytest.raises(RenderError, match=words) as told:
        write_file(path, b"new")
    assert str(path) in str(told.value)
    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]


def test_an_interruption_leaves_nothing_half_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt(*_: object) -> NoReturn:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupt)
    with pytest.raises(KeyboardInterrupt):
        write_file(tmp_path / "x.pdf", b"new")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_may_not_be_written_to_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tempfile, "mkstemp", failing(errno.EROFS))
    with pytest.raises(RenderError, match="cannot be written to"):
        write_file(tmp_path / "x.pdf", b"new")


@pytest.mark.parametrize("there", [True, False])
def test_a_symbolic_link_is_refused_and_left_alone(there: bool, tmp_path: Path) -> None:
    target = tmp_path / "target.pdf"
    if there:
        target.write_bytes(b"old")
    link = tmp_path / "x.pdf"
    link.symlink_to(target)
    with pytest.raises(RenderError, match="symbolic link"):
        write_file(link, b"new")
    assert link.is_symlink()
    assert target.exists() == there
    if there:
        assert target.read_bytes() == b"old"


def test_a_folder_in_the_place_of_the_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "x.pdf").mkdir()
    with pytest.raises(RenderError, match="a folder is in the place"):
        write_file(tmp_path / "x.pdf", b"new")
    assert [path.name for path in tmp_path.iterdir()] == ["x.pdf"]


def test_a_file_in_the_place_of_the_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "out").write_bytes(b"")
    with pytest.raises(RenderError, match="a file in the place of a folder"):
        write_file(tmp_path / "out" / "x.pdf", b"new")
