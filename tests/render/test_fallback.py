"""What is not translated stands in English and says so; nothing is refused for it.

WCAG 2.2, success criterion 3.1.2 (Language of Parts): the language of each passage can be determined by a program.
HTML Living Standard, 3.2.5.2.5 and 4.5.26: a span holds phrasing content only, and `lang` also holds for an element's
attributes, so that an image's alternative text has it too.
"""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pikepdf
import pytest
from babel.messages.catalog import Catalog
from catalogues import catalogues, few, signed, the
from mailreading import one_line, page, parsed, part
from render.structure import tags

from explainer.orders import Order, read_order
from explainer.render import leaflet as maker
from explainer.render.fallback import as_html, is_english, plain
from explainer.render.figure_words import FIGURE_WORDS
from explainer.render.language import language
from explainer.render.mail.forms import reply_draft, reply_html, reply_text
from explainer.render.mail.reply import make_reply
from explainer.render.mail.words import CLOSING, PICTURE
from explainer.resources import root

FOLDER = Path(__file__).parents[2] / "output_examples" / "orders"
NOTICE = {"de": "Diese Übersetzung ist ein Entwurf.", "ar": "هذه الترجمة مسودة."}
CLEAN = the("Clean them wet")
SPHERE = the("%(pd)s from pupil to pupil")
SPHERE_SAID = SPHERE % {"pd": "64.0 mm"}
PHRASING = {"a", "b", "bdi", "br", "em", "img", "span", "strong"}
THREE = {
    "Your new light-reactive glasses": "Vos nouvelles lunettes",
    "Right eye": "Œil droit",
    "Order %(number)s": "N° %(number)s",
}


def order_in(code: str, name: str = "FL-3107") -> Order:
    return read_order(FOLDER / f"{name}.toml", language=code)


def page_of(order: Order) -> str:
    """The page as handed to the engine."""
    return maker.make_leaflet(order).html


def english(html: str) -> list[str]:
    """What stands in English, alternative texts too."""
    return [" ".join(each.words.split()) for each in page(body(html)).elements if each.attributes.get("lang") == "en"]


def body(html: str) -> str:
    """The page without comments, and with the two closing tags that HTML lets a page leave out."""
    return re.sub(r"<!DOCTYPE html>|<!--.*?-->", "", html, flags=re.DOTALL) + "</body></html>"


def without_copies(html: str) -> str:
    return re.sub(r'<section class="block safety_source".*?</section></section>', "", html, flags=re.DOTALL)


def reworded(*messages: str) -> Callable[[Catalog], None]:
    """The source words these sentences otherwise now: the catalogue has the old words only."""

    def change(catalogue: Catalog) -> None:
        for message in messages:
            assert catalogue.get(message), message
            catalogue.delete(message)

    return change


@pytest.mark.parametrize("code", ["de", "ar"])
def test_a_reworded_sentence_stands_in_english_and_makes_a_signed_page_a_draft(code: str, tmp_path: Path):
    order = order_in(code)
    with catalogues(tmp_path, **{code: signed(code, lambda _: None)}):
        whole = page_of(order)
    with catalogues(tmp_path, **{code: signed(code, reworded(CLEAN, SPHERE))}):
        partly = page_of(order)

    assert english(whole) == []
    assert 'class="block draft"' not in whole
    assert set(english(without_copies(partly))) == {
        CLEAN,
        SPHERE_SAID,
    }
    assert NOTICE[code] in page(body(partly)).all("html")[0].words
    assert any("When to get help" in text for text in english(partly)), "a draft has the safety words in English"


def outdated(catalogue: Catalog) -> None:
    catalogue.get(CLEAN).flags.add("fuzzy")


def without_its_value(catalogue: Catalog) -> None:
    message = catalogue.get(SPHERE)
    message.string = message.string.replace("%(pd)s", "64,0 mm")


def with_another_value(catalogue: Catalog) -> None:
    message = catalogue.get(SPHERE)
    message.string = message.string.replace("%(pd)s", "%(dp)s")


