"""A section's tree as Markdown, for help desks that take it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from explainer.render.mail.text import cells, tidy
from explainer.render.mail.tree import BLOCKS, Node

_SPECIAL = re.compile(r"([\\`*_\[\]<>|#])")
_LEADING = re.compile(r"^(\d+)([.)])|^([+-])(?=\s)", re.MULTILINE)


def markdown_of(node: Node, *, picture: Callable[[str], str]) -> str:
    """The Markdown. Signs that Markdown would read are escaped."""
    return "\n\n".join(block for block in _blocks(node, picture) if block.strip())


def _blocks(node: Node, picture: Callable[[str], str]) -> Iterator[str]:
    loose: list[Node | str] = []
    for child in node.children:
        if isinstance(child, Node) and child.tag in BLOCKS:
            yield _line(loose, picture)
            loose = []
            yield from _block(child, picture)
        else:
            loose.append(child)
    yield _line(loose, picture)


def _block(node: Node, picture: Callable[[str], str]) -> Iterator[str]:
    if node.tag in ("h1", "h2", "h3"):
        yield f"{'#' * int(node.tag[1])} {_line(node.children, picture)}"
    elif node.tag in ("ul", "ol"):
        items = [child for child in node.children if isinstance(child, Node)]
        marks = [f"{place}. " if node.tag == "ol" else "- " for place in range(1, len(items) + 1)]
        yield "\n".join(
            mark + " ".join(filter(None, _blocks(item, picture))) for mark, item in zip(marks, items, strict=True)
        )
    elif node.tag == "table":
        yield from _table(node, picture)
    else:
        yield from _blocks(node, picture)


def _table(node: Node, picture: Callable[[str], str]) -> Iterator[str]:
    yield from (f"**{_line(each.children, picture)}**" for each in node.walk() if each.tag == "caption")
    rows = [cells(each) for each in node.walk() if each.tag == "tr"]
    written = ["| " + " | ".join(_line(cell.children, picture) for cell in row) + " |" for row in rows]
    yield "\n".join([written[0], "|" + " --- |" * len(rows[0]), *written[1:]])


def _line(children: list[Node | str], picture: Callable[[str], str]) -> str:
    text = tidy("".join(_inline(child, picture) for child in children))
    return _LEADING.sub(lambda found: f"{found[1]}\\{found[2]}" if found[1] else f"\\{found[3]}", text)


def _inline(child: Node | str, picture: Callable[[str], str]) -> str:
    if isinstance(child, str):
        return _SPECIAL.sub(r"\\\1", child.replace("\n", " "))
    if child.tag == "br":
        return "  \n"
    if child.tag == "img":
        return _SPECIAL.sub(r"\\\1", picture(child.attributes["alt"])) if child.attributes.get("alt") else ""
    inner = "".join(_inline(each, picture) for each in child.children)
    return f"**{inner.strip()}**" if child.tag == "strong" and inner.strip() else inner
