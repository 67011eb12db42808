"""Parts are set once and cut afterwards: nothing is lost, doubled, left alone or taken for another one."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from render import sample
from render.glyphs import Line, glyphs, lines
from render.press.test_layout import MM, made
from render.sample_parts import figure

from explainer.errors import RenderError
from explainer.render.press import galley

WORDS = "".join(
    f"<h2>Heading {n}</h2><p>{' '.join(f'w{n}x{word}' for word in range(30 + 7 * n))}</p>"
    f"<ul><li>point {n}a</li><li>point {n}b</li></ul>"
    for n in range(14)
)


def columns(direction: str = "ltr") -> list[list[Line]]:
    """The lines of each column of a long text, in reading order, without the page foot."""
    found = lines(glyphs(made(f"<!--columns-->{WORDS}", direction=direction).data), gutter=105 * MM)
    text = [line for line in found if line.text != "foot"]
    pages = sorted({line.glyphs[0].page for line in text})
    sides = (False, True) if direction == "ltr" else (True, False)
    return [
        sorted((x for x in text if x.glyphs[0].page == page and (x.left > 105 * MM) is right), key=lambda x: -x.y)
        for page in pages
        for right in sides
    ]


@pytest.mark.parametrize("direction", ["ltr", "rtl"])
def test_every_word_is_there_once_and_in_its_order(direction: str) -> None:
    text = " ".join(line.text for column in columns(direction) for line in column)
    assert re.findall(r"w\d+x\d+", text) == re.findall(r"w\d+x\d+", WORDS)
    assert re.findall(r"point \d+[ab]", text) == re.findall(r"point \d+[ab]", WORDS)


def test_no_heading_ends_a_column_and_no_line_stands_alone() -> None:
    found = [column for column in columns() if column]
    assert len(found) > 3
    for column in found:
        assert not column[-1].text.startswith("Heading")
    for above, below in pairwise(found):
        alone = [re.match(r"w(\d+)x", line.text) for line in (above[-2], above[-1], below[0], below[1])]
        if alone[1] and alone[2] and alone[1][1] == alone[2][1]:  # a paragraph goes on: two lines of it on each side
            assert all(found and found[1] == alone[1][1] for found in alone)


def test_the_same_words_round_another_picture_are_another_part() -> None:
    """The picture of another order under the same name must never be taken from what is kept."""
    html = f"<!--columns-->{figure('dial', 40, 40, 'dial')}"
    usual, other = sample.assets(), sample.assets()
    other["figure:dial"] = usual["figure:tint"]
    first, second, again = (made(html, assets=assets).data for assets in (usual, other, usual))
    assert first != second
    assert first == again


@pytest.mark.parametrize("naming", ["src='figure:dial'", "src=figure:dial", 'src = "figure:dial"', 'SRC="figure:dial"'])
def test_a_picture_counts_however_it_is_named(naming: str) -> None:
    html = f'<!--columns--><p><img {naming} alt="dial" style="width: 40mm; height: 40mm"></p>'
    usual, other = sample.assets(), sample.assets()
    other["figure:dial"] = usual["figure:tint"]
    first, again, second = (made(html, assets=assets).data for assets in (usual, usual, other))
    assert first == again
    assert first != second


def test_what_is_kept_changes_no_byte() -> None:
    """A part gives the same page whether it is set now, or was set for another document in other company."""
    first = made(f"<!--columns-->{WORDS}").data
    made(f"<!--columns--><p>another</p><!--columns-->{WORDS}<!--columns--><p>end</p>")
    assert made(f"<!--columns-->{WORDS}").data == first


def test_a_complaint_is_heard_each_time() -> None:
    for _ in range(2):
        with pytest.raises(RenderError, match="unknown"):
            made('<!--columns--><p style="no-such-property: 1">words</p>')


@pytest.mark.slow
@pytest.mark.parametrize("language", ["en", "ar"])
def test_a_leaflet_is_the_same_alone_and_in_any_company(language: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Set anew, set from what others left, painted anew and painted from notes: byte for byte one leaflet."""
    monkeypatch.setattr(galley, "_store", galley._Store())
    alone = sample.pdf(language).data
    monkeypatch.setattr(galley, "_store", galley._Store())
    sample.pdf(language, "large-print")
    sample.pdf(language, html=sample.html(language=language).replace("<p>", "<p>Another. "))
    assert [sample.pdf(language).data == alone for _ in range(4)] == [True] * 4
    assert any(page.notes for piece in galley._store.common.values() for page in piece.pages.values())


def test_what_one_leaflet_alone_has_is_let_go_of(monkeypatch: pytest.MonkeyPatch) -> None:
    """A batch keeps what two leaflets had, and nothing of one wearer."""
    monkeypatch.setattr(galley, "_store", galley._Store())
    with galley.one_leaflet():
        made("<!--columns--><p>of this wearer alone</p><!--columns--><p>of all</p>")
        assert len(galley._store.own) == 2
    with galley.one_leaflet():
        made("<!--columns--><p>of another wearer</p><!--columns--><p>of all</p>")
        assert len(galley._store.own) == 1
        assert len(galley._store.common) == 1
    assert not galley._store.own
