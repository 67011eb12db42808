"""Pictures as HTML: slots filled by the page, larger pictures, signs that no reader of pages is told of."""

from __future__ import annotations

import re

import pytest
from figures.pictures.orders import picture

from explainer.render.figures import drawing_html, sign_html
from explainer.render.language import language
from explainer.render.mail.pictures import labelled_svg

ENGLISH = language("en")


def lefts(html: str) -> list[float]:
    return [float(each) for each in re.findall(r"left:(-?[0-9.]+)mm", html)]


def test_a_slot_holds_what_the_page_says_and_none_when_it_says_nothing() -> None:
    drawing = picture("strong-minus-astigmat", "pair")
    assert "slot" not in drawing_html(drawing, "a", "", ENGLISH)
    html = drawing_html(drawing, "a", "", ENGLISH, contents={"slot_material": "<b>Plastic</b>"})
    assert html.count('class="slot') == 1
    assert re.search(r'<div class="slot slot-material" dir="ltr"[^>]*left:0.00mm[^>]*><b>Plastic</b></div>', html)


def test_a_slot_is_written_in_the_direction_of_its_language_and_stands_where_it_stood() -> None:
    drawing = picture("strong-minus-astigmat", "pair")
    filled = dict.fromkeys(("slot_under_right", "slot_under_left"), "x")
    first, other = (drawing_html(drawing, "a", "", language(code), contents=filled) for code in ("en", "ar"))
    assert 'slot-under-right" dir="rtl"' in other
    assert lefts(first) == lefts(other)


def test_a_larger_picture_has_its_labels_in_the_same_places() -> None:
    drawing = picture("strong-minus-astigmat", "dial_right")
    html = drawing_html(drawing, "a", "", ENGLISH, scale=1.5)
    assert f"width:{drawing.width_mm * 1.5:g}mm" in html
    middles = [left + 35.0 * 1.5 for left in lefts(html)]
    ninety = next(label for label in drawing.labels if label.value == 90)
    assert any(middle == pytest.approx(1.5 * ninety.x_mm, abs=0.02) for middle in middles)


def test_a_sign_is_a_background() -> None:
    html = sign_html(picture("strong-minus-astigmat", "icon_triangle"))
    assert "<img" not in html
    assert "url(figure:icon_triangle)" in html


def test_a_picture_goes_into_a_mail_with_its_labels_and_without_slots() -> None:
    svg = labelled_svg(picture("strong-minus-astigmat", "pair"), ENGLISH)
    assert svg.count("<text") == 2
    assert "Right eye" in svg
    assert "slot" not in svg
