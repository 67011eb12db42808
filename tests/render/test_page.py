"""The page as printed: sizes, measure, leading, margins, contrast, room, ink, and numbers the right way round.

All places and sizes are read from the drawing (glyphs.py). The limits and where they come from: body 12 pt and larger,
large print 18 pt and nothing in it under 16 (clear print of the sight-loss charities); lines not much longer than 80
letters (guides for patient leaflets); text contrast 7:1 (WCAG 2.2, 1.4.6); 5 mm of paper's edge that printers leave
white (common practice). Leading of 1.3 is asked of faces whose small x is 0.53 of the size, so 2.45 of the small x.
"""

from __future__ import annotations

import io
import re
from collections import Counter
from itertools import pairwise
from statistics import median

import pikepdf
import pytest
from render import sample
from render.glyphs import Glyph, fonts, glyphs, lines
from render.measure import HEIGHT, MM, WIDTH, body_size
from render.press.test_pdf import small
from render.structure import operations

from explainer.compose.paper import LIVE_MM, PAPERS
from explainer.render.leaflet import _styles

CHOICES = [
    sample.Choice("en"),
    sample.Choice("en", paper="Letter"),
    sample.Choice("de"),
    sample.Choice("en", "large-print"),
    sample.Choice("ar"),
]
each_choice = pytest.mark.parametrize("choice", CHOICES, ids="-".join)
X_HEIGHTS_PT = {"body": 5.8, "smallest": 4.6}


def drawn(choice: sample.Choice) -> list[Glyph]:
    return [glyph for glyph in glyphs(sample.leaflet(*choice).pdf) if glyph.text.strip()]


@each_choice
def test_body_and_small_print_are_large_enough(choice: sample.Choice) -> None:
    found = drawn(choice)
    large = choice.edition == "large-print"
    assert body_size(found) >= (18 if large else 12)
    assert min(round(glyph.size, 1) for glyph in found) >= (16 if large else 9.5)


@each_choice
def test_the_small_x_is_high_enough(choice: sample.Choice) -> None:
    face = "Leaflet-Arabic" if choice.language == "ar" else "Leaflet-Sans"
    high = fonts(sample.leaflet(*choice).pdf)[face].x_height()
    assert high * body_size(drawn(choice)) >= X_HEIGHTS_PT["body"]
    assert high * min(glyph.size for glyph in drawn(choice) if glyph.font == face) >= X_HEIGHTS_PT["smallest"]


@each_choice
def test_lines_of_running_text_are_not_too_long(choice: sample.Choice) -> None:
    """Letters of one paragraph on one line: no gap in them as between columns."""
    found = [glyph for glyph in drawn(choice) if not glyph.artifact]
    size = body_size(found)
    runs = [line for line in lines(glyphs(sample.leaflet(*choice).pdf)) if abs(line.size - size) < 0.05]
    whole = [line for line in runs if all(b.x - a.x - a.advance < a.size for a, b in pairwise(line.glyphs))]
    assert max(len(line.text) for line in whole) <= 90


@each_choice
def test_lines_are_led_wide_enough(choice: sample.Choice) -> None:
    """From a baseline to the next one straight below it, in running text."""
    found = [glyph for glyph in drawn(choice) if not glyph.artifact]
    size = body_size(found)
    starts: dict[tuple[int, int], list[float]] = {}
    for line in lines(found):
        if abs(line.size - size) < 0.05:
            start = line.right if choice.language == "ar" else line.left
            starts.setdefault((line.glyphs[0].page, round(start)), []).append(line.y)
    steps = [up - down for places in starts.values() for up, down in pairwise(sorted(places, reverse=True))]
    assert len(steps) > 20
    face = "Leaflet-Arabic" if choice.language == "ar" else "Leaflet-Sans"
    assert min(steps) >= 2.45 * size * fonts(sample.leaflet(*choice).pdf)[face].x_height() - 0.05
    if choice.language == "ar":
        assert median(steps) >= 1.5 * size


@each_choice
def test_nothing_leaves_the_margins(choice: sample.Choice) -> None:
    paper = PAPERS[choice.paper]
    found = drawn(choice)
    side = paper.side_mm * MM
    assert min(glyph.x for glyph in found) >= side - 0.5
    assert max(glyph.x + glyph.advance for glyph in found) <= side + LIVE_MM * MM + 0.5
    assert min(glyph.y for glyph in found) >= 5 * MM
    assert max(glyph.y + glyph.size for glyph in found) <= HEIGHT[choice.paper] - 5 * MM
    for page in {glyph.page for glyph in found}:
        foot = paper.foot_mm(page + 1) * MM
        assert all(glyph.y > foot for glyph in found if glyph.page == page and not glyph.artifact)


@each_choice
def test_text_is_dark_on_light_or_white_on_the_help_bar(choice: sample.Choice) -> None:
    colours = {glyph.colour for glyph in drawn(choice)}
    for colour in colours - {(1.0, 1.0, 1.0)}:
        shade = "#" + "".join(f"{round(part * 255):02x}" for part in (colour * 3 if len(colour) == 1 else colour))
        assert contrast(shade, "#eef3f6") >= 7
    white = "".join(glyph.text for glyph in drawn(choice) if glyph.colour == (1.0, 1.0, 1.0))
    assert len(white) < 80


