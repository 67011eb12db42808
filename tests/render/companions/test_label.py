"""Labels and tags: the code is read back from the rendered page by another program, and nothing of the eyes shows."""

from __future__ import annotations

import io
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image
from pypdf import PdfReader

from explainer.errors import InputError
from explainer.orders import Order, read_order
from explainer.orders.assembly.check_word import check_word
from explainer.render.companions.codes import read_code
from explainer.render.companions.label import SIZES, labels_pdf, tags_pdf

HOME = Path(__file__).parents[3]
MM = 72 / 25.4


def order(**changes: object) -> Order:
    return replace(read_order(HOME / "output_examples" / "orders" / "FL-3107.toml"), **changes)  # type: ignore[arg-type]


LONGEST = {"number": "A-NUMBER-OF-FORTY-SIGNS-IN-ALL-0123456789", "wearer_name": "Wilhelmina " * 8 + "Oakapple"}


def codes_on(pdf: bytes, dpi: int) -> list[str]:
    """The codes that an independent reader finds on the first page at this resolution."""
    page = subprocess.run(
        ["pdftoppm", "-r", str(dpi), "-f", "1", "-l", "1", "-png", "-"], input=pdf, capture_output=True, check=True
    ).stdout
    return [found.text for found in zxingcpp.read_barcodes(Image.open(io.BytesIO(page)))]


@pytest.mark.slow
@pytest.mark.parametrize("dpi", [150, 203])
@pytest.mark.parametrize("size", SIZES)
def test_the_code_is_read_from_every_label(size: str, dpi: int):
    """203 dpi is what label printers print, 150 what an office printer gives in draft (common practice)."""
    for one in (order(), order(**LONGEST)):
        assert codes_on(labels_pdf([one], size).data, dpi) == [f"{one.number} {check_word(one)}"]


@pytest.mark.parametrize("dpi", [150, 203])
def test_the_code_is_read_from_the_tag(dpi: int):
    assert codes_on(tags_pdf([order()]).data, dpi) == [f"FL-3107 {check_word(order())}"]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("changes", [{}, LONGEST], ids=["usual", "longest"])
def test_each_label_stands_whole_in_its_measures(size: str, changes: dict[str, object]):
    known = SIZES[size]
    made = labels_pdf([order(**changes)] * 3, size)
    pages = PdfReader(io.BytesIO(made.data)).pages
    assert len(pages) == (3 if known.paper is None else 1)
    if known.paper is None:
        for page in pages:
            assert float(page.mediabox.width) == pytest.approx(known.width * MM, abs=0.1)
            assert float(page.mediabox.height) == pytest.approx(known.height * MM, abs=0.1)
    text = pages[0].extract_text().replace("\n", "")
    assert check_word(order(**changes)) in text
    assert order(**changes).number in text


def test_nothing_of_the_eyes_stands_on_a_label_or_a_tag():
    """No prescription on the outside of a parcel: it is health data (Regulation (EU) 2016/679, Article 4(15))."""
    plain = order()
    allowed = f"{plain.number}{plain.workshop.phone if plain.workshop else ''}"
    for made in (labels_pdf([plain]), tags_pdf([plain])):
        text = "".join(page.extract_text() for page in PdfReader(io.BytesIO(made.data)).pages)
        digits = [sign for sign in text if sign.isdigit()]
        assert "".join(digits) == "".join(sign for sign in allowed[: len(text)] if sign.isdigit())[: len(digits)]
        assert "−" not in text
        assert "+" not in text


def test_many_labels_fill_sheets_in_the_order_given():
    made = labels_pdf([order(number=f"L-{place:02}") for place in range(20)], "A4-14")
    first, second = (page.extract_text() for page in PdfReader(io.BytesIO(made.data)).pages)
    assert "L-13" in first
    assert "L-14" not in first
    assert "L-14" in second


def test_a_size_that_is_not_known_is_refused_with_those_that_are():
    with pytest.raises(InputError, match="89x36"):
        labels_pdf([order()], "88x35")


def test_a_scanned_code_gives_number_and_word_and_another_code_is_refused():
    assert read_code("FL-3107 LEFA\n") == ("FL-3107", "LEFA")
    for other in ("https://example.com/x", "FL-3107", "", " LEFA"):
        with pytest.raises(InputError):
            read_code(other)
