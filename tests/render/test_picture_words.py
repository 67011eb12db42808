"""Every picture of an order has an alternative text that says what it shows."""

from __future__ import annotations

import pytest
from figures.pictures.orders import VERY_DIFFERENT, explained, order, requests

from explainer.compose.plan import compose
from explainer.render.language import language
from explainer.render.picture_words import alternative
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.voice import Voice


def speaker(name: str) -> Speaker:
    one, explanation = order(name), explained(name)
    voice = Voice(language("en"), explanation.claims)
    document = compose(one.spectacles, explanation)
    return Speaker(voice, document, page_context(one, voice), lambda *_: "<figure></figure>")


@pytest.mark.parametrize("name", VERY_DIFFERENT)
def test_every_picture_has_words(name: str) -> None:
    speaks = speaker(name)
    for picture in requests(name):
        text = alternative(speaks, picture)
        assert bool(text) != picture.startswith("icon_"), picture
        assert "{" not in text
        assert "None" not in text


def test_the_words_of_the_dials_name_their_axes() -> None:
    """Ordered: right 5, left 175 degrees."""
    speaks = speaker("strong-minus-astigmat")
    assert "at 5°" in alternative(speaks, "dial_right")
    assert "at 175°" in alternative(speaks, "dial_left")


def test_the_words_of_a_blurred_sign_say_how_much_shows() -> None:
    speaks = speaker("strong-minus-astigmat")
    assert alternative(speaks, "sign_right_set") == "A sign, sharp."
    assert alternative(speaks, "sign_right_large") == "The same sign, blurred."
