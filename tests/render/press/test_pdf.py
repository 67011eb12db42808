"""The PDF itself: valid, tagged as it reads, the same each time, and with our fonts only.

PDF/UA-1 is ISO 14289-1; `page-validation` checks its machine rules (its README: the veraPDF and Isartor files).
"""

from __future__ import annotations

import io
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from datetime import date
from html import unescape
from itertools import pairwise
from pathlib import Path
from typing import Any

import page as validator
import pikepdf
import pypdf
import pytest
from render import sample
from render.structure import operations, tags

from explainer.errors import RenderError

ROOT = Path(__file__).parents[3]
SAMPLES = [
    ("en", "standard", "A4"),
    ("en", "standard", "Letter"),
    ("en", "large-print", "A4"),
    ("de", "standard", "A4"),
    ("ar", "standard", "A4"),
    ("ar", "large-print", "Letter"),
]
each_sample = pytest.mark.parametrize("choice", SAMPLES, ids="-".join)
_MADE: dict[tuple[str, ...], Any] = {}


def made(choice: tuple[str, ...]) -> Any:
    """A sample, made once for all the tests of this file."""
    if choice not in _MADE:
        _MADE[choice] = sample.pdf(*choice)
    return _MADE[choice]


def opened(choice: tuple[str, ...]) -> Any:
    return pikepdf.open(io.BytesIO(made(choice).data))


@pytest.mark.slow
@each_sample
def test_every_sample_passes_pdf_ua_1(choice: tuple[str, ...]) -> None:
    report = validator.validate_pdf_bytes(made(choice).data, profile=validator.ValidationProfile.PDF_UA_1)
    assert [f"{failure.rule_id}: {failure.message}" for failure in report.failures] == []
    assert report.is_compliant
    assert report.rules.total > 100


def test_the_validator_can_fail() -> None:
    with opened(SAMPLES[0]) as pdf:
        del pdf.Root.MarkInfo
        broken = io.BytesIO()
        pdf.save(broken)
    assert not validator.validate_pdf_bytes(
        broken.getvalue(), profile=validator.ValidationProfile.PDF_UA_1
    ).is_compliant


@pytest.mark.slow
@each_sample
def test_the_engine_has_nothing_to_say(choice: tuple[str, ...]) -> None:
    assert made(choice).log == ()


@each_sample
def test_the_page_count_is_that_of_the_file(choice: tuple[str, ...]) -> None:
    with opened(choice) as pdf:
        assert len(pdf.pages) == made(choice).pages


@each_sample
def test_the_paper_has_its_size(choice: tuple[str, ...]) -> None:
    """A4 is 210 mm x 297 mm (ISO 216); US Letter is 8.5 in x 11 in."""
    width, height = {"A4": (210 / 25.4 * 72, 297 / 25.4 * 72), "Letter": (612, 792)}[choice[2]]
    with opened(choice) as pdf:
        for sheet in pdf.pages:
            assert [float(side) for side in sheet.MediaBox] == pytest.approx([0, 0, width, height], abs=0.01)


def test_equal_input_gives_equal_bytes() -> None:
    assert sample.pdf("en").data == made(SAMPLES[0]).data
    assert sample.pdf("en", created=date(2026, 11, 21)).data != made(SAMPLES[0]).data


@pytest.mark.slow
def test_another_process_with_other_settings_gives_the_same_bytes(tmp_path: Path) -> None:
    program = "import sys; from render import sample; sys.stdout.buffer.write(sample.pdf('en').data)"
    environment = os.environ | {
        "PYTHONPATH": f"{ROOT}{os.pathsep}{ROOT / 'tests'}",
        "PYTHONHASHSEED": "7",
        "TZ": "Pacific/Auckland",
        "LANG": "C",
        "HOME": str(tmp_path),
        "TMPDIR": str(tmp_path),
        "XDG_CACHE_HOME": str(tmp_path / "kept"),
    }
    told = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, check=True, cwd=tmp_path, env=environment
    )
    assert told.stdout == made(SAMPLES[0]).data
    left = sorted(str(path.relative_to(tmp_path)) for path in tmp_path.glob("*/*/*"))
    assert left in ([], ["kept/explainer/paintings"]), "nothing may be left behind but what is kept on purpose"
    assert {path.name for path in tmp_path.iterdir()} <= {"kept"}


