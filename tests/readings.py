"""Random readings for tests: near the order or far from it, with anything left out."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hypothesis import strategies as st
from pairs import spectacles

from explainer.optics.spectacles import SIDES, Eye, LensReading, Measurements, Readings, Spectacles

OFF_D = st.one_of(st.just(0.0), st.integers(-40, 40).map(lambda hundredths: hundredths / 100), st.floats(-0.4, 0.4))


def maybe(values: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.one_of(st.none(), values)


@st.composite
def lens_readings(draw: st.DrawFn, eye: Eye) -> LensReading:
    """A lens near the one ordered, or wrong by up to half a dioptre; any part of it may not have been read."""
    cylinder = draw(maybe(OFF_D.map(lambda off: eye.cylinder_d + off)))
    return LensReading(
        sphere_d=draw(maybe(OFF_D.map(lambda off: eye.sphere_d + off))),
        cylinder_d=cylinder,
        axis_deg=draw(st.integers(1, 180).map(float)) if cylinder else None,
        add_d=draw(maybe(st.integers(80, 300).map(lambda hundredths: hundredths / 100))),
        prism_in_pd=draw(maybe(OFF_D.map(lambda off: eye.prism_in_pd + 2 * off))),
        prism_up_pd=draw(maybe(OFF_D.map(lambda off: eye.prism_up_pd + 2 * off))),
    )


@st.composite
def read_pairs(draw: st.DrawFn) -> Spectacles:
    """A random order with heights, and random readings of it."""
    order = draw(spectacles())
    m = order.measurements
    b = order.frame.b_mm or 30.0
    height = draw(st.floats(10, min(b - 3, 25)))
    measured = Measurements(
        pd_right_mm=m.pd_right_mm, pd_left_mm=m.pd_left_mm, height_right_mm=height, height_left_mm=height
    )
    near = {"right": (m.pd_right_mm or 31) + draw(OFF_D) * 6, "left": (m.pd_left_mm or 31) + draw(OFF_D) * 6}
    lengths: dict[str, float | None] = {
        "reference_points_mm": draw(maybe(st.just(near["right"] + near["left"]))),
        "optical_centres_mm": draw(maybe(st.floats(55, 70))),
    }
    for side in SIDES:
        lengths[f"reference_point_{side}_mm"] = draw(maybe(st.just(near[side])))
        lengths[f"height_{side}_mm"] = draw(maybe(OFF_D.map(lambda off: height + 4 * off)))
        lengths[f"centre_thickness_{side}_mm"] = draw(maybe(st.floats(1.0, 6.0)))
    lenses = {side: draw(maybe(lens_readings(order.prescription.eye(side)))) for side in SIDES}
    return replace(order, measurements=measured, readings=Readings(**lenses, **lengths))
