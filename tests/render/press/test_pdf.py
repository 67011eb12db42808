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
from explainer.render.press.pdf import Pdf, write_pdf

ROOT = Path(__file__).parents[3]
CHOICES = [
    sample.Choice("en"),
    sample.Choice("en", paper="Letter"),
    sample.Choice("en", "large-print"),
    sample.Choice("de"),
    sample.Choice("ar"),
    sample.Choice("ar", "large-print", "Letter"),
]
each_choice = pytest.mark.parametrize("choice", CHOICES, ids="-".join)


def data(choice: sample.Choice) -> bytes:
    return sample.leaflet(*choice).pdf


def opened(choice: sample.Choice) -> Any:
    return pikepdf.open(io.BytesIO(data(choice)))


def small(html: str, *, strict: bool = True, css: str = "body { font-family: 'Leaflet Sans' }") -> Pdf:
    """A page of its own, of which nothing is known but its HTML."""
    return write_pdf(
        html,
        assets={},
        stylesheets=[css],
        title="small",
        language="en",
        direction="ltr",
        created=date(2026, 11, 20),
        identifier="small",
        strict=strict,
    )


@each_choice
def test_every_edition_passes_pdf_ua_1(choice: sample.Choice) -> None:
    report = validator.validate_pdf_bytes(data(choice), profile=validator.ValidationProfile.PDF_UA_1)
    assert [f"{failure.rule_id}: {failure.message}" for failure in report.failures] == []
    assert report.is_compliant
    assert report.rules.total > 100


def test_the_validator_can_fail() -> None:
    with opened(CHOICES[0]) as pdf:
        del pdf.Root.MarkInfo
        broken = io.BytesIO()
        pdf.save(broken)
    assert not validator.validate_pdf_bytes(
        broken.getvalue(), profile=validator.ValidationProfile.PDF_UA_1
    ).is_compliant


@each_choice
def test_the_page_count_is_that_of_the_file_and_even(choice: sample.Choice) -> None:
    with opened(choice) as pdf:
        assert len(pdf.pages) == sample.leaflet(*choice).pages
        assert len(pdf.pages) % 2 == 0


@each_choice
def test_the_paper_has_its_size(choice: sample.Choice) -> None:
    """A4 is 210 mm x 297 mm (ISO 216); US Letter is 8.5 in x 11 in."""
    width, height = {"A4": (210 / 25.4 * 72, 297 / 25.4 * 72), "Letter": (612, 792)}[choice.paper]
    with opened(choice) as pdf:
        for sheet in pdf.pages:
            assert [float(side) for side in sheet.MediaBox] == pytest.approx([0, 0, width, height], abs=0.01)


def test_equal_input_gives_equal_bytes_whatever_was_made_before() -> None:
    from explainer.render.leaflet import make_leaflet

    again = make_leaflet(sample.order("en")).pdf  # its blocks were met before, and are kept from now on
    assert again == make_leaflet(sample.order("en")).pdf == data(CHOICES[0])
    assert sample.dated(date(2026, 11, 21)) != data(CHOICES[0])


def test_another_process_with_other_settings_gives_the_same_bytes(tmp_path: Path) -> None:
    program = "import sys; from render import sample; sys.stdout.buffer.write(sample.leaflet('en').pdf)"
    environment = os.environ | {
        "PYTHONPATH": f"{ROOT}{os.pathsep}{ROOT / 'tests'}",
        "PYTHONHASHSEED": "7",
        "TZ": "Pacific/Auckland",
        "LANG": "C",
        "HOME": str(tmp_path),
        "TMPDIR": str(tmp_path),
        "XDG_CACHE_HOME": str(tmp_path / "kept"),
        "MPLCONFIGDIR": str(tmp_path / "kept"),  # the drawing library keeps a list of fonts
    }
    told = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, check=True, cwd=tmp_path, env=environment
    )
    assert told.stdout == data(CHOICES[0])
    assert {path.name for path in tmp_path.iterdir()} <= {"kept"}, "nothing is left behind but what is kept on purpose"


@each_choice
def test_only_our_own_fonts_are_in_the_file(choice: sample.Choice) -> None:
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
    made = small('<html lang="vi"><title>t</title><body><p>a\u0301\u0323 e\u0323\u0301 x\u0327\u0302')
    with pikepdf.open(io.BytesIO(made.data)) as pdf:
        maps = [item.ToUnicode.read_bytes() for item in pdf.objects if _type(item) == "/Font" and "/ToUnicode" in item]
    assert maps
    assert not any(b"> <>" in characters for characters in maps)
    assert validator.validate_pdf_bytes(made.data, profile=validator.ValidationProfile.PDF_UA_1).is_compliant


