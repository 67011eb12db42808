"""The leaflet: an order and its claims in, a tagged PDF out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from types import SimpleNamespace
from typing import Any, Literal

from markupsafe import Markup

from explainer import __version__
from explainer.compose.document import Document
from explainer.compose.explained import explained
from explainer.compose.figures import SPARE_FIGURES
from explainer.compose.plan import compose
from explainer.compose.release import posting_faults
from explainer.errors import InputError
from explainer.figures import draw
from explainer.figures.cache import cached
from explainer.figures.drawing import Drawing
from explainer.optics.claim import Claim
from explainer.optics.claims import Explanation
from explainer.orders import Order
from explainer.orders.assembly.check_word import check_word
from explainer.orders.assembly.file_names import file_name
from explainer.render.fallback import IN_ENGLISH, holds_english, marked, plain
from explainer.render.figures import drawing_html
from explainer.render.house.sections import house_sections
from explainer.render.house.speaking import own_words
from explainer.render.language import Language, language
from explainer.render.numbers import date_text
from explainer.render.press.galley import one_leaflet
from explainer.render.press.logo import logo_picture
from explainer.render.press.pdf import Pdf, write_pdf
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.templates import environment
from explainer.render.titles import DRAFT, TITLE
from explainer.render.voice import Voice
from explainer.resources import root

Edition = Literal["standard", "large-print"]
ACCENT = "#0B4A57"
_PAGES = 4  # two sheets of paper, or one folded


@dataclass(frozen=True, slots=True)
class Leaflet:
    """A finished leaflet: the PDF, its page count, the claims it printed, and everything claimed about the order.

    `partly_english` when something of it is not translated and stands in English.
    """

    pdf: bytes
    pages: int
    said: Mapping[str, Claim]
    explanation: Explanation
    partly_english: bool = False


def leaflet_name(order: Order, edition: str = "standard", *, sample: bool = False) -> str:
    """The file's name: order number, language, edition. Never a person's name."""
    parts = [part for part, holds in ((edition, edition != "standard"), ("sample", sample)) if holds]
    return file_name(order, *parts, ending="pdf")


def make_leaflet(order: Order, *, edition: Edition = "standard", paper: str | None = None) -> Leaflet:
    """One order as a leaflet. Refused: readings outside the limits without a written release, and open questions."""
    explanation = explained(order)
    faults = posting_faults(order, explanation.claims)
    if faults:
        raise InputError(order.source, faults)
    document = compose(order.spectacles, explanation)
    drawings = {name: cached(request.name, draw, request.values) for name, request in document.figures.items()}
    setting = _Setting(order, explanation, drawings, edition, paper or getattr(order.workshop, "paper", None) or "A4")
    with one_leaflet():
        made = (_fitting(setting, document) if edition == "standard" else None) or setting.of(document)
    return Leaflet(made.pdf.data, made.pdf.pages, made.said, explanation, made.page.partly_english)


@dataclass(frozen=True, slots=True)
class _Page:
    """A whole page as HTML. A draft bears the notice, and the safety words in English too."""

    html: str
    draft: bool
    partly_english: bool


@dataclass(frozen=True, slots=True)
class _Set:
    """A document as a PDF, which has no data when it is longer than asked for; and the claims it said."""

    pdf: Pdf
    said: Mapping[str, Claim]
    page: _Page


@dataclass(frozen=True, slots=True)
class _Setting:
    """What stays the same while a document is set, and set again with fewer figures."""

    order: Order
    explanation: Explanation
    drawings: Mapping[str, Drawing]
    edition: Edition
    paper: str

    def of(self, document: Document, *, fit: bool = False) -> _Set:
        """The finished PDF of a document; when it is to fit and does not, without data."""
        order, edition = self.order, self.edition
        spoken = language(order.language)
        voice = Voice(spoken, self.explanation.claims)
        drawings = {name: self.drawings[name] for name in document.figures}
        page = _page(order, _speaker(order, document, voice, drawings), drawings, edition=edition, paper=self.paper)
        pdf = write_pdf(
            page.html,
            assets={f"figure:{name}": drawing.svg for name, drawing in drawings.items()} | _logo(order),
            stylesheets=_styles(edition),
            title=plain(marked(spoken, TITLE), spoken) % {"number": order.number},
            language=spoken.code,
            direction=spoken.direction,
            created=order.date,
            identifier=f"{order.number} {spoken.code} {edition}",
            keywords=(check_word(order),),
            most_pages=_budget(page) if fit else None,
        )
        return _Set(pdf, voice.said, page)


def _budget(page: _Page) -> int:
    """The pages that a leaflet may have. A draft has one more, for the safety words in English."""
    return _PAGES + (1 if page.draft else 0)


def _fitting(setting: _Setting, document: Document) -> _Set | None:
    """The leaflet with as few figures left out as make it fit the sheet; None when leaving them out does not help."""
    for spare in ((), *SPARE_FIGURES):
        if spare and not document.figures.keys() & set(spare):
            continue
        document = document.without(spare)
        made = setting.of(document, fit=True)
        if made.pdf.pages <= _budget(made.page):
            return made
        if made.pdf.pages > _budget(made.page) + 1:
            return None
    return None


def _page(order: Order, speaker: Speaker, drawings: Mapping[str, Drawing], *, edition: Edition, paper: str) -> _Page:
    """The whole page: the shell round the sections. A page on which anything is not translated is a draft."""
    spoken = speaker.language
    sections = [_section(name, speaker.section(name)) for name in speaker.document.sections]
    words = {
        **_frame(order, speaker.voice),
        "edition": edition,
        "paper": paper,
        "lead": Markup(speaker.section("lead")),
        "urgent": Markup(speaker.section("urgent")),
    }
    shell = environment(spoken).get_template("leaflet/leaflet.html")
    html = speaker.voice.html(shell.render(words, sections=sections, draft_notice=None))
    partly_english = holds_english(html)
    if not (spoken.is_draft or partly_english):
        return _Page(html, draft=False, partly_english=False)
    ours = {**{section.id: section.html for section in sections}, "urgent": words["urgent"]}
    sections[1:1] = _safety_in_english(order, speaker, drawings, ours)  # the cautions are the first section
    html = speaker.voice.html(shell.render(words, sections=sections, draft_notice=marked(spoken, DRAFT)))
    return _Page(html, draft=True, partly_english=partly_english)


def _frame(order: Order, voice: Voice) -> dict[str, Any]:
    """What the shell says of the order and the workshop."""
    spoken = voice.language
    return {
        "lang": spoken.code,
        "dir": spoken.direction,
        "accent": getattr(order.workshop, "accent", None) or ACCENT,
        "title": marked(spoken, TITLE) % {"number": order.number},
        "order": SimpleNamespace(
            number=order.number,
            date_text=voice.phrase(partial(date_text, order.date)),
            wearer_name=order.wearer_name,
            check_word=check_word(order),
        ),
        "workshop": _letterhead(order),
        "has_logo": bool(_logo(order)),
        "version": __version__,
    }


def _speaker(order: Order, document: Document, voice: Voice, drawings: Mapping[str, Drawing]) -> Speaker:
    def figure_html(name: str, alternative: str, caption: str, spoken: Language) -> str:
        return drawing_html(drawings[name], alternative, caption, spoken)

    house = own_words(house_sections(order.workshop, voice.language.code))
    return Speaker(voice, document, page_context(order, voice), figure_html, house)


def _section(name: str, html: str) -> SimpleNamespace:
    return SimpleNamespace(id=name, html=Markup(html), span="half")


def _safety_in_english(
    order: Order, speaker: Speaker, drawings: Mapping[str, Drawing], ours: Mapping[str, Markup]
) -> list[SimpleNamespace]:
    """What keeps people safe, in the source language too, while nobody has checked the translation.

    Not what stands in English anyhow, because nothing of it is translated. `ours` are the sections as spoken.
    """
    source = Voice(speaker.language.english, speaker.voice.claims, said=speaker.voice.said)
    english = _speaker(order, speaker.document, source, drawings)
    frames = {"cautions": "<div{}>{}</div>", "urgent": '<aside class="urgent"{}>{}</aside>'}
    copies = {name: english.section(name) for name in frames}
    return [
        _section(f"{name}-source", frame.format(IN_ENGLISH, copies[name]))
        for name, frame in frames.items()
        if Markup(copies[name]).striptags() != ours[name].striptags()
    ]


def _letterhead(order: Order) -> Any:
    workshop = order.workshop
    return SimpleNamespace(
        name=getattr(workshop, "name", "") or "",
        address=[line for line in (getattr(workshop, "address", "") or "").splitlines() if line.strip()],
        phone=getattr(workshop, "phone", None),
        email=getattr(workshop, "email", None),
        hours=getattr(workshop, "opening_hours", None),
    )


def _logo(order: Order) -> dict[str, bytes]:
    shop = order.workshop
    return {"logo:workshop": logo_picture(shop.logo, shop.source)} if shop and shop.logo else {}


def _styles(edition: Edition) -> list[str]:
    folder = root("templates") / "leaflet"
    return [(folder / name).read_text(encoding="utf-8") for name in ("page.css", f"{edition}.css")]
