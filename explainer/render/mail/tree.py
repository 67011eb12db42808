"""The HTML of a section as a small tree, so that every form of a mail is written from the same thing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

from explainer.errors import RenderError

BLOCKS = frozenset({"p", "h1", "h2", "h3", "ul", "ol", "table", "figure", "figcaption", "aside", "div", "section"})
_VOID = frozenset({"br", "img", "hr"})


@dataclass(slots=True)
class Node:
    """One element: its tag, attributes, and children, which are elements or text."""

    tag: str
    attributes: dict[str, str] = field(default_factory=dict)
    children: list[Node | str] = field(default_factory=list)

    @property
    def classes(self) -> tuple[str, ...]:
        """The element's classes."""
        return tuple(self.attributes.get("class", "").split())

    def walk(self) -> Iterator[Node]:
        """The element and all below it, in reading order."""
        yield self
        for child in self.children:
            if isinstance(child, Node):
                yield from child.walk()

    def words(self) -> str:
        """All text below, on one line."""
        return " ".join("".join(_texts(self)).split())


def parse(html: str) -> Node:
    """The tree of a fragment, under a nameless root; RenderError when a tag is left open or closed twice."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    if len(reader.open) != 1:
        raise RenderError(f"a section leaves <{reader.open[-1].tag}> open")
    return _unwrapped(reader.open[0])


def _unwrapped(node: Node) -> Node:
    """The same with blocks lifted out of paragraphs, which may hold none; what is left empty goes."""
    children: list[Node | str] = []
    for child in node.children:
        if isinstance(child, str):
            children.append(child)
        elif child.tag == "p":
            children += _pieces(child)
        elif child.tag in ("li", "ul", "ol") and not child.words():
            continue  # an item whose sentence does not hold for this order
        else:
            children.append(_unwrapped(child))
    return Node(node.tag, node.attributes, children)


def _pieces(paragraph: Node) -> list[Node]:
    """A paragraph, or the paragraphs and blocks that it comes to."""
    found: list[Node] = []
    for child in paragraph.children:
        if isinstance(child, Node) and child.tag in BLOCKS:
            found.append(_unwrapped(child))
        elif found and found[-1].tag == "p":
            found[-1].children.append(child)
        else:
            found.append(Node("p", paragraph.attributes, [child]))
    return [
        each for each in found if each.tag != "p" or each.words() or any(below.tag == "img" for below in each.walk())
    ]


def _texts(node: Node) -> Iterator[str]:
    for child in node.children:
        if isinstance(child, str):
            yield child
        else:
            yield from _texts(child)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open = [Node("")]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        node = Node(tag, {name: value or "" for name, value in attrs})
        self.open[-1].children.append(node)
        if tag not in _VOID:
            self.open.append(node)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open[-1].children.append(Node(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        if self.open[-1].tag != tag:
            raise RenderError(f"a section closes <{tag}> where <{self.open[-1].tag}> is open")
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].children.append(data)
