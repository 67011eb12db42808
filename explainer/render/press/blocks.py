"""A section taken apart into its blocks, each of which is set and kept for itself.

Two leaflets rarely have a whole section in common, but most of its paragraphs, pictures and cautions. A block is what
the style sheet lets a column begin with: a heading stays with what it heads, a list with the words before it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

_SECTION = re.compile(r'\s*<section class="([^"]*)"( id="[^"]*")>(.*)</section>\s*', re.DOTALL)
_TAG = re.compile(r"<(/?)([a-z][a-z0-9]*)\b([^>]*)>")
_EMPTY = frozenset(("br", "col", "hr", "img", "wbr"))
_HEADINGS = frozenset(("h1", "h2", "h3"))
_LISTS = frozenset(("ul", "ol"))
_RUNS_ON = " runs-on"  # class of a section that goes on in the next part


def blocks(html: str) -> list[str]:
    """The section's blocks in order, each as a section of its own; the one it is if it cannot be told apart."""
    found = _SECTION.fullmatch(html)
    elements = list(_elements(found[3])) if found else []
    if found is None or _bare("".join(text for _, text in elements)) != _bare(found[3]):
        return [html]
    groups: list[str] = []
    before = "h1"  # the first block begins with whatever comes first
    for name, text in elements:
        if groups and before not in _HEADINGS and not _stays(name, text):
            groups.append(text)
        else:
            groups[-1:] = ["".join((*groups[-1:], text))]
        before = name
    last = len(groups) - 1
    return [
        f'<section class="{found[1]}{"" if number == last else _RUNS_ON}"{"" if number else found[2]}>{text}</section>'
        for number, text in enumerate(groups)
    ]


def _bare(html: str) -> str:
    return "".join(html.split())


def _stays(name: str, text: str) -> bool:
    """Whether an element belongs to the one before it."""
    return name in _LISTS or text.startswith('<div class="figure-row"')


def _elements(html: str) -> Iterator[tuple[str, str]]:
    """The elements at the top, each with its name. Text between them is left out, and with it the claim to be whole."""
    depth, begin = 0, 0
    for tag in _TAG.finditer(html):
        closes, name, rest = tag.groups()
        if name in _EMPTY or rest.endswith("/"):
            if depth == 0:
                yield name, tag[0]
            continue
        if depth == 0:
            begin, outer = tag.start(), name
        depth += -1 if closes else 1
        if depth == 0:
            yield outer, html[begin : tag.end()]
