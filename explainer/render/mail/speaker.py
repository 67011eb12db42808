"""Speaks one topic for a reply, as HTML, with the figures it used and the claims it said."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from html import escape

from markupsafe import Markup

from explainer.compose.document import Document
from explainer.optics.claim import Claim
from explainer.optics.claims.ledger import ClaimSet
from explainer.orders import Order
from explainer.render.fallback import attribute
from explainer.render.house.sections import house_sections
from explainer.render.house.speaking import own_words
from explainer.render.language import Language
from explainer.render.mail.house import HouseTopic, speak_house
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.voice import Voice


@dataclass(slots=True)
class TopicSpeaker(Speaker):
    """The leaflet's speaker, which can be told to say only some of the cautions."""

    only: Collection[str] | None = field(default=None)

    def _caution(self, claim_id: str, signal: str, caller: object) -> Markup | str:
        if self.only is not None and claim_id.removeprefix("caution.") not in self.only:
            return Markup("")
        return Speaker._caution(self, claim_id, signal, caller)  # type: ignore[arg-type]


@dataclass(slots=True)
class TopicVoice:
    """Speaks the topics of one mail one after the other, so that the list of sources knows what was said.

    `whole` is false where several topics share the mail: then each says its answer and what to do, and no more.
    """

    order: Order
    document: Document
    claims: ClaimSet
    house: Mapping[str, HouseTopic] = field(default_factory=dict)
    said: dict[str, Claim] = field(default_factory=dict)
    figures: list[str] = field(default_factory=list)
    whole: bool = True

    def has_own(self, section: str, language: Language) -> bool:
        """Whether the workshop has words of its own, in this language, for that section of the leaflet."""
        return section in house_sections(self.order.workshop, language.code)

    def speak(self, template: str, language: Language, only: Collection[str] | None = None) -> str:
        """The template below templates/, or the workshop's own, as HTML. A failed one counts as unsaid."""
        voice = Voice(language, self.claims, said=dict(self.said))
        figures: list[str] = []

        def figure_html(name: str, alternative: str, caption: str, spoken: Language) -> str:
            figures.append(name)
            below = f"<figcaption>{escape(caption)}</figcaption>" if caption else ""
            return f'<figure><img src="figure:{escape(name)}" alt={attribute(alternative, spoken)}>{below}</figure>'

        context = {**page_context(self.order, voice), "whole": self.whole, "some_cautions": only is not None}
        sections = own_words(house_sections(self.order.workshop, language.code))
        speaker = TopicSpeaker(voice, self.document, context, figure_html, sections, only=only)
        own = self.house.get(template)
        html = speaker.template(template) if own is None else speaker.spoken(speak_house(own, speaker.names()))
        self.said = voice.said
        self.figures += figures
        return html
