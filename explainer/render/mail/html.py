"""The HTML part of a reply: few plain elements, styles written into them, pictures by content id or as words."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from html import escape
from typing import TYPE_CHECKING, Literal

from markupsafe import Markup

from explainer.render.fallback import BEGIN, END, IN_ENGLISH, as_html, is_english
from explainer.render.language import Language
from explainer.render.mail.pictures import Picture
from explainer.render.mail.text import END_ISOLATE, isolate_of
from explainer.render.mail.tree import Node
from explainer.resources import root

if TYPE_CHECKING:
    from css_inline import CSSInliner

# Elements that mail programs drop or draw as running text, and what stands for them.
_PLAIN = {"aside": "div", "figure": "div", "figcaption": "p", "section": "div", "bdi": "span"}
_CLASS = {"figure": "figure", "figcaption": "caption"}
_KEPT = frozenset({"class", "colspan", "dir", "lang", "scope"})
_VOID = frozenset({"br", "img"})
Sources = Mapping[str, tuple[str, Picture]]


def page_of(body: Node, *, title: str, language: Language, sources: Sources, picture_words: str) -> str:
    """The whole HTML part. `sources` gives address and size of each picture; without one its description stands."""
    from explainer.render.templates import environment

    shell = environment(language).get_template("email/message.html")
    html = shell.render(
        lang=language.code,
        dir=language.direction,
        title=title,
        dark=Markup(_style("dark")),
        body=Markup(_Marks(language, sources, picture_words).children(body)),
    )
    return _inliner().inline(as_html(html)) + "\n"


def piece_of(body: Node, *, language: Language, picture_words: str) -> str:
    """The body alone with its styles inside and no pictures, to be pasted into a help desk's own frame."""
    inner = _Marks(language, {}, picture_words).children(body)
    marked = f'<div class="mail" lang="{language.code}" dir="{language.direction}">\n{inner}\n</div>'
    return _inliner().inline_fragment(marked, _style("message")) + "\n"


class _Marks:
    """Writes a tree as the few elements that mail programs keep."""

    def __init__(self, language: Language, sources: Sources, picture_words: str) -> None:
        self.language, self.sources, self.picture_words = language, sources, picture_words

    def children(self, node: Node) -> str:
        """Everything below the node."""
        return "".join(
            escape(child, quote=False) if isinstance(child, str) else self._element(child) for child in node.children
        )

    def _element(self, node: Node) -> str:
        if node.tag == "img":
            return self._image(node)
        tag = _PLAIN.get(node.tag, node.tag)
        attributes = {name: value for name, value in node.attributes.items() if name in _KEPT}
        if node.tag in _CLASS:
            attributes["class"] = _CLASS[node.tag]
        opening = tag + "".join(f' {name}="{escape(value)}"' for name, value in attributes.items())
        if tag in _VOID:
            return f"<{opening}>"
        inner = self.children(node)
        if (
            node.tag in ("bdi", "span") and self.language.direction == "rtl"
        ):  # a sign must not turn where a program drops dir
            mark = isolate_of(attributes.get("dir", ""))
            inner = f"{mark}{inner}{END_ISOLATE}"
        return f"<{opening}>{inner}</{tag}>"

    def _image(self, node: Node) -> str:
        """A picture, or its description in words where pictures are not carried."""
        words, name = node.attributes.get("alt", ""), node.attributes["src"].removeprefix("figure:")
        if name not in self.sources:
            return self._described(escape(words, quote=False), english="lang" in node.attributes)
        address, shown = self.sources[name]
        size = f'width="{shown.width_px}" height="{shown.height_px}"'
        tongue = IN_ENGLISH if "lang" in node.attributes else ""
        return f'<img src="{escape(address)}" alt="{escape(words)}"{tongue} {size}>'

    def _described(self, words: str, *, english: bool) -> str:
        """The description, and the words that stand round it: each may lack its translation without the other."""
        framed_in_english = is_english(self.picture_words)
        if framed_in_english and not english:
            words = f'<span lang="{self.language.code}" dir="{self.language.direction}">{words}</span>'
        elif english and not framed_in_english:
            words = f"{BEGIN}{words}{END}"
        return as_html(f"<p>{escape(self.picture_words, quote=False) % {'description': words}}</p>")


def _style(name: Literal["message", "dark"]) -> str:
    return (root("templates") / "email" / f"{name}.css").read_text(encoding="utf-8")


@cache
def _inliner() -> CSSInliner:
    from css_inline import CSSInliner

    return CSSInliner(
        extra_css=_style("message"),
        inline_style_tags=False,
        keep_style_tags=True,
        load_remote_stylesheets=False,
    )
