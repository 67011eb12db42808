"""Line pictures on dark screens: ink and paper as variables; true shades stay."""

from __future__ import annotations

import re

from figures.pictures.orders import picture

from explainer.figures.dark import with_variables


def test_ink_and_paper_of_line_pictures_are_variables() -> None:
    svg = with_variables("sit_level", picture("strong-minus-astigmat", "sit_level").svg)
    assert b"var(--figure-ink, #16202a)" in svg
    assert not re.search(rb"(fill|stroke): #(16202a|ffffff)", svg)


def test_true_shades_stay() -> None:
    for key in ("state_sun", "shade_cloudy", "scene_summer", "pair", "street_with"):
        drawing = picture("photochromic-driver", key)
        assert with_variables(key, drawing.svg) == drawing.svg


def test_the_workshops_colour_stays() -> None:
    """It is chosen by the workshop, and its contrast is the page's care."""
    plain = picture("strong-minus-astigmat", "dial_right").svg
    svg = with_variables("dial_right", plain.replace(b"#12456b", b"#5a2a00"))
    assert b"stroke: #5a2a00" in svg
