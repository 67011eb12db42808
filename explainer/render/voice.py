"""The voice of a document: says claims, and remembers which it said.

Whatever a template puts in by expression (a claim, the customer's name, the workshop's own words, a figure) travels
through Markdown as an opaque mark and is set in afterwards. So no customer text is ever read as Markdown or HTML, and
every number on the page can be traced to its claim.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html import escape

from markupsafe import Markup

from explainer.errors import MissingText
from explainer.optics.claim import Basis, Claim
from explainer.optics.claims.ledger import ClaimSet
from explainer.render.language import Language
from explainer.render.number_group import number_group
from explainer.render.numbers import claim_text

_OPEN, _CLOSE = "\ue000", "\ue001"
_MARK = re.compile(f"{_OPEN}(\\d+){_CLOSE}")
_LONE_MARK = re.compile(f"<p>\\s*({_OPEN}\\d+{_CLOSE})\\s*</p>")
_WITH_WORDS = (".prism.horizontal", ".prism.vertical")  # these say "base up" too, and may break there


def _(message: str) -> str:
    """Marks a message for extraction."""
    return message


TYPICALLY = _("typically %(value)s")


@dataclass(frozen=True, slots=True)
class _Piece:
    html: str
    text: str


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
        text = claim_text(claim, self.language, bare=bare)
        if claim.unit == "word":
            return self.piece(escape(text), text)
        kind = "n open" if claim_id.endswith(_WITH_WORDS) else "n"
        group = number_group(text, self.language)
        number = f'<bdi class="{kind}" dir="{group.direction}" data-claim="{escape(claim_id)}">{group.html}</bdi>'
        plain = group.plain
        if claim.weakest is Basis.MEMORY and mark_typical:
            message = self.language.gettext(TYPICALLY)
            return self.piece(escape(message) % {"value": number}, message % {"value": plain})
        return self.piece(number, plain)

    def claim(self, claim_id: str) -> Claim:
        """The claim, now counted as said; MissingText when the core did not issue it for this order."""
        if claim_id not in self.claims:
            raise MissingText(f"a template uses the claim {claim_id}, which was not issued for this order")
        self.said[claim_id] = self.claims[claim_id]
        return self.claims[claim_id]

    def words(self, text: str, *, isolate: bool = False) -> Markup:
        """Somebody's own words: escaped, never read as Markdown. Line ends stay. `isolate` is for numbers."""
        text = text.replace(_OPEN, "").replace(_CLOSE, "")
        lines = [escape(line.strip()) for line in text.strip().splitlines()]
        direction = "ltr" if isolate else "auto"
        html = "<br>".join(lines).replace(" ", "\N{NO-BREAK SPACE}" if isolate else " ")
        return self.piece(f'<bdi dir="{direction}">{html}</bdi>', text.strip())

    def piece(self, html: str, text: str) -> Markup:
        """A finished piece of HTML and the plain text that stands for it, as a mark."""
        self._pieces.append(_Piece(html, text))
        return Markup(f"{_OPEN}{len(self._pieces) - 1}{_CLOSE}")

    def html(self, marked: str) -> str:
        """The HTML with every mark replaced; a block piece alone in a paragraph loses the paragraph."""
        return self._fill(_LONE_MARK.sub(self._unwrap, marked), "html")

    def text(self, marked: str) -> str:
        """The same as plain text on one line, for alternative texts."""
        return " ".join(self._fill(marked, "text").split())

    def _unwrap(self, match: re.Match[str]) -> str:
        mark = match[1]
        piece = self._pieces[int(mark[1:-1])]
        return mark if piece.html.lstrip().startswith(("<table", "<figure", "<div")) else match[0]

    def _fill(self, marked: str, form: str) -> str:
        while _MARK.search(marked):
            marked = _MARK.sub(lambda match: str(getattr(self._pieces[int(match[1])], form)), marked)
        return marked
