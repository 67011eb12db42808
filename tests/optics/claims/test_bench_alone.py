"""The bench asked alone: the same verdicts and the same refusals as the whole explanation, on random orders."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, event, example, given, settings
from hypothesis import strategies as st
from pairs import FRAMES, MATERIALS, ORDINARY, eyes, lens, quarter, spectacles

from explainer.errors import FactError, OutOfRange
from explainer.optics.claim import Claim
from explainer.optics.claims import explain, explain_bench
from explainer.optics.facts.tolerance_tables import standards
from explainer.optics.spectacles import (
    Eye,
    Frame,
    LensChoice,
    LensData,
    Measurements,
    Prescription,
    Readings,
    Spectacles,
)

MANY = settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))


def whole(order: Spectacles, standard: str) -> dict[str, Claim] | str:
    """The claims on the bench in the whole explanation, or its refusal.

    Set aside: a claim outside the range of its statement, such as a lens ten times heavier than hard resin. That is a
    FactError of the whole, and most such claims cannot be known without computing them.
    """
    try:
        claims = explain(order, tolerances=standard).claims
    except OutOfRange as error:
        return str(error)
    except FactError:
        assume(False)
        raise
    return {name: claim for name, claim in claims.items() if name.startswith("bench.")}


def alone(order: Spectacles, standard: str) -> dict[str, Claim] | str:
    try:
        claims = explain_bench(order, tolerances=standard)
    except OutOfRange as error:
        return str(error)
    return {name: claim for name, claim in claims.items() if name.startswith("bench.")}


def maybe(values: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.one_of(st.none(), values)


@st.composite
def readings(draw: st.DrawFn) -> Readings:
    """Readings that have nothing to do with the order, or are not there."""
    return Readings(right=draw(maybe(eyes())), left=draw(maybe(eyes())), pd_mm=draw(maybe(st.floats(50, 75))))


@st.composite
def extreme_eyes(draw: st.DrawFn) -> Eye:
    """An eye up to the ends of what the reader takes."""
    cylinder = draw(st.sampled_from([0.0, 0.0, -2.0, 3.0, -6.0, 6.0, -20.5]))
    return Eye(
        sphere_d=draw(quarter(-22, 22)),
        cylinder_d=cylinder,
        axis_deg=float(draw(st.integers(1, 180))) if cylinder else None,
        add_d=draw(maybe(quarter(0.75, 3.5))),
        prism_in_pd=draw(st.sampled_from([0.0, 0.0, 4.0, -12.0, 20.0])),
        prism_up_pd=draw(st.sampled_from([0.0, 0.0, 4.0, -12.0])),
    )


@st.composite
def lens_data(draw: st.DrawFn) -> LensData:
    dark = draw(st.lists(st.tuples(st.sampled_from([5.0, 23.0, 35.0]), st.floats(5, 95)), max_size=2))
    return LensData(
        front_curve_d=draw(maybe(st.floats(0, 20))),
        minimum_centre_mm=draw(maybe(st.floats(0.3, 10))),
        minimum_edge_mm=draw(maybe(st.floats(0.3, 10))),
        clear_percent=draw(maybe(st.floats(10, 100))),
        dark_percent_by_celsius=tuple(sorted(dark)),
    )


@st.composite
def extreme_spectacles(draw: st.DrawFn) -> Spectacles:
    """Strong lenses in wide frames with pupils anywhere: many cannot be made."""
    a_mm, b_mm = draw(st.floats(30, 80)), draw(st.floats(16, 60))
    both = (a_mm**2 + b_mm**2) ** 0.5
    return Spectacles(
        prescription=Prescription(
            right=draw(extreme_eyes()), left=draw(extreme_eyes()), vertex_mm=draw(maybe(st.floats(5, 30)))
        ),
        measurements=Measurements(
            pd_mm=draw(maybe(st.floats(35, 90))), height_right_mm=draw(maybe(st.floats(2, b_mm)))
        ),
        frame=Frame(
            a_mm=a_mm,
            b_mm=b_mm,
            dbl_mm=draw(st.floats(5, 40)),
            ed_mm=draw(maybe(st.floats(max(a_mm, b_mm), both + 0.5))),
            material=draw(st.sampled_from(FRAMES)),
        ),
        lens=LensChoice(
            design=draw(st.sampled_from(["single-vision", "reading", "progressive"])),
            material=draw(st.sampled_from([None, *MATERIALS])),
            tint=draw(st.sampled_from([None, None, None, "clear", "fixed", "photochromic"])),
            supplied=draw(lens_data()),
        ),
        readings=draw(readings()),
        previous=draw(maybe(st.builds(Prescription, right=extreme_eyes(), left=extreme_eyes()))),
    )


@MANY
@given(spectacles(), readings(), st.sampled_from(standards()))
def test_the_bench_alone_says_what_the_whole_explanation_says(order: Spectacles, read: Readings, standard: str):
    order = replace(order, readings=read)

    assert alone(order, standard) == whole(order, standard)


LARGER_THAN_A_BLANK = replace(
    lens(design="single-vision", material="polycarbonate", supplied=LensData(front_curve_d=0.0)),
    prescription=Prescription(right=Eye(sphere_d=0.0), left=Eye(sphere_d=14.0)),
    measurements=Measurements(pd_mm=55.0),
    frame=Frame(a_mm=65.0, b_mm=60.0, dbl_mm=5.0, material="acetate"),
)
"""In hard resin, with which it is compared, it would hold more than a tenth of a litre."""


@MANY
@given(extreme_spectacles())
@example(LARGER_THAN_A_BLANK)
def test_what_cannot_be_made_is_refused_in_the_same_words(order: Spectacles):
    found = whole(order, "ansi-z80-1-2015")
    event(found.split("=")[0] if isinstance(found, str) else "made")

    assert alone(order, "ansi-z80-1-2015") == found


IMPOSSIBLE = {
    "the front does not reach the edge": lens(material="hard-resin", supplied=LensData(front_curve_d=20.0)),
    "the pupil stands outside the lens": replace(
        ORDINARY, measurements=Measurements(pd_mm=40.0), frame=Frame(a_mm=30.0, b_mm=30.0, dbl_mm=40.0)
    ),
    "dark is lighter than clear": lens(
        tint="photochromic", supplied=LensData(clear_percent=50.0, dark_percent_by_celsius=((23.0, 60.0),))
    ),
    "the pupils are too far apart": replace(ORDINARY, measurements=Measurements(pd_mm=95.0)),
}


@pytest.mark.parametrize("order", IMPOSSIBLE.values(), ids=IMPOSSIBLE)
def test_each_kind_of_impossible_pair_is_refused(order: Spectacles):
    with pytest.raises(OutOfRange):
        explain(order)
    with pytest.raises(OutOfRange):
        explain_bench(order)


def test_a_fixed_tint_that_nobody_described_is_explained():
    """tint = "fixed" without category or percent: by night it counts as dark, and nothing is said of the day."""
    claims = explain(lens(tint="fixed")).claims

    assert claims.value("drive.night") == "no"
    assert "drive.day" not in claims


def test_an_ordinary_order_needs_no_lens_to_be_computed(monkeypatch: pytest.MonkeyPatch):
    """The bounds answer; the whole lens is computed only where they do not."""
    monkeypatch.setattr("explainer.optics.claims.lens.as_made", lambda *_: pytest.fail("computed"))

    explain_bench(ORDINARY)
