"""Wide parts, pairs and columns: where they are put on the paper."""

from __future__ import annotations

import io
from datetime import date
from itertools import pairwise

import pikepdf
import pytest
from render import sample
from render.glyphs import glyphs, lines
from render.sample_parts import figure
from render.structure import tags

from explainer.errors import RenderError
from explainer.render.press.layout import set_kind
from explainer.render.press.pdf import Pdf, write_pdf
from explainer.render.press.sheet import PAPERS_MM, sheet

MM = 72 / 25.4
FOOT = '<!--foot--><div class="foot"><p>foot</p></div>'


def made(
    body: str, *, direction: str = "ltr", edition: str = "standard", assets: dict[str, bytes] | None = None
) -> Pdf:
    head = f'<html lang="en" dir="{direction}" class="{edition}" data-edition="{edition}" data-paper="A4"><body>'
    return write_pdf(
        head + body + FOOT,
        assets=sample.assets() if assets is None else assets,
        stylesheets=sample.stylesheets(edition),
        title="t",
        language="en",
        direction=direction,
        created=date(2026, 11, 20),
        identifier="t",
    )


def boxes(pdf: Pdf) -> dict[str, tuple[int, list[float]]]:
    """The page and the box [pt] of each figure by its alternative text."""
    with pikepdf.open(io.BytesIO(pdf.data)) as opened:
        pages = {page.objgen: number for number, page in enumerate(opened.pages)}
        return {
            str(tag.Alt): (pages[tag.Pg.objgen], [float(side) for side in tag.A.BBox])
            for kind, tag, _ in tags(opened)
            if kind == "/Figure"
        }


@pytest.mark.parametrize("paper", PAPERS_MM)
@pytest.mark.parametrize("edition", ["standard", "large-print"])
def test_the_columns_fill_the_paper_between_its_margins(paper: str, edition: str) -> None:
    on = sheet(paper, edition)
    lefts = [on.place(0, column, 0, "ltr").left_mm for column in range(on.columns)]
    assert lefts == sorted(lefts)
    assert lefts[0] == pytest.approx(on.side_mm)
    assert lefts[-1] + on.set_column_mm * on.scale == pytest.approx(on.width_mm - on.side_mm)
    assert all(after - before > on.set_column_mm * on.scale for before, after in pairwise(lefts))
    assert [on.place(0, column, 0, "rtl").left_mm for column in range(on.columns)] == pytest.approx(lefts[::-1])


@pytest.mark.parametrize(("paper", "edition"), [("A5", "standard"), ("A4", "pocket")])
def test_an_unknown_paper_or_edition_is_refused_with_what_there_is(paper: str, edition: str) -> None:
    with pytest.raises(RenderError, match=r"is .*, not '(A5|pocket)'"):
        sheet(paper, edition)


def test_neighbours_in_columns_run_on() -> None:
    pdf = made("<!--columns--><p>first</p><!--columns--><p>second</p>")
    first, second = (
        next(line for line in lines(glyphs(pdf.data)) if line.text == word) for word in ("first", "second")
    )
    assert first.left == pytest.approx(second.left)
    assert 0 < first.y - second.y < 8 * MM


@pytest.mark.parametrize(("width", "kind"), [(87, "columns"), (88, "columns"), (90, "wide")])
def test_a_part_with_a_figure_wider_than_its_column_is_set_wide(width: float, kind: str) -> None:
    assert set_kind("columns", figure("dial", width, 40, "x"), 87) == kind


def test_the_width_may_stand_on_the_canvas_instead() -> None:
    html = '<figure class="drawing dial"><div class="canvas" dir="ltr" style="width:150mm;height:56mm"></div></figure>'
    assert set_kind("columns", html, 87) == "wide"


@pytest.mark.parametrize("direction", ["ltr", "rtl"])
def test_the_halves_of_a_pair_begin_side_by_side_the_first_one_first(direction: str) -> None:
    halves = f"{figure('dial', 60, 30, 'first')}<!--beside-->{figure('tint', 60, 50, 'second')}"
    pdf = made(f"<!--wide--><p>top</p><!--pair-->{halves}", direction=direction)
    (page_1, first), (page_2, second) = boxes(pdf)["first"], boxes(pdf)["second"]
    assert page_1 == page_2 == 0
    assert first[3] == pytest.approx(second[3], abs=0.1)
    middle = 105 * MM
    assert (first[2] < middle < second[0]) if direction == "ltr" else (second[2] < middle < first[0])


def test_running_text_goes_on_below_each_half_of_a_pair() -> None:
    words = "".join(f"<p>Sentence number {n} of the running text stands here.</p>" for n in range(60))
    pdf = made(f"<!--pair--><p>left</p><!--beside-->{figure('dial', 60, 100, 'tall')}<!--columns-->{words}")
    found = [line for line in lines(glyphs(pdf.data), gutter=105 * MM) if line.glyphs[0].page == 0]
    below_left = max(line.y for line in found if line.left < 105 * MM and "Sentence" in line.text)
    below_right = max(line.y for line in found if line.left > 105 * MM)
    assert below_left - below_right > 80 * MM


