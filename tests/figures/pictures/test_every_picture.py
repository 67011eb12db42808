"""What every picture owes to the page: no text, its own name, exact size, few points, lines that print."""

from __future__ import annotations

import itertools
import re

import pytest
from figures.pictures.orders import VERY_DIFFERENT, every, picture, requests
from figures.reading import MM_PER_POINT, SVG, root
from figures.words import LINE_MM, room_mm, words

from explainer.figures import PICTURES
from explainer.figures.drawing import Label
from explainer.figures.keys import SLOTS

every_picture = pytest.mark.parametrize(("name", "key"), every(), ids=str)
MOST_POINTS = 1600  # of one picture; the drawn pages' outlines had 39,431 on one leaflet and made painting slow


def test_every_picture_is_asked_for_by_some_order() -> None:
    asked = {request.name for name in VERY_DIFFERENT for request in requests(name).values()}
    assert asked == set(PICTURES)


@every_picture
def test_a_picture_has_its_own_name_and_no_text(name: str, key: str) -> None:
    drawing = picture(name, key)
    assert drawing.name == key
    tags = {element.tag.removeprefix(SVG) for element in root(drawing).iter()}
    assert tags <= {"svg", "defs", "style", "g", "path", "image", "clipPath"}


@every_picture
def test_a_picture_has_its_size_in_millimetres(name: str, key: str) -> None:
    drawing = picture(name, key)
    svg = root(drawing)
    wide, high = (float(svg.attrib[side].removesuffix("pt")) * MM_PER_POINT for side in ("width", "height"))
    assert (wide, high) == pytest.approx((drawing.width_mm, drawing.height_mm), abs=1e-3)
    assert drawing.width_mm <= 180  # A4 between margins of 15 mm


@every_picture
def test_a_picture_is_drawn_with_few_points(name: str, key: str) -> None:
    paths = [path.get("d", "") for path in root(picture(name, key)).iter(f"{SVG}path")]
    assert sum(len(re.findall(r"-?[0-9.]+", path)) for path in paths) / 2 <= MOST_POINTS


@every_picture
def test_lines_are_wide_enough_to_print(name: str, key: str) -> None:
    for width in re.findall(rb"stroke-width: ([0-9.]+)", picture(name, key).svg):
        assert float(width) >= 0.6


@every_picture
def test_the_suns_yellow_is_always_outlined(name: str, key: str) -> None:
    """Yellow on white is hardly seen: it is told by its line."""
    for path in root(picture(name, key)).iter(f"{SVG}path"):
        style = path.get("style", "").lower()
        if "fill: #f6be3b" in style:
            assert "stroke: #16202a" in style


@every_picture
def test_labels_stay_on_the_sheet(name: str, key: str) -> None:
    drawing = picture(name, key)
    for label in drawing.labels:
        assert -0.01 <= label.x_mm <= drawing.width_mm + 0.01
        assert -0.01 <= label.y_mm <= drawing.height_mm + 0.01


@every_picture
def test_labels_are_clear_of_each_other(name: str, key: str) -> None:
    """Measured with the leaflet's own letters, at the size that its style sheet gives to labels."""
    drawing = picture(name, key)
    spoken = [label for label in drawing.labels if label.key not in SLOTS]
    boxes = [(words(label), label_box(label)) for label in spoken]
    for text, (left, _, right, _) in boxes:
        assert left >= -0.1, text
        assert right <= drawing.width_mm + 0.1, text
    for (first, a), (second, b) in itertools.combinations(boxes, 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] + 0.25 or b[3] <= a[1] + 0.25
        assert apart, f"{first} runs into {second}"


def label_box(label: Label) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of a label [mm]."""
    wide, lines = room_mm(label)
    start = {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    half = lines * LINE_MM / 2
    return label.x_mm - start, label.y_mm - half, label.x_mm - start + wide, label.y_mm + half
