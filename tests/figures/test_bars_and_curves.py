"""Bars and curves: lengths and places read back from the drawing are the numbers that were given."""

from __future__ import annotations

import pytest
from figures.reading import box, centre, points
from figures.samples import CATEGORIES, SPECTRUM, course

from explainer.errors import OutOfRange, RenderError
from explainer.figures.bars import Bar, Range, range_bars, value_bars
from explainer.figures.curves import Course, tint_curves
from explainer.figures.drawing import Drawing
from explainer.figures.spectrum import tint_spectrum


def read(drawing: Drawing, x: float) -> float:
    """The value at a place, from the printed ticks alone."""
    ticks = sorted((label.value or 0.0, label.x_mm) for label in drawing.labels if label.key == "tick")
    (low, low_x), (high, high_x) = ticks[0], ticks[-1]
    return low + (x - low_x) / (high_x - low_x) * (high - low)


def test_bars_are_as_long_as_their_values() -> None:
    bars = (
        Bar("material_polycarbonate", 7.5, True),
        Bar("material_hard-resin", 10.0),
        Bar("material_crown-glass", 20.0),
    )
    drawing = value_bars(bars=bars, unit="g", digits=1)
    lengths = []
    for bar in bars:
        left, _, right, _ = box(drawing, f"bar-{bar.key}")
        lengths.append(right - left)
    assert lengths == pytest.approx([lengths[2] * 7.5 / 20, lengths[2] / 2, lengths[2]], abs=0.01)
    printed = {label.y_mm: label.value for label in drawing.labels if label.key == "amount"}
    assert [printed[y] for y in sorted(printed)] == [7.5, 10.0, 20.0]


def test_a_bar_cannot_be_negative() -> None:
    with pytest.raises(OutOfRange):
        value_bars(bars=(Bar("material_polycarbonate", -1.0),), unit="g", digits=1)


def test_ranges_and_bands_stand_at_their_values_on_the_printed_scale() -> None:
    rows = (Range("summer_noon", 12, 22, 17), Range("convertible", 40, 96.5))
    drawing = range_bars(rows=rows, bands=CATEGORIES)
    for row in rows:
        left, _, right, _ = box(drawing, f"range-{row.key}")
        assert (read(drawing, left), read(drawing, right)) == pytest.approx((row.low, row.high), abs=0.05)
    assert read(drawing, centre(drawing, "middle-summer_noon")[0]) == pytest.approx(17, abs=0.05)
    for band in CATEGORIES:
        left, _, right, _ = box(drawing, f"band-{band.key}")
        assert (read(drawing, left), read(drawing, right)) == pytest.approx((band.low, band.high), abs=0.05)


def test_the_ends_of_a_range_are_printed_beside_its_bar_and_rounded_outward() -> None:
    """What is printed must hold all that is known: 12.3 to 22.4 is 12 to 23, never 12 to 22."""
    rows = (Range("summer_noon", 12.3, 22.4), Range("overcast", 0, 100), Range("convertible", 40.0, 40.0))
    drawing = range_bars(rows=rows, bands=CATEGORIES)
    for row, ends in zip(rows, ([12, 23], [0, 100], [40]), strict=True):
        left, top, right, bottom = box(drawing, f"range-{row.key}")
        beside = [label for label in drawing.labels if label.key == "amount" and top < label.y_mm < bottom]
        assert [label.value for label in sorted(beside, key=lambda label: label.x_mm)] == ends
        for label in beside:
            assert label.x_mm < left if label.anchor == "end" else label.x_mm > right


def test_each_name_stands_above_its_own_bar_and_below_the_one_before() -> None:
    rows = (Range("summer_noon", 12, 22), Range("overcast", 30, 60), Range("convertible", 40, 50))
    places = {label.key: label.y_mm for label in range_bars(rows=rows, bands=CATEGORIES).labels}
    drawing = range_bars(rows=rows, bands=CATEGORIES)
    foot = 0.0
    for row in rows:
        _, top, _, bottom = box(drawing, f"range-{row.key}")
        assert foot < places[row.key] < top
        assert top - places[row.key] < places[row.key] - foot + 1.0
        foot = bottom


def test_ranges_that_end_before_they_start_or_leave_the_scale_are_refused() -> None:
    with pytest.raises(RenderError, match="before it starts"):
        range_bars(rows=(Range("summer_noon", 30, 20),))
    with pytest.raises(OutOfRange):
        range_bars(rows=(Range("summer_noon", 30, 101),))


def test_a_label_without_words_is_refused() -> None:
    with pytest.raises(RenderError, match="no words"):
        range_bars(rows=(Range("moon", 30, 40),))


