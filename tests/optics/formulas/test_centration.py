"""The boxing system. The published cases stand in tests/published/centration.toml."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainer.errors import OutOfRange
from explainer.optics.formulas import centration

WIDTHS, BRIDGES, PDS = st.floats(35, 65), st.floats(10, 28), st.floats(45, 80)


@given(a=WIDTHS, bridge=BRIDGES, right=st.floats(24, 40), left=st.floats(24, 40))
def test_the_two_monocular_decentrations_average_to_the_binocular_one(
    a: float, bridge: float, right: float, left: float
) -> None:
    each = [centration.monocular_decentration(a_mm=a, dbl_mm=bridge, monocular_pd_mm=own) for own in (right, left)]
    both = centration.decentration(a_mm=a, dbl_mm=bridge, pd_mm=right + left)
    assert sum(each) / 2 == pytest.approx(both, abs=1e-9)


@given(a=WIDTHS, bridge=BRIDGES)
def test_eyes_at_the_box_centres_need_no_decentration(a: float, bridge: float) -> None:
    own = centration.frame_pd(a_mm=a, dbl_mm=bridge) / 2
    if 18 <= own <= 45:
        assert centration.monocular_decentration(a_mm=a, dbl_mm=bridge, monocular_pd_mm=own) == 0


def test_a_frame_wider_than_the_eyes_moves_the_centres_inward() -> None:
    assert centration.decentration(a_mm=54, dbl_mm=18, pd_mm=62) > 0
    assert centration.decentration(a_mm=44, dbl_mm=14, pd_mm=66) < 0


@given(ed=st.floats(30, 75), moved=st.floats(-12, 12))
def test_the_uncut_covers_every_point_of_the_moved_circle_and_no_smaller_one_does(ed: float, moved: float) -> None:
    # Geometry: the circle of the effective diameter, seen from a point beside its middle.
    reach = max(
        math.hypot(ed / 2 * math.cos(angle) - moved, ed / 2 * math.sin(angle))
        for angle in (2 * math.pi * step / 720 for step in range(720))
    )
    assert centration.minimum_uncut(ed_mm=ed, decentration_mm=moved) == pytest.approx(2 * reach)


@given(ed=st.floats(30, 75), moved=st.floats(-12, 12), allowance=st.floats(0, 5))
def test_the_allowance_is_added_once(ed: float, moved: float, allowance: float) -> None:
    bare = centration.minimum_uncut(ed_mm=ed, decentration_mm=moved)
    assert centration.minimum_uncut(ed_mm=ed, decentration_mm=moved, allowance_mm=allowance) == pytest.approx(
        bare + allowance
    )


@given(b=st.floats(25, 60), share=st.floats(0, 1))
def test_half_way_up_the_box_is_the_datum_line(b: float, share: float) -> None:
    assert centration.height_above_datum(height_mm=b / 2, b_mm=b) == 0
    above = centration.height_above_datum(height_mm=b * share, b_mm=b)
    assert above == pytest.approx(b * (share - 0.5), abs=1e-9)


@given(a=WIDTHS, bridge=BRIDGES, far=PDS, converged=st.floats(0, 5))
def test_decentration_and_segment_inset_add_up_to_the_total_inset(
    a: float, bridge: float, far: float, converged: float
) -> None:
    near = far - converged
    total = centration.total_inset(a_mm=a, dbl_mm=bridge, near_pd_mm=near)
    parts = centration.decentration(a_mm=a, dbl_mm=bridge, pd_mm=far) + centration.segment_inset(
        distance_pd_mm=far, near_pd_mm=near
    )
    assert total == pytest.approx(parts, abs=1e-9)


@pytest.mark.parametrize(
    ("formula", "wrong"),
    [
        ("decentration", {"a_mm": 19.0, "dbl_mm": 18.0, "pd_mm": 62.0}),
        ("decentration", {"a_mm": 52.0, "dbl_mm": 4.0, "pd_mm": 62.0}),
        ("decentration", {"a_mm": 52.0, "dbl_mm": 18.0, "pd_mm": 31.0}),
        ("monocular_decentration", {"a_mm": 52.0, "dbl_mm": 18.0, "monocular_pd_mm": 62.0}),
        ("minimum_uncut", {"ed_mm": 15.0, "decentration_mm": 2.0}),
        ("minimum_uncut", {"ed_mm": 55.0, "decentration_mm": 31.0}),
        ("minimum_uncut", {"ed_mm": 55.0, "decentration_mm": 2.0, "allowance_mm": -1.0}),
        ("height_above_datum", {"height_mm": 41.0, "b_mm": 40.0}),
        ("height_above_datum", {"height_mm": -1.0, "b_mm": 40.0}),
        ("segment_inset", {"distance_pd_mm": 62.0, "near_pd_mm": math.nan}),
    ],
)
def test_measures_no_face_or_frame_has_are_refused(formula: str, wrong: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        getattr(centration, formula)(**wrong)
