"""What is kept proves itself: three thousand bit flips, and every other way in which a file may not be what it was."""

from __future__ import annotations

import json
import os
import random
from pathlib import Path

import pytest

from explainer.keeping import read_kept, write_kept

KEYS = [f"dial-{number:032x}" for number in range(12)]


@pytest.fixture
def kept(tmp_path: Path) -> dict[str, Path]:
    for number, key in enumerate(KEYS):
        write_kept(tmp_path / f"{key}.json", key, {"axis": number * 15, "svg": "<svg/>" * (number + 1)})
    return {key: tmp_path / f"{key}.json" for key in KEYS}


def test_what_was_kept_is_found_again(kept: dict[str, Path]):
    for number, (key, path) in enumerate(kept.items()):
        assert read_kept(path, key) == {"axis": number * 15, "svg": "<svg/>" * (number + 1)}


def test_no_single_bit_of_three_thousand_goes_unseen(kept: dict[str, Path]):
    dice = random.Random(14)
    for _ in range(3000):
        key = dice.choice(KEYS)
        sound = kept[key].read_bytes()
        flipped = bytearray(sound)
        flipped[dice.randrange(len(flipped))] ^= 1 << dice.randrange(8)
        kept[key].write_bytes(bytes(flipped))
        assert read_kept(kept[key], key) is None
        kept[key].write_bytes(sound)


def test_one_file_copied_over_another_is_not_taken_for_it(kept: dict[str, Path]):
    for key in KEYS[1:]:
        kept[key].write_bytes(kept[KEYS[0]].read_bytes())
        assert read_kept(kept[key], key) is None


def test_every_cut_is_seen(kept: dict[str, Path]):
    sound = kept[KEYS[0]].read_bytes()
    for length in range(len(sound)):
        kept[KEYS[0]].write_bytes(sound[:length])
        assert read_kept(kept[KEYS[0]], KEYS[0]) is None


def test_what_is_no_file_of_ours_is_never_opened_for_long(kept: dict[str, Path]):
    path = kept[KEYS[0]]
    path.unlink()
    makers = [
        lambda: path.symlink_to("/dev/zero"),
        lambda: path.symlink_to(path.name),
        lambda: path.symlink_to(kept[KEYS[1]]),
        lambda: os.mkfifo(path),
        path.mkdir,
    ]
    for make in makers:
        make()
        assert read_kept(path, KEYS[0]) is None
        path.rmdir() if path.is_dir() and not path.is_symlink() else path.unlink()


def test_a_checksum_without_the_right_key_and_a_list_for_fields_are_nothing(tmp_path: Path):
    from hashlib import sha256

    for key, written in (("other", json.dumps({"a": 1})), ("mine", json.dumps([1])), ("mine", "[" * 9999)):
        checksum = sha256(f"{key}\n{written}".encode()).hexdigest()
        (tmp_path / "file").write_text(f"{checksum}\n{key}\n{written}", "utf-8")
        assert read_kept(tmp_path / "file", "mine") is None
