"""One bad order among good ones: refused with its place, and the good ones are read. Nothing hangs, nothing escapes."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest
from many import HOME
from plain_order import PLAIN

from explainer.errors import Unforeseen
from explainer.orders import ReadResult, read_orders
from explainer.orders.assembly import convert

HALF = "\ud800"  # half a character: JSON can write it, no text can hold it (RFC 8259, section 8.2)


def with_good_ones(folder: Path, bad: Callable[[Path], object]) -> list[ReadResult]:
    """A folder with a good order before and after the bad thing, read as a whole."""
    for name in ("a-good", "z-good"):
        (folder / f"{name}.json").write_text(json.dumps(PLAIN | {"order": name}), "utf-8")
    bad(folder)
    return list(read_orders([folder]))


def written(name: str, text: str) -> Callable[[Path], object]:
    return lambda folder: (folder / name).write_text(text, "utf-8")


def linked(name: str, target: str) -> Callable[[Path], object]:
    return lambda folder: (folder / name).symlink_to(target)


BAD: dict[str, Callable[[Path], object]] = {
    "half a character in a name": written("m.json", json.dumps(PLAIN | {f"x{HALF}": 1})),
    "half a character in an inner name": written("m.json", json.dumps(PLAIN | {"wearer": {f"na{HALF}me": "A"}})),
    "half a character twice": written("m.json", json.dumps(PLAIN)[:-1] + f', "{HALF!r}": 1, "{HALF!r}": 2}}'),
    "half a character as number": written("m.json", json.dumps(PLAIN | {"order": f"A{HALF}"})),
    "half a character as job": written("m.json", json.dumps(PLAIN | {"job": f"a{HALF}"})),
    "half a character in a line": written("m.jsonl", json.dumps(PLAIN | {f"{HALF}": 1})),
    "half a character in a resource": written(
        "m.json",
        json.dumps({"resourceType": "VisionPrescription", "status": "active", "identifier": [{"value": HALF}]}),
    ),
    "half a character in a Bundle": written(
        "m.json",
        json.dumps(
            {
                "resourceType": "Bundle",
                "type": "collection",
                "entry": [{"fullUrl": HALF, "resource": {"resourceType": "VisionPrescription", HALF: HALF}}],
            }
        ),
    ),
    "a link to itself": linked("m.toml", "m.toml"),
    "links in a circle": lambda folder: [linked("m.toml", "n.toml")(folder), linked("n.toml", "m.toml")(folder)],
    "a link to nowhere": linked("m.toml", "nowhere.toml"),
    "a link to a device": linked("m.json", "/dev/zero"),
    "a job that is a link to itself": linked("m.job", "m.job"),
    "a workshop that is a link to itself": linked("workshop.toml", "workshop.toml"),
    "a name that is not UTF-8": lambda folder: Path(os.fsdecode(os.fsencode(folder) + b"/m\xff.toml")).write_text("x"),
    "a name that a terminal obeys": lambda folder: (folder / "m\x1b[2J\n.toml").write_text("x"),
    **{
        f"a pipe as {kind}": lambda folder, kind=kind: os.mkfifo(folder / f"m.{kind}")
        for kind in "toml csv xlsx job".split()
    },
}


@pytest.mark.parametrize("bad", BAD.values(), ids=BAD.keys())
def test_a_bad_neighbour_stops_nobody(tmp_path: Path, bad: Callable[[Path], object]):
    results = with_good_ones(tmp_path, bad)
    made = [result.order.number for result in results if result.order]
    errors = [result.error for result in results if result.error]

    assert made == ["a-good", "z-good"]
    assert not any(isinstance(error, Unforeseen) for error in errors), errors
    for error in errors:
        str(error).encode("utf-8")
        assert all(line.isprintable() for line in str(error).split("\n"))
        assert "m" in Path(error.source).name
    assert errors or not list(tmp_path.glob("m*"))


def test_a_missing_path_among_good_ones_is_refused_in_its_place(tmp_path: Path):
    good = tmp_path / "good.json"
    good.write_text(json.dumps(PLAIN), "utf-8")
    missing = [tmp_path / "missing.toml", tmp_path / "missing.job", tmp_path / ("x" * 300), good / "below.toml"]
    results = list(read_orders([missing[0], good, *missing[1:]]))

    assert [bool(result.order) for result in results] == [False, True, False, False, False]
    assert {result.source for result in results} == {str(path) for path in (good, *missing)}


@pytest.mark.parametrize("device", ["/dev/zero", "/dev/null", "/proc/self/mem", "/dev/stdin"])
def test_a_device_is_refused_at_once(tmp_path: Path, device: str):
    good = tmp_path / "good.json"
    good.write_text(json.dumps(PLAIN), "utf-8")

    assert [bool(result.order) for result in read_orders([device, good])] == [False, True]


def test_what_the_program_did_not_foresee_refuses_that_order_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    from explainer.orders import reader

    def fails(model: object, **more: object) -> object:
        if "m.json" in str(more["source"]):
            raise KeyError("Zyxquil Vornbecker")
        return convert.order_of(model, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(reader, "order_of", fails)
    results = with_good_ones(tmp_path, written("m.json", json.dumps(PLAIN | {"order": "M"})))
    (error,) = [result.error for result in results if result.error]

    assert isinstance(error, Unforeseen)
    assert len(results) == 3
    assert "KeyError in test_bad_neighbours.py" in str(error)
    assert "Zyxquil" not in str(error)


_AS_NOBODY = """
import os, sys
sys.path.insert(0, {home!r})
from explainer.orders import read_orders
list(read_orders({paths!r}[:1]))  # so that all that is needed is loaded
os.setuid(65534)
for result in read_orders({paths!r}):
    print(bool(result.order), str(result.error or "").replace(chr(10), " "))
"""


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can become somebody who may not read")
def test_what_is_closed_to_us_is_refused_with_its_place():
    with tempfile.TemporaryDirectory() as place:
        home = Path(place)
        home.chmod(0o711)
        for name, mode in (("good.json", 0o644), ("closed.json", 0)):
            (home / name).write_text(json.dumps(PLAIN), "utf-8")
            (home / name).chmod(mode)
        for name, mode in (("shut", 0), ("names-only", 0o744)):
            (home / name).mkdir()
            (home / name / "inside.json").write_text(json.dumps(PLAIN), "utf-8")
            (home / name).chmod(mode)
        paths = [str(home / name) for name in ("good.json", "closed.json", "shut", "names-only", "shut/inside.json")]
        code = _AS_NOBODY.format(home=str(HOME), paths=paths)
        shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60)
    lines = shown.stdout.splitlines()

    assert [line.split()[0] for line in lines] == ["True", "False", "False", "False", "False"], lines
    assert all("Permission denied" in line for line in lines[1:]), lines
