"""Blur and rough acuity. The published cases stand in tests/published/lens_light.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import blur

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


@pytest.mark.parametrize(
    ("formula", "wrong"),
    [
        ("blur_angle_mrad", {"pupil_mm": 0.9, "defocus_d": 1.0}),
        ("blur_angle_mrad", {"pupil_mm": 9.1, "defocus_d": 1.0}),
        ("blur_angle_mrad", {"pupil_mm": 4.0, "defocus_d": math.nan}),
    ],
)
def test_what_no_eye_does_is_refused(formula: str, wrong: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        getattr(blur, formula)(**wrong)