def test_the_style_sheets_use_no_pale_colour_for_text_and_none_of_the_forbidden_styles() -> None:
    """Relative luminance and contrast after WCAG 2.2."""
    text = "".join(_styles("standard", "rtl")[0] + _styles("large-print", "ltr")[0] + _styles("standard", "ltr")[1])
    for colour in re.findall(r"(?<![-\w])color:\s*(#[0-9a-fA-F]{3,6})", text):
        background = "#8C1B1B" if colour == "#FFFFFF" else "#EEF3F6"
        assert contrast(colour, background) >= 7
    for forbidden in ("italic", "underline", "uppercase", "text-align: justify", "hyphens: auto", "letter-spacing"):
        assert forbidden not in text


def test_the_contrast_formula_gives_the_published_ends() -> None:
    """WCAG 2.2: black on white is 21:1, equal colours are 1:1; #767676 on white is the well-known edge of 4.5:1."""
    assert contrast("#000", "#fff") == pytest.approx(21)
    assert contrast("#0b4a57", "#0b4a57") == pytest.approx(1)
    assert 4.5 <= contrast("#767676", "#ffffff") < 4.6


@pytest.mark.parametrize("choice", [sample.Choice("ar"), sample.Choice("ar", "large-print")], ids="-".join)
def test_every_sign_stands_to_the_left_of_its_number(choice: sample.Choice) -> None:
    """In lines that run from right to left a bare sign goes to the wrong side (Unicode UAX #9)."""
    found = [glyph for glyph in drawn(choice) if glyph.text.strip()]
    signs = [glyph for glyph in found if glyph.text in "−+"]
    assert len(signs) >= 6
    for sign in signs:
        on_line = [glyph for glyph in found if glyph.page == sign.page and abs(glyph.y - sign.y) < 0.5]
        after = min((glyph for glyph in on_line if glyph.x > sign.x), key=lambda glyph: glyph.x)
        before = max((glyph for glyph in on_line if glyph.x < sign.x), key=lambda glyph: glyph.x, default=None)
        assert after.text.isdigit()
        assert after.x - (sign.x + sign.advance) < 0.2 * sign.size
        assert before is None or not (before.text.isdigit() and sign.x - before.x - before.advance < 0.2 * sign.size)


def test_a_number_without_isolation_would_be_caught() -> None:
    """The check above can fail: without the bdi the sign goes to the right."""
    made = small(
        '<html lang="ar" dir="rtl"><title>t</title><body><p>العدسة −3.25 هنا',
        css="body { font: 12pt 'Leaflet Arabic' }",
    )
    found = [glyph for glyph in glyphs(made.data) if glyph.text.strip()]
    sign = next(glyph for glyph in found if glyph.text == "−")
    assert any(glyph.text.isdigit() and 0 <= sign.x - glyph.x - glyph.advance < 0.2 * sign.size for glyph in found)


def test_columns_are_mirrored_from_right_to_left_and_the_pair_is_not() -> None:
    """What stands in the second column stands at the far side; the pair's curves are the same, step for step."""
    ways = {}
    for language in ("en", "ar"):
        found = lines(drawn(sample.Choice(language)), gutter=WIDTH["A4"] / 2)
        heading = next(line for line in found if "Keepyoureyessafe" in line.text.replace(" ", ""))
        ways[language] = heading.left < WIDTH["A4"] / 2
    assert ways == {"en": False, "ar": True}
    english, arabic = (Counter(_curves(sample.leaflet(language).pdf)) for language in ("en", "ar"))
    assert sum(english.values()) > 100
    assert not english - arabic


@each_choice
def test_columns_of_numbers_stand_straight(choice: sample.Choice) -> None:
    """Figures of one width, the minus as wide as a figure (to a fiftieth): signs and digits stand under each other."""
    for face, font in fonts(sample.leaflet(*choice).pdf).items():
        digits = {font.widths[code] for code, text in font.texts.items() if text in "0123456789" and text}
        signs = {font.widths[code] for code, text in font.texts.items() if text == "−"}
        assert len(digits) <= 1, face
        assert all(abs(sign - digit) <= 0.025 * digit for sign in signs for digit in digits)


def test_no_line_is_broken_before_it_is_full() -> None:
    """A line could not have taken the next word: its own width, a space and that word are wider than the page."""
    words = (
        '<strong>Call an eye doctor today, or the health line <bdi class="n" dir="ltr">111</bdi>.</strong> Weak arm or '
        'face, slurred speech, or no sight in both eyes? Call <bdi class="n" dir="ltr">999</bdi> now. Do not blame '
        "these signs on your new glasses."
    )
    rules = "html { font: 12pt/16pt 'Leaflet Sans' } body, p { margin: 0 }"
    for width_mm in range(60, 130):
        css = f"@page {{ size: {width_mm}mm 200mm; margin: 0 }} {rules}"
        found = lines(glyphs(small(f'<html lang="en"><title>t</title><body><p>{words}', css=css).data))
        for line, after in pairwise(found):
            word = after.text.split()[0]
            space = 0.26 * line.size
            width = max(glyph.x + glyph.advance for glyph in after.glyphs[: len(word)]) - after.left
            assert line.right + space + width > width_mm * MM - 1, (width_mm, line.text)


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    digits = colour.lstrip("#")
    digits = "".join(digit * 2 for digit in digits) if len(digits) == 3 else digits
    parts = [int(digits[place : place + 2], 16) / 255 for place in (0, 2, 4)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _curves(pdf: bytes) -> list[tuple[float, ...]]:
    """The curves of the first page by their steps, which no shift changes."""
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        found = [[float(each) for each in given] for given, name in operations(opened.pages[0]) if name == "c"]
    return [(round(c[2] - c[0], 1), round(c[3] - c[1], 1), round(c[4] - c[2], 1), round(c[5] - c[3], 1)) for c in found]
