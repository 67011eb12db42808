"""Reads a draft as a stranger would: the strict parser of the standard library, and a reader of HTML of our own."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from email import message_from_bytes, policy
from email.message import EmailMessage
from html.parser import HTMLParser
from typing import cast

STRICT = policy.SMTP.clone(raise_on_defect=True)
ISOLATES = dict.fromkeys(map(ord, "\u2066\u2067\u2068\u2069"))
NUMBER = re.compile(r"[+\u2212-]?\d+(?:[.,]\d+)*")
BLOCKS = {"p", "li", "h1", "h2", "h3", "caption", "td", "th", "img"}


def parsed(draft: bytes) -> EmailMessage:
    """The message, any defect an error."""
    return cast(EmailMessage, message_from_bytes(draft, policy=STRICT))


def part(message: EmailMessage, kind: str) -> str:
    """The text of the plain or the HTML part."""
    found = message.get_body((kind,))
    assert found is not None
    return str(found.get_content()).replace("\r\n", "\n")


def numbers(text: str) -> list[str]:
    """Every number in a text, without its sign where it has none that counts."""
    return [match.lstrip("-") for match in NUMBER.findall(text.translate(ISOLATES))]


@dataclass
class Element:
    """An element met on the way: its tag and attributes, and the tags round it."""

    tag: str
    attributes: dict[str, str]
    inside: tuple[str, ...]
    words: str = ""


@dataclass
class Page(HTMLParser):
    """All elements of a page in order; `words` of those that hold text are filled when they close."""

    elements: list[Element] = field(default_factory=list)
    open: list[Element] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {k: v or "" for k, v in attrs}, tuple(each.tag for each in self.open))
        self.elements.append(element)
        if tag == "img":
            element.words = element.attributes.get("alt", "")
        if tag == "br":
            self.handle_data(" ")
        if tag not in ("img", "br", "meta", "link", "hr"):
            self.open.append(element)

    def handle_endtag(self, tag: str) -> None:
        assert self.open, f"</{tag}> closes nothing"
        assert self.open.pop().tag == tag, f"</{tag}> out of turn"
        if tag in BLOCKS:
            self.handle_data(" ")

    def handle_data(self, data: str) -> None:
        for element in self.open:
            element.words += data

    def all(self, *tags: str) -> list[Element]:
        return [element for element in self.elements if element.tag in tags]


def page(html: str) -> Page:
    """The page, every tag closed."""
    found = Page()
    found.feed(html)
    found.close()
    assert not found.open
    return found


def one_line(text: str) -> str:
    return " ".join(text.translate(ISOLATES).split())


def reading_order(html: str) -> list[str]:
    """The words of each block as they are read, the heads of tables apart (in the text they stand in every row)."""
    return [
        words
        for element in page(html).elements
        if element.tag in BLOCKS and "thead" not in element.inside and (words := one_line(element.words))
    ]
