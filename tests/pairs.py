"""Spectacles for tests: one ordinary pair, and random ones by hypothesis."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hypothesis import strategies as st

from explainer.optics.spectacles import (
    Eye,
    Frame,
    LensChoice,
    LensData,
    LensReading,
    Measurements,
    Prescription,
    Readings,
    Spectacles,
    Wearer,
)

MATERIALS = (
    "hard-resin",
    "polycarbonate",
    "urethane-1.53",
    "high-index-1.60",
    "high-index-1.67",
    "high-index-1.74",
    "crown-glass",
)
FRAMES = ("acetate", "nylon", "metal", "titanium", "half-rim", "rimless")

ORDINARY = Spectacles(
    prescription=Prescription(
        right=Eye(sphere_d=-2.25, cylinder_d=-1.50, axis_deg=35.0),
        left=Eye(sphere_d=-1.75, cylinder_d=-0.50, axis_deg=160.0),
        vertex_mm=13.0,
    ),
    measurements=Measurements(pd_right_mm=30.5, pd_left_mm=32.0),
    frame=Frame(a_mm=49.0, b_mm=37.0, dbl_mm=19.0, ed_mm=52.0, material="metal"),
    lens=LensChoice(
        design="single-vision",
        material="polycarbonate",
        tint="photochromic",
        coatings=frozenset({"hard"}),
        supplied=LensData(front_curve_d=5.0, minimum_centre_mm=1.5, minimum_edge_mm=1.0),
    ),
    readings=Readings(
        right=LensReading(sphere_d=-2.25, cylinder_d=-1.50, axis_deg=36.0),
        left=LensReading(sphere_d=-1.75, cylinder_d=-0.50, axis_deg=158.0),
        reference_points_mm=62.5,
    ),
    previous=Prescription(right=Eye(sphere_d=-2.00, cylinder_d=-1.25, axis_deg=40.0), left=Eye(sphere_d=-1.75)),
    wearer=Wearer(age_years=41),
)


def pair(**changes: Any) -> Spectacles:
    """The ordinary pair with some parts replaced."""
    return replace(ORDINARY, **changes)


def lens(**changes: Any) -> Spectacles:
    """The ordinary pair with another lens choice."""
    return replace(ORDINARY, lens=replace(ORDINARY.lens, **changes))


def read_as(eye: Eye) -> LensReading:
    """A lens of which everything was read, and found to be that eye's."""
    return LensReading(
        sphere_d=eye.sphere_d,
        cylinder_d=eye.cylinder_d,
        axis_deg=eye.axis_deg,
        add_d=eye.add_d,
        prism_in_pd=eye.prism_in_pd,
        prism_up_pd=eye.prism_up_pd,
    )


def swapped(spectacles: Spectacles) -> Spectacles:
    """The same pair with the eyes swapped: powers, pupils, readings."""
    p, m, r, before = spectacles.prescription, spectacles.measurements, spectacles.readings, spectacles.previous
    return replace(
        spectacles,
        prescription=replace(p, right=p.left, left=p.right),
        measurements=replace(
            m,
            pd_right_mm=m.pd_left_mm,
            pd_left_mm=m.pd_right_mm,
            height_right_mm=m.height_left_mm,
            height_left_mm=m.height_right_mm,
        ),
        readings=None if r is None else replace(r, right=r.left, left=r.right),
        previous=None if before is None else replace(before, right=before.left, left=before.right),
    )


def quarter(low: float, high: float) -> st.SearchStrategy[float]:
    """Powers in quarter steps."""
    return st.integers(round(low * 4), round(high * 4)).map(lambda steps: steps / 4)


@st.composite
def eyes(draw: st.DrawFn, *, with_add: bool = False) -> Eye:
    """An eye within what workshops glaze."""
    cylinder = draw(quarter(-4, 4))
    return Eye(
        sphere_d=draw(quarter(-10, 8)),
        cylinder_d=cylinder,
        axis_deg=float(draw(st.integers(1, 180))) if cylinder else None,
        add_d=draw(quarter(0.75, 3)) if with_add else None,
        prism_in_pd=draw(st.sampled_from([0.0, 0.0, 0.0, 1.0, -1.5])),
        prism_up_pd=draw(st.sampled_from([0.0, 0.0, 0.0, 1.0, -0.5])),
    )


@st.composite
def spectacles(draw: st.DrawFn) -> Spectacles:
    """A random valid order in the terms of the core."""
    design = draw(st.sampled_from(["single-vision", "reading", "bifocal", "progressive"]))
    with_add = design != "single-vision"
    prescription = Prescription(
        right=draw(eyes(with_add=with_add)),
        left=draw(eyes(with_add=with_add)),
        vertex_mm=draw(st.one_of(st.none(), st.floats(10, 16))),
    )
    tint = draw(st.sampled_from(["clear", "fixed", "photochromic", "photochromic-visible"]))
    a_mm = draw(st.floats(40, 56))
    return Spectacles(
        prescription=prescription,
        measurements=Measurements(pd_right_mm=draw(st.floats(28, 35)), pd_left_mm=draw(st.floats(28, 35))),
        frame=Frame(
            a_mm=a_mm,
            b_mm=draw(st.floats(28, min(a_mm, 45))),
            dbl_mm=draw(st.floats(15, 22)),
            material=draw(st.sampled_from(FRAMES)),
        ),
        lens=LensChoice(
            design=design,
            material=draw(st.sampled_from(MATERIALS)),
            tint=tint,
            tint_category=draw(st.integers(0, 4)) if tint == "fixed" else None,
        ),
        readings=Readings(right=read_as(prescription.right), left=read_as(prescription.left), reference_points_mm=63.0),
        wearer=Wearer(age_years=draw(st.integers(6, 95))),
    )
