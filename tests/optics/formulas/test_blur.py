"""Blur and rough acuity. The published cases stand in tests/published/lens_light.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lens_strategies import ASTIGMATIC, LENSES

from explainer.errors import OutOfRange
from explainer.optics.formulas import blur
from explainer.optics.formulas.prescription import SpheroCylinder, transpose

PUPILS = st.floats(2, 8)


@given(pupil=PUPILS, defocus=st.floats(-10, 10))
def test_the_blur_is_what_similar_triangles_give(pupil: float, defocus: float) -> None:
    # Geometry: a reduced eye of 60 D and index 4/3; the cone from the pupil to the focus, cut by the
    # retina, seen
    # from the nodal point, which lies 1000/60 mm before the retina.
    power = 60.0
    retina_mm, focus_mm = 4000 / (3 * power), 4000 / (3 * (power - defocus))
    disc_mm = pupil * abs(focus_mm - retina_mm) / focus_mm
    angle = disc_mm / (1000 / power) * 1000
    assert blur.blur_angle_mrad(pupil_mm=pupil, defocus_d=defocus) == pytest.approx(angle, abs=1e-9)


@given(one=LENSES, pupil=PUPILS)
def test_the_ellipse_has_the_blur_of_each_principal_meridian(one: SpheroCylinder, pupil: float) -> None:
    ellipse = blur.blur_ellipse(**one._asdict(), pupil_mm=pupil)
    assert ellipse.along_axis_mrad == pytest.approx(pupil * abs(one.sphere_d))
    assert ellipse.across_axis_mrad == pytest.approx(pupil * abs(one.sphere_d + one.cylinder_d))
    assert ellipse.axis_deg == one.axis_deg


@given(one=ASTIGMATIC, pupil=PUPILS)
def test_the_other_form_gives_the_same_ellipse_with_its_directions_exchanged(one: SpheroCylinder, pupil: float) -> None:
    first = blur.blur_ellipse(**one._asdict(), pupil_mm=pupil)
    second = blur.blur_ellipse(**transpose(**one._asdict())._asdict(), pupil_mm=pupil)
    assert second.along_axis_mrad == pytest.approx(first.across_axis_mrad, abs=1e-9)
    assert second.across_axis_mrad == pytest.approx(first.along_axis_mrad, abs=1e-9)
    assert abs(second.axis_deg - first.axis_deg) == pytest.approx(90)


def test_a_minus_cylinder_at_180_left_off_smears_points_upright() -> None:
    # Clock-dial rule (astigmatic-image-flashcards): the vertical meridian is too strong, horizontal strokes
    # blur.
    ellipse = blur.blur_ellipse(sphere_d=0.0, cylinder_d=-1.0, axis_deg=180, pupil_mm=4)
    assert ellipse.axis_deg == 180
    assert ellipse.along_axis_mrad == 0 < ellipse.across_axis_mrad


@given(angle=st.floats(0, 100))
def test_degrees_and_minutes_are_the_same_angle(angle: float) -> None:
    degrees = blur.degrees_of_mrad(angle_mrad=angle)
    assert blur.arcmin_of_mrad(angle_mrad=angle) == pytest.approx(60 * degrees)
    assert math.radians(degrees) * 1000 == pytest.approx(angle)


@given(power=st.floats(40, 80))
def test_a_focal_line_lies_where_the_vergence_of_the_light_meets_it(power: float) -> None:
    # Law: light of vergence F (in 1/m) meets at the distance 1/F.
    assert blur.focal_line_mm(power_d=power) / 1000 * power == pytest.approx(1)


@given(best=st.floats(0.5, 2), less=st.floats(0, 5), more=st.floats(0.01, 3))
def test_more_blur_never_resolves_more(best: float, less: float, more: float) -> None:
    sharp = blur.rough_resolution_arcmin(blur_d=less, best_arcmin=best)
    soft = blur.rough_resolution_arcmin(blur_d=less + more, best_arcmin=best)
    assert best <= sharp < soft


def test_without_blur_the_eye_resolves_its_best() -> None:
    assert blur.rough_resolution_arcmin(blur_d=0, best_arcmin=0.8) == 0.8


@given(resolution=st.floats(0.5, 50))
def test_feet_and_metres_name_the_same_acuity(resolution: float) -> None:
    feet = blur.snellen_denominator(resolution_arcmin=resolution, numerator=20)
    metres = blur.snellen_denominator(resolution_arcmin=resolution, numerator=6)
    assert feet / 20 == pytest.approx(metres / 6)


@pytest.mark.parametrize(
    ("formula", "wrong"),
    [
        ("blur_angle_mrad", {"pupil_mm": 0.9, "defocus_d": 1.0}),
        ("blur_angle_mrad", {"pupil_mm": 9.1, "defocus_d": 1.0}),
        ("blur_angle_mrad", {"pupil_mm": 4.0, "defocus_d": math.nan}),
        ("blur_ellipse", {"sphere_d": -1.0, "cylinder_d": 0.0, "axis_deg": 180, "pupil_mm": 12.0}),
        ("rough_resolution_arcmin", {"blur_d": 11.0, "best_arcmin": 1.0}),
        ("rough_resolution_arcmin", {"blur_d": -1.0, "best_arcmin": 1.0}),
        ("rough_resolution_arcmin", {"blur_d": 1.0, "best_arcmin": 0.1}),
        ("snellen_denominator", {"resolution_arcmin": 0.1, "numerator": 20}),
        ("snellen_denominator", {"resolution_arcmin": 1.0, "numerator": 0}),
        ("focal_line_mm", {"power_d": 0.0}),
    ],
)
def test_what_no_eye_does_is_refused(formula: str, wrong: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        getattr(blur, formula)(**wrong)
