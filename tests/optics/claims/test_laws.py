"""Laws that hold for every order: finite, inside the stated range, the same eyes swapped, mirrored where mirrored."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import TypeVar

import pytest
from hypothesis import HealthCheck, assume, given, settings
from pairs import ORDINARY, spectacles, swapped

from explainer.errors import OutOfRange
from explainer.optics.claim import Interval
from explainer.optics.claims import ClaimSet, explain
from explainer.optics.spectacles import Eye, LensReading, Prescription, Spectacles

Mirrored = TypeVar("Mirrored", Eye, LensReading)
MANY = settings(max_examples=2000, deadline=None, suppress_health_check=list(HealthCheck))
SOME = settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))


def claims_of(order: Spectacles) -> ClaimSet:
    """The claims; orders for lenses that cannot be made are set aside."""
    try:
        return explain(order).claims
    except OutOfRange:
        assume(False)
        raise


def numbers(value) -> list[float]:
    if isinstance(value, Interval):
        return [value.low, value.high]
    return [] if isinstance(value, str | bool) else [float(value)]


def close(one, two) -> bool:
    if isinstance(one, str | bool):
        return one == two
    return all(math.isclose(a, b, rel_tol=1e-6, abs_tol=1e-6) for a, b in zip(numbers(one), numbers(two), strict=True))


@pytest.mark.slow
@MANY
@given(spectacles())
def test_every_claim_is_finite_and_inside_its_stated_range(order: Spectacles):
    """The ledger refuses a value outside the range of its statement, so that reaching the end is the proof."""
    claims = claims_of(order)

    assert all(math.isfinite(number) for claim in claims.values() for number in numbers(claim.value))


# what an oblique cylinder does off its centre, and the body of the lens, come out alike only in the mirror
OWN_GEOMETRY = re.compile(
    r"(right|left)\.(thickness|weight|reference|saving|material|magnification|centre|minimum_uncut"
    r"|back_curve|back_vertex|front_vertex|equivalent|prism\.base)"
    r"|(pair|warn)\.image_size|warn\.centres|bench\.vertical|thickest|thinner"
)
EXCHANGED = {"right": "left", "left": "right"}
OWN_SIDE = ("thickest.side",)


def other(name: str) -> str:
    """The claim id of the other eye."""
    parts = [{"right": "left", "left": "right"}.get(part, part) for part in name.split(".")]
    return ".".join(parts)


@pytest.mark.slow
@SOME
@given(spectacles())
def test_swapping_the_eyes_swaps_the_claims_and_swapping_back_restores_them(order: Spectacles):
    claims, exchanged = claims_of(order), claims_of(swapped(order))

    assert claims_of(swapped(swapped(order))).keys() == claims.keys()
    for name, claim in claims.items():
        if claim.value in EXCHANGED:
            assert name in OWN_SIDE or exchanged[name].value == EXCHANGED[claim.value], name
            continue
        if OWN_GEOMETRY.match(name):
            continue  # a lens in the other rim is another lens unless the axis is mirrored: the next test
        assert close(claim.value, exchanged[other(name)].value), name


def mirrored_eye(eye: Mirrored) -> Mirrored:
    """The same eye in a mirror: its axis runs the other way; base in stays base in."""
    axis = None if eye.axis_deg is None else (180 - eye.axis_deg) or 180.0
    return replace(eye, axis_deg=axis)


def mirrored(order: Spectacles) -> Spectacles:
    exchanged = swapped(order)
    p, r = exchanged.prescription, exchanged.readings
    return replace(
        exchanged,
        prescription=replace(p, right=mirrored_eye(p.right), left=mirrored_eye(p.left)),
        readings=r and replace(r, right=r.right and mirrored_eye(r.right), left=r.left and mirrored_eye(r.left)),
    )


@pytest.mark.slow
@SOME
@given(spectacles())
def test_a_pair_in_the_mirror_has_the_claims_of_the_mirror(order: Spectacles):
    claims, reflected = claims_of(order), claims_of(mirrored(order))

    for name, claim in claims.items():
        if name.endswith((".axis", ".J45", "axis.reading", "prism.base")):
            continue
        if claim.value in EXCHANGED:
            assert reflected[name].value == EXCHANGED[claim.value], name
            continue
        assert close(claim.value, reflected[other(name)].value), name


def test_the_axis_of_a_mirrored_pair_runs_the_other_way():
    claims, reflected = claims_of(ORDINARY), claims_of(mirrored(ORDINARY))

    assert reflected.value("left.axis") == 180 - claims.number("right.axis")


def test_a_stronger_minus_lens_is_thicker_and_heavier():
    weak, strong = (
        claims_of(
            replace(
                ORDINARY,
                previous=None,
                readings=None,
                prescription=Prescription(right=Eye(sphere_d=power), left=Eye(sphere_d=power)),
            )
        )
        for power in (-2.0, -4.0)
    )

    assert strong.number("right.thickness.thickest") > weak.number("right.thickness.thickest")
    assert strong.number("right.weight") > weak.number("right.weight")
