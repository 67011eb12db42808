"""The workshop's sheet: one page for any order, before glazing and after, and nothing on it that nobody read."""

from __future__ import annotations

import io
import re
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image
from pypdf import PdfReader

from explainer.compose.explained import explained
from explainer.orders import Order, read_order
from explainer.orders.assembly.check_word import check_word
from explainer.render.companions.sheet import sheet_pdf

GALLERY = Path(__file__).parents[2] / "gallery"
ORDERS = sorted(str(path.relative_to(GALLERY)) for path in GALLERY.rglob("*.toml") if path.stem != "workshop")


def order(name: str, **changes: object) -> Order:
    return replace(read_order(GALLERY / f"{name}"), **changes)  # type: ignore[arg-type]


def unread(one: Order) -> Order:
    return replace(one, spectacles=replace(one.spectacles, readings=None))


def words(one: Order) -> str:
    return " ".join(PdfReader(io.BytesIO(sheet_pdf(one).data)).pages[0].extract_text().split())


@pytest.mark.parametrize("name", ORDERS)
def test_every_order_has_one_page_with_its_number_word_and_powers(name: str):
    one = order(name)
    made = sheet_pdf(one)
    assert made.pages == 1
    text = " ".join(PdfReader(io.BytesIO(made.data)).pages[0].extract_text().split())
    assert check_word(one) in text
    assert one.number in text.replace(" ", "") or one.number in text
    claims = explained(one).claims
    for side in ("right", "left"):
        value = claims.value(f"{side}.made.sphere")
        assert isinstance(value, float)
        digits = 2 if round(value, 2) == value else 3
        assert f"{'−' if value < 0 else '+' if value else ''}{abs(value):.{digits}f}" in text


@pytest.mark.parametrize("name", ["low-myope.toml", "progressive-first.toml", "prism-both-directions.toml"])
def test_before_glazing_limits_and_boxes_stand_and_nothing_is_judged(name: str):
    text = words(unread(order(name)))
    assert "±" in text
    assert "inside" not in text
    assert "OUTSIDE" not in text


def test_what_is_not_read_is_never_judged():
    """A sheet that says inside beside an empty box would certify a reading that nobody took."""
    one = order("low-myope.toml")
    assert one.spectacles.readings is not None
    judged = words(one).count("inside")
    claims = explained(one).claims
    verdicts = [name for name in claims if re.fullmatch(r"bench\..*\.verdict", name)]
    assert judged <= sum(claims.value(name) == "inside" for name in verdicts)


def test_the_code_is_read_back_at_the_resolution_of_an_office_printer():
    one = order("low-myope.toml")
    image = subprocess.run(
        ["pdftoppm", "-r", "150", "-png", "-"], input=sheet_pdf(one).data, capture_output=True, check=True
    ).stdout
    (code,) = zxingcpp.read_barcodes(Image.open(io.BytesIO(image)))
    assert code.text == f"{one.number} {check_word(one)}"


def test_with_prism_the_centre_is_told_apart_from_the_reference_point():
    """Prentice's rule: −0.75 D sphere, 2 Δ base in: the centre of a minus lens moves against the base."""
    assert "not on the lens" in words(order("prism-both-directions.toml"))


def test_letter_paper_takes_the_sheet_too():
    made = sheet_pdf(order("low-myope.toml"), paper="Letter")
    page = PdfReader(io.BytesIO(made.data)).pages[0]
    assert (round(float(page.mediabox.width)), round(float(page.mediabox.height))) == (612, 792)
    assert made.pages == 1
