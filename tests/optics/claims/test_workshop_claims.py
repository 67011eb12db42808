"""What only the workshop's sheet shows, against textbook arithmetic."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from pairs import ORDINARY, pair

from explainer.optics.claims import explain
from explainer.optics.formulas.tilt import tilted_lens, whole_slant
from explainer.optics.spectacles import Eye, Frame, Measurements, Prescription


def test_the_thick_lens_gives_back_the_powers_it_was_made_for():
    """Law: the back vertex power is the prescription, whatever the curves and the thickness."""
    claims = explain(ORDINARY).claims

    for side in ("right", "left"):
        for direction in ("along_axis", "across_axis"):
            made = claims.number(f"{side}.made.power.{direction}")
            assert claims.number(f"{side}.back_vertex.{direction}") == pytest.approx(made, abs=1e-9)


def test_the_front_vertex_power_of_a_strong_plus_lens_is_the_weaker_one():
    """Common practice: near additions of strong plus lenses are read at the front, where the focimeter shows less."""
    plus = Eye(sphere_d=8.0)
    claims = explain(pair(prescription=Prescription(right=plus, left=plus), previous=None, readings=None)).claims

    assert claims.number("right.front_vertex.along_axis") < 7.95
    assert claims.number("right.equivalent.along_axis") < 8.0


@pytest.mark.parametrize(
    ("inward", "up", "whole", "right_base", "left_base"),
    [(3.0, 4.0, 5.0, 53.13, 126.87), (-2.0, 0.0, 2.0, 180.0, 0.0), (0.0, -1.0, 1.0, 270.0, 270.0)],
)
def test_a_whole_prism_has_its_base_on_the_dial(
    inward: float, up: float, whole: float, right_base: float, left_base: float
):
    """Pythagoras; the nose is at 0 degrees of the right eye and at 180 of the left (ISO 8429)."""
    eye = Eye(sphere_d=-1.0, prism_in_pd=inward, prism_up_pd=up)
    claims = explain(pair(prescription=Prescription(right=eye, left=eye), previous=None, readings=None)).claims

    assert claims.number("right.prism.whole") == pytest.approx(whole)
    assert claims.number("right.prism.base") == pytest.approx(right_base, abs=0.01)
    assert claims.number("left.prism.base") == pytest.approx(left_base, abs=0.01)


def test_horizontal_and_vertical_power_of_a_lens_with_its_axis_at_180():
    """The sphere acts along the axis (180), sphere and cylinder across it (90)."""
    eye = Eye(sphere_d=-2.0, cylinder_d=-1.5, axis_deg=180.0)
    claims = explain(pair(prescription=Prescription(right=eye, left=eye), previous=None, readings=None)).claims

    assert claims.number("right.made.power.horizontal") == pytest.approx(-2.0)
    assert claims.number("right.made.power.vertical") == pytest.approx(-3.5)


def test_near_parts_stand_half_the_difference_of_the_distances_inward():
    eye = Eye(sphere_d=1.0, add_d=2.0)
    order = pair(
        prescription=Prescription(right=eye, left=eye),
        measurements=Measurements(pd_mm=64.0, near_pd_mm=61.0),
        lens=replace(ORDINARY.lens, design="bifocal"),
        readings=None,
        previous=None,
    )
    claims = explain(order).claims

    assert claims.number("pair.near_inset") == 1.5
    assert claims.number("pair.near_inset.whole") == (49 + 19 - 61) / 2


def test_without_an_outline_the_uncut_diameter_is_bounded_by_ed_and_decentration():
    claims = explain(pair(frame=Frame(a_mm=50.0, dbl_mm=18.0, ed_mm=54.0))).claims

    assert claims.number("right.minimum_uncut") == 54 + 2 * abs(claims.number("right.decentration"))


@pytest.mark.parametrize(
    ("forward", "wrap", "side", "tilt", "hinge"),
    [
        (10.0, 0.0, "right", 10.0, 180.0),
        (0.0, 12.0, "left", 12.0, 90.0),
        (8.0, 8.0, "right", 11.298, 135.28),
        (8.0, 8.0, "left", 11.298, 44.72),
    ],
)
def test_two_tilts_make_one_about_a_slanting_hinge(forward: float, wrap: float, side, tilt: float, hinge: float):
    """cos a = cos p cos w; the outer lower part comes nearest, so the hinge falls from nose to temple on no eye."""
    slant = whole_slant(pantoscopic_deg=forward, wrap_deg=wrap, side=side)

    assert slant.tilt_deg == pytest.approx(tilt, abs=0.005)
    assert slant.hinge_axis_deg == pytest.approx(hinge, abs=0.01)


@pytest.mark.parametrize("hinge", [180.0, 90.0])
def test_a_cylinder_along_the_hinge_is_tilted_meridian_by_meridian(hinge: float):
    """Martin: along the hinge F (1 + sin^2 a / 2n), across it the same times 1 / cos^2 a."""
    sine, cosine = math.sin(math.radians(20)), math.cos(math.radians(20))
    gain = 1 + sine**2 / (2 * 1.5)

    lens = tilted_lens(sphere_d=-2.0, cylinder_d=-3.0, axis_deg=hinge, tilt_deg=20, hinge_axis_deg=hinge, index=1.5)

    assert lens.axis_deg == pytest.approx(hinge)
    assert lens.sphere_d == pytest.approx(-2.0 * gain)
    assert lens.sphere_d + lens.cylinder_d == pytest.approx(-5.0 * gain / cosine**2)


def test_a_cylinder_across_the_hinge_too():
    cosine = math.cos(math.radians(15))
    gain = 1 + math.sin(math.radians(15)) ** 2 / (2 * 1.6)

    lens = tilted_lens(sphere_d=-6.0, cylinder_d=-2.0, axis_deg=90, tilt_deg=15, hinge_axis_deg=180, index=1.6)

    assert lens.sphere_d == pytest.approx(-6.0 * gain / cosine**2)
    assert lens.sphere_d + lens.cylinder_d == pytest.approx(-8.0 * gain)
    assert lens.axis_deg == pytest.approx(90)


def test_an_order_without_tilt_says_nothing_of_it_and_one_with_tilt_says_what_the_lens_acts_like():
    assert "right.worn.sphere" not in explain(ORDINARY).claims

    tilted = pair(frame=replace(ORDINARY.frame, pantoscopic_tilt_deg=10.0))
    claims = explain(tilted).claims

    assert claims.number("right.worn.sphere") < claims.number("right.made.sphere")
    assert claims.number("pair.centre_drop") == 5.0
