"""Bounds on whether a lens can be cut: where they say yes, the computation never refuses; and they say it often."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from lens_strategies import SIDES, quarters

from explainer.optics.formulas.certainty import FARTHEST_MM, box_reach_mm, surely_cut
from explainer.optics.formulas.lens_body import LensForm
from explainer.optics.formulas.shape import centred_on_pupil, outline_from_box
from explainer.optics.formulas.surface import usual_front_curve_d
from explainer.optics.formulas.thickness import cut_lens

FORMS = st.builds(
    LensForm,
    side=SIDES,
    sphere_d=quarters(-25, 20),
    cylinder_d=quarters(-8, 8),
    axis_deg=st.floats(1, 180),
    prism_in_pd=st.floats(-20, 20),
    prism_up_pd=st.floats(-20, 20),
    index=st.sampled_from([1.498, 1.53, 1.586, 1.6, 1.67, 1.74]),
    front_power_d=st.floats(0, 20),
)


@settings(max_examples=500, deadline=None)
@given(
    form=FORMS,
    a_mm=st.floats(25, 80),
    b_mm=st.floats(15, 75),
    swell=st.none() | st.floats(0, 1),
    inward_mm=st.floats(-20, 20),
    above_mm=st.floats(-20, 20),
    centre_mm=st.floats(0.3, 10),
    edge_mm=st.floats(0.3, 10),
)
def test_a_lens_that_the_bounds_vouch_for_can_be_cut(
    *,
    form: LensForm,
    a_mm: float,
    b_mm: float,
    swell: float | None,
    inward_mm: float,
    above_mm: float,
    centre_mm: float,
    edge_mm: float,
):
    longer, diagonal = max(a_mm, b_mm), (a_mm**2 + b_mm**2) ** 0.5
    ed_mm = None if swell is None else longer + swell * (diagonal - longer)
    reach = box_reach_mm(a_mm=a_mm, b_mm=b_mm, ed_mm=ed_mm, inward_mm=inward_mm, above_mm=above_mm)
    if reach is None:
        return
    outline = outline_from_box(a_mm=a_mm, b_mm=b_mm, ed_mm=ed_mm)
    centred = centred_on_pupil(outline, side=form.side, inward_mm=inward_mm, above_datum_mm=above_mm)
    assert max(map(lambda x, y: (x * x + y * y) ** 0.5, centred.x_mm, centred.y_mm)) <= reach + 1e-9
    if surely_cut(form=form, reach_mm=reach, minimum_centre_mm=centre_mm, minimum_edge_mm=edge_mm):
        lens = cut_lens(
            outline=outline,
            form=form,
            minimum_centre_mm=centre_mm,
            minimum_edge_mm=edge_mm,
            inward_mm=inward_mm,
            above_datum_mm=above_mm,
        )
        assert lens.centre_mm <= 30


@given(sphere=quarters(-10, 6), cylinder=quarters(-4, 0), inward_mm=st.floats(-1, 5))
def test_the_bounds_vouch_for_every_usual_lens(sphere: float, cylinder: float, inward_mm: float):
    """A frame of 52 by 36 mm and hard resin: what most parcels hold (common practice)."""
    reach = box_reach_mm(a_mm=52, b_mm=36, ed_mm=None, inward_mm=inward_mm, above_mm=0)
    front = usual_front_curve_d(mean_sphere_d=sphere + cylinder / 2)
    form = LensForm(side="right", sphere_d=sphere, cylinder_d=cylinder, axis_deg=30, index=1.498, front_power_d=front)

    assert reach is not None
    assert surely_cut(form=form, reach_mm=reach, minimum_centre_mm=2.0, minimum_edge_mm=1.0)


def test_a_pupil_at_the_rim_and_a_frame_beyond_measure_are_not_vouched_for():
    assert box_reach_mm(a_mm=50, b_mm=38, ed_mm=None, inward_mm=25, above_mm=0) is None
    assert box_reach_mm(a_mm=50, b_mm=38, ed_mm=49, inward_mm=0, above_mm=0) is None
    assert box_reach_mm(a_mm=99, b_mm=99, ed_mm=None, inward_mm=20, above_mm=0) is None
    assert FARTHEST_MM == 70
