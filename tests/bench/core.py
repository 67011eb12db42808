"""The core alone: import time, time for one order, and memory over many random orders.

.venv/bin/python tests/bench/core.py [orders]
"""

from __future__ import annotations

import random
import resource
import statistics
import subprocess
import sys
import time
from typing import get_args

from explainer.errors import OutOfRange
from explainer.optics.claims import explain
from explainer.optics.spectacles import (
    Eye,
    Frame,
    LensChoice,
    Material,
    Measurements,
    Prescription,
    Spectacles,
    Wearer,
)


def random_eye(dice: random.Random) -> Eye:
    """An eye within what workshops glaze."""
    cylinder = dice.choice([0.0, *(-step / 4 for step in range(1, 13))])
    axis = float(dice.randint(1, 180)) if cylinder else None
    return Eye(sphere_d=dice.randint(-32, 24) / 4, cylinder_d=cylinder, axis_deg=axis)


def random_order(dice: random.Random) -> Spectacles:
    """A random valid order with a frame and a light-reactive lens."""
    return Spectacles(
        prescription=Prescription(right=random_eye(dice), left=random_eye(dice)),
        measurements=Measurements(pd_mm=dice.uniform(58, 68)),
        frame=Frame(a_mm=dice.uniform(44, 54), b_mm=dice.uniform(30, 42), dbl_mm=18.0, material="metal"),
        lens=LensChoice(design="single-vision", material=dice.choice(get_args(Material)), tint="photochromic"),
        wearer=Wearer(age_years=dice.randint(10, 90)),
    )


def seconds(order: Spectacles) -> float | None:
    """Processor time for all claims of one order; None when the lens cannot be made."""
    begun = time.process_time()
    try:
        explain(order)
    except OutOfRange:
        return None
    return time.process_time() - begun


def import_seconds() -> float:
    """Processor time of importing the core in a fresh process, over that of an empty one."""
    code = "import time; a = time.process_time(); import explainer.optics.claims; print(time.process_time() - a)"
    return statistics.median(
        float(subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout)
        for _ in range(5)
    )


def main(orders: int) -> None:
    """Prints one line a figure."""
    dice = random.Random(7)
    explain(random_order(dice))
    times: list[float] = []
    marks: list[int] = []
    for number in range(orders):
        spent = seconds(random_order(dice))
        if spent is not None:
            times.append(spent)
        if number % (orders // 5 or 1) == 0:
            marks.append(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024)
    sys.stdout.write(f"import of the core        {import_seconds():.3f} s\n")
    sys.stdout.write(f"one order, median         {1000 * statistics.median(times):.1f} ms ({len(times)} orders)\n")
    sys.stdout.write(f"peak memory, MB, on the way {marks}\n")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
