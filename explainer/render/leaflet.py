"""The leaflet: an order and its claims in, a tagged PDF out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from html import escape
from typing import Literal

from markupsafe import Markup

from explainer.compose.arrange import Place, arranged, flowing, padded
from explainer.compose.blocks import LARGE_ORDER, Block, blocks_of
from explainer.compose.choices import choose
from explainer.compose.explained import explained
from explainer.compose.paper import COLUMN_MM, LIVE_MM, PAPERS
from explainer.compose.pictures import picture_requests
from explainer.compose.plan import compose
from explainer.compose.release import posting_faults
from explainer.errors import InputError, RenderError
from explainer.optics.claim import Claim
from explainer.optics.claims import Explanation
from explainer.orders import Order
from explainer.orders.assembly.check_word import check_word
from explainer.orders.assembly.file_names import file_name
from explainer.orders.assembly.page_name import page_address
from explainer.render.companions.codes import code_svg
from explainer.render.fallback import IN_ENGLISH, as_html, holds_english, marked, plain
from explainer.render.house.sections import house_sections
from explainer.render.house.speaking import own_words
from explainer.render.language import language
from explainer.render.page_words import PageWords
from explainer.render.press.logo import logo_picture
from explainer.render.press.pdf import About, Pdf, Press, at_work
from explainer.render.press.setting import Block as Cut
from explainer.render.press.setting import SetBlock
from explainer.render.press.sheet import Paper as Leaf
from explainer.render.press.sheet import Placement
from explainer.render.sections import Speaker
from explainer.render.situations import recheck_days
from explainer.render.tables import page_context
from explainer.render.titles import TITLE
from explainer.render.voice import Voice
from explainer.resources import root

Edition = Literal["standard", "large-print"]
ACCENT = "#12456B"
_STYLES = ("type.css", "blocks.css", "tables.css", "pictures.css")
_FOOT_STYLES = ("type.css", "foot.css")
_LATER = {"large-print": ("large-print.css",), "rtl": ("right-to-left.css",)}
_SAFETY = ("drive", "help")
_LARGE_PAGES = 8


@dataclass(frozen=True, slots=True)
class Leaflet:
    """A finished leaflet: the PDF, its page count, the claims it printed, and everything claimed about the order.

    `html` is what was set, page by page in reading order; `left_out` names the blocks that gave way. `partly_english`
    when something of it is not translated and stands in English.
    """

    pdf: bytes
    pages: int
    said: Mapping[str, Claim]
    explanation: Explanation
    html: str
    left_out: tuple[str, ...] = ()
    partly_english: bool = False


def leaflet_name(order: Order, edition: str = "standard", *, sample: bool = False) -> str:
    """The file's name: order number, language, edition. Never a person's name."""
    parts = [part for part, holds in ((edition, edition != "standard"), ("sample", sample)) if holds]
    return file_name(order, *parts, ending="pdf")


def make_leaflet(
    order: Order, *, edition: Edition = "standard", paper: str | None = None, first_sheet: bool = False
) -> Leaflet:
    """One order as a leaflet; or its first sheet alone, which is whole for safety.

    Refused: readings outside the limits without a written release, and open questions.
    """
    explanation = explained(order)
    faults = posting_faults(order, explanation.claims)
    if faults:
        raise InputError(order.source, faults)
    paper = paper or getattr(order.workshop, "paper", None) or "A4"
    if paper not in PAPERS:
        raise RenderError(f"the paper is one of {', '.join(PAPERS)}, not {paper!r}")
    return _Making(order, explanation, edition, paper, first_sheet).leaflet()


class _Making:
    """One leaflet on its way from words to paper."""

    def __init__(self, order: Order, explanation: Explanation, edition: Edition, paper: str, first_sheet: bool) -> None:
        self.order, self.explanation, self.edition, self.first_sheet = order, explanation, edition, first_sheet
        self.paper = replace(PAPERS[paper], large=edition == "large-print")
        self.paper_name = paper
        self.spoken = language(order.language)
        self.document = compose(order.spectacles, explanation)
        self.logo = _logo(order)
        self.words = self._words(Voice(self.spoken, explanation.claims))
        self.blocks: tuple[Block, ...] = ()

    def _words(self, voice: Voice) -> PageWords:
        house = own_words(house_sections(self.order.workshop, voice.language.code))
        speaker = Speaker(voice, self.document, page_context(self.order, voice), _no_figure, house)
        mirrored = self.spoken.direction == "rtl"
        requests = picture_requests(
            self.order.spectacles,
            self.explanation,
            recheck_days=recheck_days(self.order),
            mirrored=mirrored,
            accent=getattr(self.order.workshop, "accent", None),
        )
        chosen = choose(self.explanation.claims)
        return PageWords(
            self.order,
            speaker,
            requests,
            chosen,
            has_logo=bool(self.logo),
            first_sheet=self.first_sheet,
            large=self.edition == "large-print",
        )

    def leaflet(self) -> Leaflet:
        """Say the blocks, set them, see where they go, and print them there."""
        said, partly_english = self._said()
        with at_work() as log:
            press = Press(self._root(), self._assets(), *_styles(self.edition, self.spoken.direction), log)
            cuts = [Cut(said[block.name], self._width(block)) for block in self.blocks]
            made = dict(zip((block.name for block in self.blocks), press.set_all(cuts), strict=True))
            places = self._places({name: block.height_mm for name, block in made.items()})
            pdf, html = self._printed(press, places, made, said)
        standing = {place.block.name for place in places}
        gone = tuple(block.name for block in self.blocks if block.name not in standing and block.gives_way)
        claims = self.words.speaker.voice.said
        return Leaflet(pdf.data, pdf.pages, claims, self.explanation, html, gone, partly_english)

    def _said(self) -> tuple[dict[str, str], bool]:
        """The HTML of each block by name, and whether any of it stands in English for want of a translation.

        A draft bears a notice, and what keeps people safe in English too, while nobody has checked the translation.
        """
        self.blocks = self._applying(draft=False)
        said = {block.name: self.words.block(block) for block in self.blocks}
        partly_english = any(map(holds_english, said.values()))
        if self.spoken.is_draft or partly_english:
            self.blocks = self._applying(draft=True)
            said["draft"] = self.words.block("draft")
            said["safety_source"] = self._safety_in_source(said)
        self.blocks = tuple(block for block in self.blocks if said[block.name])
        return said, partly_english

    def _applying(self, *, draft: bool) -> tuple[Block, ...]:
        found = blocks_of(self.explanation.claims, draft=draft)
        return tuple(block for block in found if not self.first_sheet or block.page <= 2)

    def _safety_in_source(self, said: Mapping[str, str]) -> str:
        source = self._words(Voice(self.spoken.english, self.explanation.claims, said=self.words.speaker.voice.said))
        copies = {name: source.block(name) for name in _SAFETY if name in said}
        news = [html for name, html in copies.items() if Markup(html).striptags() != Markup(said[name]).striptags()]
        return f'<section class="block safety_source"{IN_ENGLISH}>{"".join(news)}</section>' if news else ""

    def _assets(self) -> dict[str, bytes]:
        return {f"figure:{name}": drawing.svg for name, drawing in self.words.drawings().items()} | (
            self.logo | _page_code(self.order)
        )

    def _printed(
        self, press: Press, places: Sequence[Place], made: Mapping[str, SetBlock], said: Mapping[str, str]
    ) -> tuple[Pdf, str]:
        pages = range(1, max(place.page for place in places) + 1)
        feet = [self.words.foot(page, len(pages)) for page in pages]
        html = self._html(places, said, feet)
        blocks = [(made[place.block.name], self._placement(place)) for place in places]
        paper = self.paper
        leaf = Leaf(paper.width_mm, paper.height_mm, paper.side_mm, paper.foot_mm(1), paper.foot_mm(2))
        return press.printed(blocks, feet, leaf, html, self._about()), html

    def _places(self, heights: Mapping[str, float]) -> list[Place]:
        if self.edition == "large-print":
            by_name = {block.name: block for block in self.blocks}
            found = flowing(
                [by_name[name] for name in LARGE_ORDER if name in by_name], heights, self.paper, _LARGE_PAGES
            )
        else:
            found = arranged(self.blocks, heights, self.paper)
        return padded(found, [block for block in self.blocks if block.page == 0], self.paper)

    def _width(self, block: Block) -> float:
        return LIVE_MM if block.column == "full" or self.edition == "large-print" else COLUMN_MM

    def _placement(self, place: Place) -> Placement:
        start = place.start_mm
        if self.spoken.direction == "rtl":
            start = LIVE_MM - start - self._width(place.block)
        return Placement(place.page - 1, self.paper.side_mm + start, place.top_mm)

    def _root(self) -> str:
        accent = getattr(self.order.workshop, "accent", None) or ACCENT
        return (
            f'<html lang="{self.spoken.code}" dir="{self.spoken.direction}" class="{self.edition}"'
            f' data-paper="{self.paper_name}" style="--accent: {accent}">'
        )

    def _html(self, places: Sequence[Place], said: Mapping[str, str], feet: Sequence[str]) -> str:
        """Everything that is printed, in reading order."""
        pages = "".join(
            f'<div class="page" data-page="{page}">'
            + "".join(said[place.block.name] for place in places if place.page == page)
            + f'<div class="foot">{foot}</div></div>'
            for page, foot in enumerate(feet, 1)
        )
        title = as_html(f"<title>{escape(self._title())}</title>")
        return f'<!DOCTYPE html>{self._root()}<head><meta charset="utf-8">{title}</head><body>{pages}'

    def _title(self) -> str:
        return marked(self.spoken, TITLE) % {"number": self.order.number}

    def _about(self) -> About:
        order, spoken = self.order, self.spoken
        return About(
            title=plain(self._title(), spoken),
            language=spoken.code,
            direction=spoken.direction,
            created=order.date,
            identifier=f"{order.number} {spoken.code} {self.edition}",
            keywords=(check_word(order),),
        )


def _no_figure(*_: object) -> str:
    """The leaflet's pictures are asked for by its blocks alone."""
    return ""


def _logo(order: Order) -> dict[str, bytes]:
    shop = order.workshop
    return {"logo:workshop": logo_picture(shop.logo, shop.source)} if shop and shop.logo else {}


def _page_code(order: Order) -> dict[str, bytes]:
    """The address of the same leaflet as a page for a telephone, to be read by its camera."""
    address = page_address(order)
    return {"figure:page_code": code_svg(address)} if address else {}


@cache
def _styles(edition: str, direction: str) -> tuple[list[str], list[str]]:
    """The style sheets of the blocks, and those of the feet."""
    folder = root("templates") / "leaflet"
    later = (*_LATER.get(edition, ()), *_LATER.get(direction, ()))
    return tuple(
        ["\n".join((folder / name).read_text(encoding="utf-8") for name in (*names, *later))]
        for names in (_STYLES, _FOOT_STYLES)
    )  # type: ignore[return-value]
