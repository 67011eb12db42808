"""The case card: measured on the page, its numbers with their signs, its code read back, its cautions."""

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

from explainer.optics.claims import explain
from explainer.orders import Order, read_order
from explainer.orders.assembly.check_word import check_word
from explainer.render.companions.card import HEIGHT_MM, WIDTH_MM, cards_pdf

GALLERY = Path(__file__).parents[2] / "gallery"
ORDERS = sorted(path.stem for path in GALLERY.glob("*.toml") if path.stem != "workshop")
MM = 72 / 25.4


def order(name: str) -> Order:
    return read_order(GALLERY / f"{name}.toml")


def text_of(pdf: bytes) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)


@pytest.mark.parametrize("name", ORDERS)
def test_every_order_fits_its_card_and_no_power_loses_its_sign(name: str):
    one = order(name)
    made = cards_pdf([one], paper=None)
    (page,) = PdfReader(io.BytesIO(made.data)).pages
    assert float(page.mediabox.width) == pytest.approx(2 * WIDTH_MM * MM, abs=0.2)
    assert float(page.mediabox.height) == pytest.approx(HEIGHT_MM * MM, abs=0.2)
    printed = text_of(made.data)
    claims = explain(one.spectacles).claims
    for side in ("right", "left"):
        for part in ("sphere", "cylinder"):
            value = claims.value(f"{side}.made.{part}")
            if isinstance(value, float) and value:
                number = f"{abs(value):.2f}" if round(value, 2) == value else f"{abs(value):.3f}"
                assert f"{'−' if value < 0 else '+'}{number}" in printed, (side, part)
    powers = re.sub(r"class \d\.\d\d|0\.00|[\d.]+ Δ", "", printed)
    assert not re.search(r"(?<![\d.+−])\d{1,2}\.\d\d", powers), powers


def test_four_strips_stand_on_a_page_in_full_size():
    """ISO/IEC 7810: an ID-1 card is 85.60 mm by 53.98 mm; cut marks stand at its corners."""
    orders = [replace(order("low-myope"), number=f"C-{place}") for place in range(5)]
    made = cards_pdf(orders)
    assert made.pages == 2
    found = []
    for page in (1, 2):
        image = subprocess.run(
            ["pdftoppm", "-r", "150", "-f", str(page), "-l", str(page), "-png", "-"],
            input=made.data,
            capture_output=True,
            check=True,
        ).stdout
        found += [code.text for code in zxingcpp.read_barcodes(Image.open(io.BytesIO(image)))]
    assert sorted(found) == sorted(f"{one.number} {check_word(one)}" for one in orders)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("dark-tint-three", "Not for driving at dusk or at night."),
        ("dark-tint-four", "Never drive in these"),
        ("strong-plus-reading", "Not for driving: far things blur"),
        ("photochromic-driver", "drive only when the lenses are clear"),
    ],
)
def test_what_must_not_be_done_while_driving_stands_in_front(name: str, words: str):
    printed = " ".join(text_of(cards_pdf([order(name)], paper=None).data).split())
    assert words in printed


def test_clear_lenses_say_nothing_of_driving():
    assert "driv" not in text_of(cards_pdf([order("low-myope")], paper=None).data)
