"""The pair's outline is a scale drawing by the boxing system, seen by someone facing the wearer."""

from __future__ import annotations

import pytest
from figures.reading import box, centre
from figures.samples import oval

from explainer.errors import RenderError
from explainer.figures.drawing import Drawing
from explainer.figures.outline import LensShape, outline
from explainer.optics.spectacles import SIDES

# A, distance between lenses, distance of the pupils, inward shift of each lens:
# published answers of a decentration quiz, http://www.harisingh.com/newsOpticalPractice.htm
BOXING = ((54, 16, 62, 4), (42, 14, 50, 3), (50, 16, 66, 0))


def scale_of(drawing: Drawing, wide_mm: float) -> float:
    """Page millimetres per lens millimetre, told by the right box, which is so wide."""
    left, _, right, _ = box(drawing, "box-right")
    return (right - left) / wide_mm


@pytest.mark.parametrize(("a", "dbl", "pd", "inward"), BOXING)
def test_shifting_the_lenses_inward_brings_their_centres_before_the_pupils(
    a: float, dbl: float, pd: float, inward: float
) -> None:
    shape = LensShape(oval(a, 36), inward, 0.0, pd / 2)
    drawing = outline(right=shape, left=shape, dbl_mm=dbl)
    scale = scale_of(drawing, a)
    centres = [centre(drawing, f"optical-centre-{side}")[0] for side in SIDES]
    assert centres[1] - centres[0] == pytest.approx(pd * scale, abs=0.02)


def test_boxes_have_their_size_and_stand_dbl_apart() -> None:
    drawing = outline(right=LensShape(oval(50, 38)), left=LensShape(oval(50, 38)), dbl_mm=19)
    right, left = box(drawing, "box-right"), box(drawing, "box-left")
    scale = scale_of(drawing, 50)
    assert 0.5 < scale < 1
    assert right[3] - right[1] == pytest.approx(38 * scale, abs=0.02)
    assert left[2] - left[0] == pytest.approx(50 * scale, abs=0.02)
    assert left[0] - right[2] == pytest.approx(19 * scale, abs=0.02)
    assert (right[2] + left[0]) / 2 == pytest.approx(drawing.width_mm / 2, abs=0.01)


def test_inward_is_toward_the_nose_and_upward_is_up_for_either_eye() -> None:
    shape = LensShape(oval(50, 38), 3.0, 2.0)
    drawing = outline(right=shape, left=shape, dbl_mm=19)
    nose, scale = drawing.width_mm / 2, scale_of(drawing, 50)
    for side in SIDES:
        box_x, box_y = centre(drawing, f"box-centre-{side}")
        x, y = centre(drawing, f"optical-centre-{side}")
        assert abs(box_x - nose) - abs(x - nose) == pytest.approx(3 * scale, abs=0.02)
        assert box_y - y == pytest.approx(2 * scale, abs=0.02)


def test_right_is_on_the_left_of_the_page() -> None:
    drawing = outline(right=LensShape(oval(50, 38), 5.0), left=LensShape(oval(50, 38), 1.0), dbl_mm=19)
    assert centre(drawing, "outline-right")[0] < drawing.width_mm / 2 < centre(drawing, "outline-left")[0]
    shifts = {label.x_mm < drawing.width_mm / 2: label.value for label in drawing.labels if label.key == "shift_in"}
    assert shifts == {True: 5.0, False: 1.0}


def test_an_outward_shift_is_called_outward_with_its_size() -> None:
    drawing = outline(right=LensShape(oval(50, 38), -1.5), left=LensShape(oval(50, 38)), dbl_mm=19)
    found = {label.key: label.value for label in drawing.labels if label.key.startswith("shift")}
    assert found == {"shift_out": 1.5, "shift_none": None}


def test_the_outline_may_be_measured_from_any_point() -> None:
    moved = tuple((x + 3, y - 2) for x, y in oval(50, 38))
    plain = outline(right=LensShape(oval(50, 38), 2.0), left=LensShape(oval(50, 38), 2.0), dbl_mm=19)
    other = outline(right=LensShape(moved, 2.0), left=LensShape(oval(50, 38), 2.0), dbl_mm=19)
    assert box(other, "box-right") == pytest.approx(box(plain, "box-right"), abs=1e-3)
    assert centre(other, "outline-right") == pytest.approx(centre(plain, "outline-right"), abs=1e-3)


def test_a_distance_to_print_must_be_the_one_that_is_drawn() -> None:
    good = LensShape(oval(50, 38), 2.0, 0.0, 32.5)
    with pytest.raises(RenderError, match="right distance"):
        outline(right=good._replace(from_nose_mm=31.0), left=good, dbl_mm=19)
