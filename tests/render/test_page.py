"""The page as printed: sizes, measure, leading, margins, contrast, and numbers the right way round.

All places and sizes are read from the drawing (glyphs.py). The limits and where they come from:
body 12 pt and larger, large print 18 pt (clear print of the sight-loss charities); the small x 2.2 mm high, 45 to 75
letters a line and 80 at most, leading 1.3 (guides for patient leaflets); text contrast 7:1 (WCAG 2.2, 1.4.6).
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
from render.glyphs import Glyph, Line, fonts, glyphs, lines
from render.measure import GUTTER, MM, WIDTH, body_size, running_lines, steps
from render.structure import operations

SAMPLES = [
    ("en", "standard", "A4"),
    ("en", "standard", "Letter"),
    ("de", "standard", "A4"),
    ("en", "large-print", "A4"),
    ("ar", "standard", "A4"),
]
FAST = (SAMPLES[0], SAMPLES[-1])


def choices(*wanted: tuple[str, ...]) -> pytest.MarkDecorator:
    """A test over these samples; all but two are for the full run."""
    marked = [each if each in FAST else pytest.param(each, marks=pytest.mark.slow) for each in wanted]
    return pytest.mark.parametrize("choice", marked, ids=map("-".join, wanted))


each_sample = choices(*SAMPLES)
standard = choices(*(each for each in SAMPLES if each[1] == "standard"))
_MADE: dict[tuple[str, ...], bytes] = {}


def data(choice: tuple[str, ...]) -> bytes:
    if choice not in _MADE:
        _MADE[choice] = sample.pdf(*choice).data
    return _MADE[choice]


def drawn(choice: tuple[str, ...]) -> list[Glyph]:
    return glyphs(data(choice))


def running(choice: tuple[str, ...], *, first_page: int = 1) -> list[Line]:
    """The lines of running text in the columns, from that page (counted from 0) on."""
    gutter = GUTTER[choice[2]] if choice[1] == "standard" else None
    return running_lines(drawn(choice), gutter=gutter, first_page=first_page)


@each_sample
def test_body_and_small_print_are_large_enough(choice: tuple[str, ...]) -> None:
    found = drawn(choice)
    sizes = {round(glyph.size, 1) for glyph in found if glyph.text.strip()}
    large = choice[1] == "large-print"
    assert body_size(found) >= (18 if large else 12)
    assert min(sizes) >= (14 if large else 9.5)


@each_sample
def test_the_small_x_is_high_enough(choice: tuple[str, ...]) -> None:
    face = "Leaflet-Arabic" if choice[0] == "ar" else "Leaflet-Sans"
    height_mm = fonts(data(choice))[face].x_height() * body_size(drawn(choice)) / MM
    assert height_mm >= (3.3 if choice[1] == "large-print" else 2.2)


@choices(*(each for each in SAMPLES if each[0] == "en"))
def test_the_measure_is_comfortable(choice: tuple[str, ...]) -> None:
    """Letters that fit in a line of running text: the width of the column over the mean advance in it."""
    found = running(choice)
    advance = sum(line.right - line.left for line in found) / sum(len(line.text) for line in found)
    width = max(line.right - line.left for line in found)
    assert 45 <= width / advance <= 75
    assert max(len(line.text) for line in found) <= 80


@standard
def test_wide_passages_of_the_first_page_stay_readable(choice: tuple[str, ...]) -> None:
    found = [glyph for glyph in drawn(choice) if glyph.page == 0 and not glyph.artifact]
    size = body_size(found)
    whole = [line for line in lines(found) if abs(line.size - size) < 0.05 and _is_one_run(line)]
    assert max(len(line.text) for line in whole) <= 80


@each_sample
def test_lines_are_led_wide_enough(choice: tuple[str, ...]) -> None:
    found = steps(running(choice, first_page=0 if choice[0] == "ar" else 1))
    assert len(found) > 20
    assert min(found) >= 1.3 * body_size(drawn(choice)) - 0.05
    if choice[0] == "ar":
        assert median(found) >= 1.5 * body_size(drawn(choice))


@each_sample
def test_nothing_leaves_the_margins_or_its_column(choice: tuple[str, ...]) -> None:
    width = WIDTH[choice[2]]
    side = (16 if choice[1] == "large-print" else 13) * MM
    found = [glyph for glyph in drawn(choice) if glyph.text.strip()]
    assert min(glyph.x for glyph in found) >= side - 0.5
    assert max(glyph.x + glyph.advance for glyph in found) <= width - side + 0.5
    if choice[1] == "standard":
        middle = width / 2
        straddling = [
            line
            for line in lines([glyph for glyph in found if glyph.page > 0 and not glyph.artifact], gutter=middle)
            if line.left < middle - 3 * MM + 0.5 < line.right or middle + 3 * MM - 0.5 > line.left > middle
        ]
        assert straddling == []


@choices(*(each for each in SAMPLES if each[0] != "ar"))
def test_lines_are_flush_at_their_start_and_ragged_at_their_end(choice: tuple[str, ...]) -> None:
    found = running(choice)
    starts = Counter(round(line.left, 0) for line in found)
    ends = Counter(round(line.right, 0) for line in found)
    assert starts.most_common(1)[0][1] > 0.15 * len(found)
    assert ends.most_common(1)[0][1] < 0.15 * len(found)


@each_sample
def test_no_column_ends_with_a_heading(choice: tuple[str, ...]) -> None:
    gutter = GUTTER[choice[2]] if choice[1] == "standard" else None
    found = lines([glyph for glyph in drawn(choice) if not glyph.artifact], gutter=gutter)
    ends: dict[tuple[int, bool], Line] = {}
    for line in found:
        ends[line.glyphs[0].page, gutter is not None and line.left >= gutter] = line
    assert len(ends) > 2
    assert [line.text for line in ends.values() if all(glyph.bold for glyph in line.glyphs if glyph.text.strip())] == []


@each_sample
def test_text_is_black_or_white_on_black(choice: tuple[str, ...]) -> None:
    """Only the signal word WARNING stands white in a black bar."""
    colours = Counter(glyph.colour for glyph in drawn(choice))
    assert set(colours) <= {(0.0, 0.0, 0.0), (1.0, 1.0, 1.0)}
    white = "".join(glyph.text for glyph in drawn(choice) if glyph.colour == (1.0, 1.0, 1.0))
    assert re.fullmatch("(WARNING(en)?)*", white)


def test_the_style_sheets_use_no_pale_colour_for_text_and_none_of_the_forbidden_styles() -> None:
    """Relative luminance and contrast after WCAG 2.2."""
    text = "".join(sample.stylesheets("standard") + sample.stylesheets("large-print"))
    for colour in re.findall(r"(?<![-\w])color:\s*(#[0-9a-fA-F]{3,6})", text):
        background = "#000" if colour == "#fff" else "#fff"
        assert contrast(colour, background) >= 7
    for line_colour in re.findall(r"border[-\w]*:[^;}]*(#[0-9a-fA-F]{3,6})", text):
        assert contrast(line_colour, "#fff") >= 3
    for forbidden in ("italic", "underline", "uppercase", "text-align: justify", "hyphens: auto", "letter-spacing"):
        assert forbidden not in text


def test_the_contrast_formula_gives_the_published_ends() -> None:
    """WCAG 2.2: black on white is 21:1, equal colours are 1:1; #767676 on white is the well-known edge of 4.5:1."""
    assert contrast("#000", "#fff") == pytest.approx(21)
    assert contrast("#0b4a57", "#0b4a57") == pytest.approx(1)
    assert 4.5 <= contrast("#767676", "#ffffff") < 4.6


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_long_english_order_fits_on_two_sheets(paper: str) -> None:
    """The sample has some 1,650 words, tables and labels counted, and eleven figures."""
    source = re.sub(r"<[^>]*>", " ", sample.html(paper=paper))
    assert len(source.split()) > 1600
    assert sample.pdf(paper=paper).pages <= 4


