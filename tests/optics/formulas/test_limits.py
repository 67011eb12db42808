"""Every stated limit of the plain formulas: the limit itself is accepted, a hair beyond it is refused."""

from __future__ import annotations

import importlib
import math
from typing import Any

import pytest

from explainer.errors import OutOfRange
from explainer.optics.formulas.prescription import SpheroCylinder

PLANO = SpheroCylinder(0.0, 0.0, 180.0)
LENS = {"sphere_d": 0.0, "cylinder_d": 0.0, "axis_deg": 180.0}
THICK = {"front_d": 0.0, "back_d": 0.0, "thickness_mm": 2.0, "index": 1.5}
FRAME = {"a_mm": 50.0, "dbl_mm": 18.0}
CENTRE = {**LENS, "side": "right", "centre_in_mm": 0.0, "centre_up_mm": 0.0}
PLACE = {**LENS, "side": "right", "nasal_mm": 0.0, "up_mm": 0.0}
PAIR = {"right": PLANO, "left": PLANO}
CHANGE = {"previous": PLANO, "new": PLANO, "threshold_d": 0.5}
SIZES = {
    "front_power_d": 0.0,
    "back_vertex_power_d": 0.0,
    "thickness_mm": 2.0,
    "index": 1.5,
    "pupil_distance_mm": 15.0,
}
FRINGE = {"power_d": 0.0, "distance_mm": 10.0, "abbe": 30.0}

