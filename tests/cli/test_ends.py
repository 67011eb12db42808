"""The program's other ends: streams, surroundings, signals. Each odd one gives a plain sentence and its exit code."""

from __future__ import annotations

import json
import os
import resource
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from many import EXAMPLES, HOME

ORDER = EXAMPLES / "FL-3118.toml"


def program(
    *words: object, before: str = "", cwd: Path = HOME, **surroundings: str
) -> subprocess.CompletedProcess[str]:
    """The program in a shell of its own, so that its streams can be closed; never a traceback."""
    command = " ".join(["exec", f"'{sys.executable}'", "-m", "explainer", *(f"'{word}'" for word in words), before])
    done = subprocess.run(
        ["bash", "-c", command],
        cwd=cwd,
        env={**os.environ, "PYTHONPATH": str(HOME), **surroundings},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr
    return done


@pytest.mark.slow
@pytest.mark.parametrize(
    "words", [("check", ORDER), ("sources",), ("topics", "--json"), ("claims", ORDER), ("--help",)]
)
@pytest.mark.parametrize("stream", [">/dev/full", ">&-"])
def test_a_result_that_cannot_be_told_is_a_failure(words: tuple[object, ...], stream: str):
    done = program(*words, before=stream)

    if words == ("--help",) and stream == ">&-":
        assert done.returncode == 0  # nobody asked for an answer
        return
    assert done.returncode == 1
    assert len(done.stderr.splitlines()) == 1, done.stderr


@pytest.mark.slow
@pytest.mark.parametrize(("stream", "told"), [(">/dev/full", "the disk is full"), (">&-", "it is closed")])
def test_leaflets_are_made_even_if_nobody_can_be_told(tmp_path: Path, stream: str, told: str):
    done = program("make", ORDER, EXAMPLES / "FL-3107.toml", "-o", tmp_path, "--workers", 1, before=stream)

    assert done.returncode == 1
    assert f"standard output cannot be written: {told}; the leaflets are made all the same" in done.stderr
    assert len(list(tmp_path.glob("*.pdf"))) == 2


def test_a_reader_that_goes_away_is_no_fault_of_the_insides():
    done = program("sources", before="| head -1")

    assert len(done.stdout.splitlines()) == 1


@pytest.mark.slow
def test_nothing_open_at_all_still_makes_the_leaflet(tmp_path: Path):
    """A file opened later must not take the number of a closed stream, or messages would be written into it."""
    program("make", ORDER, "-o", tmp_path, before="<&- >&- 2>&-")
    (leaflet,) = tmp_path.glob("*.pdf")

    assert leaflet.read_bytes().startswith(b"%PDF")
    assert b"FL-3118: no bench readings" not in leaflet.read_bytes()


def test_no_sign_is_lost_in_a_poor_alphabet():
    done = program("claims", ORDER, PYTHONIOENCODING="ascii")
    rich = program("claims", ORDER, PYTHONIOENCODING="utf-8")

    assert done.returncode == 0
    assert done.stdout.isascii()
    assert done.stdout.encode().decode("unicode_escape") == rich.stdout


@pytest.mark.slow
@pytest.mark.parametrize("words", [("claims", ORDER, "--json"), ("check", ORDER, "--json"), ("sources", "--json")])
def test_json_stays_json_in_a_poor_alphabet(words: tuple[object, ...]):
    poor = program(*words, PYTHONIOENCODING="latin-1")
    rich = program(*words, PYTHONIOENCODING="utf-8")

    assert poor.stdout.isascii()
    assert json.loads(poor.stdout) == json.loads(rich.stdout)


@pytest.mark.slow
@pytest.mark.parametrize("zone", ["nonsense", ":/etc/passwd", "/dev/zero", "XXX99999", "A" * 3000])
def test_an_odd_time_zone_changes_nothing(tmp_path: Path, zone: str):
    assert program("make", ORDER, "-o", tmp_path, TZ=zone).returncode == 0
    assert program("reply", ORDER, "--topic", "care", "-o", tmp_path / "r.eml", TZ=zone).returncode == 0


@pytest.mark.slow
def test_settings_of_the_plotter_reach_no_page(tmp_path: Path):
    (tmp_path / "matplotlibrc").write_bytes(b"\xff\xfe lines.linewidth: 9\n")
    surroundings = {"MPLBACKEND": "nonsense", "MATPLOTLIBRC": str(tmp_path), "MPLCONFIGDIR": "/proc"}
    for name, more in (("plain", {}), ("odd", surroundings)):
        done = program("make", ORDER, "-o", tmp_path / name, cwd=tmp_path, XDG_CACHE_HOME=str(tmp_path / name), **more)
        assert done.returncode == 0, done.stderr
        assert "rc file" not in done.stderr
        assert "matplotlib" not in done.stderr.lower()
    (plain,), (odd,) = ((tmp_path / name).glob("*.pdf") for name in ("plain", "odd"))

    assert plain.read_bytes() == odd.read_bytes()


@pytest.mark.slow
def test_nothing_that_lies_in_the_folder_we_are_called_in_is_run(tmp_path: Path):
    """Workers are new interpreters, which look for their modules in that folder first if nobody tells them not to."""
    for name in ("multiprocessing", "pickle", "jinja2", "weasyprint", "explainer"):
        (tmp_path / f"{name}.py").write_text(f"open('{tmp_path}/RAN-{name}', 'w'); raise SystemExit(77)", "utf-8")
    path = f"sys.path[:] = [{str(HOME)!r}] + [place for place in sys.path if place]"
    installed = f"import sys\n{path}\nfrom explainer.cli import main\nif __name__ == '__main__':\n    main()"
    start = tmp_path.parent / f"{tmp_path.name}-start.py"  # as an installed command lies elsewhere
    start.write_text(installed, "utf-8")
    words = [EXAMPLES / "FL-3118.toml", EXAMPLES / "FL-3107.toml", "-o", tmp_path / "out", "--workers", "2"]
    done = subprocess.run(
        [sys.executable, str(start), "make", *map(str, words)],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )

    assert not list(tmp_path.glob("RAN-*"))
    assert done.returncode == 0, done.stderr


@pytest.mark.slow
@pytest.mark.parametrize("handles", [5, 8, 12])
def test_few_file_handles_are_told(tmp_path: Path, handles: int):
    done = subprocess.run(
        [sys.executable, "-m", "explainer", "make", str(ORDER), str(EXAMPLES / "FL-3107.toml"), "-o", str(tmp_path)],
        cwd=HOME,
        env={**os.environ, "XDG_CACHE_HOME": str(tmp_path / "cache")},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_NOFILE, (handles, handles)),
    )

    assert "Traceback" not in done.stderr
    assert done.returncode == 0 or "too few files" in done.stderr, done.stderr