@pytest.mark.parametrize("choice", [("ar", "standard", "A4"), ("ar", "large-print", "Letter")], ids="-".join)
def test_every_sign_stands_to_the_left_of_its_number(choice: tuple[str, ...]) -> None:
    """In lines that run from right to left a bare sign goes to the wrong side (Unicode UAX #9)."""
    found = [glyph for glyph in drawn(choice) if glyph.text.strip()]
    signs = [glyph for glyph in found if glyph.text in "−+"]
    assert len(signs) >= 10
    for sign in signs:
        on_line = [glyph for glyph in found if glyph.page == sign.page and abs(glyph.y - sign.y) < 0.5]
        after = min((glyph for glyph in on_line if glyph.x > sign.x), key=lambda glyph: glyph.x)
        before = max((glyph for glyph in on_line if glyph.x < sign.x), key=lambda glyph: glyph.x, default=None)
        assert after.text.isdigit()
        assert after.x - (sign.x + sign.advance) < 0.2 * sign.size
        assert before is None or not (before.text.isdigit() and sign.x - before.x - before.advance < 0.2 * sign.size)


def test_a_number_without_isolation_would_be_caught() -> None:
    """The check above can fail: without the bdi the sign goes to the right."""
    html = re.sub(r"</?bdi\b[^>]*>", "", sample.html("ar"))
    found = [glyph for glyph in glyphs(sample.pdf("ar", html=html).data) if glyph.text.strip()]
    turned = [
        sign
        for sign in found
        if sign.text == "−"
        and any(
            glyph.text.isdigit()
            and abs(glyph.y - sign.y) < 0.5
            and glyph.page == sign.page
            and 0 <= sign.x - glyph.x - glyph.advance < 0.2 * sign.size
            for glyph in found
        )
    ]
    assert turned


