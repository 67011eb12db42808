"""The phone page: the same words and numbers as the leaflet, nothing fetched, in order for every reader."""

from __future__ import annotations

import re
import time
from dataclasses import replace
from itertools import pairwise

import pytest
from phone_pages import NAMES, html_of, leaflet_html, numerals, order_named, page_of, said, visible

from explainer.errors import InputError
from explainer.render.language import language
from explainer.render.numbers import claim_text
from explainer.render.phone.page import make_page
from explainer.render.phone.words import dialled

MOST_BYTES, MOST_SECONDS = 300_000, 0.1
LANGUAGES = ("de", "ar")


@pytest.mark.parametrize("name", NAMES)
def test_every_number_is_a_claim_said_as_on_the_leaflet(name: str) -> None:
    shown = said(html_of(name))
    assert shown
    assert shown <= said(leaflet_html(name))
    claims, spoken = page_of(name).said, language(order_named(name).language)
    for claim_id, text in shown:
        assert text in {claim_text(claims[claim_id], spoken), claim_text(claims[claim_id], spoken, bare=True)}


@pytest.mark.parametrize("name", NAMES)
def test_no_other_number_stands_on_the_page(name: str) -> None:
    assert numerals(visible(html_of(name))) <= numerals(visible(leaflet_html(name)))


@pytest.mark.parametrize("name", NAMES)
def test_headings_begin_with_one_of_the_first_rank_and_skip_none(name: str) -> None:
    ranks = [int(rank) for rank in re.findall(r"<h([1-6])\b", html_of(name))]
    assert ranks.count(1) == 1
    assert ranks[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(ranks))
    assert not re.search(r"<h([1-6])[^>]*>\s*</h\1>", html_of(name))


@pytest.mark.parametrize("name", NAMES)
def test_the_bar_leads_to_blocks_that_stand(name: str) -> None:
    html = html_of(name)
    identities = re.findall(r'\bid="([^"]+)"', html)
    assert len(identities) == len(set(identities))
    assert {"help", "check", "clean"} <= set(re.findall(r'class="to-(\w+)"', html))
    assert set(re.findall(r'href="#([^"]+)"', html)) <= set(identities)
    assert set(re.findall(r"url\(#([^)]+)\)", html)) <= set(identities)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_fetched_or_run_and_the_page_is_small(name: str) -> None:
    html = html_of(name)
    assert len(html.encode()) < MOST_BYTES
    assert "default-src 'none'; img-src data:; style-src 'unsafe-inline'; font-src data:" in html
    assert "<script" not in html
    assert not re.search(r"\son\w+=|@import|javascript:", html)
    outside = re.findall(r'(?:href|src|srcset|action)="([^"]*)"|url\(([^)]*)\)', html)
    assert all(re.match(r"#|data:image/|tel:|mailto:", first or second) for first, second in outside)
    assert "life size" not in visible(html).casefold(), "a screen has no size of its own"


def test_a_driver_finds_driving_and_a_child_does_not() -> None:
    assert 'class="to-drive"' in html_of("photochromic-driver")
    assert 'class="to-drive"' not in html_of("child")


def test_it_is_quick_once_the_pictures_are_drawn() -> None:
    order = order_named("photochromic-driver")  # of the gallery the one with the most pictures
    make_page(order)
    times = []
    for _ in range(3):
        begun = time.process_time()
        make_page(order)
        times.append(time.process_time() - begun)
    assert min(times) < MOST_SECONDS


def test_the_same_order_gives_the_same_bytes() -> None:
    order = order_named("prism-both-directions")
    assert make_page(order).html == make_page(order).html


@pytest.mark.parametrize("code", LANGUAGES)
def test_drafts_say_so_and_have_the_safety_words_in_english_too(code: str) -> None:
    html = html_of("photochromic-driver", code)
    assert f'<html lang="{code}"' in html
    assert 'class="block draft"' in html
    assert "When to get help" in visible(html)
    assert all(word in visible(html) for word in ("Sudden loss of any sight", "Chemical in the eye"))
    identities = re.findall(r'\bid="([^"]+)"', html)
    assert len(identities) == len(set(identities))


def test_arabic_runs_from_right_to_left_and_pictures_do_not() -> None:
    html = html_of("strong-minus-astigmat", "ar")
    assert 'dir="rtl"' in html.split(">", 2)[1]
    assert set(re.findall(r'<div class="canvas" dir="(\w+)"', html)) == {"ltr"}


def test_a_page_is_refused_like_a_leaflet() -> None:
    outside = replace(order_named("bench-outside-released"), release=None)
    with pytest.raises(InputError):
        make_page(outside)


@pytest.mark.parametrize(
    ("written", "address"),
    [
        ("01632 960288", "tel:01632960288"),
        ("+44 (0)1632 960288", "tel:+441632960288"),
        ("(555) 010-0199", "tel:5550100199"),
        ("ask at the desk", ""),
        ("", ""),
    ],
)
def test_numbers_are_dialled_as_rfc_3966_writes_them(written: str, address: str) -> None:
    """RFC 3966: digits, and a plus where it is a global number; what separates them for the eye may be left out."""
    assert dialled(written) == address
