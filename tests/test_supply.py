"""Where the program's packages come from: fixed versions with hashes, and a set-up that says what it needs."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

HOME = Path(__file__).parents[1]
CI = HOME / ".ci"
LINE = re.compile(r"([a-z0-9-]+)==([\w.+!]+) --hash=sha256:[0-9a-f]{64}")


def locked(name: str) -> dict[str, str]:
    lines = (CI / "locked" / f"{name}.txt").read_text("utf-8").splitlines()
    assert lines[0].startswith("# for CPython ")
    found = [LINE.fullmatch(line) for line in lines[1:]]
    assert all(found), lines
    return {line[1]: line[2] for line in found if line}


@pytest.mark.parametrize("name", ["program", "test"])
def test_every_package_that_is_asked_for_is_locked_in_a_version_that_fits(name: str):
    project = tomllib.loads((HOME / "pyproject.toml").read_text("utf-8"))
    asked = [*project["project"]["dependencies"], *project["build-system"]["requires"]]
    asked += project["project"]["optional-dependencies"]["test"] if name == "test" else []
    versions = locked(name)

    for wanted in map(Requirement, asked):
        if wanted.marker is None or wanted.marker.evaluate():
            assert Version(versions[canonicalize_name(wanted.name)]) in wanted.specifier, wanted


def test_pip_itself_is_locked_and_the_lists_agree():
    assert set(locked("pip")) == {"pip"}
    program, everything = locked("program"), locked("test")

    assert {name: everything[name] for name in program} == program


def test_no_place_that_packages_come_from_is_named():
    for path in [*CI.glob("*"), *(CI / "locked").glob("*")]:
        if path.is_file():
            assert not re.search(r"https?://|index-url|find-links|--trusted-host", path.read_text("utf-8")), path


def fake(folder: Path, **commands: str) -> dict[str, str]:
    """A PATH that holds these commands and what the script itself needs, no more."""
    tools = folder / "bin"
    tools.mkdir()
    for name in ("bash", "dirname", "grep", "env", "cat"):
        (tools / name).symlink_to(shutil.which(name) or "")
    for name, body in commands.items():
        (tools / name.replace("_", "-")).write_text(f"#!/usr/bin/env bash\n{body}\n", "utf-8")
        (tools / name.replace("_", "-")).chmod(0o755)
    return {"PATH": str(tools), "HOME": str(folder)}


def test_without_root_and_sudo_the_packages_to_ask_for_are_named(tmp_path: Path):
    (tmp_path / "repo").mkdir()
    shutil.copytree(CI, tmp_path / "repo" / ".ci")
    surroundings = fake(tmp_path, id="echo 1000", dpkg_query="exit 1", python3="exit 0")
    done = subprocess.run(
        ["bash", str(tmp_path / "repo" / ".ci" / "setup"), "test"],
        env=surroundings,
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 1
    assert done.stderr.splitlines()[0] == "missing: libpangoft2-1.0-0 libharfbuzz-subset0 poppler-utils"
    assert "ask whoever looks after this machine" in done.stderr
    assert not (tmp_path / "repo" / ".venv").exists()


def test_the_setup_is_quiet_but_for_a_line_a_step_and_says_what_to_do_next(tmp_path: Path):
    """Every tool is a stand-in here; what is looked at is the order of the steps and what is told."""
    repo = tmp_path / "repo"
    repo.mkdir()
    shutil.copytree(CI, repo / ".ci")
    (repo / ".venv" / "bin").mkdir(parents=True)
    first = (CI / "locked" / "test.txt").read_text("utf-8").splitlines()[0].split(";")[0] + ";"
    python = f'#!/usr/bin/env bash\n[ "$1" = -c ] && echo "{first}" || echo "$@" >> "{tmp_path}/asked"\n'
    (repo / ".venv" / "bin" / "python").write_text(python, "utf-8")
    (repo / ".venv" / "bin" / "python").chmod(0o755)
    surroundings = fake(tmp_path, id="echo 0", dpkg_query="echo install ok", python3="exit 0")
    done = subprocess.run(
        ["bash", str(repo / ".ci" / "setup"), "test"], env=surroundings, capture_output=True, text=True, check=False
    )
    asked = (tmp_path / "asked").read_text("utf-8").splitlines()

    assert done.returncode == 0, done.stderr
    assert [line.split(":")[0] for line in done.stdout.splitlines()] == [
        "environment",
        "pip",
        "packages",
        "explainer",
        "ready; next",
    ]
    assert done.stderr == ""
    assert [line.split()[-1] for line in asked] == [".ci/locked/pip.txt", ".ci/locked/test.txt", "."]
    assert all("--require-hashes" in line for line in asked[:2])
    assert "--no-deps" in asked[2]
    assert os.environ["PATH"]
