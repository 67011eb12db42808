"""A section's tree as plain text: every fact of the HTML, in its order, with nothing to click and nothing drawn.

A paragraph is one line, which the reader's program wraps. A row of a table becomes a line that names its columns.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from explainer.render.mail.tree import BLOCKS, Node

ISOLATE_LTR, ISOLATE_RTL, ISOLATE_AUTO, END_ISOLATE = "\u2066", "\u2067", "\u2068", "\u2069"
Lines = list[str]


def text_of(node: Node, *, picture: Callable[[str], str], isolate: bool = False) -> str:
    """The plain text. `picture` puts the words round a picture's description; `isolate` guards numbers from turning."""
    writer = _Writer(picture, isolate)
    return "\n\n".join(block for block in writer.blocks(node) if block.strip())


class _Writer:
    def __init__(self, picture: Callable[[str], str], isolate: bool) -> None:
        self.picture, self.isolate = picture, isolate
        self.writers: Mapping[str, Callable[[Node], str]] = {
            "h1": self._heading,
            "h2": self._heading,
            "h3": self._heading,
            "ul": self._list,
            "ol": self._list,
            "table": self._table,
        }

    def blocks(self, node: Node) -> Iterator[str]:
        """One string for each block below the node; loose text between blocks counts as a block."""
        loose = ""
        for child in node.children:
            if isinstance(child, Node) and child.tag in BLOCKS:
                yield tidy(loose)
                loose = ""
                yield from self._block(child)
            else:
                loose += self._inline(child)
        yield tidy(loose)

    def _block(self, node: Node) -> Iterator[str]:
        if node.tag in self.writers:
            yield self.writers[node.tag](node)
        elif "caution" in node.classes:
            yield "\n".join(filter(None, self.blocks(node)))  # the signal word stands over its sentence
        elif any(isinstance(child, Node) and child.tag in BLOCKS for child in node.children):
            yield from self.blocks(node)
        else:
            yield tidy("".join(map(self._inline, node.children)))

    def _heading(self, node: Node) -> str:
        words = tidy("".join(map(self._inline, node.children)))
        rule = {"h1": "=", "h2": "-"}.get(node.tag)
        return f"{words}\n{rule * min(len(words), 60)}" if rule else words

    def _list(self, node: Node) -> str:
        items = [child for child in node.children if isinstance(child, Node)]
        marks = [f"{place}. " if node.tag == "ol" else "- " for place in range(1, len(items) + 1)]
        return "\n".join(
            mark + " ".join(filter(None, self.blocks(item))) for mark, item in zip(marks, items, strict=True)
        )

    def _table(self, node: Node) -> str:
        rows = [each for each in node.walk() if each.tag == "tr"]
        heads = [self._cell(cell) for cell in cells(rows[0])]
        lines = [self._cell(each) for each in node.walk() if each.tag == "caption"]
        return "\n".join([*lines, *(self._row(heads, row) for row in rows[1:])])

    def _row(self, heads: list[str], row: Node) -> str:
        name, *values = [self._cell(cell) for cell in cells(row)]
        said = (f"{head}: {value}" for head, value in zip(heads[1:], values, strict=True) if value)
        return f"- {name}. {'; '.join(said)}"

    def _cell(self, node: Node) -> str:
        return tidy("".join(map(self._inline, node.children)))

    def _inline(self, child: Node | str) -> str:
        if isinstance(child, str):
            return child.replace("\n", " ")
        if child.tag == "br":
            return "\n"
        if child.tag == "img":
            return self.picture(child.attributes.get("alt", "")) if child.attributes.get("alt") else ""
        inner = "".join(map(self._inline, child.children))
        if child.tag in ("bdi", "span") and self.isolate:
            return f"{isolate_of(child.attributes.get('dir', ''))}{inner}{END_ISOLATE}"
        return inner


def isolate_of(direction: str) -> str:
    """The sign that begins an isolate of that direction; of the text's own when there is none."""
    return {"ltr": ISOLATE_LTR, "rtl": ISOLATE_RTL}.get(direction, ISOLATE_AUTO)


def cells(row: Node) -> list[Node]:
    """The cells of a table row; one that spans columns stands for each of them."""
    own = [child for child in row.children if isinstance(child, Node) and child.tag in ("td", "th")]
    return [cell for cell in own for _ in range(int(cell.attributes.get("colspan", 1)))]


def tidy(text: str) -> str:
    """Blanks closed up on every line, empty lines at the ends gone."""
    return "\n".join(" ".join(line.split()) for line in text.split("\n")).strip()