@each_sample
def test_only_our_own_fonts_are_in_the_file(choice: tuple[str, ...]) -> None:
    with opened(choice) as pdf:
        names = {str(item.FontName) for item in pdf.objects if _type(item) == "/FontDescriptor"}
        whole = [item for item in pdf.objects if _type(item) == "/FontDescriptor" and "/FontFile2" in item]
    assert names
    assert {re.sub(r"^/[A-Z]{6}\+", "", name) for name in names} <= {
        "Leaflet-Sans",
        "Leaflet-Sans-Bold",
        "Leaflet-Arabic",
        "Leaflet-Arabic-Bold",
    }
    assert len(whole) == len(names)


def test_every_glyph_has_a_character_behind_it() -> None:
    """Letters with two marks make the engine leave a glyph without one, which PDF/UA-1 does not allow."""
    made_ = sample.pdf(html='<html lang="vi"><title>t</title><body><p>a\u0301\u0323 e\u0323\u0301 x\u0327\u0302')
    with pikepdf.open(io.BytesIO(made_.data)) as pdf:
        maps = [item.ToUnicode.read_bytes() for item in pdf.objects if _type(item) == "/Font" and "/ToUnicode" in item]
    assert maps
    assert not any(b"> <>" in characters for characters in maps)
    assert validator.validate_pdf_bytes(made_.data, profile=validator.ValidationProfile.PDF_UA_1).is_compliant


@each_sample
def test_title_language_and_dates_are_the_orders(choice: tuple[str, ...]) -> None:
    with opened(choice) as pdf:
        assert str(pdf.Root.Lang) == choice[0]
        assert pdf.Root.ViewerPreferences.DisplayDocTitle is True
        assert ("/Direction" in pdf.Root.ViewerPreferences) == (choice[0] == "ar")
        assert str(pdf.docinfo.Title) == "Your glasses, order LT-7306"
        assert str(pdf.docinfo.CreationDate) == str(pdf.docinfo.ModDate) == "D:20261120"
        description = pdf.Root.Metadata.read_bytes().decode("utf-8") + str(dict(pdf.docinfo))
    assert "Odalys" not in description
    assert "Fennimore" not in description


@each_sample
def test_header_cells_say_what_they_head(choice: tuple[str, ...]) -> None:
    with opened(choice) as pdf:
        cells = [(tag, above) for kind, tag, above in tags(pdf) if kind == "/TH"]
        assert cells
        for tag, above in cells:
            assert str(tag.A.Scope) == ("/Column" if "/THead" in above else "/Row")


@each_sample
def test_figures_say_their_values_and_lie_where_they_are_drawn(choice: tuple[str, ...]) -> None:
    with opened(choice) as pdf:
        figures = [tag for kind, tag, _ in tags(pdf) if kind == "/Figure"]
        boxes = [[float(side) for side in tag.A.BBox] for tag in figures]
        sheets = [[float(side) for side in tag.Pg.MediaBox] for tag in figures]
        words = [str(tag.Alt) for tag in figures]
    assert all(words)
    for (left, low, right, high), (_, _, width, height) in zip(boxes, sheets, strict=True):
        assert 0 < left < right < width
        assert 0 < low < high < height
    dial = boxes[next(place for place, said in enumerate(words) if "163" in said)]
    scale = 1.5 if choice[1] == "large-print" else 1.0
    assert dial[2] - dial[0] == pytest.approx(87 * scale / 25.4 * 72, abs=0.1)
    assert dial[3] - dial[1] == pytest.approx(46 * scale / 25.4 * 72, abs=0.1)


def test_words_laid_over_a_picture_belong_to_its_figure() -> None:
    with opened(SAMPLES[0]) as pdf:
        dial = next(tag for kind, tag, _ in tags(pdf) if kind == "/Figure" and "163" in str(tag.Alt))
        assert len([kid for kid in dial.K if isinstance(kid, pikepdf.Dictionary)]) == 5


@each_sample
def test_the_page_foot_is_on_every_page_and_outside_the_reading_order(choice: tuple[str, ...]) -> None:
    with opened(choice) as pdf:
        for sheet in pdf.pages:
            marks = [given for given, name in operations(sheet) if name == "BDC"]
            feet = [given for given in marks if str(given[0]) == "/Artifact" and given[1].Subtype == "/Footer"]
            assert {str(given[0]) for given in marks} & {"/Span", "/Figure"}
            assert len(feet) >= 3


