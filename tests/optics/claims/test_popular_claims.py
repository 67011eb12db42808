"""Popular claims of the trade that sources or arithmetic contradict: the core never says them.

The numbers are those of the trade's own sayings (common practice, no source); what contradicts them is named
beside each check.
"""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from pairs import MATERIALS, ORDINARY, spectacles

from explainer.errors import OutOfRange
from explainer.optics.claim import Interval
from explainer.optics.claims import ClaimSet, explain
from explainer.optics.formulas.turn import residual_cylinder
from explainer.optics.spectacles import Eye, LensData, Prescription

HOME = Path(__file__).parents[3]
EQUAL = LensData(minimum_centre_mm=2.0, minimum_edge_mm=1.0, reference_minimum_centre_mm=2.0)
# the powers that the sayings are told of; at strong plus exact sags exceed the simple ratio
POWERS = st.one_of(st.integers(-32, -8), st.integers(8, 16)).map(lambda steps: steps / 4)
LAWFUL = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))


def made_of(material: str, power: float, supplied: LensData) -> ClaimSet:
    eye = Eye(sphere_d=power)
    lens = replace(ORDINARY.lens, material=material, tint="clear", supplied=supplied)
    order = replace(ORDINARY, prescription=Prescription(right=eye, left=eye), lens=lens, readings=None, previous=None)
    try:
        return explain(order).claims
    except OutOfRange:
        assume(False)
        raise


@LAWFUL
@given(POWERS)
def test_polycarbonate_is_not_a_quarter_thinner(power: float):
    """Saying: "25 to 40 % thinner": the sags differ by 15 % (indices of duane-51c), and less at equal centre."""
    assert made_of("polycarbonate", power, EQUAL).number("right.saving.thickness") < 17


@LAWFUL
@given(POWERS)
def test_class_167_does_not_halve_the_thickness(power: float):
    """Saying: "Half the thickness": the sags differ by a quarter, and a thinner centre adds some."""
    thin = LensData(minimum_centre_mm=1.5, minimum_edge_mm=1.0, reference_minimum_centre_mm=2.0)

    assert made_of("high-index-1.67", power, thin).number("right.saving.thickness") < 35


def test_a_higher_index_is_not_always_lighter():
    """Saying: "Higher index is always lighter": density rises with the index (duane-51c, lens-laboratory-materials)."""
    weak = made_of("high-index-1.74", -2.0, EQUAL)
    urethane = made_of("urethane-1.53", -2.0, EQUAL)

    assert weak.number("right.saving.weight") < 2
    assert urethane.number("right.weight") < weak.number("right.weight")


@LAWFUL
@given(POWERS)
def test_polycarbonate_is_not_a_quarter_lighter_at_equal_centre(power: float):
    """Saying: "27 % lighter": density alone gives 9 %, shape at equal centre some more."""
    assert made_of("polycarbonate", power, EQUAL).number("right.saving.weight") < 25


@LAWFUL
@given(POWERS, st.sampled_from(MATERIALS))
def test_the_index_hardly_changes_how_large_the_eyes_look(power: float, material: str):
    """Saying: "High index makes your eyes look bigger": distance and power decide."""
    one = made_of(material, power, EQUAL).number("right.magnification.eyes_seen")

    other = made_of("hard-resin", power, EQUAL).number("right.magnification.eyes_seen")
    assert one == pytest.approx(other, rel=1e-3)


def test_the_loss_by_a_turn_is_no_straight_line():
    """Saying: "3.3 % a degree" for all angles: it is 2 sin d (iacle-module-3), 100 % at 30, 141 % at 45."""
    assert residual_cylinder(cylinder_d=-1.0, turn_deg=30) == pytest.approx(1.0)
    assert residual_cylinder(cylinder_d=-1.0, turn_deg=45) == pytest.approx(1.414, abs=0.001)


def test_a_higher_index_reflects_more_and_spreads_colours_more():
    """Saying: "Higher index is optically superior": reflection rises and the Abbe number falls."""
    plain, dense = (made_of(material, -4.0, EQUAL) for material in ("hard-resin", "high-index-1.74"))

    assert dense.number("right.reflection.per_surface") > 1.7 * plain.number("right.reflection.per_surface")
    assert dense.number("right.colour_fringe.at_10mm") > plain.number("right.colour_fringe.at_10mm")


@pytest.mark.slow
@LAWFUL
@given(spectacles())
def test_no_order_is_promised_complete_ultraviolet_protection_or_unaided_acuity(order):
    """Saying: "UV400", "all clear lenses block UV", "1 D is 20/100": no claim states them."""
    try:
        claims = explain(order).claims
    except OutOfRange:
        assume(False)
        raise

    edge = claims.value("lens.uv_edge")
    assert (edge.high if isinstance(edge, Interval) else edge) <= 400
    assert not any("acuity" in name or "uv_protection" in name for name in claims)


WORDINGS = [
    r"\bunbreakable\b",
    r"shatter-?proof",
    r"bullet-?proof",
    r"safety glasses",
    r"scratch-?proof",
    r"half as thick",
    r"get used to",
    r"uv ?400",
    r"blocks? all",
    r"100 ?%",
    r"break[- ]in",
    r"never darken",
]


@pytest.mark.parametrize("wording", WORDINGS)
def test_no_template_uses_the_wording(wording: str):
    for path in (HOME / "templates").rglob("*.md"):
        assert not re.search(wording, path.read_text(encoding="utf-8"), re.IGNORECASE), path.name
