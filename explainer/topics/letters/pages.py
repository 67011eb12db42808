"""The words of an HTML mail: what a reader sees, without styles, hidden parts and quoted earlier mails."""

from __future__ import annotations

import re
from html.parser import HTMLParser

_SILENT = frozenset({"style", "script", "head", "title", "template", "noscript", "svg", "object"})
_BREAKS = frozenset(
    {"br", "p", "div", "tr", "li", "ul", "ol", "table", "h1", "h2", "h3", "h4", "hr", "pre", "section", "article"}
)
_VOID = frozenset({"br", "hr", "img", "meta", "link", "input", "area", "base", "col", "wbr", "source"})
_HIDDEN = re.compile(r"display\s*:\s*none|visibility\s*:\s*hidden|mso-hide\s*:\s*all|font-size\s*:\s*0(?![.\d])", re.I)
_QUOTED = re.compile(r"quote|divRplyFwdMsg|appendonsend|moz-cite-prefix|forwarded_head", re.I)


def words_of_page(html: str) -> str:
    """The text of the page, a line for each block."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    lines = (" ".join(line.split()) for line in "".join(reader.pieces).splitlines())
    return "\n".join(line for line in lines if line)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.pieces: list[str] = []
        self._skipped: str | None = None
        self._depth = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if self._skipped is not None:
            self._depth += tag == self._skipped
        elif tag not in _VOID and _left_out(tag, {name: value or "" for name, value in attrs}):
            self._skipped, self._depth = tag, 1
        if tag in _BREAKS:
            self.pieces.append("\n")

    def handle_endtag(self, tag: str) -> None:
        if tag == self._skipped:
            self._depth -= 1
            self._skipped = self._skipped if self._depth else None
        if tag in _BREAKS:
            self.pieces.append("\n")

    def handle_data(self, data: str) -> None:
        if self._skipped is None:
            self.pieces.append(data.replace("\n", " "))


def _left_out(tag: str, attributes: dict[str, str]) -> bool:
    if tag in _SILENT or (tag == "blockquote" and "cite" in (attributes.get("type"), *attributes)):
        return True
    marks = f"{attributes.get('class', '')} {attributes.get('id', '')}"
    hidden = "hidden" in attributes or _HIDDEN.search(attributes.get("style", ""))
    return bool(hidden) or bool(_QUOTED.search(marks))