def test_links_speak_and_print() -> None:
    with opened(SAMPLES[0]) as pdf:
        links = [item for item in pdf.objects if _type(item) == "/Annot"]
        found = {str(link.A.URI): (str(link.Contents), int(link.F)) for link in links}
    assert found == {
        "mailto:bench@weir.example": ("bench@weir.example", 4),
        "tel:01632960417": ("01632 960 417", 4),
    }


def test_links_lie_over_their_words() -> None:
    for choice in (SAMPLES[0], SAMPLES[2], SAMPLES[4]):
        with opened(choice) as pdf:
            link = next(item for item in pdf.objects if _type(item) == "/Annot" and "mailto" in str(item.A.URI))
            left, low, right, high = (float(side) for side in link.Rect)
        reader = pypdf.PdfReader(io.BytesIO(made(choice).data))
        places = []
        reader.pages[0].extract_text(visitor_text=lambda text, ctm, tm, *_: places.append((text, ctm, tm)))  # noqa: B023
        x, y = next((tm[4] * ctm[0] + ctm[4], tm[5] * ctm[3] + ctm[5]) for text, ctm, tm in places if "bench@" in text)
        assert left - 1 <= x <= right
        assert low <= y <= high


def test_a_passage_in_a_second_language_is_marked() -> None:
    with opened(("ar", "standard", "A4")) as pdf:
        marked = {str(tag.Lang) for _, tag, _ in tags(pdf) if "/Lang" in tag}
    assert marked == {"en"}


def test_a_page_from_the_right_carries_its_words_in_the_order_of_reading() -> None:
    """What is drawn from the left says by ActualText what it is (ISO 32000-1, replacement text; from memory).

    Links run from left to right, and are said as they are drawn.
    """
    with opened(("ar", "standard", "A4")) as pdf:
        said = "".join(str(tag.ActualText) for _, tag, _ in tags(pdf) if "/ActualText" in tag)
    body = sample.html("ar").partition("<body>")[2].partition('<div class="foot">')[0]
    written = unescape(re.sub(r"<!--.*?-->|<a\b.*?</a>|<[^>]*>", "", body, flags=re.DOTALL))
    assert re.sub(r"[\s•\u2066-\u2069]", "", said) == re.sub(r"[\s\u2066-\u2069]", "", written)
    with opened(("en", "standard", "A4")) as pdf:
        assert not any("/ActualText" in tag for _, tag, _ in tags(pdf))


@each_sample
def test_bookmarks_follow_the_headings_to_their_pages(choice: tuple[str, ...]) -> None:
    with opened(choice) as pdf:
        levels = [int(kind[2]) for kind, _, _ in tags(pdf) if re.fullmatch("/H[1-6]", kind)]
        pages = {sheet.objgen: number for number, sheet in enumerate(pdf.pages)}
        targets = [(str(mark["/Title"]), mark["/Dest"]) for mark in _bookmarks(pdf.Root.Outlines)]
        places = [(title, pages[target[0].objgen], float(target[3])) for title, target in targets]
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    assert len(places) == len(levels)
    assert [number for _, number, _ in places] == sorted(number for _, number, _ in places)
    assert all(height > 0 for _, _, height in places)


def test_a_character_that_no_font_has_stops_the_page_or_is_told() -> None:
    """The machine may have a font for it; the page must not use it."""
    html = sample.html().replace("Check the fit today", "Check the fit today \u0915")
    with pytest.raises(RenderError, match=r"U\+0915"):
        sample.pdf(html=html)
    told = sample.pdf(html=html, strict=False)
    assert any("U+0915" in line for line in told.log)


def test_an_unknown_property_is_a_fault() -> None:
    with pytest.raises(RenderError, match="Ignored"):
        sample.pdf(stylesheets=[*sample.stylesheets(), "p { colour: red }"])


def test_the_name_of_the_document_is_in_the_file() -> None:
    with opened(SAMPLES[0]) as pdf:
        assert bytes(pdf.trailer.ID[0]) == b"LT-7306-en-standard-A4"


def _type(item: Any) -> str | None:
    return str(item.get("/Type")) if isinstance(item, pikepdf.Dictionary | pikepdf.Stream) else None


def _bookmarks(node: Any) -> Iterator[Any]:
    item = node.get("/First")
    while item is not None:
        yield item
        yield from _bookmarks(item)
        item = item.get("/Next")
