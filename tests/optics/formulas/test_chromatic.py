"""Colour. The published cases stand in tests/published/lens_light.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import chromatic

ABBES = st.floats(28, 60)
POWERS = st.floats(-15, 15).filter(lambda each: abs(each) > 0.25)
D_LINE, F_LINE, C_LINE = 587.5618, 486.1327, 656.2725

# zhang-2020, tabulated refractive index of polycarbonate by wavelength in nm.
ZHANG = {500: 1.60251, 550: 1.59509, 590: 1.59004, 600: 1.58873}


@given(power=POWERS, abbe=ABBES, threshold=st.floats(0.05, 0.5))
def test_the_fringe_reaches_the_threshold_at_the_stated_distance(power: float, abbe: float, threshold: float) -> None:
    distance = chromatic.threshold_distance_mm(power_d=power, abbe=abbe, threshold_pd=threshold)
    if distance <= 50:
        found = chromatic.fringe_at_distance_pd(power_d=power, distance_mm=distance, abbe=abbe)
        assert found == pytest.approx(threshold)


@given(power=POWERS, abbe=ABBES, distance=st.floats(1, 40))
def test_the_fringe_is_the_difference_of_the_prism_for_blue_and_for_red(
    power: float, abbe: float, distance: float
) -> None:
    # Law: the power for each colour is (n - 1) times the curvature; Prentice's rule for each, then the
    # difference.
    spread = chromatic.axial_spread_d(power_d=power, abbe=abbe)
    blue, red = power + spread / 2, power - spread / 2
    difference = abs(blue - red) * distance / 10
    fringe = chromatic.fringe_at_distance_pd(power_d=power, distance_mm=distance, abbe=abbe)
    assert fringe == pytest.approx(difference)


@given(power=st.floats(0.25, 15), abbe=ABBES)
def test_blue_light_finds_a_stronger_lens_than_red_light(power: float, abbe: float) -> None:
    assert chromatic.axial_spread_d(power_d=power, abbe=abbe) > 0
    assert chromatic.axial_spread_d(power_d=-power, abbe=abbe) < 0


def test_the_axial_spread_is_what_the_indices_of_a_real_material_give() -> None:
    # Law: F_blue - F_red = F (nF - nC) / (nd - 1), here from the dispersion formula itself.
    index_d, index_f, index_c = (chromatic.polycarbonate_index(wavelength_nm=line) for line in (D_LINE, F_LINE, C_LINE))
    abbe = chromatic.abbe_number(index_d=index_d, index_f=index_f, index_c=index_c)
    direct = -6.0 * (index_f - index_c) / (index_d - 1)
    assert chromatic.axial_spread_d(power_d=-6.0, abbe=abbe) == pytest.approx(direct)


def test_the_dispersion_formula_has_the_abbe_number_that_the_public_database_gives() -> None:
    # refractiveindex 1.3.1 (the database's own package), polycarbonate by Sultanova: Vd = 27.858.
    lines = dict(zip(("index_d", "index_f", "index_c"), (D_LINE, F_LINE, C_LINE), strict=True))
    indices = {name: chromatic.polycarbonate_index(wavelength_nm=line) for name, line in lines.items()}
    assert chromatic.abbe_number(**indices) == pytest.approx(27.858, abs=0.0005)


@pytest.mark.parametrize(("wavelength", "index"), ZHANG.items())
def test_another_study_finds_about_half_a_hundredth_more(wavelength: float, index: float) -> None:
    ours = chromatic.polycarbonate_index(wavelength_nm=wavelength)
    assert 0.003 < index - ours < 0.008


@given(shorter=st.floats(437, 1000), step=st.floats(1, 50))
def test_the_index_falls_towards_the_red(shorter: float, step: float) -> None:
    here = chromatic.polycarbonate_index(wavelength_nm=shorter)
    assert chromatic.polycarbonate_index(wavelength_nm=shorter + step) < here


@given(prism=st.floats(0.001, 2))
def test_a_small_prism_turns_light_by_a_hundredth_of_a_radian_for_each_dioptre(prism: float) -> None:
    small_angle = math.degrees(prism / 100) * 60
    assert chromatic.arcmin_of_prism(prism_pd=prism) == pytest.approx(small_angle, rel=2e-4)


@pytest.mark.parametrize(
    ("formula", "wrong"),
    [
        ("transverse_spread_pd", {"prism_pd": -0.1, "abbe": 30}),
        ("transverse_spread_pd", {"prism_pd": 1.0, "abbe": 10}),
        ("fringe_at_distance_pd", {"power_d": 2.0, "distance_mm": 51.0, "abbe": 30}),
        ("axial_spread_d", {"power_d": 2.0, "abbe": 71}),
        ("threshold_distance_mm", {"power_d": 0.0, "abbe": 30, "threshold_pd": 0.1}),
        ("threshold_distance_mm", {"power_d": 2.0, "abbe": 30, "threshold_pd": 1.1}),
        ("polycarbonate_index", {"wavelength_nm": 436.7}),
        ("polycarbonate_index", {"wavelength_nm": 1053.0}),
        ("abbe_number", {"index_d": 1.5, "index_f": 1.49, "index_c": 1.48}),
        ("abbe_number", {"index_d": 1.5, "index_f": 1.51, "index_c": 1.505}),
        ("abbe_number", {"index_d": 1.5, "index_f": 1.5, "index_c": 1.5}),
        ("arcmin_of_prism", {"prism_pd": math.nan}),
    ],
)
def test_what_no_material_does_is_refused(formula: str, wrong: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        getattr(chromatic, formula)(**wrong)
