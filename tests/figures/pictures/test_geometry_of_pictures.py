"""Angles, distances and counts, read from the finished drawings."""

from __future__ import annotations

import math

import pytest
from figures.pictures.orders import explained, order, picture, requests
from figures.pictures.shapes import extent, shape
from figures.reading import SVG, angle_deg, root

from explainer.compose.pictures import picture_requests
from explainer.figures import draw
from explainer.figures.drawing import Drawing
from explainer.figures.front.pair import pair_of
from explainer.figures.front.wire import feet, resting
from explainer.optics.claim import Interval


def line_angle(drawing: Drawing, name: str) -> float:
    points = shape(drawing, name)
    return angle_deg(points[0], points[-1])


@pytest.mark.parametrize("name", ["strong-minus-astigmat", "strong-plus-reading", "titanium-plus-cylinder"])
def test_the_axis_lies_as_ordered_and_is_not_mirrored(name: str) -> None:
    """ISO 8429: anticlockwise from the observer's right, both eyes alike, facing the wearer."""
    prescription = order(name).spectacles.prescription
    for side in ("right", "left"):
        eye = prescription.right if side == "right" else prescription.left
        if eye.axis_deg is None:
            continue
        as_made = eye.axis_deg if eye.cylinder_d < 0 else (eye.axis_deg + 90 - 1) % 180 + 1
        drawn = line_angle(picture(name, f"dial_{side}"), f"axis-{side}")
        assert (drawn - as_made + 90) % 180 - 90 == pytest.approx(0, abs=0.2)


@pytest.mark.parametrize("axis", [1, 45, 90, 91, 135, 179, 180])
def test_a_dial_at_any_axis(axis: float) -> None:
    values = requests("strong-minus-astigmat")["dial_right"].values
    drawing = draw("lens_dial", {**values, "axis_deg": axis})
    assert (line_angle(drawing, "axis-right") - axis + 90) % 180 - 90 == pytest.approx(0, abs=0.2)
    numbers = [label.value for label in drawing.labels if label.key == "axis_degrees"]
    assert numbers == [axis]


def test_the_dial_shows_the_lenss_own_outline() -> None:
    frame = order("strong-minus-astigmat").spectacles.frame
    left, top, right, bottom = extent(picture("strong-minus-astigmat", "dial_right"), "lens-right")
    assert frame.a_mm
    assert frame.b_mm
    assert (right - left) / (bottom - top) == pytest.approx(frame.a_mm / frame.b_mm, rel=0.01)


def test_the_nose_side_of_a_dial_is_at_the_observers_right_for_the_right_eye() -> None:
    """A traced lens is not symmetrical: its drawing must not be turned over."""
    values = requests("traced-half-rim")["dial_right"].values
    outline = values["outline"]
    assert isinstance(outline, tuple)
    drawn = shape(picture("traced-half-rim", "dial_right"), "lens-right")
    middle = (min(x for x, _ in drawn) + max(x for x, _ in drawn)) / 2
    lowest_drawn = max(drawn, key=lambda point: point[1])[0] - middle
    lowest = min(outline, key=lambda point: point[1])[0]
    assert abs(lowest) < 0.5 or math.copysign(1, lowest_drawn) == math.copysign(1, lowest)


def test_sections_are_life_size_and_as_thick_as_claimed() -> None:
    claims = explained("strong-minus-astigmat").claims
    drawing = picture("strong-minus-astigmat", "sections")
    for side in ("right", "left"):
        points = shape(drawing, f"section-{side}")
        left, right = min(x for x, _ in points), max(x for x, _ in points)
        assert right - left == pytest.approx(claims.number("frame.a"), abs=0.5)  # cut at the pupil's height
        for edge, where in (
            ((left, "temporal"), (right, "nasal"))
            if side == "right"
            else (
                (left, "nasal"),
                (right, "temporal"),
            )
        ):
            heights = [y for x, y in points if abs(x - edge) < 0.02]
            assert max(heights) - min(heights) == pytest.approx(claims.number(f"{side}.thickness.{where}"), abs=0.1)
        ordinary = shape(drawing, f"ordinary-{side}")
        heights = [y for x, y in ordinary if abs(x - left) < 0.02]
        where = "temporal" if side == "right" else "nasal"
        assert max(heights) - min(heights) == pytest.approx(claims.number(f"{side}.reference.{where}"), abs=0.1)


def test_thicknesses_stand_over_the_ends_that_they_are_of() -> None:
    """The ear's side of the right lens is at the left of the page."""
    claims = explained("strong-minus-astigmat").claims
    drawing = picture("strong-minus-astigmat", "sections")
    printed = sorted((label.x_mm, label.value) for label in drawing.labels if label.key == "thickness_here")
    names = ("right.thickness.temporal", "right.thickness.nasal", "left.thickness.nasal", "left.thickness.temporal")
    assert [value for _, value in printed] == [claims.number(name) for name in names]
    order_of_words = [
        label.key for label in sorted(drawing.labels, key=lambda label: label.x_mm) if "toward" in label.key
    ]
    assert order_of_words == ["toward_ear", "toward_nose", "toward_nose", "toward_ear"]


