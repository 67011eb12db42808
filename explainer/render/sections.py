"""Sections: the templates' words, filled with claims, as HTML. The leaflet and the e-mail use the same ones."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from html import unescape
from typing import Any, Protocol

from markupsafe import Markup, escape

from explainer.compose.document import Document
from explainer.errors import MissingText
from explainer.optics.spectacles import SIDES
from explainer.render.fallback import marked
from explainer.render.labels import EYES, LENSES, SIGNALS
from explainer.render.language import Language
from explainer.render.templates import environment
from explainer.render.voice import Voice

BOXED_CAUTIONS = 5
_BETWEEN_ITEMS = re.compile(r"^((?:- |\d+\. ).*(?:\n  .*)*)\n(?:[ \t]*\n)+(?=- |\d+\. )", re.MULTILINE)
_BOLD = re.compile(r"\*\*(\S(?:[^*]*\S)?)\*\*")
_LETTER = r"[^*_`\[\]<>\\#~\n]"
_INLINE = re.compile(rf"(?![-+#>]|\d+\.)(?:{_LETTER}|&#39;|\*\*{_LETTER}+\*\*|\n(?![\n\s#>+-]|\d+\.))+")
_AND = re.compile(r"&(?!\w+;|#\d+;)")
_ONE_PARAGRAPH = re.compile(r"\s*<p>((?:(?!</?p>).)*)</p>\s*", re.DOTALL)
_OWN_PARAGRAPH = re.compile(r'<p class="(term|unknown|why|basis)">')
FigureHtml = Callable[[str, str, str, Language], str]


class OwnWords(Protocol):
    """A workshop's own words for one of our templates."""

    def marked(self, speaker: Speaker) -> str:
        """The words as Markdown with marks for claims, spoken for this speaker's order."""


