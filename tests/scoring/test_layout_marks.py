"""Block C: each check takes its points away from a page that is hard to read."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import pytest
from scoring import columns
from scoring.breaking import marked, remade, sound, swap, without
from scoring.leaflet import Made
from scoring.pages import measures

NAME = "photochromic-driver"
WARNING = "<p>Never look at the sun without your eyes shut. It hurts and it blinds and it stays so for good.</p>"


@pytest.mark.slow
@pytest.mark.parametrize("css", [".basis { font-size: 7pt }", ".label { font-size: 6pt }", "html { font-size: 11pt }"])
def test_small_type_is_seen(css: str):
    assert marked("C1", sound(NAME)).points == 2
    assert marked("C1", remade(NAME, css=css)).points == 0


@pytest.mark.slow
@pytest.mark.parametrize(
    "css",
    [
        "html { line-height: 14pt }",
        "p, li { text-align: justify }",
        "section > p { margin-left: 0; text-align: right } li { text-align: right }",
    ],
    ids=["close lines", "justified", "flush right"],
)
def test_lines_that_are_hard_to_follow_are_seen(css: str):
    assert marked("C2", sound(NAME)).points == 2
    assert marked("C2", remade(NAME, css=css)).points == 0


@pytest.mark.slow
def test_hyphenation_is_seen():
    broken = remade(
        NAME,
        change=swap('<html lang="en-GB"', '<html style="" lang="en-GB"'),
        css="p, li { hyphens: auto; hyphenate-limit-chars: 4 2 2 }",
    )
    assert "hyphenated" in marked("C2", broken).reason


@pytest.mark.slow
def test_a_torn_value_is_seen():
    broken = remade(
        NAME,
        css=".n { white-space: normal } .readings td { width: 3mm } .readings { table-layout: fixed; width: 60mm }",
    )
    assert "torn value" in marked("C2", broken).reason


@pytest.mark.slow
def test_a_long_line_is_seen():
    broken = remade(
        NAME,
        change=swap("Your new glasses</h1>", f"Your new glasses</h1><p>{'word and ' * 30}</p>"),
        css="p { font-size: 12pt }",
    )
    assert "letters" in marked("C2", broken).reason


def test_underlines_capitals_and_the_like_are_seen():
    made = sound(NAME)
    assert marked("C3", made).points == 2
    assert marked("C3", made.changed(html=made.html.replace("Cover one eye", "<u>Cover</u> one eye"))).points == 0
    assert marked("C3", made.changed(html=made.html.replace("Cover one eye", "COVER ONE EYE NOW PLEASE"))).points == 0


@pytest.mark.slow
def test_a_long_leaflet_is_seen():
    assert marked("C4", remade(NAME, css="p { line-height: 14mm !important }")).points == 0


@pytest.mark.slow
@pytest.mark.parametrize(
    ("css", "found"),
    [
        (".lead { margin-left: -12mm }", columns.outside),
        (".foot { padding-top: 14mm }", columns.outside),
        (".label { left: 10mm !important }", columns.overprinted),
        (".foot-version { transform: translateX(-95mm) }", columns.overprinted),
        (".caution { break-inside: auto } .caution p { line-height: 60mm }", columns.split_cautions),
    ],
    ids=["cut off", "foot cut off", "labels printed over", "foot printed over", "torn"],
)
def test_what_is_cut_off_printed_over_or_torn_is_seen(css: str, found: Callable[[Made], Iterable[str]]):
    broken = remade(NAME, css=css)
    assert list(found(sound(NAME))) == []
    assert list(found(broken))
    assert marked("C4", broken).points == 0


def test_a_heading_at_the_end_of_a_column_is_seen():
    """A heading and, too high for the column that it stands in, what belongs to it."""
    broken = remade(
        NAME,
        change=swap("Check the fit</h2>", 'Check the fit</h2><div style="height: 230mm"></div>'),
        css="h2 { break-after: auto }",
    )
    assert "ends a column" in marked("C4", broken).reason
    assert measures(broken).orphans


@pytest.mark.slow
def test_loose_labels_are_seen():
    assert measures(sound(NAME)).loose_labels == []
    assert measures(remade(NAME, css=".label { top: -20mm !important }")).loose_labels


def test_the_empty_end_of_a_column_is_seen():
    """Blocks of which no two stand in one column, and nothing short beside them."""
    tall = '<div style="height: 150mm"></div>' * 3
    broken = remade(NAME, change=swap("Check the fit</h2>", f"Check the fit</h2><p>Look.</p>{tall}"))
    assert measures(broken).emptiest > 0.2


def test_silence_about_large_print_is_seen():
    assert marked("C5", sound(NAME)).points == 2
    assert marked("C5", remade(NAME, change=without("large print"))).points == 0


@pytest.mark.slow
def test_large_print_that_is_none_or_says_less_is_seen():
    made = sound(NAME, edition="large-print")
    assert marked("C5", made).points == 2
    assert marked("C5", made.changed(said=made.said[3:])).points == 0
    small = remade(NAME, edition="large-print", css="p, li { font-size: 9pt }")
    assert marked("C5", small).points == 0
