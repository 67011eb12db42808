"""The blocks of a leaflet as HTML: layout of ours, with the phrases, numbers and pictures of one order in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import partial
from types import SimpleNamespace
from typing import Any

from markupsafe import Markup

from explainer.compose.blocks import Block
from explainer.compose.choices import Choices
from explainer.compose.document import FigureRequest
from explainer.figures import draw
from explainer.figures.cache import cached
from explainer.figures.drawing import Drawing
from explainer.optics.spectacles import SIDES, Side
from explainer.orders import Order, Workshop
from explainer.render.fallback import marked
from explainer.render.figures import drawing_html, sign_html
from explainer.render.numbers import date_text
from explainer.render.picture_words import phrase_of
from explainer.render.sections import Speaker
from explainer.render.titles import DRAFT, PAGE_OF

LARGER = 1.5
OF_FIXED_SIZE = ("pair", "rule", "sections", "days", "clearing", "where_to_look")
COLUMNS = ("sphere", "cylinder", "axis", "prism", "addition")
_CLAIMS = {"addition": ("add",), "prism": ("prism.horizontal", "prism.vertical")}


@dataclass(slots=True)
class PageWords:
    """Says the blocks of one order's leaflet."""

    order: Order
    speaker: Speaker
    requests: Mapping[str, FigureRequest]
    choices: Choices
    has_logo: bool = False
    first_sheet: bool = False
    large: bool = False
    _drawings: dict[str, Drawing] = field(default_factory=dict)

    def drawings(self) -> Mapping[str, Drawing]:
        """The pictures that were asked for so far."""
        return self._drawings

    def block(self, block: Block | str, **more: Any) -> str:
        """One block, finished; empty when it has nothing to say or to show."""
        name = block if isinstance(block, str) else block.name
        names = self.speaker.names() | self._names() | more
        html = self.speaker.voice.html(self.speaker.marked(f"leaflet/blocks/{name}.html", names)).strip()
        return f'<section class="block {name}">{html}</section>' if html else ""

    def foot(self, page: int, pages: int) -> str:
        """The foot of one page."""
        names = self.speaker.names() | self._names()
        spoken = self.speaker.language
        names |= {
            "page": page,
            "page_of": Markup('<bdi dir="auto">{}</bdi>').format(
                marked(spoken, PAGE_OF) % {"page": str(page), "pages": str(pages)}
            ),
        }
        return self.speaker.voice.html(self.speaker.marked("leaflet/foot.html", names)).strip()

    def _names(self) -> dict[str, Any]:
        workshop, spoken = self.order.workshop, self.speaker.language
        return {
            "plan": self.choices,
            "columns": self.columns(),
            "number": self.number,
            "written": self.written,
            "picture": self.picture,
            "capital": self.capital,
            "drawn": self.requests.__contains__,
            "own": lambda text: self.speaker.voice.words(text) if text else "",
            "ltr": lambda text: self.speaker.voice.words(text, isolate=True) if text else "",
            "logo": self.has_logo,
            "workshop": _letterhead(workshop),
            "wearer_name": self.order.wearer_name and self.speaker.voice.words(self.order.wearer_name),
            "order_date": self.speaker.voice.phrase(partial(date_text, self.order.date)),
            "draft_notice": marked(spoken, DRAFT),
            "first_sheet": self.first_sheet,
            "large": self.large,
        }

    def number(self, side: Side, column: str) -> Markup:
        """One cell of the prescription, as received: the bare number with its sign, or the word for none."""
        voice, claims = self.speaker.voice, self.speaker.voice.claims
        if column == "prism":
            found = [f"{side}.{part}" for part in _CLAIMS[column] if claims.value(f"{side}.{part}")]
            return Markup("<br>").join(map(voice.say, found)) if found else self._none()
        claim_id = f"{side}.{_CLAIMS.get(column, (column,))[0]}"
        if claim_id not in claims or (column == "cylinder" and f"{side}.axis" not in claims):
            return self._none()
        return voice.say(claim_id, bare=column != "axis")

    def _none(self) -> Markup:
        return Markup('<span class="none">{}</span>').format(self.speaker.phrase("numbers.none"))

    def written(self, side: Side, when: str = "") -> Markup:
        """Sphere, cylinder and axis of one eye on one line, as received or as in the `previous` prescription."""
        voice, claims = self.speaker.voice, self.speaker.voice.claims
        stem = f"{side}.{when}." if when else f"{side}."
        parts = [voice.say(f"{stem}sphere", bare=True)]
        if f"{stem}axis" in claims:
            parts += [voice.say(f"{stem}cylinder", bare=True), Markup("×"), voice.say(f"{stem}axis", bare=True)]
        html = Markup(" ").join(parts)
        return Markup('<bdi class="n" dir="ltr">{}</bdi>').format(html)

    def picture(self, name: str, slots: Mapping[str, Markup | str] | None = None, *, told: bool = False) -> Markup:
        """A picture of this order, or nothing where it has none.

        `told`: it says more than the words beside it, so it has its alternative text and labels; else it decorates.
        """
        if name not in self.requests:
            return Markup("")
        drawing, voice = self._drawing(name), self.speaker.voice
        if not told:
            return Markup(sign_html(drawing, self._scale(name)))
        phrase, about = phrase_of(name)
        text = voice.marked_text(self.speaker.phrase(phrase, **about))
        contents = {key: voice.html(str(words)) for key, words in (slots or {}).items()}
        html = drawing_html(drawing, text, "", self.speaker.language, contents=contents, scale=self._scale(name))
        return voice.piece(html, text)

    def _scale(self, name: str) -> float:
        """Large print has larger pictures, as far as they have room and are not of life size."""
        return LARGER if self.large and not name.startswith(OF_FIXED_SIZE) else 1.0

    def capital(self, phrase: Markup) -> Markup:
        """A phrase with its first letter as at the beginning of a sentence."""
        voice = self.speaker.voice
        html, text = voice.html(str(phrase)), voice.text(str(phrase))
        if not html or html[0] in "<&":
            return phrase
        return voice.piece(html[0].upper() + html[1:], text[:1].upper() + text[1:])

    def _drawing(self, name: str) -> Drawing:
        if name not in self._drawings:
            request = self.requests[name]
            self._drawings[name] = cached(request.name, draw, request.values)
        return self._drawings[name]

    def columns(self) -> list[str]:
        """The columns of the prescription that are used by either eye."""
        claims = self.speaker.voice.claims
        found = [
            column
            for column in COLUMNS
            if any(claims.value(f"{side}.{part}") for side in SIDES for part in _CLAIMS.get(column, (column,)))
        ]
        return found if "sphere" in found else ["sphere", *found]


def _letterhead(workshop: Workshop | None) -> SimpleNamespace:
    """What a head and a foot say of the workshop; nothing where there is none."""
    return SimpleNamespace(
        name=getattr(workshop, "name", "") or "",
        address=[line for line in (getattr(workshop, "address", "") or "").splitlines() if line.strip()],
        phone=getattr(workshop, "phone", None),
        email=getattr(workshop, "email", None),
        hours=getattr(workshop, "opening_hours", None),
    )
