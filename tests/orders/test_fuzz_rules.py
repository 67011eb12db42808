"""The fuzzer's own rules on its seeds and on plain damage to them: the long search is tests/bench/fuzz.py."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from bench.fuzz_readers import ENDINGS, Watch, notation, of_file
from bench.fuzz_seeds import seeds


@pytest.mark.parametrize("name", ["notation", *ENDINGS])
def test_seeds_are_read_and_damage_is_refused_in_time(name: str, tmp_path: Path) -> None:
    watch = Watch(notation if name == "notation" else of_file(name, tmp_path))
    known = list(seeds(name))
    for seed in known:
        watch(seed)
    assert watch.accepted

    draw = random.Random(name)
    for _ in range(150):
        seed = draw.choice(known)
        place, length = draw.randrange(len(seed) + 1), draw.randrange(12)
        watch(seed[:place] + draw.randbytes(draw.randrange(3)) + seed[place + length :])
    assert watch.tried == len(known) + 150
