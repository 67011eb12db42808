"""The ladder's marks, read back from the drawing: where a mark stands is the power it stands for."""

from __future__ import annotations

import pytest
from figures.reading import box, centre

from explainer.errors import OutOfRange
from explainer.figures.drawing import Drawing
from explainer.figures.ladder import ladder, ladder_scale

POWERS = (
    (-3.25, -4.5, -2.75, -3.25),
    (-12.0, -12.25, 8.0, 7.75),
    (0.0, 0.0, 0.25, -0.25),
    (1.5, 0.0, 2.25, 3.5),
)


def ladder_of(powers: tuple[float, float, float, float]) -> Drawing:
    right_along, right_across, left_along, left_across = powers
    return ladder(
        right_along_d=right_along, right_across_d=right_across, left_along_d=left_along, left_across_d=left_across
    )


def read_power(drawing: Drawing, y: float) -> float:
    """The power at a height, from the printed whole dioptres alone."""
    ticks = sorted((label.value or 0.0, label.y_mm) for label in drawing.labels if label.key == "power_tick")
    (low, low_y), (high, high_y) = ticks[0], ticks[-1]
    return low + (low_y - y) / (low_y - high_y) * (high - low)


@pytest.mark.parametrize("powers", POWERS)
def test_each_mark_stands_at_its_power_in_its_eyes_column(powers: tuple[float, float, float, float]) -> None:
    drawing = ladder_of(powers)
    names = ("along-right", "across-right", "along-left", "across-left")
    for name, power in zip(names, powers, strict=True):
        side = name.rpartition("-")[2]
        if name.startswith("across") and power == powers[0 if side == "right" else 2]:
            continue  # equal powers have one mark
        x, y = centre(drawing, name)
        assert read_power(drawing, y) == pytest.approx(power, abs=0.02)
        assert (x < drawing.width_mm / 2) is (side == "right")


@pytest.mark.parametrize("powers", POWERS)
def test_the_zero_line_stands_at_zero(powers: tuple[float, float, float, float]) -> None:
    drawing = ladder_of(powers)
    for side in ("right", "left"):
        assert read_power(drawing, centre(drawing, f"zero-{side}")[1]) == pytest.approx(0, abs=0.01)


def test_plus_is_above_zero_and_minus_below() -> None:
    drawing = ladder_of((2.0, 1.0, -2.0, -3.0))
    zero = centre(drawing, "zero-right")[1]
    assert centre(drawing, "along-right")[1] < zero < centre(drawing, "along-left")[1]


def test_the_grey_climb_reaches_from_zero_to_the_power_along_the_axis() -> None:
    drawing = ladder_of((-3.25, -4.5, 1.5, 1.5))
    _, top, _, bottom = box(drawing, "climb-right")
    assert read_power(drawing, top) == pytest.approx(0, abs=0.01)
    assert read_power(drawing, bottom) == pytest.approx(-3.25, abs=0.01)


def test_printed_powers_are_those_that_were_given_each_on_its_side() -> None:
    drawing = ladder_of((-3.25, -4.5, -2.75, -3.25))
    shown = {(label.x_mm < drawing.width_mm / 2, label.value) for label in drawing.labels if label.key == "power"}
    assert shown == {(True, -3.25), (True, -4.5), (False, -2.75), (False, -3.25)}


def test_minus_zero_is_printed_as_zero() -> None:
    shown = [label.value for label in ladder_of((-0.0, -0.0, 0.0, 0.0)).labels if label.key == "power"]
    assert [str(value) for value in shown] == ["0.0", "0.0"]


@pytest.mark.parametrize(
    ("powers", "ends"),
    [((-3.25,), (-4, 0)), ((0.0,), (-1, 1)), ((0.5,), (-1, 1)), ((-12, 8), (-12, 8)), ((-0.25, 4.25), (-1, 5))],
)
def test_the_scale_holds_zero_and_every_power_in_whole_dioptres(
    powers: tuple[float, ...], ends: tuple[int, int]
) -> None:
    assert ladder_scale(powers) == ends


@pytest.mark.parametrize("power", [31, -31, float("nan")])
def test_a_power_off_the_scale_is_refused(power: float) -> None:
    with pytest.raises(OutOfRange):
        ladder_of((power, 0, 0, 0))