@pytest.mark.parametrize("moment_s", [0.05, 0.1, 0.2, 0.3, 0.5])
def test_ctrl_c_at_the_very_beginning_is_a_word_and_130(moment_s: float):
    code = "import sys; sys.stdout.write('.'); sys.stdout.flush(); import explainer.__main__ as m; m.main()"
    process = subprocess.Popen(
        [sys.executable, "-c", code, "schema"],
        cwd=HOME,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # noqa: PLW1509
    )
    assert process.stdout
    assert process.stdout.read(1) == "."  # the interpreter itself is up; before that no program can speak
    time.sleep(moment_s)
    process.send_signal(signal.SIGINT)
    _, told = process.communicate(timeout=60)

    assert "Traceback" not in told
    assert process.returncode in (0, 130), told
    assert process.returncode == 0 or told == "stopped\n"


@pytest.mark.slow
@pytest.mark.parametrize(
    "rubbish",
    [
        b"\x00\xff\xfe\n",
        b'{"state": "made"}\n',
        b'{"state": "made", "source": ["x"], "file": "a"}\n',
        b'{"state": "made", "source": "x", "file": {}}\n',
        b"[" * 100_000 + b"\n",
        b"my shopping list",
        b'order = "A"',
    ],
)
def test_a_report_that_holds_something_else_is_left_as_it_is(tmp_path: Path, rubbish: bytes):
    report = tmp_path / "report.jsonl"
    report.write_bytes(rubbish)
    done = program("make", ORDER, "-o", tmp_path, "--report", report)

    assert done.returncode == 1
    assert "nothing was written" in done.stderr
    assert report.read_bytes() == rubbish
    assert not list(tmp_path.glob("*.pdf"))


@pytest.mark.slow
def test_half_a_line_of_a_report_is_what_a_kill_leaves_and_is_made_good(tmp_path: Path):
    report = tmp_path / "report.jsonl"
    report.write_bytes(b'{"source": "orde')

    assert program("make", ORDER, "-o", tmp_path, "--report", report).returncode == 0
    assert [json.loads(line)["state"] for line in report.read_text("utf-8").splitlines()] == ["made"]


@pytest.mark.slow
@pytest.mark.skipif(os.geteuid() != 0, reason="only root can leave something behind in another's name")
def test_leftovers_of_others_in_a_shared_folder_stay_and_are_no_fault(tmp_path: Path):
    theirs, ours = tmp_path / ".explainer-4194300-abc.part", tmp_path / ".explainer-4194301-abc.part"
    for leftover in (theirs, ours, tmp_path / ".explainer-99999999999999999999-x.part"):
        leftover.write_bytes(b"half a leaflet")
    (tmp_path / ".explainer-4194302-abc.part").mkdir()
    os.chown(theirs, 65534, 65534)

    assert program("make", ORDER, "-o", tmp_path).returncode == 0
    assert theirs.exists()
    assert not ours.exists()


@pytest.mark.parametrize("code", ["xx", "tlh", "fr", "zz-ZZ"])
def test_check_refuses_a_language_that_leaflets_are_not_made_in(tmp_path: Path, code: str):
    checked = program("check", ORDER, "--language", code)
    made = program("make", ORDER, "--language", code, "-o", tmp_path)

    assert checked.returncode == made.returncode == 1
    assert "language: found" in checked.stderr
    assert "accepted: en, ar, de" in checked.stderr


def test_missing_paths_alone_are_wrong_use_and_among_others_a_refusal(tmp_path: Path):
    assert program("check", tmp_path / "no.toml").returncode == 2
    done = program("check", tmp_path / "no.toml", ORDER)

    assert done.returncode == 1
    assert "no.toml: refused" in done.stderr
    assert "FL-3118: order is complete" in done.stdout


def test_a_path_that_a_terminal_would_obey_is_shown_escaped(tmp_path: Path):
    folder = tmp_path / "a\x1b[2Jb"
    made, missing = program("make", ORDER, "-o", folder), program("check", f"{folder}/no.toml")

    assert "a<U+001B>[2Jb" in made.stdout
    assert "a<U+001B>[2Jb" in missing.stderr
    assert "\x1b" not in made.stdout + made.stderr + missing.stderr


def test_a_pipe_is_never_waited_for(tmp_path: Path):
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)

    for words in (
        ("reply", ORDER, "--question", pipe, "-o", tmp_path / "r.eml"),
        ("topics", "--question", pipe),
        ("check", ORDER, "--against", pipe),
        ("check", ORDER, "--workshop", pipe),
        ("make", ORDER, "-o", tmp_path, "--report", pipe),
    ):
        done = program(*words)
        assert done.returncode == 1
        assert "no plain file" in done.stderr
