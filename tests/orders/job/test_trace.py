"""Traced rims: the sample job's own box figures, mirror symmetry, and refusal of what is not format 1."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from explainer.errors import Fault, InputError
from explainer.orders import Order
from explainer.orders.job.trace import effective_diameter, read_trace

Data = dict[str, Any]
JOB = Path(__file__).parents[2] / "data" / "dcs_job.txt"


def stated(label: str) -> tuple[float, float]:
    """A record of the sample job, right and left."""
    line = next(line for line in JOB.read_text(encoding="utf-8").splitlines() if line.startswith(f"{label}="))
    right, left = line.removeprefix(f"{label}=").split(";")
    return float(right), float(left)


def circle(side: str = "R", points: int = 36, radius: int = 2500, header: str = "1") -> str:
    return f"TRCFMT={header};{points};E;{side};F\n" + f"R={';'.join([str(radius)] * points)}\n"


def read(text: str, folder: Path) -> Any:
    path = folder / "job.txt"
    path.write_text(text, encoding="utf-8")
    return read_trace(path)


def test_the_box_of_the_radii_is_the_box_that_the_job_states() -> None:
    """Sample job of the trade's data exchange records: HBOX, VBOX and CIRC stand in it; to 0.02 mm."""
    trace = read_trace(JOB)
    width, height = trace.box("right")

    assert width == pytest.approx(stated("HBOX")[0], abs=0.02)
    assert height == pytest.approx(stated("VBOX")[0], abs=0.02)
    assert trace.box("left") == pytest.approx((stated("HBOX")[1], stated("VBOX")[1]), abs=0.02)


def test_the_way_round_the_outline_is_the_circumference_that_the_job_states() -> None:
    outline = read_trace(JOB).outlines["right"]
    points = [(r * math.cos(math.radians(i)), r * math.sin(math.radians(i))) for i, r in enumerate(outline)]
    way = sum(math.dist(points[i], points[i - 1]) for i in range(len(points)))

    assert way == pytest.approx(stated("CIRC")[0], abs=0.02)


def test_the_left_rim_of_the_job_is_the_right_one_in_a_mirror() -> None:
    """Both are seen by someone facing the wearer, so the left radius at an angle is the right one at 180 minus it."""
    trace = read_trace(JOB)
    right, left = trace.outlines["right"], trace.outlines["left"]

    assert all(left[i] == right[(180 - i) % 360] for i in range(360))


def test_a_circle_has_its_diameter_everywhere(tmp_path: Path) -> None:
    trace = read(circle(points=360), tmp_path)

    assert trace.box("right") == pytest.approx((50, 50), abs=0.01)
    assert effective_diameter(trace.outlines["right"]) == pytest.approx(50, abs=0.01)


def test_an_order_takes_outline_and_missing_box_measures_from_the_trace(
    plain: Data, read: Callable[..., Order], tmp_path: Path
) -> None:
    (tmp_path / "job.txt").write_text(JOB.read_text(encoding="utf-8"), encoding="utf-8")
    plain["frame"] = {"trace": "job.txt", "material": "metal"}
    frame = read(plain).spectacles.frame

    assert frame.outline_right_mm is not None
    assert frame.outline_left_mm is not None
    assert frame.outline_right_mm[0] == 24.82  # the first R record of the job is 2482
    assert (frame.a_mm, frame.b_mm) == pytest.approx((51.0, 44.01), abs=0.02)
    assert frame.dbl_mm == 20.0


def test_a_box_that_is_not_the_traced_one_is_refused(
    plain: Data, faults: Callable[..., list[Fault]], tmp_path: Path
) -> None:
    (tmp_path / "job.txt").write_text(JOB.read_text(encoding="utf-8"), encoding="utf-8")
    plain["frame"] = {"trace": "job.txt", "a_mm": 54.0}

    assert {fault.field for fault in faults(plain)} == {"frame.a_mm"}


def test_one_traced_rim_is_no_outline_of_the_other(plain: Data, read: Callable[..., Order], tmp_path: Path) -> None:
    (tmp_path / "job.txt").write_text(circle(), encoding="utf-8")
    plain["frame"] = {"trace": "job.txt"}
    order = read(plain)

    assert order.spectacles.frame.outline_left_mm is None
    assert any("only the right rim" in note for note in order.notes)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("TRCFMT=6;360;E;R;F\nR=6167514141\n", "trace format 6"),
        ("TRCFMT=1;360;U;R;F\nR=2500\n", "equal angles"),
        ("TRCFMT=1;360;E;X;F\nR=2500\n", "R or L"),
        ("TRCFMT=1;5;E;R;F\nR=1;2;3;4;5\n", "36 to 4000"),
        (circle(points=36).replace("=1;36", "=1;40"), "36 radii"),
        (circle(radius=25), "500 to 6000"),
        (circle() + circle(), "one trace for each eye"),
        (circle() + "HBOX=55.00;55.00\n", "55 mm stated"),
        (circle() + "HBOX=wide\n", "no measure"),
        ("R=2500;2500\n", "TRCFMT"),
        ("SPH=1.25;-0.50\n", "no trace"),
        ("hello\n", "without ="),
        ("", "no trace"),
    ],
    ids=range(13),
)
def test_what_is_no_plain_trace_is_refused_by_name(text: str, reason: str, tmp_path: Path) -> None:
    with pytest.raises(InputError, match=reason):
        read(text, tmp_path)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_all_line_ends_are_read(end: str, tmp_path: Path) -> None:
    (tmp_path / "job.txt").write_bytes(circle().replace("\n", end).encode())

    assert len(read_trace(tmp_path / "job.txt").outlines["right"]) == 36
