"""Replies in a draft language and from right to left."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from babel import Locale
from mailreading import page, parsed, part

from explainer.orders import read_order
from explainer.render.language import language
from explainer.render.mail.forms import reply_draft
from explainer.render.mail.html import piece_of
from explainer.render.mail.reply import make_reply
from explainer.render.mail.text import text_of
from explainer.render.mail.tree import parse

FOLDER = Path(__file__).parents[3] / "output_examples" / "orders"


def german(*topics: str):
    order = read_order(FOLDER / "FL-3107.toml", language="de")
    return parsed(reply_draft(make_reply(order, topics), pictures=False))


def test_a_draft_language_is_marked_and_its_safety_words_stand_in_english_too():
    message = german("car", "settling-in")
    text, html = part(message, "plain"), page(part(message, "html"))

    assert "Diese Übersetzung ist ein Entwurf." in text
    assert "Im Auto" in text
    assert "whatever glasses you wear" in text
    assert "Do not drive at dusk or at night while the lenses are tinted." in text
    english = [each for each in html.all("div", "p", "span", "strong") if each.attributes.get("lang") == "en"]
    assert all(each.attributes["dir"] == "ltr" for each in english)
    assert any("whatever glasses you wear" in each.words for each in english)


def test_numbers_have_the_readers_decimal_mark():
    text = part(german("numbers"), "plain")

    assert "−4,25" in text
    assert "−4.25" not in text


def test_from_right_to_left_a_sign_cannot_turn_round_in_either_part():
    """Unicode UAX 9: an isolate keeps minus before its number; the element asks for the same where it is kept."""
    arabic = replace(language("en-GB"), locale=Locale.parse("ar"), code="ar")
    body = parse('<p>قوة <bdi class="n" dir="ltr">\u22122.25 D</bdi>، <bdi dir="auto">Wren</bdi></p>')

    text = text_of(body, picture=str, isolate=True)
    piece = piece_of(body, language=arabic, picture_words="%(description)s")

    assert "\u2066\u22122.25 D\u2069" in text
    assert "\u2068Wren\u2069" in text
    (wrapper,) = page(piece).all("div")
    assert (wrapper.attributes["dir"], wrapper.attributes["lang"]) == ("rtl", "ar")
    assert '<span class="n" dir="ltr"' in piece
    assert "\u2066\u22122.25 D\u2069" in piece