@dataclass(slots=True)
class Speaker:
    """Says the sections of one document in one language."""

    voice: Voice
    document: Document
    context: Mapping[str, Any]
    figure_html: FigureHtml
    house: Mapping[str, OwnWords] = field(default_factory=dict)
    boxed: int = field(default=0)
    ground: list[str] = field(default_factory=list)
    _phrases: dict[tuple[str, tuple[tuple[str, Any], ...]], tuple[Markup, tuple[str, ...]]] = field(
        default_factory=dict
    )

    @property
    def language(self) -> Language:
        """The language spoken."""
        return self.voice.language

    def section(self, name: str) -> str:
        """One section as HTML."""
        return self.template(f"sections/{name}")

    def template(self, path: str) -> str:
        """A Markdown template below templates/ as HTML, or the workshop's words for it. The path has no ending."""
        own = self.house.get(path)
        return self.spoken(self.marked(f"{path}.md") if own is None else own.marked(self))

    def phrase(self, name: str, **about: Any) -> Markup:
        """The smallest words that stand together, from templates/phrases: inline HTML, or nothing where none hold.

        A single paragraph loses its `<p>`. What comes back is a mark, as from `say`; `voice.html` sets it in. `about`
        hands names to the phrase, such as `side="left"`. Said twice, it is spoken once.
        """
        key = (name, tuple(sorted(about.items())))
        if key not in self._phrases:
            self._phrases[key] = self._spoken_phrase(name, about)
        mark, claims = self._phrases[key]
        for claim_id in claims:
            self.voice.claim(claim_id)
        return mark

    def _spoken_phrase(self, name: str, about: Mapping[str, Any]) -> tuple[Markup, tuple[str, ...]]:
        """A phrase, and the claims that it says: whoever says it again says them again."""
        path, said = f"phrases/{name}", self.voice.said
        own, before = self.house.get(path), dict(said)
        said.clear()
        try:
            marked = self.marked(f"{path}.md", {**self.names(), **about}) if own is None else own.marked(self)
            return self._piece_of(marked), tuple(said)
        finally:
            after = {**before, **said}
            said.clear()
            said.update(after)

    def phrase_html(self, name: str, **about: Any) -> str:
        """A phrase finished, for callers outside templates."""
        return self.voice.html(self.phrase(name, **about))

    def phrase_text(self, name: str, **about: Any) -> str:
        """A phrase as plain text on one line, for labels of figures and alternative texts."""
        return self.voice.text(self.phrase(name, **about))

    def _piece_of(self, marked: str) -> Markup:
        if not marked.strip():
            return Markup("")
        plain = marked.strip()
        if _INLINE.fullmatch(plain):  # what Markdown would make of it, in a tenth of the time
            html = self.voice.html(_BOLD.sub(r"<strong>\1</strong>", _AND.sub("&amp;", plain)))
        else:
            html = self.voice.html(_markdown(plain))
            alone = _ONE_PARAGRAPH.fullmatch(html)
            html = alone[1] if alone else html
        return self.voice.piece(html, unescape(self.voice.marked_text(marked.replace("**", ""))))

    def spoken(self, marked: str) -> str:
        """Markdown with marks for claims in it, as HTML."""
        return self.voice.html(_markdown(marked))

    def marked(self, template: str, names: Mapping[str, Any] | None = None) -> str:
        """A template of ours filled in, with marks for what was put in; with other names than `names()` if given."""
        from jinja2 import TemplateError

        try:
            return environment(self.language).get_template(template).render(names or self.names())
        except TemplateError as error:
            raise MissingText(f"the template {template} cannot be used: {error}") from error

    def names(self) -> dict[str, Any]:
        """What a template may call by name."""
        claims, document = self.voice.claims, self.document
        return {
            **self.context,
            "eyes": SIDES,
            "say": self.voice.say,
            "raw": lambda claim_id, default=None: claims.value(claim_id) if claim_id in claims else default,
            "has": self._has,
            "is_": lambda claim_id, value: claims.value(claim_id) == value,
            "flag": document.flags.__contains__,
            "stated": self._stated,
            "plain": self._plain,
            "caution": self._caution,
            "figure": self._figure,
            "table": self._table,
            "phrase": self.phrase,
            "eye_name": lambda side: self._phrase(EYES[side]),
            "lens_name": lambda side: self._phrase(LENSES[side]),
            "said": self.voice.said,
            "sight_side": document.sight_side,
            "section_side": document.section_side,
        }

    def _phrase(self, message: str) -> Markup:
        return self.voice.phrase(lambda language: language.gettext(message))

    def _has(self, claim_id: str) -> bool:
        """Whether the core issued the claim, and did not answer no. A claim of zero is a claim."""
        value = self.voice.claims.value(claim_id)
        return value is not None and value is not False

    def _stated(self, claim_id: str, caller: Callable[[], str]) -> str:
        """A sentence that stands only while the core states its claim."""
        if not self._has(claim_id):
            return Markup("")
        self.voice.claim(claim_id)
        return self._on(claim_id, caller)

    def _plain(self, caller: Callable[[], str]) -> str:
        """A sentence that states nothing technical about this pair: a definition, or plain advice."""
        return self._on("plain", caller)

    def _on(self, ground: str, caller: Callable[[], str]) -> str:
        """Speaks while noting what the words rest on, so that a test can ask."""
        self.ground.append(ground)
        words = caller()
        self.ground.pop()
        return words

    def _caution(self, claim_id: str, signal: str, caller: Callable[[], str]) -> str:
        """A caution that the core issued; the first five in a box, more would not be read."""
        if not self._has(claim_id):
            return Markup("")
        self.voice.claim(claim_id)
        self.boxed += 1
        word = escape(marked(self.language, SIGNALS[signal]))
        body = self._on(claim_id, caller).strip()
        if self.boxed > BOXED_CAUTIONS:
            return Markup(f'\n<p class="caution-line" markdown="1">{body}</p>\n')
        frame = f'<aside class="caution {signal.lower()}" markdown="1">\n<p class="signal">{word}</p>'
        return Markup(f"\n{frame}\n\n{body}\n\n</aside>\n")

    def _figure(self, name: str, caption: str = "", *, caller: Callable[[], str]) -> str:
        """A figure with its alternative text; nothing when the document does not call for it."""
        if name not in self.document.figures:
            return Markup("")
        alternative, below = self.voice.marked_text(caller()), self.voice.marked_text(caption)
        return self.voice.piece(self.figure_html(name, alternative, below, self.language), alternative)

    def _table(self, name: str) -> str:
        """A table from templates/tables."""
        html = self.marked(f"tables/{name}.html")
        return self.voice.piece(self.voice.html(html), self.voice.text(html))

    def table_html(self, name: str) -> str:
        """One table alone, finished."""
        return self.voice.html(self.marked(f"tables/{name}.html"))


def _markdown(text: str) -> str:
    """Markdown to HTML. Items of a list that logic pushed apart are closed up again."""
    closed_up = _BETWEEN_ITEMS.sub(r"\1\n", text)
    ours = _OWN_PARAGRAPH.sub(r'<p class="\1" markdown="1">', closed_up)
    return str(_reader_of_markdown().reset().convert(ours))


@cache
def _reader_of_markdown() -> Any:
    """One for all texts: it takes longer to make than to use."""
    from markdown import Markdown

    return Markdown(extensions=["md_in_html"], output_format="html")