def test_in_one_column_a_pair_is_set_one_after_the_other() -> None:
    pdf = made(
        f"<!--pair-->{figure('dial', 60, 30, 'first')}<!--beside-->{figure('tint', 60, 30, 'second')}",
        edition="large-print",
    )
    first, second = boxes(pdf)["first"], boxes(pdf)["second"]
    assert first[1][1] > second[1][3]


@pytest.mark.parametrize(("count", "width_mm"), [(2, 41), (3, 26)])
def test_small_figures_stand_in_a_row_within_the_column(count: int, width_mm: float) -> None:
    """Also where the markup has a line's end between them."""
    row = "\n".join(figure("dial", width_mm, 20, f"figure {number}") for number in range(count))
    found = [box for _, box in boxes(made(f'<!--columns--><div class="figure-row">\n{row}\n</div>')).values()]
    assert max(box[3] for box in found) - min(box[3] for box in found) < 0.1
    assert all(after[0] > before[2] for before, after in pairwise(found))
    assert found[-1][2] <= (15 + 87 + 0.3) * MM


def test_a_figure_too_tall_for_the_room_under_the_front_goes_to_the_next_page() -> None:
    front = '<!--wide--><div style="height: 150mm">front</div>'
    pdf = made(f"{front}<!--columns--><h2>Text</h2>{figure('dial', 80, 160, 'tall')}")
    page, (_, low, _, high) = boxes(pdf)["tall"]
    assert page == 1
    assert low > 16 * MM
    assert high - low == pytest.approx(160 * MM, abs=0.1)


def test_a_figure_taller_than_a_page_stops_the_page() -> None:
    with pytest.raises(RenderError, match="taller than the page: too tall"):
        made(f"<!--columns-->{figure('dial', 80, 300, 'too tall')}")


@pytest.mark.parametrize(("above_mm", "page"), [(120, 0), (215, 1)])
def test_a_wide_part_is_not_torn_for_the_last_quarter_of_a_page(above_mm: float, page: int) -> None:
    """With more room than that the part is begun at once, even if its figure then goes to the next page."""
    wide = f"<!--wide--><h2>Wide</h2><p>words</p>{figure('dial', 120, 60, 'wide')}"
    pdf = made(f'<!--pair--><div style="height: {above_mm}mm">above</div>{wide}')
    heading = next(line for line in lines(glyphs(pdf.data)) if line.text == "Wide")
    assert heading.glyphs[0].page == boxes(pdf)["wide"][0] == page


def test_columns_above_a_wide_part_end_at_nearly_the_same_height() -> None:
    words = "".join(f"<p>Sentence number {n} of the running text stands here.</p>" for n in range(31))
    pdf = made(f"<!--columns-->{words}<!--wide--><h2>Wide</h2><p>end</p>")
    found = lines(glyphs(pdf.data), gutter=105 * MM)
    left = min(line.y for line in found if line.left < 105 * MM and "Sentence" in line.text)
    right = min(line.y for line in found if line.left > 105 * MM and "Sentence" in line.text)
    wide = next(line.y for line in found if line.text == "Wide")
    assert abs(left - right) < 20 * MM
    assert wide < min(left, right)
    assert min(left, right) - wide < 25 * MM
    assert pdf.pages == 1


def test_large_print_is_the_same_setting_half_as_large_again() -> None:
    body = f"<!--columns-->{figure('dial', 80, 40, 'dial')}<p>words</p>"
    small, large = boxes(made(body))["dial"][1], boxes(made(body, edition="large-print"))["dial"][1]
    assert large[2] - large[0] == pytest.approx(1.5 * (small[2] - small[0]), rel=1e-4)


def test_a_page_without_its_paper_is_refused() -> None:
    with pytest.raises(RenderError, match="data-paper"):
        sample.pdf(html='<html lang="en"><body><!--columns--><p>x</p><!--foot--><p>y</p>')


def test_the_last_columns_end_alike_unless_there_is_one() -> None:
    """A page and a few lines of text: the few lines would stand alone in the last column."""
    long = "<!--columns-->" + "".join(f"<p>Line {number}.</p>" for number in range(58))
    last = [line for line in lines(glyphs(made(long).data), gutter=105 * MM) if line.text.startswith("Line")]
    left, right = ([line.y for line in last if (line.left > 105 * MM) is side] for side in (False, True))
    assert min(len(left), len(right)) > 20
    assert abs(min(left) - min(right)) < 10 * MM
    short = lines(glyphs(made("<!--columns--><p>Line a.</p><p>Line b.</p>").data), gutter=105 * MM)
    assert not [line for line in short if line.text.startswith("Line") and line.left > 105 * MM]
