"""The page as it is handed to the engine: the source text, by sections, blocks and claims."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cached_property
from typing import Any

import tinyhtml5

BLOCKS = frozenset(
    "html body header footer section aside div p h1 h2 h3 h4 ul ol li dl dt dd table caption thead tbody tr th td "
    "figure figcaption br span.label".split()
)
_NO_WORDS = frozenset({"head", "script", "style", "title"})
_UNSAID = frozenset({"foot"})


def name_of(element: Any) -> str:
    """The element's name without its namespace."""
    return str(element.tag).rpartition("}")[2] if isinstance(element.tag, str) else "!"


def classes(element: Any) -> frozenset[str]:
    """The element's classes."""
    return frozenset((element.get("class") or "").split())


def is_own(element: Any) -> bool:
    """Somebody's own words: the wearer's name, the workshop's texts. They are not ours to mend."""
    return name_of(element) == "bdi" and "data-claim" not in element.attrib and not classes(element)


def is_figure(element: Any) -> bool:
    return name_of(element) in ("figure", "table")


def nothing(element: Any) -> bool:
    return False


def words_of(element: Any, *, leave_out: Callable[[Any], bool] = nothing, breaks: str = " ") -> str:
    """The visible words below an element; `breaks` stands between blocks."""
    return "".join(_words(element, leave_out, breaks))


def _words(element: Any, leave_out: Callable[[Any], bool], breaks: str) -> Iterator[str]:
    name = name_of(element)
    if name == "!" or name in _NO_WORDS or classes(element) & _UNSAID or leave_out(element):
        return
    block = name in BLOCKS or "label" in classes(element)
    if block:
        yield breaks
    yield element.text or ""
    for kid in element:
        yield from _words(kid, leave_out, breaks)
        yield kid.tail or ""
    if block:
        yield breaks


class Source:
    """One page's HTML, parsed."""

    def __init__(self, html: str) -> None:
        self.root = tinyhtml5.parse(html, namespace_html_elements=False)

    def all(self, name: str | None = None, of: str | None = None) -> list[Any]:
        """Every element of that name and that class, in order."""
        return [
            each
            for each in self.root.iter()
            if (name is None or name_of(each) == name) and (of is None or of in classes(each))
        ]

    @cached_property
    def sections(self) -> dict[str, Any]:
        """The pieces of the page between head and foot by id, or by class where they have none."""
        body = next(each for each in self.root.iter() if name_of(each) == "body")
        pieces = [each for each in body if name_of(each) in ("section", "aside", "div") and not classes(each) & _UNSAID]
        return {each.get("id") or (each.get("class") or "nameless").split()[0]: each for each in pieces}

    @cached_property
    def words(self) -> str:
        """Every visible word of the page, feet apart."""
        return " ".join(words_of(self.root).split())

    @cached_property
    def claims(self) -> list[tuple[str, str]]:
        """The numbers on the page: claim and characters."""
        found = [each for each in self.root.iter() if "data-claim" in each.attrib]
        return [(each.get("data-claim"), "".join(each.itertext())) for each in found]

    def prose(self, element: Any | None = None) -> str:
        """Running text in our own words, one block a line: no tables, no figures, nobody's own words."""
        text = words_of(
            self.root if element is None else element,
            leave_out=lambda each: is_figure(each) or is_own(each) or name_of(each) in ("header", "footer"),
            breaks="\n",
        )
        return re.sub(r"\n\s+", "\n", text).strip()
