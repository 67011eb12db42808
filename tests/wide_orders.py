"""Orders that between them reach every claim: the gallery, and pairs that the gallery has no room for."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

from pairs import ORDINARY, lens, pair, read_as

from explainer.optics.spectacles import (
    Design,
    Eye,
    Frame,
    LensData,
    Measurements,
    Prescription,
    Readings,
    Spectacles,
    Wearer,
)
from explainer.orders import read_order

GALLERY = Path(__file__).parent / "gallery"


def as_read(right: Eye, left: Eye, design: Design) -> Spectacles:
    """A pair of which everything was read, with half a prism dioptre in the right lens that nobody ordered."""
    off = replace(right, prism_in_pd=right.prism_in_pd + 0.5, prism_up_pd=right.prism_up_pd + 0.5)
    return pair(
        prescription=Prescription(right=right, left=left),
        lens=replace(ORDINARY.lens, design=design, dye="ultraviolet"),
        readings=Readings(
            right=read_as(off),
            left=read_as(left),
            reference_points_mm=63.0,
            reference_point_right_mm=31.0,
            reference_point_left_mm=32.0,
            height_right_mm=20.0,
            height_left_mm=21.0,
        ),
        measurements=replace(ORDINARY.measurements, height_right_mm=20.0, height_left_mm=20.0),
        previous=None,
    )


@cache
def wide_orders() -> dict[str, Spectacles]:
    """The gallery, and a few pairs that reach what the gallery does not."""
    files = [path for path in sorted(GALLERY.rglob("*.toml")) if path.stem != "workshop"]
    found = {path.stem: read_order(path).spectacles for path in files}
    strong = Eye(sphere_d=7.5, cylinder_d=-5.0, axis_deg=20.0, add_d=2.5, prism_in_pd=2.0, prism_up_pd=1.0)
    found["ordinary"] = ORDINARY
    found["strong"] = pair(
        prescription=Prescription(right=strong, left=replace(strong, sphere_d=3.0)),
        previous=Prescription(right=replace(strong, axis_deg=40.0), left=replace(strong, sphere_d=4.0)),
        readings=Readings(right=read_as(strong), left=read_as(replace(strong, sphere_d=3.0)), reference_points_mm=62.0),
        lens=replace(ORDINARY.lens, design="progressive", supplied=LensData()),
        wearer=Wearer(age_years=14),
    )
    faint = Eye(sphere_d=-1.0, cylinder_d=-0.2, axis_deg=30.0)
    slight = Eye(sphere_d=-1.0, cylinder_d=-0.3, axis_deg=30.0)
    found["faint cylinders"] = pair(
        prescription=Prescription(right=faint, left=slight),
        readings=Readings(right=read_as(faint), left=read_as(slight), reference_points_mm=62.5),
        previous=None,
    )
    sideways = Prescription(right=Eye(sphere_d=-1.0, cylinder_d=-5.0, axis_deg=90.0), left=Eye(sphere_d=-1.0))
    found["unequal sideways"] = pair(prescription=sideways, previous=None, readings=None)
    prism = Eye(sphere_d=-3.0, prism_in_pd=3.0, prism_up_pd=2.0)
    minus = Prescription(right=prism, left=prism)
    plus = Prescription(right=Eye(sphere_d=4.0), left=Eye(sphere_d=2.5, cylinder_d=-0.5, axis_deg=90.0))
    for material in ("hard-resin", "urethane-1.53", "high-index-1.60", "high-index-1.67", "high-index-1.74"):
        clear = lens(material=material, supplied=LensData(), tint="clear")
        found[f"minus {material}"] = replace(clear, prescription=minus, previous=None, readings=None)
        found[f"plus {material}"] = replace(clear, prescription=plus, previous=None, readings=None)
    found["progressive as read"] = as_read(strong, replace(strong, sphere_d=3.0), "progressive")
    weak = Eye(sphere_d=-1.0, add_d=2.0)
    found["weak progressive as read"] = as_read(weak, weak, "progressive")
    found["bifocal as read"] = as_read(weak, weak, "bifocal")
    single = Eye(sphere_d=-4.0, cylinder_d=-5.0, axis_deg=20.0)
    found["strong single vision as read"] = as_read(single, single, "single-vision")
    found["tilted"] = pair(frame=replace(ORDINARY.frame, pantoscopic_tilt_deg=9.0, wrap_deg=6.0))
    found["without an outline"] = pair(frame=Frame(a_mm=50.0, dbl_mm=18.0, ed_mm=54.0))
    found["half-rim minus"] = lens(material="high-index-1.67", supplied=LensData(), tint="clear")
    found["half-rim minus"] = replace(found["half-rim minus"], frame=replace(ORDINARY.frame, material="half-rim"))
    found["child, patched, own frame"] = pair(
        frame=replace(ORDINARY.frame, own=True), wearer=Wearer(age_years=7, patching=True, falls=True)
    )
    found["progressive, falls"] = pair(
        prescription=Prescription(right=Eye(sphere_d=1.0, add_d=2.0), left=Eye(sphere_d=1.25, add_d=2.0)),
        lens=replace(ORDINARY.lens, design="progressive"),
        measurements=Measurements(pd_mm=63.0, near_pd_mm=60.0),
        wearer=Wearer(age_years=77, falls=True),
        readings=None,
        previous=None,
    )
    return found
