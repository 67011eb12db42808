"""Lenses for property tests: powers in quarter steps, as orders have them, and any axis."""

from __future__ import annotations

from hypothesis import strategies as st

from explainer.optics.formulas.prescription import SpheroCylinder, sphero_cylinder

SIDES = st.sampled_from(["right", "left"])
ANGLES = st.floats(-720, 720)
AXES = st.floats(0.5, 180)


def quarters(low: float, high: float) -> st.SearchStrategy[float]:
    """Powers in steps of 0.25 D."""
    return st.integers(round(low * 4), round(high * 4)).map(lambda count: count / 4)


SPHERES = quarters(-12, 12)  # two such lenses in contact stay inside the 40 D that the formulas accept
CYLINDERS = quarters(-6, 6)
REAL_CYLINDERS = CYLINDERS.filter(lambda cylinder: abs(cylinder) >= 0.25)


def lens(sphere_d: float, cylinder_d: float = 0.0, axis_deg: float = 180.0) -> SpheroCylinder:
    """A lens in short."""
    return sphero_cylinder(sphere_d=sphere_d, cylinder_d=cylinder_d, axis_deg=axis_deg)


LENSES = st.builds(lens, SPHERES, CYLINDERS, AXES)
ASTIGMATIC = st.builds(lens, SPHERES, REAL_CYLINDERS, AXES)
