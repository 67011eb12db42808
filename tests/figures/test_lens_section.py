"""The lens section is a scale drawing: thicknesses are read back from it with a ruler."""

from __future__ import annotations

import math

import pytest
from figures.reading import box, points
from figures.samples import LARGE, PLUS, STRONG_MINUS, STRONG_MINUS_RESIN, meniscus

from explainer.errors import RenderError
from explainer.figures.drawing import Drawing
from explainer.figures.lens_section import Section, Thickness, lens_section, section_scale
from explainer.optics.spectacles import SIDES, Side

LENS, RESIN = "section-this_lens", "section-hard_resin_lens"


def edge_heights(drawing: Drawing, name: str) -> tuple[float, float]:
    """Height of the drawn lens at its left and right end [mm on paper]."""
    drawn = points(drawing, name)
    left, right = min(x for x, _ in drawn), max(x for x, _ in drawn)
    return tuple(
        max(y for x, y in drawn if abs(x - end) < 1e-3) - min(y for x, y in drawn if abs(x - end) < 1e-3)
        for end in (left, right)
    )  # type: ignore[return-value]


def test_a_lens_that_fits_is_drawn_in_life_size() -> None:
    drawing = lens_section(lens=STRONG_MINUS)
    left, _, right, _ = box(drawing, LENS)
    assert right - left == pytest.approx(50, abs=0.01)
    sag = 62 - math.sqrt(62**2 - 25**2)
    front = 500 - math.sqrt(500**2 - 25**2)
    for height in edge_heights(drawing, LENS):
        assert height == pytest.approx(1.5 + sag - front, abs=0.01)


def test_both_lenses_and_the_bar_have_one_scale() -> None:
    drawing = lens_section(lens=LARGE, reference=LARGE)
    scale = section_scale(LARGE)
    assert scale < 1
    left, _, right, _ = box(drawing, "scale-bar")
    assert right - left == pytest.approx(10 * scale, abs=0.01)
    for name in (LENS, RESIN):
        left, _, right, _ = box(drawing, name)
        assert right - left == pytest.approx(66 * scale, abs=0.01)


def test_this_lens_stands_above_the_reference() -> None:
    drawing = lens_section(lens=STRONG_MINUS, reference=STRONG_MINUS_RESIN)
    assert box(drawing, LENS)[3] < box(drawing, RESIN)[1]


def test_the_front_looks_down_the_page() -> None:
    """A lens with a convex front has its lowest drawn point at the front vertex."""
    drawn = points(lens_section(lens=PLUS), LENS)
    lowest = max(drawn, key=lambda p: p[1])
    left, right = min(x for x, _ in drawn), max(x for x, _ in drawn)
    assert lowest[0] - left == pytest.approx(24, abs=0.6)
    assert right - lowest[0] == pytest.approx(21, abs=0.6)


@pytest.mark.parametrize("side", SIDES)
def test_the_nose_is_at_the_observers_right_of_the_right_lens_and_left_of_the_left(side: Side) -> None:
    drawing = lens_section(lens=PLUS, side=side)
    places = {label.key: (label.x_mm, label.value) for label in drawing.labels}
    nose_is_right = places["nose_side"][0] > places["temple_side"][0]
    assert nose_is_right is (side == "right")
    assert (places["thickness_nasal"][0] > places["thickness_temporal"][0]) is nose_is_right
    left_height, right_height = edge_heights(drawing, LENS)
    assert left_height != pytest.approx(right_height, abs=0.1)
    assert places["thickness_nasal"][1] == pytest.approx(right_height if nose_is_right else left_height, abs=0.01)
    assert places["thickness_temporal"][1] == pytest.approx(left_height if nose_is_right else right_height, abs=0.01)


def test_the_centre_thickness_is_that_at_the_optical_centre() -> None:
    values = {label.key: label.value for label in lens_section(lens=STRONG_MINUS, centre_x_mm=10).labels}
    back, front = 62 - math.sqrt(62**2 - 100), 500 - math.sqrt(500**2 - 100)
    assert values["thickness_centre"] == pytest.approx(1.5 + back - front, abs=0.005)


def test_a_thickness_to_print_must_be_the_one_that_is_drawn() -> None:
    edge = STRONG_MINUS.thickness(25)
    given = lens_section(lens=STRONG_MINUS, lens_thickness=Thickness(edge + 0.04, 1.5, edge))
    assert [label.value for label in given.labels if label.key == "thickness_nasal"] == [edge + 0.04]
    with pytest.raises(RenderError, match="nasal_mm"):
        lens_section(lens=STRONG_MINUS, lens_thickness=Thickness(edge + 0.5, 1.5, edge))


@pytest.mark.parametrize(
    "broken",
    [
        Section((0, 1), (0, 0), (1, 1)),
        Section((0, 1, 2), (0, 0), (1, 1, 1)),
        Section((0, 2, 1), (0, 0, 0), (1, 1, 1)),
        Section((0, 1, 2), (0, 0, 0), (1, 0, 1)),
        Section((0, 1, 2), (0, 0, 0), (1, float("nan"), 1)),
    ],
)
def test_a_section_that_is_no_lens_is_refused(broken: Section) -> None:
    with pytest.raises(RenderError):
        lens_section(lens=broken)


def test_the_sample_lenses_are_lenses() -> None:
    assert meniscus(front_mm=100, back_mm=100, centre_mm=2, reach_mm=(-20, 20)).thickness(13.7) == pytest.approx(2)