def test_arabic_columns_run_from_right_to_left_and_the_dial_is_not_mirrored() -> None:
    found = [glyph for glyph in drawn(("ar", "standard", "A4")) if glyph.page == 1 and not glyph.artifact]
    assert min(glyph.x for glyph in found) > GUTTER["A4"], "the second page begins in the column on the right"
    arabic, english = sample.pdf("ar").data, data(("en", "standard", "A4"))
    assert _axis_lines(arabic) == _axis_lines(english) != []


@each_sample
def test_columns_of_numbers_stand_straight(choice: tuple[str, ...]) -> None:
    """Figures of one width, the minus as wide as a figure (to a fiftieth): signs and digits stand under each other."""
    for face, font in fonts(data(choice)).items():
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
        found = lines(glyphs(sample.pdf(html=f'<html lang="en"><body><p>{words}', stylesheets=[css]).data))
        for line, after in pairwise(found):
            word = after.text.split()[0]
            space = 0.26 * line.size
            width = max(glyph.x + glyph.advance for glyph in after.glyphs[: len(word)]) - after.left
            assert line.right + space + width > width_mm * MM - 1, (width_mm, line.text)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_wide_part_between_columns_keeps_its_place_in_order(paper: str) -> None:
    html = sample.html(paper=paper).replace(
        '<!--columns-->\n<section class="half sight" id="sight">',
        '<!--wide-->\n<section class="full sight" id="sight">',
    )
    assert "<!--wide-->\n<section" in html
    made = sample.pdf(paper=paper, html=html)
    found = lines(glyphs(made.data))
    text = "\n".join(line.text for line in found)
    assert text.index("What the lenses change") > text.index("Your lenses")
    heading = next(line for line in found if "What the lenses change" in line.text)
    below = [line for line in found if line.glyphs[0].page == heading.glyphs[0].page and line.y < heading.y]
    above = [line for line in found if line.glyphs[0].page == heading.glyphs[0].page and line.y > heading.y]
    assert below
    assert all("How dark they get" not in line.text for line in above)


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


def _is_one_run(line: Line) -> bool:
    """No gap in the line as between two columns."""
    return all(after.x - before.x - before.advance < line.size for before, after in pairwise(line.glyphs))


def _axis_lines(pdf: bytes) -> list[tuple[float, float]]:
    """The directions of the dial's two thick lines, in drawing order, as the slope on the printed page."""
    slopes: list[tuple[float, float]] = []
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        for sheet in opened.pages:
            start, width = (0.0, 0.0), 0.0
            for operands, name in operations(sheet):
                if name == "w":
                    width = float(operands[0])
                elif name == "m":
                    start = (float(operands[0]), float(operands[1]))
                elif name == "l" and abs(width - 0.9) < 1e-6:
                    slopes.append((round(float(operands[0]) - start[0], 2), round(float(operands[1]) - start[1], 2)))
    return slopes
