"""Prism of one eye. The published cases stand in tests/published/prism.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lens_strategies import LENSES, SIDES, lens

from explainer.errors import OutOfRange
from explainer.optics.formulas import prism
from explainer.optics.formulas.dial import Side, axis_difference, mirrored_axis, nasal_sign
from explainer.optics.formulas.prescription import SpheroCylinder, power_in_meridian, transpose
from explainer.optics.formulas.prism import Prism

MILLIMETRES = st.floats(-25, 25)
PRISMS = st.builds(Prism, st.floats(-10, 10), st.floats(-10, 10))


@given(one=LENSES, side=SIDES)
def test_there_is_no_prism_at_the_optical_centre(one: SpheroCylinder, side: Side) -> None:
    assert prism.prism_at(**one._asdict(), side=side, nasal_mm=0, up_mm=0) == (0, 0)


@given(one=LENSES, side=SIDES, nasal=MILLIMETRES, up=MILLIMETRES)
def test_the_part_of_the_prism_along_the_line_from_the_centre_follows_prentice(
    one: SpheroCylinder, side: Side, nasal: float, up: float
) -> None:
    # Law: towards the centre the prism is the distance times the power in that meridian (exam-guide-prism).
    distance = math.hypot(nasal, up)
    if distance < 0.01:
        return
    found = prism.prism_at(**one._asdict(), side=side, nasal_mm=nasal, up_mm=up)
    back_to_centre = -(found.base_in_pd * nasal + found.base_up_pd * up) / distance
    meridian = math.degrees(math.atan2(up, nasal_sign(side) * nasal))
    power = power_in_meridian(**one._asdict(), meridian_deg=meridian)
    assert back_to_centre == pytest.approx(power * distance / 10, abs=1e-8)


@given(one=LENSES, side=SIDES, nasal=MILLIMETRES, up=MILLIMETRES)
def test_the_prism_is_the_slope_of_the_lens(one: SpheroCylinder, side: Side, nasal: float, up: float) -> None:
    # Law: light turns towards the thick side in proportion to the slope of the optical path, which is
    # -(c^T F c) / 2, here by differences of power_in_meridian times the squared distance.
    def path(nasal_mm: float, up_mm: float) -> float:
        x, y = nasal_sign(side) * nasal_mm / 10, up_mm / 10
        meridian = math.degrees(math.atan2(y, x))
        return -power_in_meridian(**one._asdict(), meridian_deg=meridian) * (x * x + y * y) / 2

    step = 0.01
    slope_in = (path(nasal + step, up) - path(nasal - step, up)) / (2 * step / 10)
    slope_up = (path(nasal, up + step) - path(nasal, up - step)) / (2 * step / 10)
    found = prism.prism_at(**one._asdict(), side=side, nasal_mm=nasal, up_mm=up)
    assert found == pytest.approx((slope_in, slope_up), abs=1e-6)


@given(one=LENSES, nasal=MILLIMETRES, up=MILLIMETRES)
def test_a_mirrored_pair_has_mirrored_prism(one: SpheroCylinder, nasal: float, up: float) -> None:
    mirrored = SpheroCylinder(one.sphere_d, one.cylinder_d, mirrored_axis(axis_deg=one.axis_deg))
    right = prism.prism_at(**one._asdict(), side="right", nasal_mm=nasal, up_mm=up)
    left = prism.prism_at(**mirrored._asdict(), side="left", nasal_mm=nasal, up_mm=up)
    assert left == pytest.approx(right, abs=1e-9)


@given(one=LENSES, side=SIDES, nasal=MILLIMETRES, up=MILLIMETRES)
def test_both_forms_of_a_lens_have_the_same_prism(one: SpheroCylinder, side: Side, nasal: float, up: float) -> None:
    other = transpose(**one._asdict())
    first = prism.prism_at(**one._asdict(), side=side, nasal_mm=nasal, up_mm=up)
    assert prism.prism_at(**other._asdict(), side=side, nasal_mm=nasal, up_mm=up) == pytest.approx(first, abs=1e-9)


@given(power=st.floats(0.25, 15), side=SIDES, distance=st.floats(1, 25))
def test_a_plus_lens_has_its_base_towards_the_centre_and_a_minus_lens_away(
    power: float, side: Side, distance: float
) -> None:
    # exam-guide-prism and dispensing-notes: plus lens, base towards the optical centre.
    looking_down = {"side": side, "nasal_mm": 0.0, "up_mm": -distance}
    assert prism.prism_at(**lens(power)._asdict(), **looking_down).base_up_pd > 0
    assert prism.prism_at(**lens(-power)._asdict(), **looking_down).base_up_pd < 0
    looking_in = {"side": side, "nasal_mm": distance, "up_mm": 0.0}
    assert prism.prism_at(**lens(power)._asdict(), **looking_in).base_in_pd < 0
    assert prism.prism_at(**lens(-power)._asdict(), **looking_in).base_in_pd > 0


@given(power=st.floats(0.25, 15), side=SIDES, moved=st.floats(0.5, 10))
def test_moving_the_centre_of_a_plus_lens_inward_gives_base_in(power: float, side: Side, moved: float) -> None:
    # opticianry-answers-set: "moving the optical centre of a plus lens inward … base in".
    plus = prism.prism_from_centre_error(**lens(power)._asdict(), side=side, centre_in_mm=moved, centre_up_mm=0.0)
    minus = prism.prism_from_centre_error(**lens(-power)._asdict(), side=side, centre_in_mm=moved, centre_up_mm=0.0)
    assert plus.base_in_pd > 0 > minus.base_in_pd


@given(power=st.floats(0.25, 15), wanted=st.floats(0.25, 10))
def test_the_decentration_for_a_prism_gives_that_prism(power: float, wanted: float) -> None:
    distance = prism.decentration_for_prism(power_d=power, prism_pd=wanted)
    found = prism.prism_from_centre_error(
        **lens(power)._asdict(),
        side="left",
        centre_in_mm=min(distance, 50.0),
        centre_up_mm=0.0,
    )
    if distance <= 50:
        assert found.base_in_pd == pytest.approx(wanted)


@given(one=PRISMS)
def test_the_other_eye_has_the_mirrored_base_setting(one: Prism) -> None:
    right = prism.base_setting(**one._asdict(), side="right")
    left = prism.base_setting(**one._asdict(), side="left")
    assert left.amount_pd == right.amount_pd
    assert axis_difference(first_deg=left.base_deg, second_deg=180 - right.base_deg) < 1e-9
    assert math.sin(math.radians(left.base_deg)) == pytest.approx(math.sin(math.radians(right.base_deg)), abs=1e-9)


@pytest.mark.parametrize(
    ("base_in", "base_up", "side", "setting"),
    [
        (1, 0, "right", 0),
        (0, 1, "right", 90),
        (-1, 0, "right", 180),
        (0, -1, "right", 270),
        (-1, 0, "left", 0),
        (0, 1, "left", 90),
        (1, 0, "left", 180),
        (0, -1, "left", 270),
        (0, 0, "left", 0),
        (-0.0, -0.0, "right", 0),
    ],
)
def test_the_four_bases_stand_where_the_observer_sees_them(
    base_in: float, base_up: float, side: Side, setting: float
) -> None:
    # iso-8429-1986: base setting 0 to 360, zero at the observer's right, counter-clockwise.
    assert prism.base_setting(base_in_pd=base_in, base_up_pd=base_up, side=side).base_deg == setting


@pytest.mark.parametrize(
    ("formula", "wrong"),
    [
        ("decentration_for_prism", {"power_d": 0.0, "prism_pd": 1.0}),
        ("decentration_for_prism", {"power_d": 4.0, "prism_pd": 21.0}),
        ("base_setting", {"base_in_pd": math.nan, "base_up_pd": 0.0, "side": "right"}),
    ],
)
def test_what_no_lens_does_is_refused(formula: str, wrong: dict[str, object]) -> None:
    with pytest.raises(OutOfRange):
        getattr(prism, formula)(**wrong)


def test_a_point_beyond_the_lens_is_refused() -> None:
    with pytest.raises(OutOfRange):
        prism.prism_at(**lens(2.0)._asdict(), side="right", nasal_mm=51, up_mm=0)
    with pytest.raises(OutOfRange):
        prism.prism_at(**lens(2.0)._asdict(), side="right", nasal_mm=0, up_mm=math.nan)


def test_no_prism_is_ever_a_negative_zero() -> None:
    for power in (2.0, -2.0):
        for nasal, up in ((0.0, 5.0), (5.0, 0.0), (0.0, 0.0)):
            found = prism.prism_at(**lens(power)._asdict(), side="left", nasal_mm=nasal, up_mm=up)
            assert all(math.copysign(1, part) == 1 for part in found if part == 0)
