"""A real laboratory job: its traced frame against its own box, its thickness against its own edge figures.

The records' meanings are from memory: HBOX, VBOX, CIRC box width, height and circumference; CTHICK centre thickness;
FRNT front curve marked for the index TIND; FCOCIN, FCOCUP optical centre from the frame centre; THKP, THKA, THKR
thickness, angle and radius of the thickest edge point from the frame centre, THNP, THNA, THNR of the thinnest.
"""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from handwork import mirrored

from explainer.optics.formulas.dial import Side
from explainer.optics.formulas.lens_body import LensForm, lens_body
from explainer.optics.formulas.shape import Outline, centred_on_pupil, outline_from_radii
from explainer.optics.formulas.thickness import cut_lens

JOB = Path(__file__).parents[2] / "data" / "dcs_job.txt"
SIDES: tuple[Side, Side] = ("right", "left")


@cache
def records() -> dict[str, tuple[str, ...]]:
    """Every record by its label, right value first; the traces as R and L."""
    found: dict[str, tuple[str, ...]] = {}
    letter = ""
    for line in JOB.read_text(encoding="ascii").splitlines():
        label, _, value = line.partition("=")
        if label == "TRCFMT":
            letter = value.split(";")[3]
        key = letter if label == "R" else label
        found[key] = found.get(key, ()) + tuple(value.split(";")) if label == "R" else tuple(value.split(";"))
    return found


def number(label: str, side: Side) -> float:
    values = records()[label]
    return float(values[SIDES.index(side) % len(values)])


def outline(side: Side) -> Outline:
    return outline_from_radii(radii_mm=[int(r) / 100 for r in records()["R" if side == "right" else "L"]])


def form(side: Side, *, axis_deg: float | None = None) -> LensForm:
    index = number("LIND", side)
    marked = (index - 1) / (number("TIND", side) - 1)  # the curvature stays, the power follows the index
    return LensForm(
        side=side,
        sphere_d=number("SPH", side),
        cylinder_d=number("CYL", side),
        axis_deg=number("AX", side) if axis_deg is None else axis_deg,
        index=index,
        front_power_d=number("FRNT", side) * marked,
    )


def edge(side: Side, what: LensForm) -> tuple[np.ndarray, np.ndarray]:
    """Direction of every traced point from the frame centre [deg], and the thickness there [mm]."""
    inward, up = number("FCOCIN", side), number("FCOCUP", side)
    angle = np.degrees(np.arctan2(*reversed(outline(side).points()))) % 360
    x, y = centred_on_pupil(outline(side), side=side, inward_mm=inward, above_datum_mm=up).points()
    return angle, lens_body(form=what, centre_mm=number("CTHICK", side)).thickness_mm(x, y)


def apart(first: float, second: float) -> float:
    """Angle between two directions [deg]."""
    return abs((first - second + 180) % 360 - 180)


@pytest.mark.parametrize("side", SIDES)
def test_the_traced_outline_has_the_box_and_circumference_that_the_job_states(side: Side) -> None:
    traced = outline(side)
    assert traced.a_mm == pytest.approx(number("HBOX", side), abs=0.02)
    assert traced.b_mm == pytest.approx(number("VBOX", side), abs=0.02)
    assert traced.circumference_mm == pytest.approx(number("CIRC", side), abs=0.02)
    assert traced.ed_mm == pytest.approx(number("FED", side), abs=0.5)  # the record is a whole number


def test_the_left_trace_is_the_mirrored_right_one() -> None:
    reflected = mirrored(outline("right"))
    ours = sorted(zip(*(np.round(line, 6) for line in reflected.points()), strict=True))
    theirs = sorted(zip(*(np.round(line, 6) for line in outline("left").points()), strict=True))
    assert np.array(ours) == pytest.approx(np.array(theirs), abs=2e-6)


@pytest.mark.parametrize("side", SIDES)
def test_the_optical_centre_of_the_job_follows_from_frame_and_pupil(side: Side) -> None:
    # Boxing system: (A + DBL) / 2 - monocular distance; height above the lowest point less half the box.
    inward = (number("HBOX", side) + number("DBL", side)) / 2 - number("IPD", side)
    assert inward == pytest.approx(number("FCOCIN", side), abs=0.01)
    assert number("OCHT", side) - number("VBOX", side) / 2 == pytest.approx(number("FCOCUP", side), abs=0.01)


