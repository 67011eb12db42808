"""Phone pages for tests: orders of the gallery, their pages, and what the leaflet says of the same order."""

from __future__ import annotations

import re
from functools import cache
from html import unescape
from pathlib import Path

from explainer.compose.blocks import blocks_of
from explainer.compose.choices import choose
from explainer.compose.explained import explained
from explainer.compose.pictures import picture_requests
from explainer.compose.plan import compose
from explainer.orders import Order, read_order
from explainer.render.language import language
from explainer.render.page_words import PageWords
from explainer.render.phone.page import Page, make_page
from explainer.render.sections import Speaker
from explainer.render.situations import recheck_days
from explainer.render.tables import page_context
from explainer.render.voice import Voice

GALLERY = Path(__file__).parent / "gallery"
NAMES = sorted(path.stem for path in GALLERY.glob("*.toml") if path.stem != "workshop")
_SAID = re.compile(r'data-claim="([^"]+)">(.*?)</bdi>')
_NUMERAL = re.compile(r"[+−]?\d[\d.,]*")


@cache
def order_named(name: str, code: str | None = None) -> Order:
    """An order of the gallery."""
    return read_order(GALLERY / f"{name}.toml", language=code)


@cache
def page_of(name: str, code: str | None = None) -> Page:
    """Its phone page."""
    return make_page(order_named(name, code))


def html_of(name: str, code: str | None = None) -> str:
    """Its phone page as text."""
    return page_of(name, code).html.decode()


@cache
def leaflet_html(name: str) -> str:
    """Every block that the leaflet may have for the order, whether or not there is room for it on paper."""
    order = order_named(name)
    explanation = explained(order)
    voice = Voice(language(order.language), explanation.claims)
    speaker = Speaker(voice, compose(order.spectacles, explanation), page_context(order, voice), lambda *_: "")
    requests = picture_requests(order.spectacles, explanation, recheck_days=recheck_days(order))
    words = PageWords(order, speaker, requests, choose(explanation.claims))
    return "".join(words.block(block) for block in blocks_of(explanation.claims)) + words.foot(1, 4)


def said(html: str) -> set[tuple[str, str]]:
    """Every claim that a page shows, with the characters that it shows it in."""
    return {(claim, unescape(re.sub(r"<[^>]+>", "", text))) for claim, text in _SAID.findall(html)}


def visible(html: str) -> str:
    """What a reader sees of a page, and hears of its pictures."""
    bare = re.sub(r"<(style|title|head)\b.*?</\1>|<svg.*?</svg>", " ", html, flags=re.DOTALL)
    return unescape(re.sub(r"<[^>]+>", " ", bare))


def numerals(text: str) -> set[str]:
    """The numbers in a text as they are written."""
    return {found.rstrip(".,") for found in _NUMERAL.findall(text)}