LIMITS: list[tuple[str, dict[str, Any], str, float, float]] = [
    ("prescription.sphero_cylinder", LENS, "sphere_d", -40, 40),
    ("prescription.sphero_cylinder", LENS, "cylinder_d", -40, 40),
    ("prescription.principal_powers", {"sphere_d": 0.0, "cylinder_d": 0.0}, "sphere_d", -40, 40),
    ("prescription.principal_powers", {"sphere_d": 0.0, "cylinder_d": 0.0}, "cylinder_d", -40, 40),
    ("prescription.near_sphere", {"sphere_d": 0.0, "add_d": 0.0}, "sphere_d", -40, 40),
    ("prescription.near_sphere", {"sphere_d": 0.0, "add_d": 0.0}, "add_d", 0, 40),
    ("prescription.quarter_steps", {"power_d": 0.0}, "power_d", -40, 40),
    ("turn.residual_cylinder", {"cylinder_d": -1.0, "turn_deg": 0.0}, "cylinder_d", -40, 40),
    ("turn.residual_cylinder", {"cylinder_d": -1.0, "turn_deg": 0.0}, "turn_deg", -180, 180),
    ("change.is_oblique_change", CHANGE, "threshold_d", 0.01, 5),
    ("vertex.needed_power", {"power_d": 0.0, "closer_mm": 0.0}, "power_d", -40, 40),
    ("vertex.needed_power", {"power_d": 0.0, "closer_mm": 0.0}, "closer_mm", -40, 40),
    ("vertex.ocular_refraction", {"spectacle_power_d": 0.0, "vertex_mm": 12.0}, "vertex_mm", 0, 40),
    ("vertex.far_point_cm", {"ocular_refraction_d": 1.0}, "ocular_refraction_d", 1e-6, 40),
    ("thick_lens.back_vertex_power", THICK, "front_d", -40, 40),
    ("thick_lens.back_vertex_power", THICK, "back_d", -40, 40),
    ("thick_lens.back_vertex_power", THICK, "thickness_mm", 0, 30),
    ("thick_lens.back_vertex_power", THICK, "index", 1.4, 2.0),
    ("thick_lens.equivalent_power", THICK, "front_d", -40, 40),
    ("thick_lens.equivalent_power", THICK, "back_d", -40, 40),
    (
        "tilt.tilted_lens",
        {"sphere_d": 0.0, "tilt_deg": 0.0, "hinge_axis_deg": 180.0, "index": 1.5},
        "tilt_deg",
        -40,
        40,
    ),
    ("tilt.centre_drop_mm", {"tilt_deg": 0.0}, "tilt_deg", 0, 25),
    ("accommodation.least_amplitude", {"age_years": 30.0}, "age_years", 5, 120),
    ("accommodation.mean_amplitude", {"age_years": 30.0}, "age_years", 5, 120),
    ("accommodation.greatest_amplitude", {"age_years": 30.0}, "age_years", 5, 120),
    ("accommodation.focused_away", {"refraction_d": 0.0, "amplitude_d": 1.0}, "amplitude_d", 0, 25),
    ("accommodation.focused_away", {"refraction_d": 0.0, "amplitude_d": 1.0}, "refraction_d", -40, 40),
    ("centration.frame_pd", FRAME, "a_mm", 20, 90),
    ("centration.frame_pd", FRAME, "dbl_mm", 5, 40),
    ("centration.decentration", {**FRAME, "pd_mm": 62.0}, "pd_mm", 40, 85),
    ("centration.monocular_decentration", {**FRAME, "monocular_pd_mm": 31.0}, "monocular_pd_mm", 18, 45),
    ("centration.minimum_uncut", {"ed_mm": 55.0, "decentration_mm": 0.0}, "ed_mm", 20, 100),
    ("centration.minimum_uncut", {"ed_mm": 55.0, "decentration_mm": 0.0}, "decentration_mm", -30, 30),
    (
        "centration.minimum_uncut",
        {"ed_mm": 55.0, "decentration_mm": 0.0, "allowance_mm": 0.0},
        "allowance_mm",
        0,
        5,
    ),
    ("centration.height_above_datum", {"height_mm": 10.0, "b_mm": 40.0}, "b_mm", 15, 80),
    ("centration.height_above_datum", {"height_mm": 10.0, "b_mm": 40.0}, "height_mm", 0, 40),
    ("centration.segment_inset", {"distance_pd_mm": 62.0, "near_pd_mm": 60.0}, "distance_pd_mm", 40, 85),
    ("centration.segment_inset", {"distance_pd_mm": 62.0, "near_pd_mm": 60.0}, "near_pd_mm", 40, 85),
    ("prism.decentration_for_prism", {"power_d": 1.0, "prism_pd": 0.0}, "power_d", 0.01, 40),
    ("prism.decentration_for_prism", {"power_d": 1.0, "prism_pd": 0.0}, "prism_pd", 0, 20),
    ("prism.prism_at", PLACE, "nasal_mm", -50, 50),
    ("prism.prism_at", PLACE, "up_mm", -50, 50),
    ("prism.prism_from_centre_error", CENTRE, "centre_in_mm", -50, 50),
    ("prism.prism_from_centre_error", CENTRE, "centre_up_mm", -50, 50),
    ("prism.base_setting", {"base_in_pd": 0.0, "base_up_pd": 0.0, "side": "left"}, "base_in_pd", -100, 100),
    ("prism.base_setting", {"base_in_pd": 0.0, "base_up_pd": 0.0, "side": "left"}, "base_up_pd", -100, 100),
    ("imbalance.prism_looking_down", {**PAIR, "down_mm": 0.0}, "down_mm", 0, 30),
    ("imbalance.prism_looking_down", {**PAIR, "down_mm": 0.0, "inset_mm": 0.0}, "inset_mm", 0, 10),
    ("imbalance.prism_from_pd_error", {**PAIR, "pd_error_mm": 0.0}, "pd_error_mm", -20, 20),
    (
        "imbalance.prism_from_height_error",
        {**PAIR, "right_up_mm": 0.0, "left_up_mm": 0.0},
        "right_up_mm",
        -20,
        20,
    ),
    (
        "imbalance.prism_from_height_error",
        {**PAIR, "right_up_mm": 0.0, "left_up_mm": 0.0},
        "left_up_mm",
        -20,
        20,
    ),
    ("magnification.spectacle_magnification", SIZES, "thickness_mm", 0, 30),
    ("magnification.spectacle_magnification", SIZES, "index", 1.4, 2.0),
    ("magnification.spectacle_magnification", SIZES, "pupil_distance_mm", 0, 50),
    ("magnification.eyes_seen", {"power_d": 0.0, "vertex_mm": 12.0}, "vertex_mm", 0, 50),
    ("blur.blur_angle_mrad", {"pupil_mm": 4.0, "defocus_d": 0.0}, "pupil_mm", 1, 9),
    ("blur.blur_angle_mrad", {"pupil_mm": 4.0, "defocus_d": 0.0}, "defocus_d", -40, 40),
    ("reflection.surface_reflectance", {"index": 1.5}, "index", 1.4, 2.0),
    ("chromatic.transverse_spread_pd", {"prism_pd": 0.0, "abbe": 30.0}, "prism_pd", 0, 100),
    ("chromatic.transverse_spread_pd", {"prism_pd": 0.0, "abbe": 30.0}, "abbe", 20, 70),
    ("chromatic.fringe_at_distance_pd", FRINGE, "distance_mm", 0, 50),
    ("chromatic.fringe_at_distance_pd", FRINGE, "power_d", -40, 40),
    (
        "chromatic.threshold_distance_mm",
        {"power_d": 1.0, "abbe": 30.0, "threshold_pd": 0.1},
        "power_d",
        0.01,
        40,
    ),
    (
        "chromatic.threshold_distance_mm",
        {"power_d": 1.0, "abbe": 30.0, "threshold_pd": 0.1},
        "threshold_pd",
        0,
        1,
    ),
    ("tolerance.limit_up_to", {"allowed": 0.67, "up_to": 2.75, "power_d": 1.0}, "power_d", -2.75, 2.75),
    ("finished.deviation", {"ordered": 0.0, "read": 0.0}, "read", -1000, 1000),
    ("finished.size_of", {"in_pd": 0.0, "up_pd": 0.0}, "in_pd", -100, 100),
    ("finished.distance_of", {"prism_pd": 0.0, "power_d": 1.0}, "power_d", -40, 40),
    ("imbalance.prism_from_shifts", {**PAIR, "right_out_mm": 0.0, "left_out_mm": 0.0}, "right_out_mm", -20, 20),
    ("imbalance.prism_from_shifts", {**PAIR, "right_out_mm": 0.0, "left_out_mm": 0.0}, "left_out_mm", -20, 20),
    ("magnification.size_difference_percent", {"first": 1.0, "second": 1.0}, "first", 0.01, 100),
]


def call(name: str, arguments: dict[str, Any]) -> Any:
    module, _, function = name.rpartition(".")
    return getattr(importlib.import_module(f"explainer.optics.formulas.{module}"), function)(**arguments)


@pytest.mark.parametrize(
    ("name", "others", "argument", "low", "high"), LIMITS, ids=[f"{each[0]}-{each[2]}" for each in LIMITS]
)
def test_the_stated_limits_are_the_limits(
    name: str, others: dict[str, Any], argument: str, low: float, high: float
) -> None:
    for inside in (low, high):
        assert call(name, {**others, argument: inside}) is not None
    for outside in (math.nextafter(low, -math.inf), math.nextafter(high, math.inf), math.nan, math.inf):
        with pytest.raises(OutOfRange):
            call(name, {**others, argument: outside})


def test_a_refusal_at_the_focus_names_the_powers_that_would_do() -> None:
    with pytest.raises(OutOfRange, match=r"power = 26.0 is outside -40 to 25 D"):
        call("vertex.needed_power", {"power_d": 26.0, "closer_mm": 40.0})
    with pytest.raises(OutOfRange, match=r"power = -26.0 is outside -25 to 40 D"):
        call("vertex.needed_power", {"power_d": -26.0, "closer_mm": -40.0})
