"""The dial's axis line, read back from the drawing.

The scale is that of ISO 8429:1986: as it appears to someone facing the wearer, zero at that observer's right, growing
anticlockwise, 90 upright, the same for both eyes.
"""

from __future__ import annotations

import math

import pytest
from figures.reading import all_points, angle_deg, apart_deg, box, centre, names, points
from figures.words import LABEL_PT, width_mm, words

from explainer.errors import OutOfRange, RenderError
from explainer.figures.dial import CENTRES, axis_line_ends, dial
from explainer.figures.drawing import Drawing
from explainer.optics.spectacles import SIDES, Side

# a drawing's places are told to a hundredth of a point; a line is 22 mm long
ROUNDED_MM = 0.005 / 72 * 25.4 * 1.5
ROUNDED_DEG = math.degrees(2 * ROUNDED_MM / 20)
AXES = (1, 2, 10, 30, 44.5, 45, 60, 89, 90, 91, 120, 135, 150, 172, 179, 180)


def drawn(right: float | None, left: float | None) -> Drawing:
    return dial(right_axis_deg=right, left_axis_deg=left, right_cylinder_d=-1.0, left_cylinder_d=-0.5)


def line(drawing: Drawing, side: Side) -> tuple[tuple[float, float], tuple[float, float]]:
    """Both outer ends of the axis line; the drawing starts each half at its end."""
    halves = points(drawing, f"axis-{side}")
    assert len(halves) == 4
    return halves[0], halves[2]


@pytest.mark.parametrize("axis", AXES)
def test_the_drawn_line_lies_on_its_axis_within_half_a_degree(axis: float) -> None:
    drawing = drawn(axis, 180 - axis / 2)
    assert apart_deg(angle_deg(*line(drawing, "right")), axis) < 0.5
    assert apart_deg(angle_deg(*line(drawing, "left")), 180 - axis / 2) < 0.5


@pytest.mark.parametrize("side", SIDES)
def test_axis_45_runs_from_lower_left_to_upper_right_for_either_eye(side: Side) -> None:
    first, second = line(drawn(45, 45), side)
    upper, lower = sorted((first, second), key=lambda end: end[1])
    assert upper[0] > lower[0]


def test_axis_30_has_its_nasal_end_up_on_the_right_eye_and_its_temporal_end_up_on_the_left() -> None:
    """The observer's right is the nose side of the wearer's right eye, and the temple side of the left eye."""
    drawing = drawn(30, 30)
    nose = drawing.width_mm / 2
    for side, upper_is_nasal in (("right", True), ("left", False)):
        first, second = line(drawing, "right" if side == "right" else "left")
        upper, lower = sorted((first, second), key=lambda end: end[1])
        assert (abs(upper[0] - nose) < abs(lower[0] - nose)) is upper_is_nasal


@pytest.mark.parametrize("side", SIDES)
def test_growing_axes_turn_the_line_anticlockwise(side: Side) -> None:
    heights = []
    for axis in (5, 25, 45, 65, 85):
        upper = min(line(drawn(axis, axis), side), key=lambda end: end[1])
        heights.append((-upper[1], -upper[0]))
    assert heights == sorted(heights)


def test_0_and_180_are_the_same_level_line_and_print_as_180() -> None:
    level, zero = drawn(180, 180), drawn(0, 0)
    assert [label.value for label in zero.labels if label.key == "axis"] == [180, 180]
    for drawing in (level, zero):
        for side in SIDES:
            (_, y1), (_, y2) = line(drawing, side)
            assert y1 == pytest.approx(y2, abs=1e-6)
    assert zero.labels == level.labels


def test_45_is_the_mirror_image_of_135() -> None:
    one, other = drawn(45, 135), drawn(135, 45)
    for side in SIDES:
        middle = CENTRES[side][0]
        mirrored = {(round(2 * middle - x, 1), round(y, 1)) for x, y in line(one, side)}
        assert mirrored == {(round(x, 1), round(y, 1)) for x, y in line(other, side)}


def test_swapping_the_eyes_swaps_the_lines() -> None:
    one, swapped = drawn(20, 105), drawn(105, 20)
    assert angle_deg(*line(one, "right")) == pytest.approx(angle_deg(*line(swapped, "left")), abs=ROUNDED_DEG)
    assert angle_deg(*line(one, "left")) == pytest.approx(angle_deg(*line(swapped, "right")), abs=ROUNDED_DEG)
    assert one.svg != swapped.svg