def with_half_a_value(catalogue: Catalog) -> None:
    message = catalogue.get(SPHERE)
    message.string = f"{message.string} 5 % mehr"


@pytest.mark.parametrize("damage", [outdated, without_its_value, with_another_value, with_half_a_value])
def test_what_is_outdated_or_damaged_is_not_printed(damage: Callable[[Catalog], None], tmp_path: Path):
    with catalogues(tmp_path, de=signed("de", damage)):
        html = without_copies(page_of(order_in("de")))

    (stands,) = english(html)
    assert stands.startswith("Clean them" if damage is outdated else "64.0 mm from")
    assert 'class="block draft"' in html


def test_an_english_sentence_has_english_numbers_and_the_others_those_of_the_reader(tmp_path: Path):
    with catalogues(tmp_path, de=signed("de", reworded(SPHERE))):
        html = page_of(order_in("de"))

    numbers = [each for each in page(body(html)).elements if each.attributes.get("data-claim") == "pair.pd"]
    assert [each.words for each in numbers] == ["64.0 mm"]
    assert "−4,25" in html
    assert "−4.25" not in html


def test_a_value_without_words_stands_in_english_inside_a_translated_sentence(tmp_path: Path):
    with catalogues(tmp_path, de=signed("de", reworded("polycarbonate", "%(number)s mm"))):
        html = page_of(order_in("de"))

    assert '<bdi class="n" lang="en" dir="ltr" data-claim="pair.pd">64.0 mm</bdi>' in html
    assert re.search(r'<b><span lang="en" dir="ltr">polycarbonate</span></b>', html)


def test_labels_and_alternative_texts_say_their_language(tmp_path: Path):
    alternative = the("A face with glasses, level")
    with catalogues(tmp_path, ar=signed("ar", reworded(alternative, "Right eye"))):
        html = page_of(order_in("ar"))

    assert f'alt="{alternative}" lang="en" dir="ltr"' in html
    assert re.search(r'<span class="label[^"]*" lang="en" dir="ltr" style="[^"]*">Right eye</span>', html)


def three(code: str) -> Catalog:
    return few(code, **THREE)


@pytest.mark.slow
@pytest.mark.parametrize("code", ["fr", "fa"])
def test_a_language_of_three_messages_makes_a_leaflet(code: str, tmp_path: Path):
    with catalogues(tmp_path, **{code: three(code)}):
        order = order_in(code)
        html = page_of(order)
        made = maker.make_leaflet(order)

    assert made.partly_english
    assert made.pages <= 6
    assert "Vos nouvelles lunettes" in html
    assert html.count("When to get help") == 1, "no copy of what is English"
    with pikepdf.open(io.BytesIO(made.pdf)) as pdf:
        assert str(pdf.Root.Lang) == code
        said = {str(tag.S): tag for _, tag, _ in tags(pdf) if "/Lang" in tag and str(tag.Lang) == "en"}
    assert {"/P", "/Figure"} <= said.keys()


@pytest.mark.parametrize("code", ["fr", "fa"])
def test_everything_that_is_not_of_the_three_messages_is_marked_and_the_page_is_sound(code: str, tmp_path: Path):
    with catalogues(tmp_path, **{code: three(code)}):
        html = body(page_of(order_in(code)))

    spans = re.findall(r'<span lang="en" dir="ltr">(.*?)</span>', html, re.DOTALL)
    assert spans
    assert all(set(re.findall(r"<([a-z0-9]+)", inner)) <= PHRASING for inner in spans)
    bare = re.sub(r'<(\w+)[^<>]* lang="en"[^<>]*>.*?</\1>', "", html, flags=re.DOTALL)
    assert not re.search(r"\b(the|your|with|lens|they|day)\b", " ".join(words(bare)), re.IGNORECASE)


def words(html: str) -> Iterator[str]:
    """The words that are neither the wearer's, the workshop's nor titles of sources."""
    text = re.sub(r"<bdi(?! class=.n)[^>]*>.*?</bdi>|<p class=.basis.>.*?</p>", "", html, flags=re.DOTALL)
    yield from re.sub(r"<[^>]*>", " ", text).split()