@each_choice
def test_title_language_and_dates_are_the_orders(choice: sample.Choice) -> None:
    order = sample.order(choice.language)
    day = order.date.strftime("D:%Y%m%d")
    with opened(choice) as pdf:
        assert str(pdf.Root.Lang) == choice.language
        assert pdf.Root.ViewerPreferences.DisplayDocTitle is True
        assert ("/Direction" in pdf.Root.ViewerPreferences) == (choice.language == "ar")
        assert order.number in str(pdf.docinfo.Title)
        assert str(pdf.docinfo.CreationDate) == str(pdf.docinfo.ModDate) == day
        description = pdf.Root.Metadata.read_bytes().decode("utf-8") + str(dict(pdf.docinfo))
        assert order.number in bytes(pdf.trailer.ID[0]).decode()
    assert order.wearer_name
    assert not any(name in description for name in order.wearer_name.split())


@each_choice
def test_header_cells_say_what_they_head(choice: sample.Choice) -> None:
    with opened(choice) as pdf:
        cells = [(tag, above) for kind, tag, above in tags(pdf) if kind == "/TH"]
        assert cells
        for tag, above in cells:
            assert str(tag.A.Scope) == ("/Column" if "/THead" in above else "/Row")


@each_choice
def test_figures_say_their_values_and_lie_where_they_are_drawn(choice: sample.Choice) -> None:
    with opened(choice) as pdf:
        figures = [tag for kind, tag, _ in tags(pdf) if kind == "/Figure"]
        boxes = [[float(side) for side in tag.A.BBox] for tag in figures]
        sheets = [[float(side) for side in tag.Pg.MediaBox] for tag in figures]
        words = [str(tag.Alt) for tag in figures]
    assert words
    assert all(words)
    for (left, low, right, high), (_, _, width, height) in zip(boxes, sheets, strict=True):
        assert 0 < left < right < width
        assert 0 < low < high < height


@each_choice
def test_the_page_foot_is_on_every_page_and_outside_the_reading_order(choice: sample.Choice) -> None:
    with opened(choice) as pdf:
        for sheet in pdf.pages:
            marks = [given for given, name in operations(sheet) if name == "BDC"]
            feet = [given for given in marks if str(given[0]) == "/Artifact" and given[1].Subtype == "/Footer"]
            assert {str(given[0]) for given in marks} & {"/Span", "/Figure"}
            assert len(feet) >= 3


@each_choice
def test_every_foot_names_order_word_and_page(choice: sample.Choice) -> None:
    from explainer.orders.assembly.check_word import check_word

    order = sample.order(choice.language)
    reader = pypdf.PdfReader(io.BytesIO(data(choice)))
    for sheet in reader.pages:
        text = " ".join(sheet.extract_text().split())
        assert order.number in text
        assert check_word(order) in text


def test_a_passage_in_a_second_language_is_marked() -> None:
    with opened(sample.Choice("ar")) as pdf:
        marked = {str(tag.Lang) for _, tag, _ in tags(pdf) if "/Lang" in tag}
    assert marked == {"en"}


def test_a_page_from_the_right_carries_its_words_in_the_order_of_reading() -> None:
    """What is drawn from the left says by ActualText what it is (ISO 32000-1, replacement text; from memory)."""
    with opened(sample.Choice("ar")) as pdf:
        said = [str(tag.ActualText) for _, tag, _ in tags(pdf) if "/ActualText" in tag]
    assert any(re.search(r"[\u0621-\u064a]{3}", words) for words in said)
    with opened(sample.Choice("en")) as pdf:
        assert not any("/ActualText" in tag for _, tag, _ in tags(pdf))


@each_choice
def test_bookmarks_follow_the_headings_to_their_pages(choice: sample.Choice) -> None:
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
    html = '<html lang="en"><title>t</title><body><p>Check the fit \u0915'
    with pytest.raises(RenderError, match="devanagari"):
        small(html)
    assert any("U+0915" in line for line in small(html, strict=False).log)


def test_an_unknown_property_is_a_fault() -> None:
    with pytest.raises(RenderError, match="Ignored"):
        small("<html lang=en><title>t</title><body><p>x", css="p { colour: red }")


def _type(item: Any) -> str | None:
    return str(item.get("/Type")) if isinstance(item, pikepdf.Dictionary | pikepdf.Stream) else None


def _bookmarks(node: Any) -> Iterator[Any]:
    item = node.get("/First")
    while item is not None:
        yield item
        yield from _bookmarks(item)
        item = item.get("/Next")
