"""Orders that say little, or say it in another way: nothing is invented, and what is said is used."""

from __future__ import annotations

from pathlib import Path

import pytest
from pairs import ORDINARY, lens, pair

from explainer.optics.claim import Basis
from explainer.optics.claims import explain
from explainer.optics.spectacles import (
    Eye,
    Frame,
    LensChoice,
    LensData,
    LensReading,
    Measurements,
    Prescription,
    Readings,
    Spectacles,
    Wearer,
)

JOB = Path(__file__).parents[2] / "data" / "dcs_job.txt"
ADD = Eye(sphere_d=1.0, add_d=2.0)


def test_a_prescription_alone_says_nothing_of_frame_lens_or_tint():
    claims = explain(Spectacles(prescription=ORDINARY.prescription)).claims

    assert not any(name.startswith(("tint.", "frame.", "bench.", "lens.")) for name in claims)
    assert "right.thickness.centre" not in claims


def test_a_frame_without_height_gives_centration_but_no_thickness():
    claims = explain(pair(frame=Frame(a_mm=49.0, dbl_mm=19.0))).claims

    assert "right.decentration" in claims
    assert "right.thickness.centre" not in claims


def test_reading_glasses_are_centred_for_the_near_distance():
    """Boxing quiz BX01: A 54, DBL 16, PD 62 gives 4 mm; here 62 is the near distance."""
    order = pair(
        prescription=Prescription(right=ADD, left=ADD),
        measurements=Measurements(pd_mm=65.0, near_pd_mm=62.0),
        frame=Frame(a_mm=54.0, b_mm=40.0, dbl_mm=16.0),
        lens=LensChoice(design="reading", material="hard-resin"),
        readings=Readings(right=LensReading(sphere_d=3.0), left=LensReading(sphere_d=3.0), reference_points_mm=62.0),
        previous=None,
    )
    claims = explain(order).claims

    assert claims.number("right.decentration") == pytest.approx(4.0)
    assert claims.number("right.made.sphere") == 3.0
    assert claims.value("bench.reference_points.verdict") == "inside"


def test_a_fitting_height_moves_the_centre_of_single_vision_lenses():
    high = explain(pair(measurements=Measurements(pd_mm=62.5, height_right_mm=24.0, height_left_mm=24.0))).claims
    level = explain(pair(measurements=Measurements(pd_mm=62.5))).claims

    assert high.number("right.minimum_uncut") > level.number("right.minimum_uncut")


def test_a_traced_outline_is_used_instead_of_the_box():
    """The traced job of the trade's data standard: half the longest radius from the box centre is FED / 2, 52 mm."""
    text = JOB.read_text(encoding="utf-8").split("TRCFMT=1;360;E;R;F")[1].split("TRCFMT")[0]
    radii = tuple(float(r) / 100 for line in text.split() if line.startswith("R=") for r in line[2:].split(";"))
    frame = Frame(a_mm=51.0, b_mm=44.01, dbl_mm=20.0, outline_right_mm=radii, outline_left_mm=radii[::-1])

    claims = explain(pair(frame=frame, measurements=Measurements(pd_mm=71.0))).claims

    assert claims.number("right.minimum_uncut") == pytest.approx(52.0, abs=0.5)
    assert "fact:rules.outline.from_box" not in claims["right.thickness.thickest"].inputs


def test_an_addition_that_was_not_read_is_not_checked():
    order = pair(
        prescription=Prescription(right=ADD, left=ADD),
        lens=LensChoice(design="progressive"),
        readings=Readings(
            right=LensReading(sphere_d=1.0, cylinder_d=0.0),
            left=LensReading(sphere_d=1.0, cylinder_d=0.0, add_d=2.3),
        ),
        previous=None,
    )
    claims = explain(order).claims

    assert claims.value("bench.right.addition.status") == "not-read"
    assert "bench.right.add.verdict" not in claims
    assert claims.value("bench.left.add.verdict") == "outside"


def test_a_distance_read_without_one_ordered_is_not_checked():
    order = Spectacles(prescription=ORDINARY.prescription, readings=Readings(reference_points_mm=62.0))

    assert explain(order).claims.value("bench.reference_points.verdict") == "not-checked"


def test_the_smallest_child_gets_no_number_from_formulas_that_begin_at_five():
    assert "wearer.accommodation" not in explain(pair(wearer=Wearer(age_years=3))).claims


def test_a_supplied_half_time_is_stated_as_supplied():
    claims = explain(lens(supplied=LensData(darken_half_s=21.0))).claims

    assert claims["tint.darken.23.half"].basis is Basis.SUPPLIED
    assert claims.number("tint.darken.23.half") == 21.0


def test_a_lens_that_hard_resin_cannot_be_made_into_is_not_compared_with_it():
    """Strong minus in a large round-ish frame: the back of hard resin would be steeper than the lens is wide."""
    strong = Eye(sphere_d=-17.0)
    order = pair(
        prescription=Prescription(right=strong, left=strong),
        frame=Frame(a_mm=52.0, b_mm=46.0, dbl_mm=12.0),
        measurements=Measurements(pd_mm=62.0),
        lens=LensChoice(design="single-vision", material="high-index-1.74", supplied=LensData(front_curve_d=0.5)),
        previous=None,
        readings=None,
    )
    claims = explain(order).claims

    assert claims.number("right.thickness.thickest") > 10
    assert "right.reference.thickest" not in claims
    assert "right.saving.weight" not in claims