@pytest.mark.parametrize("side", SIDES)
def test_the_thickest_and_thinnest_edge_lie_where_the_job_says(side: Side) -> None:
    angle, thickness = edge(side, form(side))
    # Flat extremes of a lens that is progressive in truth: 5 degrees is what we allow.
    assert apart(angle[np.argmax(thickness)], number("THKA", side)) < 5
    assert apart(angle[np.argmin(thickness)], number("THNA", side)) < 5


@pytest.mark.parametrize("side", SIDES)
def test_a_mirrored_axis_or_a_swapped_nose_would_be_noticed(side: Side) -> None:
    other: Side = "left" if side == "right" else "right"
    angle, mirrored_axis = edge(side, form(side, axis_deg=180 - number("AX", side)))
    assert apart(angle[np.argmax(mirrored_axis)], number("THKA", side)) > 20
    what = form(side)
    x, y = centred_on_pupil(
        outline(side), side=other, inward_mm=number("FCOCIN", side), above_datum_mm=number("FCOCUP", side)
    ).points()
    swapped = lens_body(form=what, centre_mm=number("CTHICK", side)).thickness_mm(x, y)
    assert (
        apart(angle[np.argmax(swapped)], number("THKA", side)) > 5
        or apart(angle[np.argmin(swapped)], number("THNA", side)) > 5
    )


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("which", ["THK", "THN"])
def test_the_edge_thickness_of_the_job_lies_where_a_single_vision_lens_leaves_room(side: Side, which: str) -> None:
    """Two things keep this from being exact, and both have a size.

    The job's points lie 3 to 5 mm outside the traced edge (its own radii say so), so the thickness is only known to be
    between the edge and there. And the lenses are progressive: below the optical centre the addition makes the lens
    thinner, by no more than the full addition would, A r^2 / (2000 (n - 1)).
    """
    what, inward, up = form(side), number("FCOCIN", side), number("FCOCUP", side)
    body = lens_body(form=what, centre_mm=number("CTHICK", side))
    turn = math.radians(number(f"{which}A", side))
    angle = np.degrees(np.arctan2(*reversed(outline(side).points()))) % 360
    nearest = int(np.argmin([apart(a, math.degrees(turn)) for a in angle]))
    at_edge = math.hypot(*(line[nearest] for line in outline(side).points()))
    radii = np.linspace(at_edge, number(f"{which}R", side), 9)
    assert 3 < radii[-1] - radii[0] < 5
    x = radii * math.cos(turn) - (inward if side == "right" else -inward)
    y = radii * math.sin(turn) - up
    thickness = body.thickness_mm(x, y)
    addition = np.where(y < 0, number("ADD", side) * (x**2 + y**2) / (2000 * (what.index - 1)), 0)
    slack = 0.01  # the job prints hundredths
    assert float(np.min(thickness - addition)) - slack <= number(f"{which}P", side)
    assert number(f"{which}P", side) <= float(np.max(thickness)) + slack


@pytest.mark.parametrize("side", SIDES)
def test_the_cut_lens_agrees_with_the_job_to_a_third_of_a_millimetre(side: Side) -> None:
    lens = cut_lens(
        outline=outline(side),
        form=form(side),
        minimum_centre_mm=number("CTHICK", side),
        minimum_edge_mm=0.1,
        inward_mm=number("FCOCIN", side),
        above_datum_mm=number("FCOCUP", side),
    )
    # 0.35 mm: what the addition (0.3 mm at the edge below) and points beyond the edge (0.1 to 0.2 mm a millimetre)
    # leave open. Ours and the job's: right 3.29 and 3.53, 2.14 and 1.95; left 4.07 and 4.37, 1.57 and 1.56 mm.
    assert lens.thickest_edge_mm == pytest.approx(number("THKP", side), abs=0.35)
    assert lens.thinnest_edge_mm == pytest.approx(number("THNP", side), abs=0.35)
