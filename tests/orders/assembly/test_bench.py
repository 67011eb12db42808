"""[bench] and [answers] of an order: what counts as read, and what is refused because it cannot be true."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from explainer.errors import Fault
from explainer.optics.spectacles import LensReading, Readings
from explainer.orders import Order
from explainer.orders.assembly.bench import says_spherical

Data = dict[str, Any]
Read = Callable[[Data], Order]
Faults = Callable[[Data], list[Fault]]


def readings(order: Order) -> Readings:
    assert order.spectacles.readings is not None
    return order.spectacles.readings


@pytest.mark.parametrize(
    ("written", "cylinder"),
    [
        ("+2.24", None),
        ("+2.24 DS", 0.0),
        ("+2.24 D sph", 0.0),
        ("sph +2.24", None),
        ("+2.24 0.00", 0.0),
        ("+2.24 -0.12 x 30", -0.12),
        ("plano", 0.0),
        ({"sphere": 2.24}, None),
        ({"sphere": 2.24, "cylinder": 0.0}, 0.0),
    ],
)
def test_a_sphere_alone_is_a_sphere_alone(written: Any, cylinder: float | None, plain: Data, read: Read):
    plain["bench"]["left"] = written
    left = readings(read(plain)).left

    assert left is not None
    assert left.cylinder_d == cylinder


@pytest.mark.parametrize(
    ("text", "language", "spherical"),
    [("-2,25 sph", "de", True), ("sphère -2,25", "fr", False), ("plan", "fr", True), ("-2.25", "en", False)],
)
def test_who_says_that_there_is_no_cylinder(text: str, language: str, spherical: bool):
    assert says_spherical(text, language) == spherical


@pytest.mark.parametrize(
    ("text", "prism"),
    [
        ("0", (0.0, 0.0)),
        ("0.00", (0.0, 0.0)),
        ("2.00 in & 0.25 up", (2.0, 0.25)),
        ("1,5 out", (-1.5, None)),
        ("0 in", (0.0, None)),
        ("0.50 down", (None, -0.5)),
    ],
)
def test_a_prism_is_read_in_the_directions_that_are_named(text: str, prism: Any, plain: Data, read: Read):
    plain["bench"]["prism_right"] = text
    right = readings(read(plain)).right

    assert right is not None
    assert (right.prism_in_pd, right.prism_up_pd) == prism


@pytest.mark.parametrize("text", ["2.00", "2 in & 1 out", "2 sideways", "in 2", "-2 in", "25 in", "2 in &"])
def test_a_prism_that_may_mean_anything_is_refused(text: str, plain: Data, faults: Faults):
    plain["bench"]["prism_left"] = text

    assert [fault.field for fault in faults(plain)] == ["bench.prism_left"]


def test_a_prism_in_two_places_is_refused(plain: Data, faults: Faults):
    plain["bench"] |= {"right": "+1.75 -0.50 x 63 1.00 BI", "prism_right": "1.00 in"}

    assert [fault.field for fault in faults(plain)] == ["bench.prism_right"]


def test_a_prism_may_be_all_that_was_read(plain: Data, read: Read):
    plain["bench"] = {"prism_right": "0"}

    assert readings(read(plain)) == Readings(right=LensReading(prism_in_pd=0.0, prism_up_pd=0.0))


def test_lengths_reach_their_places(plain: Data, read: Read):
    del plain["bench"]["pd_mm"]
    plain["bench"] |= {
        "reference_points_mm": 63.5,
        "optical_centres_mm": 63.0,
        "reference_point_right_mm": 32.0,
        "height_left_mm": 20.5,
    }
    found = readings(read(plain))

    assert (found.reference_points_mm, found.optical_centres_mm) == (63.5, 63.0)
    assert (found.reference_point_right_mm, found.height_left_mm) == (32.0, 20.5)


def test_the_earlier_name_of_a_distance_still_counts(plain: Data, read: Read, faults: Faults):
    assert readings(read(plain)).reference_points_mm == 63.5

    plain["bench"]["reference_points_mm"] = 63.5
    assert [fault.field for fault in faults(plain)] == ["bench.pd_mm"]


def test_that_name_is_asked_about_where_prism_makes_two_distances_of_it(plain: Data, read: Read):
    assert not any("optical_centres_mm" in line for line in read(plain).warnings)

    plain["prescription"]["left"] = "+2.25 DS 2.00 BI"
    assert any("optical_centres_mm" in line for line in read(plain).warnings)


def test_an_empty_bench_is_no_reading(plain: Data, read: Read):
    plain["bench"] = {}

    assert read(plain).spectacles.readings is None


@pytest.mark.parametrize(
    ("lens", "field"),
    [
        ({"tint": "fixed", "tint_category": 3, "tint_percent": 85.0}, "lens.tint_percent"),
        ({"tint": "fixed", "tint_category": 0, "tint_percent": 15.0}, "lens.tint_percent"),
        ({"tint": "clear", "coatings": ["polarising"]}, "lens.coatings"),
        ({"tint": "clear", "coatings": ["mirror", "hard"]}, "lens.coatings"),
    ],
)
def test_what_cannot_be_true_of_a_lens_is_refused(lens: Data, field: str, plain: Data, faults: Faults):
    plain["lens"] |= lens

    assert [fault.field for fault in faults(plain)] == [field]


@pytest.mark.parametrize(
    "lens",
    [
        {"tint": "fixed", "tint_category": 3, "tint_percent": 15.0},
        {"tint": "fixed", "tint_category": 3, "tint_percent": 18.0},
        {"tint": "fixed", "tint_category": 2, "tint_percent": 18.0},
        {"tint": "fixed", "tint_category": 3, "coatings": ["polarising", "mirror"]},
        {"tint": "photochromic", "coatings": ["polarising"]},
    ],
)
def test_what_may_be_true_is_read(lens: Data, plain: Data, read: Read):
    plain["lens"] |= lens

    assert read(plain).spectacles.lens.tint == lens["tint"]


def test_an_addition_read_in_a_lens_without_one_is_refused(plain: Data, faults: Faults, read: Read):
    plain["bench"]["left"] = "+2.24 DS Add +2.00"
    assert [fault.field for fault in faults(plain)] == ["bench.left"]

    plain["lens"]["design"] = "progressive"  # but no addition was prescribed
    assert [fault.field for fault in faults(plain)] == ["bench.left"]

    plain["prescription"]["add"] = "+2.00"
    assert readings(read(plain)).left is not None


def test_centres_of_a_lens_that_has_none_are_refused(plain: Data, faults: Faults):
    plain["prescription"]["left"] = "plano"
    plain["bench"] = {"optical_centres_mm": 63.0}

    (fault,) = faults(plain)
    assert fault.field == "bench.optical_centres_mm"
    assert "left" in fault.found


def test_an_answer_is_one_of_its_words(plain: Data, read: Read, faults: Faults):
    plain["answers"] = {"glass": "advised"}
    assert read(plain).answers.glass == "advised"

    plain["answers"] = {"glass": "yes"}
    assert [fault.field for fault in faults(plain)] == ["answers.glass"]


def test_records_that_are_not_there_were_not_read(plain: Data, read: Read, tmp_path: Path):
    """An inspection with spheres alone has no cylinder; a prism of no amount was looked for and not found."""
    (tmp_path / "read.job").write_text("JOB=TK-0417\nINSSPH=1.77;2.26\nINSPRPRVM=0;1\nINSPRPRVA=0;90\n", "utf-8")
    plain["bench"] = {"job": "read.job"}
    found = readings(read(plain))

    assert found.right == LensReading(sphere_d=1.77, prism_in_pd=0.0, prism_up_pd=0.0)
    assert found.left is not None
    assert found.left.cylinder_d is None
    assert found.left.prism_up_pd == pytest.approx(1.0)
