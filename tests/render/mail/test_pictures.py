"""Pictures of a mail: what is drawn is what the leaflet draws, with its labels, and the axis is not mirrored."""

from __future__ import annotations

import io
import math
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from explainer.figures import draw
from explainer.figures.drawing import Drawing
from explainer.render.language import language
from explainer.render.mail.pictures import labelled_svg, picture, wrapped

ENGLISH = language("en-GB")
ACCENT = np.array([0x0B, 0x4A, 0x57])


def pixels(drawing: Drawing) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(picture(drawing, ENGLISH).png)).convert("RGB")).astype(int)


def dial(right: float | None, left: float | None) -> Drawing:
    return draw("dial", {"right_axis_deg": right, "left_axis_deg": left})


def line_angle(half: np.ndarray) -> float:
    """The direction of the accent-coloured marks, anticlockwise from the observer's right, by their spread."""
    rows, columns = np.nonzero(np.abs(half - ACCENT).sum(axis=2) < 40)
    spread = np.cov(np.vstack([columns, -rows]))
    return math.degrees(0.5 * math.atan2(2 * spread[0, 1], spread[0, 0] - spread[1, 1])) % 180


@pytest.mark.parametrize(("right", "left"), [(165.0, 22.0), (10.0, 100.0), (45.0, 135.0), (80.0, 5.0)])
def test_the_axis_lines_stand_as_prescribed_the_right_eye_on_the_observers_left(right: float, left: float):
    """ISO 8429: counted anticlockwise as seen by someone facing the wearer, both eyes alike."""
    seen = pixels(dial(right, left))
    middle = seen.shape[1] // 2

    for half, axis in ((seen[:, :middle], right), (seen[:, middle:], left)):
        assert abs((line_angle(half) - axis + 90) % 180 - 90) < 1.5


def test_labels_are_drawn_into_the_picture_and_nothing_else_changes():
    drawing = dial(165.0, 22.0)
    bare = replace(drawing, labels=())
    changed = np.abs(pixels(drawing) - pixels(bare)).sum(axis=2) > 60
    rows, columns = np.nonzero(changed)
    per_mm = changed.shape[1] / (drawing.width_mm + 4)
    places = np.array([[label.x_mm + 2, label.y_mm + 2] for label in drawing.labels]) * per_mm

    assert changed.mean() > 0.005
    near = np.hypot(columns[:, None] - places[:, 0], rows[:, None] - places[:, 1]).min(axis=1)
    assert near.max() < 20 * per_mm
    for label in drawing.labels:
        assert label.key in ("tick", "axis", "right_letter", "left_letter", "right_eye", "left_eye")


def test_the_shapes_are_those_of_the_leaflet():
    drawing = dial(165.0, 22.0)
    shapes = drawing.svg.decode()
    shapes = shapes[shapes.index(">", shapes.index("<svg")) + 1 : shapes.rindex("</svg>")]

    assert shapes in labelled_svg(drawing, ENGLISH)


def test_a_picture_is_opaque_small_and_the_same_each_time():
    made = picture(dial(165.0, 22.0), ENGLISH)
    image = Image.open(io.BytesIO(made.png))

    assert made == picture(dial(165.0, 22.0), ENGLISH)
    assert image.size == (2 * made.width_px, image.size[1])
    assert abs(image.size[1] - 2 * made.height_px) <= 2
    assert len(made.png) < 40_000
    assert "transparency" not in image.info


def test_a_label_breaks_where_its_room_ends_and_only_between_words():
    words = "Behind the windscreen, low sun ahead"

    assert wrapped(words, None, "ltr", strong=False) == [words]
    lines = wrapped(words, 20, "ltr", strong=False)
    assert len(lines) > 2
    assert " ".join(lines) == words