def test_the_right_eye_stands_on_the_left_of_the_page_with_its_letter() -> None:
    drawing = drawn(20, 105)
    assert centre(drawing, "lens-right")[0] < drawing.width_mm / 2 < centre(drawing, "lens-left")[0]
    places = {label.key: label.x_mm for label in drawing.labels}
    for side, on_the_left in (("right", True), ("left", False)):
        for word in ("letter", "eye"):
            assert (places[f"{side}_{word}"] < drawing.width_mm / 2) is on_the_left
    values = {label.x_mm < drawing.width_mm / 2: label.value for label in drawing.labels if label.key == "axis"}
    assert values == {True: 20, False: 105}


@pytest.mark.parametrize("side", SIDES)
def test_the_line_runs_right_across_the_lens_through_its_middle(side: Side) -> None:
    drawing = drawn(33, 147)
    (x1, y1), (x2, y2) = line(drawing, side)
    assert ((x1 + x2) / 2, (y1 + y2) / 2) == pytest.approx(CENTRES[side], abs=ROUNDED_MM)
    left, _, right, _ = box(drawing, f"lens-{side}")
    assert ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5 > right - left


@pytest.mark.parametrize("side", SIDES)
def test_the_numbers_on_the_scale_stand_where_iso_8429_puts_them(side: Side) -> None:
    x, y = CENTRES[side]
    drawing = drawn(20, 105)
    half = drawing.width_mm / 2
    ticks = [label for label in drawing.labels if label.key == "tick" and (label.x_mm < half) is (x < half)]
    assert [label.value for label in ticks] == [0, 30, 60, 90, 120, 150, 180]
    for label in ticks:
        assert label.value is not None
        seen = angle_deg((x, y), (label.x_mm, label.y_mm)) if label.value != 180 else 180.0
        assert apart_deg(seen, label.value) < 0.01
    ends = {label.value: label.x_mm for label in ticks if label.value in (0, 180)}
    assert ends[0] > x > ends[180]
    assert all(label.y_mm <= y + 0.01 for label in ticks)


@pytest.mark.parametrize("side", SIDES)
def test_the_numbers_stand_clear_of_the_marks_of_the_scale(side: Side) -> None:
    """Digits are about seven tenths of their size high; no corner of a number comes nearer than the longest mark."""
    drawing = drawn(20, 105)
    middle = CENTRES[side]
    scale_mm = (box(drawing, f"scale-{side}")[2] - box(drawing, f"scale-{side}")[0]) / 2
    ends = [math.dist(middle, point) for point in all_points(drawing) if point[1] < middle[1]]
    longest = max(end for end in ends if end < scale_mm + 3)
    assert longest > scale_mm + 1
    half = drawing.width_mm / 2
    for label in drawing.labels:
        if label.key != "tick" or (label.x_mm < half) is not (middle[0] < half) or label.value in (0, 180):
            continue
        wide = width_mm(words(label))
        left = label.x_mm - {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
        nearest_x = min(max(middle[0], left), left + wide)
        lower_edge = label.y_mm + 0.36 * LABEL_PT * 25.4 / 72
        assert math.dist(middle, (nearest_x, lower_edge)) >= longest - 0.1, words(label)


def test_an_eye_without_a_cylinder_gets_no_line() -> None:
    for drawing in (
        dial(right_axis_deg=20, left_axis_deg=None),
        dial(right_axis_deg=20, left_axis_deg=70, left_cylinder_d=0.0),
    ):
        if "axis-left" in names(drawing):
            pytest.fail("a line was drawn for an eye without cylinder")
        assert "axis-right" in names(drawing)
        assert [label.key for label in drawing.labels if label.key in ("axis", "no_axis")] == ["axis", "no_axis"]


def test_a_cylinder_without_an_axis_is_refused() -> None:
    with pytest.raises(RenderError, match="left eye"):
        dial(right_axis_deg=None, left_axis_deg=None, left_cylinder_d=-0.75)


@pytest.mark.parametrize("axis", [-1, 180.5, 270, float("nan")])
def test_an_axis_off_the_scale_is_refused(axis: float) -> None:
    with pytest.raises(OutOfRange):
        axis_line_ends(axis_deg=axis, centre=(0, 0))