def test_curves_go_through_their_points() -> None:
    fading = course(23, 1200, 120, start=17, final=88, spare=3)
    drawing = tint_curves(darkening=(course(23, 120, 24, start=88, final=17, spare=3),), fading=(fading,))
    drawn = points(drawing, "fading-23")
    ticks = [label for label in drawing.labels if label.key == "tick"]
    (title,) = [label for label in drawing.labels if label.key == "fading"]
    lower = [label for label in ticks if label.y_mm > title.y_mm]
    light = sorted((label.value or 0.0, label.y_mm) for label in lower if label.anchor == "end")
    minutes = sorted((label.value or 0.0, label.x_mm) for label in lower if label.anchor == "middle")
    assert [value for value, _ in light] == [0, 20, 40, 60, 80, 100]
    for (x, y), time, percent in zip(drawn, fading.times_s, fading.central, strict=True):
        (low, low_y), (high, high_y) = light[0], light[-1]
        assert low + (low_y - y) / (low_y - high_y) * (high - low) == pytest.approx(percent, abs=0.1)
        (start, start_x), (end, end_x) = minutes[0], minutes[-1]
        assert start + (x - start_x) / (end_x - start_x) * (end - start) == pytest.approx(time / 60, abs=0.02)
    assert {label.key for label in drawing.labels if label.key in ("seconds", "minutes")} == {"seconds", "minutes"}


def test_one_picture_alone_takes_half_the_height() -> None:
    fading = (course(23, 1200, 120, start=17, final=88, spare=3),)
    alone, both = tint_curves(fading=fading), tint_curves(darkening=fading, fading=fading)
    assert alone.height_mm < 0.55 * both.height_mm
    assert "darkening" not in {label.key for label in alone.labels}
    with pytest.raises(RenderError, match="at least one"):
        tint_curves()


def test_the_spectrum_is_drawn_over_its_printed_wavelengths_and_fills_what_all_three_share() -> None:
    """A dye can use only light that the sun sends and the pane passes: sun times glass times dye at each wavelength."""
    drawing = tint_spectrum(**SPECTRUM)  # type: ignore[arg-type]
    rows = [[float(v) for v in SPECTRUM[name]] for name in ("wavelength_nm", "sun", "glass", "dye")]  # type: ignore[attr-defined]
    sun, used = points(drawing, "curve-sun"), points(drawing, "used-area")[1:-1]
    foot = box(drawing, "used-area")[3]
    high = foot - min(y for _, y in sun)  # the sun's ramp ends at 1
    assert len(used) == len(sun) == len(rows[0])
    for (x, y), (also_x, sun_y), nm, a, b, c in zip(used, sun, *rows, strict=True):
        assert x == pytest.approx(also_x, abs=1e-3)
        assert read(drawing, x) == pytest.approx(nm, abs=0.2)
        assert (foot - sun_y) / high == pytest.approx(a, abs=1e-3)
        assert (foot - y) / high == pytest.approx(a * b * c, abs=1e-3)


def test_a_spectrum_of_uneven_rows_or_beyond_all_light_is_refused() -> None:
    with pytest.raises(RenderError, match="differ"):
        tint_spectrum(wavelength_nm=(300, 310), sun=(0, 1), glass=(0, 1), dye=(1,))
    with pytest.raises(OutOfRange):
        tint_spectrum(wavelength_nm=(300, 310), sun=(0, 1.2), glass=(0, 1), dye=(1, 1))


def test_each_temperature_has_its_own_line_style_and_name() -> None:
    three = [course(c, 100, 20 + c, start=88, final=20 + c, spare=2) for c in (5, 23, 35)]
    drawing = tint_curves(darkening=three, fading=three)
    svg = drawing.svg.decode()
    styles = [svg.split(f'id="darkening-{c}"')[1].split('style="')[1].split('"')[0] for c in (5, 23, 35)]
    assert len({style.partition("stroke-dasharray")[2].partition(";")[0] for style in styles}) == 3
    ends = sorted(
        (label.y_mm, label.value)
        for label in drawing.labels
        if label.key == "at_celsius" and label.y_mm < drawing.height_mm / 2
    )
    assert [value for _, value in ends] == [35, 23, 5]  # the warmest lens stays lightest, so it ends on top


@pytest.mark.parametrize(
    "broken",
    [
        Course(23, (0, 10), (88,)),
        Course(23, (0, 10), (88, 20), (80, 15)),
        Course(23, (0, 10, 10), (88, 20, 20)),
        Course(23, (0,), (88,)),
    ],
)
def test_a_curve_with_uneven_rows_is_refused(broken: Course) -> None:
    with pytest.raises(RenderError):
        tint_curves(darkening=(broken,), fading=(broken,))


def test_light_beyond_all_and_nothing_is_refused() -> None:
    with pytest.raises(OutOfRange):
        tint_curves(darkening=(Course(23, (0, 10), (88, 120)),), fading=(Course(23, (0, 10), (20, 88)),))
