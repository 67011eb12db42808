"""Volume and mass: closed formulas, numerical integration, and a mesh of the whole lens built here from scratch."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
import trimesh
from handwork import meniscus_volume_cm3, round_lens
from numpy.typing import NDArray

from explainer.errors import OutOfRange
from explainer.optics.formulas import shape, weight
from explainer.optics.formulas.dial import Side
from explainer.optics.formulas.lens_body import LensForm
from explainer.optics.formulas.thickness import CutLens, cut_lens

Array = NDArray[np.float64]
JOB = Path(__file__).parents[2] / "data" / "dcs_job.txt"
RINGS = 80


def traced(side: str) -> list[float]:
    """The radii of one side of the sample job [mm]; the records are hundredths of a millimetre."""
    radii: dict[str, list[float]] = {"R": [], "L": []}
    for line in JOB.read_text(encoding="ascii").splitlines():
        if line.startswith("TRCFMT="):
            current = radii[line.split(";")[3]]
        elif line.startswith("R="):
            current += [int(value) / 100 for value in line[2:].split(";")]
    return radii[side]


def circle_sag(radius: float, distance: Array) -> Array:
    sag: Array = radius - math.copysign(1, radius) * np.sqrt(radius**2 - distance**2)
    return sag


def torus_sag(lens: CutLens, index: float, x: Array, y: Array) -> Array:
    """The back, as the envelope of the cross circle swung about the far axis of the flatter circle."""
    turn = math.radians(lens.axis_deg)
    flat, steep = (
        -1000 * (index - 1) / power for power in (lens.back_curve_along_axis_d, lens.back_curve_across_axis_d)
    )
    if flat < steep:
        flat, steep, turn = steep, flat, turn + math.pi / 2
    u, v = x * math.cos(turn) + y * math.sin(turn), y * math.cos(turn) - x * math.sin(turn)
    sag: Array = flat - np.sqrt((flat - steep + np.sqrt(steep**2 - v**2)) ** 2 - u**2)
    return sag


def meshed(lens: CutLens, index: float, radii: list[float], centre: tuple[float, float]) -> trimesh.Trimesh:
    """A closed mesh: both surfaces ring by ring out to the traced edge, and the wall between them."""
    angle = np.arange(len(radii)) * 2 * math.pi / len(radii)
    edge_x, edge_y = np.array(radii) * np.cos(angle), np.array(radii) * np.sin(angle)
    edge_x = edge_x - (edge_x.max() + edge_x.min()) / 2 - centre[0]
    edge_y = edge_y - (edge_y.max() + edge_y.min()) / 2 - centre[1]
    rings = np.arange(1, RINGS + 1)[:, None] / RINGS
    x, y = np.append(0, rings * edge_x), np.append(0, rings * edge_y)
    front = circle_sag(1000 * (index - 1) / lens.front_curve_d, np.hypot(x, y))
    back = lens.centre_mm + torus_sag(lens, index, x, y)
    n = len(radii)
    i = np.arange(n)
    j = (i + 1) % n
    faces = [np.column_stack([np.zeros(n, int), 1 + i, 1 + j])]
    for ring in range(RINGS - 1):
        a, b = 1 + ring * n, 1 + (ring + 1) * n
        faces += [np.column_stack([a + i, b + i, b + j]), np.column_stack([a + i, b + j, a + j])]
    sheet = np.vstack(faces)
    size, rim = len(x), 1 + (RINGS - 1) * n
    wall = [
        np.column_stack([rim + i, size + rim + j, size + rim + i]),
        np.column_stack([rim + i, rim + j, size + rim + j]),
    ]
    points = np.vstack([np.column_stack([x, y, front]), np.column_stack([x, y, back])])
    mesh = trimesh.Trimesh(points, np.vstack([sheet[:, ::-1], sheet + size, *wall]), process=False)
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    return mesh


@pytest.mark.parametrize(
    ("side", "letter", "sphere", "cylinder", "axis", "front"),
    [
        ("right", "R", -0.5, -1.25, 140, 5.13),
        ("left", "L", 0.5, -3.0, 15, 5.13),
        ("left", "L", -7.0, -2.5, 80, 2.0),
        ("right", "R", 4.0, 1.5, 35, 9.0),
    ],
)
def test_the_volume_of_a_toric_lens_in_a_traced_frame_is_that_of_its_mesh(
    *, side: Side, letter: str, sphere: float, cylinder: float, axis: float, front: float
) -> None:
    form = LensForm(side=side, sphere_d=sphere, cylinder_d=cylinder, axis_deg=axis, index=1.498, front_power_d=front)
    lens = cut_lens(
        outline=shape.outline_from_radii(radii_mm=traced(letter)),
        form=form,
        minimum_centre_mm=2,
        minimum_edge_mm=1,
        inward_mm=4.5,
        above_datum_mm=-6.0,
    )
    inward = 4.5 if side == "right" else -4.5  # the nose is at the observer's right of the right lens only
    mesh = meshed(lens, 1.498, traced(letter), (inward, -6.0))
    assert lens.volume_cm3 == pytest.approx(mesh.volume / 1000, rel=1e-4)
    # the same mesh sees the same extremes of thickness
    half = len(mesh.vertices) // 2
    thickness = mesh.vertices[half:, 2] - mesh.vertices[:half, 2]
    assert lens.thickest_mm == pytest.approx(thickness.max(), abs=1e-6)
    assert lens.thinnest_mm == pytest.approx(thickness.min(), abs=0.01)


def test_the_check_lens_of_other_programs() -> None:
    # n 1.586, +6.00 / -10.00, centre 2.0 mm, 65 mm round: 13316.55 mm3, edge 6.272 mm, 15.98 g at 1.20 g/cm3,
    # computed once outside this project (two caps by hand; a mesh of trimesh 5.2.0 gave 13316.40 mm3).
    volume = meniscus_volume_cm3(front_power_d=6, back_power_d=-10, index=1.586, centre_mm=2, diameter_mm=65)
    lens = round_lens(
        diameter_mm=65,
        sphere_d=-3.954257,
        index=1.586,
        front_power_d=6,
        minimum_centre_mm=2,
        minimum_edge_mm=1,
    )
    assert volume == pytest.approx(13.31655, abs=5e-6)
    assert lens.volume_cm3 == pytest.approx(13.31655, rel=1e-4)
    assert lens.thinnest_edge_mm == pytest.approx(6.272, abs=5e-4)
    assert weight.mass_g(volume_cm3=lens.volume_cm3, density_g_cm3=1.20) == pytest.approx(15.98, abs=0.005)


@pytest.mark.parametrize(
    ("sphere", "index", "front", "centre", "density", "mass"),
    [(-6, 1.498, 3, 2.0, 1.32, 10.33), (4, 1.498, 10, 1.5, 1.32, 6.26), (-8, 1.665, 2, 1.5, 1.36, 9.18)],
)
def test_masses_worked_by_hand(
    *, sphere: float, index: float, front: float, centre: float, density: float, mass: float
) -> None:
    lens = round_lens(
        diameter_mm=50,
        sphere_d=sphere,
        index=index,
        front_power_d=front,
        minimum_centre_mm=centre,
        minimum_edge_mm=1,
    )
    assert weight.mass_g(volume_cm3=lens.volume_cm3, density_g_cm3=density) == pytest.approx(mass, abs=0.006)


@pytest.mark.parametrize("wrong", [{"density_g_cm3": 0.5}, {"volume_cm3": -1}, {"volume_cm3": math.nan}])
def test_impossible_masses_are_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        weight.mass_g(**({"volume_cm3": 5.0, "density_g_cm3": 1.3} | wrong))
