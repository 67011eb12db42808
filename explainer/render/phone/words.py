"""The leaflet's blocks said for a telephone: its own templates where the paper's hold the measures of a page."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from markupsafe import Markup

from explainer.compose.blocks import Block
from explainer.render.fallback import attribute
from explainer.render.page_words import PageWords
from explainer.render.phone.pictures import figure_html, sign_html
from explainer.render.picture_words import phrase_of
from explainer.resources import root

_HEADING = re.compile(r"(</?h)([1-4])\b")


@dataclass(slots=True)
class PhoneWords(PageWords):
    """Says the blocks of one order's page, with pictures inside it."""

    pictures_set: int = 0

    def block(self, block: Block | str, **more: Any) -> str:
        """One block, finished; empty when it has nothing to say or to show."""
        name = block if isinstance(block, str) else block.name
        html = self.template(f"{_folder(name)}/{name}.html", **more)
        return f'<div class="block {name}" id="{name}">{html}</div>' if html else ""

    def template(self, path: str, **more: Any) -> str:
        """A template filled with this order's words, numbers and pictures."""
        names = self.speaker.names() | self._names() | {"dialled": dialled} | more
        return self.speaker.voice.html(self.speaker.marked(path, names)).strip()

    def picture(
        self, name: str, slots: Mapping[str, Markup | str] | None = None, *, told: bool = False, part: str = ""
    ) -> Markup:
        """A picture of this order or a part of it, or nothing where it has none. What slots say stands beside it here.

        `told`: it says more than the words beside it, so it has its alternative text and labels; else it decorates.
        """
        if name not in self.requests:
            return Markup("")
        self.pictures_set += 1
        drawing, voice, mark = self._drawing(name), self.speaker.voice, f"p{self.pictures_set}-"
        if not told and not part:
            return voice.piece(sign_html(drawing, name, mark), "")
        words = self._alternative(name) if told else ""
        said = attribute(words, self.speaker.language)
        html = figure_html(drawing, name, said, self.speaker.language, part=part, mark=mark)
        return voice.piece(html, words)

    def _alternative(self, name: str) -> str:
        phrase, about = phrase_of(name)
        return self.speaker.voice.marked_text(self.speaker.phrase(phrase, **about))


def lowered(html: str, by: int) -> str:
    """The block with its headings that many ranks lower."""
    return _HEADING.sub(lambda found: f"{found[1]}{min(int(found[2]) + by, 6)}", html)


def dialled(number: str | None) -> str:
    """A telephone number as an address that can be called; nothing where it is none."""
    kept = re.sub(r"[^\d+]", "", (number or "").replace("(0)", ""))
    return f"tel:{kept}" if re.fullmatch(r"\+?\d{3,15}", kept) else ""


@cache
def _folder(name: str) -> str:
    own = (root("templates") / "phone" / "blocks" / f"{name}.html").is_file()
    return "phone/blocks" if own else "leaflet/blocks"
