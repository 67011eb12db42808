"""Killed at any moment, a run leaves whole leaflets or none, and the next run completes it."""

from __future__ import annotations

from pathlib import Path

import pytest
from bench.kill import Killed, kill_at

MOMENTS_S = (0.4, 2.4, 3.6)


@pytest.mark.slow
@pytest.mark.parametrize("moment_s", MOMENTS_S)
def test_a_killed_run_breaks_nothing_and_the_next_one_completes_it(tmp_path: Path, moment_s: float):
    killed: Killed = kill_at(tmp_path, moment_s, orders=5)

    assert killed.broken == []
    assert killed.left_running == []
    assert killed.code_after == 0, killed.told_after
    assert killed.missing_after == []
    assert killed.strays_after == []
    assert killed.skipped_after >= killed.reported_before