def test_the_mail_of_a_reworded_sentence(tmp_path: Path):
    care = (root("templates") / "topics" / "care.md").read_text(encoding="utf-8")
    sentence = re.findall(r"^- .*?{% trans %}(.*?){% endtrans %}", care, re.MULTILINE)[0]
    said = sentence.replace("*", "")
    with catalogues(tmp_path, ar=signed("ar", reworded(sentence, CLOSING, FIGURE_WORDS["right_eye"]))):
        reply = make_reply(order_in("ar"), ["care", "direction"])
        text, html = reply_text(reply), reply_html(reply)
        message = parsed(reply_draft(reply))

    stand = {one_line(each.words) for each in page(html).elements if each.attributes.get("lang") == "en"}
    assert CLOSING in stand
    assert said in stand
    assert NOTICE["ar"] in text
    assert said in text
    assert set(reply.lacking) == {CLOSING, said, FIGURE_WORDS["right_eye"]}
    assert NOTICE["ar"] in part(message, "html")


def test_a_label_on_a_picture_of_the_mail_makes_it_a_draft_too(tmp_path: Path):
    label = FIGURE_WORDS["right_eye"]
    with catalogues(tmp_path, de=signed("de", reworded(label))):
        dial, care = (make_reply(order_in("de"), [topic]) for topic in ("direction", "care"))

    assert dial.lacking == (label,)
    assert NOTICE["de"] in reply_text(dial)
    assert NOTICE["de"] not in reply_text(care)


def test_the_mail_of_a_language_of_three_messages(tmp_path: Path):
    with catalogues(tmp_path, fr=three("fr")):
        reply = make_reply(order_in("fr"), ["numbers", "direction"], attached=True)
        message = parsed(reply_draft(reply, pictures=False))

    assert message["Subject"] == "Your glasses: order FL-3107"
    assert '<title lang="en" dir="ltr">Your glasses: order FL-3107</title>' in part(message, "html")
    assert PICTURE.partition("%")[0] in part(message, "plain")
    assert "Œil droit" in part(message, "plain")
    assert not re.search("[\ue000-\uf8ff]", message.as_string())


def test_a_reader_who_counts_in_fahrenheit_does_so_in_english_too():
    assert language("en-US").english.uses_fahrenheit
    assert not language("de").english.uses_fahrenheit


@pytest.mark.parametrize(
    ("marked", "html"),
    [
        ("<p>\ue002Rinse.\ue003</p>", '<p lang="en" dir="ltr">Rinse.</p>'),
        ("<p>\ue002Rinse.\ue003 \ue002Dry.\ue003</p>", '<p lang="en" dir="ltr">Rinse. Dry.</p>'),
        ("<p>Spülen. \ue002Dry.\ue003</p>", '<p>Spülen. <span lang="en" dir="ltr">Dry.</span></p>'),
        ("<li>\ue002Rinse.\ue003</li>", '<li><span lang="en" dir="ltr">Rinse.</span></li>'),
        (
            '\ue002<bdi class="n" dir="ltr" data-claim="a">2.5 mm</bdi>\ue003',
            '<bdi class="n" lang="en" dir="ltr" data-claim="a">2.5 mm</bdi>',
        ),
        ("<p>nothing</p>", "<p>nothing</p>"),
    ],
)
def test_marks_become_attributes_where_an_element_may_bear_them(marked: str, html: str):
    assert as_html(marked) == html


def test_plain_text_keeps_english_the_right_way_round_in_a_page_from_right_to_left():
    """Unicode UAX 9, 2.4.2: an explicit isolate keeps a run in its direction."""
    mixed = "قوة \ue002left lens.\ue003"

    assert plain(mixed, language("ar")) == "قوة \u2066left lens.\u2069"
    assert plain(mixed) == "قوة left lens."
    assert is_english("\ue002Rinse.\ue003 \ue002Dry.\ue003")
    assert not is_english(mixed)
