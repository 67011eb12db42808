"""Block D: each check takes its points away from a leaflet that not everybody can read."""

from __future__ import annotations

import pytest
from scoring import colour, mail
from scoring.breaking import marked, remade, rewritten, sound, swap

NAME = "photochromic-driver"


@pytest.mark.slow
def test_a_file_without_its_mark_of_tagging_is_seen():
    made = sound(NAME)
    assert marked("D1", made).points == 2
    assert marked("D1", rewritten(made, lambda pdf: pdf.Root.__delitem__("/MarkInfo"))).points == 0


@pytest.mark.slow
@pytest.mark.parametrize("key", ["/ViewerPreferences", "/Outlines", "/Lang"])
def test_a_file_without_title_bookmarks_or_language_is_seen(key: str):
    made = sound(NAME)
    assert marked("D2", made).points == 2
    assert marked("D2", rewritten(made, lambda pdf: pdf.Root.__delitem__(key))).points == 0


def test_another_order_of_reading_is_seen():
    made = sound(NAME)
    one, other = "You see flashes, or many new dots or threads.", "You lose some or all of your sight."
    turned = made.html.replace(one, "@").replace(other, one).replace("@", other)
    assert "read aloud" in marked("D2", made.changed(html=turned)).reason


@pytest.mark.slow
def test_headings_that_jump_are_seen():
    made = remade(NAME, change=lambda html: html.replace("<h2>", "<h3>").replace("</h2>", "</h3>"))
    assert "headings jump" in marked("D2", made).reason


@pytest.mark.slow
def test_a_dial_whose_words_lose_an_axis_is_seen():
    made = sound(NAME)
    assert "dial" not in marked("D3", made).reason
    broken = remade(NAME, change=lambda html: html.replace("the axis line stands at 158°", "the axis line slants"))
    assert marked("D3", broken).points == 0


def test_a_figure_without_words_is_seen():
    def silent(pdf):
        for item in pdf.objects:
            if isinstance(item, type(pdf.Root)) and item.get("/S") == "/Figure":
                item.Alt = ""

    assert "without words" in marked("D3", rewritten(sound(NAME), silent)).reason


def test_a_table_head_without_scope_is_seen():
    def loose(pdf):
        for item in pdf.objects:
            if isinstance(item, type(pdf.Root)) and item.get("/S") == "/TH":
                del item["/A"]

    assert "without scope" in marked("D3", rewritten(sound(NAME), loose)).reason


@pytest.mark.slow
@pytest.mark.parametrize(
    "css", ["p { color: #767676 }", ".caution .signal { background: #000 !important; color: #333 !important }"]
)
def test_pale_text_is_seen(css: str):
    made = sound("low-myope")
    assert marked("D4", made).points == 2
    assert marked("D4", remade("low-myope", css=css)).points == 0


def test_the_white_signal_word_stands_on_black():
    made = sound(NAME)
    white = [(ratio, glyph.text) for ratio, glyph in colour.contrasts(made) if glyph.colour == (1.0, 1.0, 1.0)]
    assert "".join(text for _, text in white).startswith("WARNING")
    assert {round(ratio, 1) for ratio, _ in white} == {21.0}


def test_the_contrast_formula_gives_the_published_ends():
    """WCAG 2.2: black on white 21:1; #767676 on white is the well-known edge of 4.5:1."""
    assert colour.contrast((0, 0, 0), (1, 1, 1)) == pytest.approx(21)
    assert 4.5 <= colour.contrast((0x76 / 255,) * 3, (1, 1, 1)) < 4.6


def test_words_that_a_copy_loses_or_adds_are_seen():
    made = sound(NAME)
    assert marked("D5", made).points == 2
    assert "lost" in marked("D5", made.changed(html=made.html.replace("Cover one eye", "Cover both one eye"))).reason
    assert "only in" in marked("D5", made.changed(html=made.html.replace("Cover one eye", "one eye"))).reason


def test_a_hyphen_for_a_minus_is_seen():
    broken = remade(NAME, change=swap("Cover one eye", "At -2.75 cover one eye"))
    assert "hyphen for a minus" in marked("D5", broken).reason


GOOD = (
    '<html><head><title>t</title></head><body><div lang="en-GB" dir="ltr"><h1>Your glasses</h1><p>Sphere 2.25</p>'
    '<table><tbody><tr><th scope="row">Axis</th><td>90</td></tr></tbody></table></div></body></html>'
)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (' dir="ltr"', ""),
        (' scope="row"', ""),
        ("<p>Sphere", '<p><img src="cid:a" alt="">Sphere'),
        ("<p>Sphere", '<p><img src="https://elsewhere.example/a.png" alt="a">Sphere'),
        ("<p>Sphere", "<script>1</script><p>Sphere"),
        ("<h1>", "<h2>Too early</h2><h1>"),
    ],
    ids=["no direction", "no scope", "no words", "from elsewhere", "script", "headings"],
)
def test_a_mail_that_is_built_badly_is_seen(old: str, new: str):
    assert list(mail.built_badly(GOOD, "en-GB")) == []
    assert list(mail.built_badly(GOOD.replace(old, new), "en-GB"))


def test_a_mail_whose_parts_differ_is_seen():
    text = "Your glasses\n\nSphere 2.25\n\n- Axis 90\n"
    assert list(mail.same_facts(text, GOOD)) == []
    assert list(mail.same_facts(text.replace("2.25", "2.75"), GOOD))
    assert list(mail.same_facts(text.replace("Your glasses", "A letter"), GOOD))


def test_a_reply_that_cannot_be_written_is_seen(monkeypatch: pytest.MonkeyPatch):
    def fails(*_: object, **__: object) -> None:
        raise ValueError("no")

    monkeypatch.setattr(mail, "make_reply", fails)
    assert marked("D6", sound(NAME)).points == 0
    assert marked("D6", sound(NAME)).reason == "no reply: ValueError: no"


def test_unread_markup_is_seen():
    broken = remade(NAME, change=swap("Cover one eye", "**Cover** one eye"))
    assert "unread markup" in marked("D5", broken).reason
