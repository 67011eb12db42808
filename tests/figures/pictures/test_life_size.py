"""One millimetre of the pair is one millimetre on paper, read from the finished drawing.

The box sizes are the orders' own (A, B and DBL of the boxing system, ISO 8624); the traced one is read from the trace.
"""

from __future__ import annotations

import math

import pytest
from figures.pictures.orders import order, picture
from figures.pictures.shapes import extent, trace
from figures.reading import SVG, root

BOXED = ["strong-minus-astigmat", "strong-plus-reading", "progressive-changed", "bifocal-plus-add", "child"]


@pytest.mark.parametrize("name", BOXED)
def test_the_lenses_have_the_ordered_box(name: str) -> None:
    frame = order(name).spectacles.frame
    right, left = (extent(picture(name, "pair"), f"lens-{side}") for side in ("right", "left"))
    for left_edge, top, right_edge, bottom in (right, left):
        assert right_edge - left_edge == pytest.approx(frame.a_mm, abs=0.1)
        assert bottom - top == pytest.approx(frame.b_mm, abs=0.1)
    assert left[0] - right[2] == pytest.approx(frame.dbl_mm, abs=0.1)


def test_the_right_lens_is_on_the_left_of_the_page() -> None:
    """Seen by someone facing the wearer."""
    drawing = picture("strong-minus-astigmat", "pair")
    assert extent(drawing, "lens-right")[2] < drawing.width_mm / 2 < extent(drawing, "lens-left")[0]
    places = {label.key: label.x_mm for label in drawing.labels}
    assert places["eye_right"] < drawing.width_mm / 2 < places["eye_left"]
    assert places["slot_under_right"] < drawing.width_mm / 2 < places["slot_under_left"]


def test_a_traced_lens_has_the_size_of_its_trace() -> None:
    frame = order("traced-half-rim").spectacles.frame
    for side in ("right", "left"):
        radii = frame.outline(side)
        assert radii is not None
        turns = [math.tau * i / len(radii) for i in range(len(radii))]
        wide = [r * math.cos(t) for r, t in zip(radii, turns, strict=True)]
        high = [r * math.sin(t) for r, t in zip(radii, turns, strict=True)]
        left, top, right, bottom = extent(picture("traced-half-rim", "pair"), f"lens-{side}")
        assert right - left == pytest.approx(max(wide) - min(wide), abs=0.1)
        assert bottom - top == pytest.approx(max(high) - min(high), abs=0.1)


def test_the_rule_is_fifty_millimetres_long() -> None:
    left, _, right, _ = extent(picture("strong-minus-astigmat", "rule"), "rule")
    assert right - left == pytest.approx(50, abs=0.02)
    paths = list(root(picture("strong-minus-astigmat", "rule")).iter(f"{SVG}path"))
    ticks = [trace(path.get("d", "")) for path in paths[1:]]
    across = sorted({round(x - left, 1) for tick in ticks for x, _ in tick})
    assert across == [5.0 * i for i in range(11)]


def test_a_segment_stands_at_its_height() -> None:
    """16 mm above the lowest point of the lens, as ordered; its upper line is 28 mm wide."""
    drawing = picture("bifocal-plus-add", "pair")
    for side in ("right", "left"):
        bottom = extent(drawing, f"lens-{side}")[3]
        left, top, right, _ = extent(drawing, f"segment-{side}")
        assert bottom - top == pytest.approx(16.0, abs=0.1)
        assert right - left == pytest.approx(29.0, abs=0.1)
        middle = (left + right) / 2 - drawing.width_mm / 2
        assert abs(middle) == pytest.approx(63.0 / 2, abs=0.1)  # half the ordered near distance


def test_a_fitting_cross_stands_before_the_pupil() -> None:
    drawing, spectacles = picture("progressive-first", "pair"), order("progressive-first").spectacles
    for side, turn in (("right", -1), ("left", 1)):
        left, top, right, bottom = extent(drawing, f"cross-{side}")
        pupil = getattr(spectacles.measurements, f"pd_{side}_mm")
        height = getattr(spectacles.measurements, f"height_{side}_mm")
        assert (left + right) / 2 - drawing.width_mm / 2 == pytest.approx(turn * pupil, abs=0.1)
        assert extent(drawing, f"lens-{side}")[3] - (top + bottom) / 2 == pytest.approx(height, abs=0.1)
