"""The voice of a document: says claims, and remembers which it said.

Whatever a template puts in by expression (a claim, the customer's name, the workshop's own words, a figure) travels
through Markdown as an opaque mark and is set in afterwards. So no customer text is ever read as Markdown or HTML, and
every number on the page can be traced to its claim.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from html import escape

from markupsafe import Markup

from explainer.errors import MissingText
from explainer.optics.claim import Basis, Claim
from explainer.optics.claims.ledger import ClaimSet
from explainer.render.fallback import BEGIN, END, as_html, in_words, plain
from explainer.render.language import Language
from explainer.render.number_group import number_group
from explainer.render.numbers import claim_text

MARK_OPENS, _CLOSE = "\ue000", "\ue001"
_MARK = re.compile(f"{MARK_OPENS}(\\d+){_CLOSE}|{BEGIN}|{END}")
_LONE_MARK = re.compile(f"<p>\\s*({MARK_OPENS}\\d+{_CLOSE})\\s*</p>")
_BLOCKS = ("<table", "<figure", "<div", "<p", "<ul", "<ol")  # these stand in no paragraph
_WITH_WORDS = (".prism.horizontal", ".prism.vertical")  # these say "base up" too, and may break there


def _(message: str) -> str:
    """Marks a message for extraction."""
    return message


TYPICALLY = _("typically %(value)s")


@dataclass(frozen=True, slots=True)
class _Piece:
    """Something put in. `in_english` says it again for a sentence that is not translated; else it has no language."""

    html: str
    text: str
    in_english: Callable[[], tuple[str, str]] | None = None

    def form(self, form: str, *, english: bool) -> str:
        if english and self.in_english:
            html, text = self.in_english()
            return html if form == "html" else text
        return self.html if form == "html" else self.text


@dataclass(slots=True)
class Voice:
    """Speaks one language about one set of claims."""

    language: Language
    claims: ClaimSet
    said: dict[str, Claim] = field(default_factory=dict)
    _pieces: list[_Piece] = field(default_factory=list)

    def say(self, claim_id: str, *, mark_typical: bool = True, bare: bool = False) -> Markup:
        """The claim's value with its unit. A value that rests on memory is marked as typical."""
        claim = self.claim(claim_id)
        typical = mark_typical and claim.weakest is Basis.MEMORY and claim.unit != "word"
        return self._spoken(lambda language: _said(claim, language, typical=typical, bare=bare))

    def claim(self, claim_id: str) -> Claim:
        """The claim, now counted as said; MissingText when the core did not issue it for this order."""
        if claim_id not in self.claims:
            raise MissingText(f"a template uses the claim {claim_id}, which was not issued for this order")
        self.said[claim_id] = self.claims[claim_id]
        return self.claims[claim_id]

    def phrase(self, speak: Callable[[Language], str], *, apart: bool = False) -> Markup:
        """Words of ours that are no sentence of a template. `apart` sets them off from what runs the other way."""
        frame = '<bdi dir="auto">{}</bdi>' if apart else "{}"
        return self._spoken(lambda language: (frame.format(escape(said := speak(language))), said))

    def words(self, text: str, *, isolate: bool = False) -> Markup:
        """Somebody's own words: escaped, never read as Markdown. Line ends stay. `isolate` is for numbers."""
        text = re.sub(f"[{MARK_OPENS}{_CLOSE}{BEGIN}{END}]", "", text)
        lines = [escape(line.strip()) for line in text.strip().splitlines()]
        direction = "ltr" if isolate else "auto"
        html = "<br>".join(lines).replace(" ", "\N{NO-BREAK SPACE}" if isolate else " ")
        return self.piece(f'<bdi dir="{direction}">{html}</bdi>', text.strip())

    def piece(self, html: str, text: str) -> Markup:
        """A finished piece of HTML and the plain text that stands for it, as a mark."""
        return self._put_in(_Piece(html, text))

    def html(self, marked: str) -> str:
        """The HTML with every mark replaced; a block piece alone in a paragraph loses the paragraph."""
        return as_html(self._fill(_LONE_MARK.sub(self._unwrap, marked), "html"))

    def text(self, marked: str) -> str:
        """The same as plain text on one line."""
        return plain(self.marked_text(marked), self.language)

    def marked_text(self, marked: str) -> str:
        """Plain text on one line that still has the marks of what is not translated, for alternative texts."""
        return " ".join(self._fill(marked, "text").split())

    def _spoken(self, speak: Callable[[Language], tuple[str, str]]) -> Markup:
        """What is said in the reader's language, as HTML and as text; or in English, marked."""
        (html, text), lacking = in_words(self.language, speak)
        if lacking:
            html, text = f"{BEGIN}{html}{END}", f"{BEGIN}{text}{END}"
        return self._put_in(_Piece(html, text, partial(speak, self.language.english)))

    def _put_in(self, piece: _Piece) -> Markup:
        self._pieces.append(piece)
        return Markup(f"{MARK_OPENS}{len(self._pieces) - 1}{_CLOSE}")

    def _unwrap(self, match: re.Match[str]) -> str:
        mark = match[1]
        piece = self._pieces[int(mark[1:-1])]
        return mark if piece.html.lstrip().startswith(_BLOCKS) else match[0]

    def _fill(self, marked: str, form: str, *, english: bool = False) -> str:
        """Everything put in, in the form asked for; what stands in an English sentence, in English."""
        inside = english

        def one(match: re.Match[str]) -> str:
            nonlocal inside
            if match[1]:
                return self._fill(self._pieces[int(match[1])].form(form, english=inside), form, english=inside)
            if english:
                return ""
            inside = match[0] == BEGIN
            return match[0]

        return _MARK.sub(one, marked)


def _said(claim: Claim, language: Language, *, typical: bool, bare: bool) -> tuple[str, str]:
    """The claim as HTML and as plain text."""
    text = claim_text(claim, language, bare=bare)
    if claim.unit == "word":
        return escape(text), text
    kind = "n open" if claim.id.endswith(_WITH_WORDS) else "n"
    group = number_group(text, language)
    number = f'<bdi class="{kind}" dir="{group.direction}" data-claim="{escape(claim.id)}">{group.html}</bdi>'
    if not typical:
        return number, group.plain
    message = language.gettext(TYPICALLY)
    return escape(message) % {"value": number}, message % {"value": group.plain}