def test_a_dot_a_gram() -> None:
    drawing = picture("strong-minus-astigmat", "weight_dots")
    filled = [path for path in root(drawing).iter(f"{SVG}path") if "fill: #12456b" in path.get("style", "").lower()]
    claims = explained("strong-minus-astigmat").claims
    weight = sum(claims.number(f"{side}.weight") for side in ("right", "left"))
    assert len(filled) == round(weight)


def test_lines_of_sight_point_where_one_looks() -> None:
    """Far level, a screen about 15 degrees and a page about 30 degrees down (common practice), seen to the right."""
    drawing = picture("progressive-changed", "where_to_look")
    for name, down in (("far", 0.0), ("screen", 15.0), ("page", 30.0)):
        first, *_, last = shape(drawing, f"sight-{name}")
        assert last[0] > first[0]
        assert math.degrees(math.atan2(last[1] - first[1], last[0] - first[0])) == pytest.approx(down, abs=1.0)


def test_pupil_lines_stand_as_far_apart_as_the_pupils_on_the_pairs_scale() -> None:
    drawing, spectacles = picture("progressive-changed", "pupils"), order("progressive-changed").spectacles
    lens = extent(drawing, "lens-right")
    assert spectacles.frame.a_mm
    scale = (lens[2] - lens[0]) / spectacles.frame.a_mm
    for side, turn in (("right", -1), ("left", 1)):
        x = shape(drawing, f"pupil-{side}")[0][0] - drawing.width_mm / 2
        assert x / scale == pytest.approx(turn * getattr(spectacles.measurements, f"pd_{side}_mm"), abs=0.2)


def test_the_line_of_days_is_in_proportion_and_mirrored_for_the_other_direction() -> None:
    found = {}
    for mirrored in (False, True):
        asked = picture_requests(
            order("low-myope").spectacles, explained("low-myope"), recheck_days=21, mirrored=mirrored
        )["days"]
        drawing = draw(asked.name, asked.values)
        left, _, right, _ = extent(drawing, "settling")
        start, end = extent(drawing, "line")[0], extent(drawing, "line")[2]
        found[mirrored] = (left, right, start, end)
    band = explained("low-myope").claims.value("settling.usual")
    assert isinstance(band, Interval)
    left, right, start, end = found[False]
    assert (left - start) / (end - start) == pytest.approx(band.low / 21, abs=0.003)
    assert (right - start) / (end - start) == pytest.approx(band.high / 21, abs=0.003)
    assert 180 - found[True][0] == pytest.approx(right, abs=0.02)


def test_clearing_bars_are_as_long_as_the_times() -> None:
    drawing, claims = picture("photochromic-driver", "clearing"), explained("photochromic-driver").claims
    spans = {}
    for name, celsius in (("mild", 23), ("cold", 5)):
        time = claims.value(f"tint.fade.{celsius}.to_75")
        assert isinstance(time, Interval)
        left, _, right, _ = extent(drawing, f"time-{name}")
        spans[name] = (right - left) / (time.high - time.low)
    assert spans["mild"] == pytest.approx(spans["cold"], rel=0.02)


@pytest.mark.parametrize("name", ["strong-minus-astigmat", "rimless-high-index", "traced-half-rim", "child"])
@pytest.mark.parametrize("upside_down", [False, True])
def test_the_pair_stands_on_both_rims_and_both_temples(name: str, upside_down: bool) -> None:
    values = requests(name)["sit_table"].values
    pair = pair_of(*(values[key] for key in ("right", "left", "dbl_mm", "kind")))  # type: ignore[arg-type]
    heights = [y for _, y, _ in feet(resting(pair, upside_down=upside_down))]
    assert min(heights) == pytest.approx(0, abs=1e-6)
    assert min(heights[:2]) == pytest.approx(min(heights[2:]), abs=0.01)


def test_the_sign_is_blurred_by_the_claimed_remainder() -> None:
    """A turned cylinder leaves a crossed cylinder: no mean power, and 2 C sin(turn) of cylinder (published formula)."""
    claims = explained("strong-minus-astigmat").claims
    for side in ("right", "left"):
        for size, turn in (("small", 5), ("large", 10)):
            values = requests("strong-minus-astigmat")[f"sign_{side}_{size}"].values
            sphere, cylinder = values["sphere_d"], values["cylinder_d"]
            assert isinstance(sphere, float)
            assert isinstance(cylinder, float)
            assert sphere + cylinder / 2 == pytest.approx(0, abs=1e-3)
            assert abs(cylinder) == pytest.approx(claims.number(f"{side}.turn.{turn}.residual"), abs=1e-3)
            made = claims.number(f"{side}.made.cylinder")
            assert abs(cylinder) == pytest.approx(2 * abs(made) * math.sin(math.radians(turn)), abs=1e-3)
