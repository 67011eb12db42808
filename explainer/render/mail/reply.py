"""A reply: an order and topics in; greeting, sections, closing as one tree out, which every form is written from."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from markupsafe import Markup

from explainer.compose.document import Document
from explainer.compose.explained import explained
from explainer.compose.plan import compose
from explainer.compose.release import posting_faults
from explainer.compose.topics import applies, topic_faults
from explainer.errors import InputError
from explainer.figures import draw
from explainer.figures.cache import cached
from explainer.optics.claim import Claim
from explainer.optics.claims import Explanation
from explainer.orders import Order
from explainer.render.fallback import IN_ENGLISH, as_html, in_words
from explainer.render.figures import label_text
from explainer.render.language import Language, language
from explainer.render.mail.house import house_topics
from explainer.render.mail.speaker import TopicVoice
from explainer.render.mail.tree import Node, parse
from explainer.render.mail.words import (
    ATTACHED,
    CLOSING,
    EMAIL,
    FOOT,
    GREETING,
    GREETING_NAMED,
    OPENING,
    PHONE,
    PICTURE,
    URGENT_NOTE,
    URGENT_REST,
    Words,
)
from explainer.render.templates import environment
from explainer.render.titles import DRAFT, TITLE
from explainer.topics.answering import answered
from explainer.topics.catalogue import URGENT, Topic, topics
from explainer.topics.matcher import Reading, read_question

_CAUTIONS = "sections/cautions"
_SEVERAL = 2
_URGENT = "sections/urgent"
_URGENT_SHORT = "email/urgent-short"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reply:
    """A reply in one language. `body` holds everything from the heading to the foot, in reading order.

    `reading` is what was read out of the customer's message.
    `lacking` are words that are not translated and stand in English. Title and `picture_words` have their marks.
    """

    order: Order
    language: Language
    title: str
    body: Node
    topics: tuple[str, ...]
    figures: tuple[str, ...]
    said: Mapping[str, Claim]
    explanation: Explanation
    document: Document
    picture_words: str
    reading: Reading | None
    lacking: tuple[str, ...]


def make_reply(
    order: Order, names: Sequence[str] = (), *, question: str | None = None, attached: bool = False
) -> Reply:
    """The reply on those topics, or on up to three that the customer's question seems to be about, in the order asked.

    A question that names an urgent sign is answered with the urgent block and one line, whatever else it asks: nothing
    may stand beside it that sounds calm. InputError for what is no topic and for one that this order has nothing of.
    """
    explanation = explained(order)
    open_ones = posting_faults(order, explanation.claims)
    if open_ones:
        raise InputError(order.source, open_ones)
    document = compose(order.spectacles, explanation)
    house = house_topics(order.workshop)
    known = {**topics(), **{name: own.topic for name, own in house.items()}}
    reading = None
    if question is not None:
        reading = read_question(question, order.language, {name: own.terms for name, own in house.items()})
        has = {name for name, topic in known.items() if applies(topic, document, explanation.claims)}
        names = names or answered(reading, has)
    faults = topic_faults(tuple(names), known, document, explanation.claims)
    if faults:
        raise InputError(order.source, faults)
    noted = reading is not None and reading.urgent
    voice = TopicVoice(order, document, explanation.claims, {own.topic.template: own for own in house.values()})
    writer = _Writer(order, voice, language(order.language))
    chosen = [] if noted else [known[name] for name in dict.fromkeys(names) if name != URGENT]
    first = noted or URGENT in names
    voice.whole = len(chosen) < _SEVERAL
    spoken = partial(writer.body, chosen, urgent_first=first, noted=noted, attached=attached)
    body = parse(spoken(draft=False))
    lacking = tuple(dict.fromkeys([*_not_translated(body), *_unlabelled(voice, document, writer.spoken)]))
    if lacking or writer.spoken.is_draft:
        body = parse(spoken(draft=True))
    return Reply(
        order=order,
        language=writer.spoken,
        title=writer.title(),
        body=body,
        topics=((URGENT,) if first else ()) + tuple(topic.name for topic in chosen),
        figures=tuple(dict.fromkeys(voice.figures)),
        said=voice.said,
        explanation=explanation,
        document=document,
        picture_words=writer.words(PICTURE),
        reading=reading,
        lacking=lacking,
    )


class _Writer:
    """Fills the body of one reply."""

    def __init__(self, order: Order, voice: TopicVoice, spoken: Language) -> None:
        self.order, self.voice, self.spoken = order, voice, spoken
        self.words = Words(spoken)
        self.draft = False

    def title(self) -> str:
        return self.words(TITLE, number=self.order.number)

    def body(self, chosen: list[Topic], *, urgent_first: bool, noted: bool, attached: bool, draft: bool) -> str:
        """The whole body as HTML. A draft has the notice, and the safety words in English too."""
        self.draft = draft
        symptom = any(topic.symptom for topic in chosen)
        urgent = self._urgent(_URGENT if urgent_first else _URGENT_SHORT) if urgent_first or symptom else None
        template = environment(self.spoken).get_template("email/body.html")
        html = template.render(
            title=self.title(),
            greeting=self._greeting(),
            draft_notice=self.words(DRAFT) if self.draft else None,
            urgent_note=self.words(URGENT_NOTE) if noted else None,
            urgent=urgent,
            urgent_first=urgent_first,
            opening=self._opening() if chosen else None,
            urgent_rest=self.words(URGENT_REST) if noted else None,
            sections=self._sections(chosen),
            attached=self.words(ATTACHED) if attached else None,
            closing=(getattr(self.order.workshop, "mail_closing", None) or self.words(CLOSING)).splitlines(),
            signature=self._signature(),
            foot=self.words(FOOT),
        )
        return as_html(html)

    def _sections(self, chosen: list[Topic]) -> list[Markup]:
        """The topics in the order asked for; then the cautions that belong to them; the sources last of all."""
        last = [topic for topic in chosen if topic.name == "sources"]
        found = [self._answer(topic) for topic in chosen if topic not in last]
        if not any(topic.template == _CAUTIONS for topic in chosen):
            found += self._cautions({name for topic in chosen for name in topic.cautions})
        elif self.draft:
            found += self._copy(_CAUTIONS, found)
        return [*found, *(self._answer(topic) for topic in last)]

    def _cautions(self, wanted: Collection[str]) -> list[Markup]:
        """The cautions among those wanted that the core issued; none, no heading."""
        if not any(self.voice.claims.value(f"caution.{name}") for name in wanted):
            return []
        found = [self._spoken(_CAUTIONS, wanted)]
        return [*found, *self._copy(_CAUTIONS, found, wanted)] if self.draft else found

    def _answer(self, topic: Topic) -> Markup:
        """A topic in our words; in the workshop's own where it has some for the leaflet's section on the same."""
        own = topic.section and self.voice.has_own(topic.section, self.spoken)
        return self._spoken(topic.section if own else topic.template)

    def _urgent(self, template: str) -> Markup:
        found = [self._spoken(template)]
        if self.draft:
            found += self._copy(template, found)
        return Markup("\n").join(Markup('<aside class="urgent">{}</aside>').format(each) for each in found)

    def _spoken(self, template: str, only: Collection[str] | None = None) -> Markup:
        return Markup(_below_title(self.voice.speak(template, self.spoken, only)))

    def _copy(self, template: str, spoken: list[Markup], only: Collection[str] | None = None) -> list[Markup]:
        """The template in English, unless it was spoken so already because nothing of it is translated."""
        html = Markup(_below_title(self.voice.speak(template, self.spoken.english, only)))
        said = {each.striptags() for each in spoken}
        return [] if html.striptags() in said else [Markup(f"<div{IN_ENGLISH}>{html}</div>")]

    def _opening(self) -> str:
        return getattr(self.order.workshop, "mail_opening", None) or self.words(OPENING)

    def _greeting(self) -> str:
        own, name = getattr(self.order.workshop, "mail_greeting", None), self.order.wearer_name
        if own and (name or "{name}" not in own):
            return str(own).replace("{name}", name or "")
        return self.words(GREETING_NAMED, name=name) if name else self.words(GREETING)

    def _signature(self) -> list[str]:
        workshop = self.order.workshop
        if workshop is None:
            return []
        address = [line.strip() for line in (workshop.address or "").splitlines() if line.strip()]
        phone = [self.words(PHONE, phone=workshop.phone)] if workshop.phone else []
        email = [self.words(EMAIL, email=workshop.email)] if workshop.email else []
        return [workshop.name, *address, *phone, *email, *(workshop.opening_hours or "").splitlines()]


def _not_translated(body: Node) -> Iterator[str]:
    """What stands in English because it is not translated; the description of a picture too."""
    for node in body.walk():
        if node.attributes.get("lang") == "en":
            yield node.attributes.get("alt") or node.words()


def _unlabelled(voice: TopicVoice, document: Document, spoken: Language) -> Iterator[str]:
    """The labels on the mail's pictures that stand in English: a picture cannot say its language, the notice does."""
    for name in voice.figures if spoken.status != "source" else ():
        for label in cached(name, draw, document.figures[name].values).labels:
            text, english = in_words(spoken, partial(label_text, label))
            if english:
                yield text


def _below_title(html: str) -> str:
    """Headings one step lower where a section brings a first heading of its own: the mail has one already."""
    if "<h1" not in html:
        return html
    for level in (2, 1):
        html = html.replace(f"<h{level}", f"<h{level + 1}").replace(f"</h{level}>", f"</h{level + 1}>")
    return html
