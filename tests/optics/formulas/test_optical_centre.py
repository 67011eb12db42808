"""Where the optical centre stands. Handbook cases stand in tests/published/optical_centre.toml."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from lens_strategies import LENSES, lens

from explainer.errors import OutOfRange
from explainer.optics.formulas.optical_centre import Place, centres_apart, has_centre, is_inside_box, optical_centre
from explainer.optics.formulas.prescription import SpheroCylinder
from explainer.optics.formulas.prism import prism_at

PRISMS = st.floats(-6, 6)


@given(one=LENSES, inward=PRISMS, up=PRISMS, side=st.sampled_from(["right", "left"]))
def test_seen_from_the_centre_the_reference_point_shows_the_prism(
    one: SpheroCylinder, inward: float, up: float, side
) -> None:
    """The inverse, by the other formula: at the place opposite to the centre's the lens shows what was prescribed."""
    assume(has_centre(sphere_d=one.sphere_d, cylinder_d=one.cylinder_d))
    centre = optical_centre(lens=one, side=side, prism_in_pd=inward, prism_up_pd=up)
    assume(max(map(abs, centre)) <= 50)
    shown = prism_at(**one._asdict(), side=side, nasal_mm=-centre.in_mm, up_mm=-centre.up_mm)

    assert shown == pytest.approx((inward, up), abs=1e-6)


def test_a_plus_lens_moves_its_centre_towards_the_base_and_a_minus_lens_away() -> None:
    for side in ("right", "left"):
        plus = optical_centre(lens=lens(4.0), side=side, prism_in_pd=-2.0, prism_up_pd=0.0)
        minus = optical_centre(lens=lens(-4.0), side=side, prism_in_pd=-2.0, prism_up_pd=0.0)
        assert plus.in_mm == pytest.approx(-5.0)
        assert minus.in_mm == pytest.approx(5.0)


@pytest.mark.parametrize("powers", [(0.0, 0.0), (0.0, -2.0), (2.0, -2.0), (0.05, 0.0)])
def test_a_lens_without_power_in_some_direction_has_no_centre(powers: tuple[float, float]) -> None:
    sphere, cylinder = powers
    assert not has_centre(sphere_d=sphere, cylinder_d=cylinder)
    with pytest.raises(OutOfRange):
        optical_centre(lens=lens(sphere, cylinder, 90), side="right", prism_in_pd=1.0, prism_up_pd=0.0)


def test_centres_stand_closer_by_what_both_moved_in() -> None:
    assert centres_apart(points_mm=62.0, right=Place(1.5, 0.0), left=Place(-0.5, 2.0)) == 61.0


def test_a_centre_beyond_the_rim_is_on_no_lens() -> None:
    """20 mm from a point that stands 4 mm inward of the middle: outside a box 40 mm wide, inside one of 50."""
    point, centre = Place(4.0, 1.0), Place(20.0, 0.0)

    assert not is_inside_box(a_mm=40.0, b_mm=30.0, point=point, centre=centre)
    assert is_inside_box(a_mm=50.0, b_mm=30.0, point=point, centre=centre)
    assert not is_inside_box(a_mm=50.0, b_mm=30.0, point=point, centre=Place(0.0, -17.0))
