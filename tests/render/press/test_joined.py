"""A print set keeps pages, words and tags of its parts, and no part begins on another's back."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from pypdf import PdfReader

from explainer.orders import read_order
from explainer.render.companions.label import labels_pdf
from explainer.render.evidence_pdf import evidence_pdf
from explainer.render.press.joined import Part, joined

HOME = Path(__file__).parents[3]
DAY = dt.date(2026, 11, 20)


pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def parts() -> list[Part]:
    order = read_order(HOME / "output_examples" / "orders" / "FL-3107.toml")
    label = labels_pdf([order]).data
    return [Part(label, "Label", "en"), Part(evidence_pdf(order), "Evidence", "en"), Part(label, "Again", "de", False)]


@pytest.fixture(scope="module")
def whole(parts: list[Part]) -> bytes:
    return joined(parts, title="Print set", language="en", created=DAY)


def texts(pdf: bytes) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]


def test_the_pages_come_in_order_and_each_part_begins_on_a_front(parts: list[Part], whole: bytes):
    label, evidence, again = (texts(part.pdf) for part in parts)
    found = texts(whole)
    padded = evidence + ([""] if len(evidence) % 2 else [])
    assert found == [*label, "", *padded, *again]


def marks(page: Any) -> set[int]:
    """The numbers of the marked content on a page."""
    return {
        int(operands[1].MCID)
        for operands, operator in pikepdf.parse_content_stream(page)
        if str(operator) == "BDC" and isinstance(operands[1], pikepdf.Dictionary) and "/MCID" in operands[1]
    }


def elements(element: Any) -> Iterator[Any]:
    yield element
    kids = element.get("/K", [])
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield from elements(kid)


def test_every_mark_on_every_page_leads_into_the_tree_and_back(whole: bytes):
    """ISO 32000-1, 14.7.4.4: the parent tree gives, for each mark of a page, the element that holds it."""
    with pikepdf.open(io.BytesIO(whole)) as pdf:
        listed = list(pdf.Root.StructTreeRoot.ParentTree.Nums)
        parents = {int(key): value for key, value in zip(listed[::2], listed[1::2], strict=True)}
        assert list(parents) == sorted(parents)
        reached = {element.objgen for element in elements(pdf.Root.StructTreeRoot.K[0])}
        tagged = [page for page in pdf.pages if "/StructParents" in page.obj]
        assert len({int(page.obj.StructParents) for page in tagged}) == len(tagged)
        for page in pdf.pages:
            found = marks(page)
            if found:
                row = parents[int(page.obj.StructParents)]
                for mark in found:
                    assert row[mark].objgen in reached
                    assert row[mark].get("/Pg", page.obj).objgen == page.obj.objgen


def test_title_language_and_sections_are_told(whole: bytes):
    with pikepdf.open(io.BytesIO(whole)) as pdf:
        sections = list(pdf.Root.StructTreeRoot.K[0].K)
        assert [str(section.T) for section in sections] == ["Label", "Evidence", "Again"]
        assert [str(section.Lang) for section in sections] == ["en", "en", "de"]
        assert str(pdf.Root.Lang) == "en"
        with pdf.open_metadata() as about:
            assert about["dc:title"] == "Print set"


def test_equal_parts_give_equal_bytes(parts: list[Part], whole: bytes):
    assert joined(parts, title="Print set", language="en", created=DAY) == whole
