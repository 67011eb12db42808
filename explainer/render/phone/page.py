"""The phone page: an order and its claims in, one HTML file out that needs nothing else."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from markupsafe import Markup

from explainer.compose.choices import choose
from explainer.compose.document import FigureRequest
from explainer.compose.explained import explained
from explainer.compose.phone import ANCHORS, Group, groups_of
from explainer.compose.pictures import picture_requests
from explainer.compose.plan import compose
from explainer.compose.release import posting_faults
from explainer.errors import InputError
from explainer.optics.claim import Claim
from explainer.optics.claims import Explanation
from explainer.orders import Order
from explainer.render.fallback import IN_ENGLISH, holds_english, marked, plain
from explainer.render.house.sections import house_sections
from explainer.render.house.speaking import own_words
from explainer.render.language import language
from explainer.render.phone.logo import logo_address
from explainer.render.phone.words import PhoneWords, lowered
from explainer.render.sections import Speaker
from explainer.render.situations import recheck_days
from explainer.render.tables import page_context
from explainer.render.titles import TITLE
from explainer.render.voice import Voice
from explainer.resources import root

ACCENT = "#12456B"
_SAFETY = ("drive", "help")
_FAR_ON = 1000  # pictures of a second telling are counted from here
_BETWEEN = re.compile(r">\s+<(?=/?(?:section|div|ul|ol|li|table|tbody|tr|figure|svg|g|path|details|footer|header)\b)")


@dataclass(frozen=True, slots=True)
class Page:
    """A finished page: the file, the claims that it shows, and everything claimed about the order.

    `partly_english` when something of it is not translated and stands in English.
    """

    html: bytes
    said: Mapping[str, Claim]
    explanation: Explanation
    partly_english: bool = False


def make_page(order: Order) -> Page:
    """One order as a page. Refused like a leaflet: readings outside the limits without a release, open questions."""
    explanation = explained(order)
    faults = posting_faults(order, explanation.claims)
    if faults:
        raise InputError(order.source, faults)
    return _Making(order, explanation).page()


class _Making:
    """One page on its way."""

    def __init__(self, order: Order, explanation: Explanation) -> None:
        self.order, self.explanation = order, explanation
        self.spoken = language(order.language)
        self.words = self._words(Voice(self.spoken, explanation.claims))

    def _words(self, voice: Voice) -> PhoneWords:
        order = self.order
        house = own_words(house_sections(order.workshop, voice.language.code))
        context = {**page_context(order, voice), "life_size": False}
        speaker = Speaker(voice, compose(order.spectacles, self.explanation), context, lambda *_: "", house)
        requests = dict(picture_requests(order.spectacles, self.explanation, recheck_days=recheck_days(order)))
        if "pair" in requests:  # no lines to words that stand below it here
            requests["pair"] = FigureRequest("pair", {**requests["pair"].values, "words": False})
        return PhoneWords(order, speaker, requests, choose(self.explanation.claims), has_logo=bool(_logo(order)))

    def page(self) -> Page:
        """Say the blocks, put them into the frame."""
        groups = groups_of(self.explanation.claims)
        said = {name: self.words.block(name) for group in groups for name in group.blocks}
        partly_english = any(map(holds_english, said.values()))
        if self.spoken.is_draft or partly_english:
            groups = groups_of(self.explanation.claims, draft=True)
            said |= {"draft": self.words.block("draft"), "safety_source": self._safety_in_source(said)}
        html = self._framed([_finished(group, said) for group in groups], said)
        return Page(html.encode(), self.words.speaker.voice.said, self.explanation, partly_english)

    def _safety_in_source(self, said: Mapping[str, str]) -> str:
        """What keeps people safe once more in English, where nobody has checked the translation."""
        source = self._words(Voice(self.spoken.english, self.explanation.claims, said=self.words.speaker.voice.said))
        source.pictures_set = _FAR_ON
        copies = [source.block(name).replace(f' id="{name}"', "", 1) for name in _SAFETY if said.get(name)]
        news = [html for html in copies if Markup(html).striptags() not in Markup("".join(said.values())).striptags()]
        return f'<div class="block safety_source"{IN_ENGLISH}>{"".join(news)}</div>' if news else ""

    def _framed(self, groups: Sequence[tuple[str, str]], said: Mapping[str, str]) -> str:
        spoken, order = self.spoken, self.order
        bar = [(name, next((to for to in blocks if said.get(to)), "")) for name, blocks in ANCHORS]
        return self.words.template(
            "phone/page.html",
            lang=spoken.code,
            dir=spoken.direction,
            title=plain(marked(spoken, TITLE), spoken) % {"number": order.number},
            accent=getattr(order.workshop, "accent", None) or ACCENT,
            style=Markup(_style()),
            logo_address=_logo(order),
            bar=[(name, to) for name, to in bar if to],
            bar_name=plain(self.words.speaker.phrase_text("bar.name")),
            groups=[(name, Markup(html)) for name, html in groups if html],
        )


def _finished(group: Group, said: Mapping[str, str]) -> tuple[str, str]:
    """A group's name and its blocks with their headings in order: one of the first rank on the whole page."""
    blocks = [(name, said[name]) for name in group.blocks if said.get(name)]
    html = "".join(lowered(html, _lower(name, html, closed=bool(group.name))) for name, html in blocks)
    return group.name, _BETWEEN.sub("><", html)


def _lower(name: str, html: str, *, closed: bool) -> int:
    if name == "title":
        return 0
    return 1 if closed or "<h1" in html else 0


def _logo(order: Order) -> str:
    shop = order.workshop
    return logo_address(shop.logo, shop.source) if shop and shop.logo else ""


@cache
def _style() -> str:
    text = (root("templates") / "phone" / "page.css").read_text(encoding="utf-8")
    return re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL)
