"""A section in blocks: nothing lost, nothing parted that belongs together, and set as if it were one piece."""

from __future__ import annotations

import re

import pytest
from render import sample
from render.glyphs import glyphs

from explainer.render.press import pdf
from explainer.render.press.blocks import blocks

SECTION = (
    '<section class="half fit" id="fit">\n<h2>Check <em>the</em> fit</h2>\n<p>One.<br>Two.</p>\n'
    '<ul>\n<li>a</li>\n<li>b</li>\n</ul>\n<figure class="drawing"><div><img src="figure:dial" alt="a > b"></div>'
    '</figure>\n<h3>More</h3>\n<p>Three.</p>\n<div class="figure-row"><figure><img src="x" alt=""></figure></div>\n'
    "<aside><p>x</p></aside>\n</section>"
)


def bare(html: str) -> str:
    return "".join(re.sub(r"</?section\b[^>]*>", "", html).split())


def test_nothing_is_lost_and_only_the_first_has_the_name() -> None:
    found = blocks(SECTION)
    assert "".join(map(bare, found)) == bare(SECTION)
    assert [' id="fit"' in block for block in found] == [True] + [False] * (len(found) - 1)
    assert [' runs-on"' in block for block in found] == [True] * (len(found) - 1) + [False]
    assert all(block.startswith('<section class="half fit') and block.endswith("</section>") for block in found)


def test_what_belongs_together_stays_together() -> None:
    """A heading with what it heads, a list and a row of pictures with the words before them."""
    starts = [re.findall(r"<(\w+)", block)[1] for block in blocks(SECTION)]
    assert starts == ["h2", "figure", "h3", "aside"]
    assert "<ul>" in blocks(SECTION)[0]
    assert "figure-row" in blocks(SECTION)[2]


@pytest.mark.parametrize(
    "html",
    [
        "<p>no section</p>",
        '<section class="half fit" id="fit">words <p>and a paragraph</p></section>',
        '<section class="half fit" id="fit"><p>never closed</section>',
        '<section class="half fit" id="fit"></p><p>closed before</p></section>',
    ],
)
def test_what_cannot_be_told_apart_is_one_block(html: str) -> None:
    assert blocks(html) == [html]


@pytest.mark.slow
@pytest.mark.parametrize("language", ["en", "de", "ar"])
@pytest.mark.parametrize("edition", ["standard", "large-print"])
def test_blocks_stand_where_the_whole_section_would(
    edition: str, language: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Setting a section in blocks is for speed alone: every letter keeps its place, to a tenth of a point."""

    def places() -> list[tuple[str, int, float, float]]:
        found = glyphs(sample.pdf(language, edition).data)
        return sorted((glyph.text, glyph.page, glyph.x, glyph.y) for glyph in found)

    in_blocks = places()
    monkeypatch.setattr(pdf, "blocks", lambda html: [html])
    for (text, page, *place), (same_text, same_page, *same_place) in zip(in_blocks, places(), strict=True):
        assert (text, page) == (same_text, same_page)
        assert place == pytest.approx(same_place, abs=0.1)
