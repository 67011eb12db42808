"""An SVG drawing from outside → a clean copy of it: plain shapes and paint out of a closed list, and nothing else.

The engine never sees the file itself. What shows nothing (notes, a drawing program's own marks) is dropped, what would
run, fetch, move, repeat or select is refused, and so is what would draw more than a logo needs.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from xml.parsers import expat
from xml.sax.saxutils import quoteattr

from explainer.orders.shop.drawing_styles import BadStyle, Sheet, declarations, paint_value
from explainer.orders.shop.drawing_values import ELEMENTS, EVERYWHERE, IDLE, PAINT, SILENT, own_part

_SVG = "http://www.w3.org/2000/svg"
_XML = "http://www.w3.org/XML/1998/namespace"
_LARGEST = 500_000
_MOST = 10_000
_DEEPEST = 60
_LETTERS_A_SHAPE = 200
_LARGEST_SIDE = 10_000
_IGNORED = ("version", "baseProfile", "pathLength")
_SHAPES = "shapes alone, letters as outlines"
Wrong = tuple[str, str]


@dataclass(slots=True)
class _Node:
    """One element of the copy."""

    name: str
    values: dict[str, str] = field(default_factory=dict)
    style: dict[str, str] = field(default_factory=dict)
    classes: tuple[str, ...] = ()
    children: list[_Node] = field(default_factory=list)

    @property
    def draws(self) -> Iterator[str]:
        """The parts that this element draws, shades or clips by."""
        for value in self.values.values():
            if (name := own_part(value)) is not None:
                yield name
        if self.name != "svg" and "href" in self.values:
            yield self.values["href"]

    @property
    def size(self) -> int:
        """How many shapes it counts for: a long path as many."""
        return 1 + len(self.values.get("d", "") + self.values.get("points", "")) // _LETTERS_A_SHAPE


@dataclass(slots=True)
class _Reader:
    """Takes a drawing in, element by element; raises at the first thing that no logo needs."""

    count: int = 0
    depth: int = 0
    silent: int = 0
    open: list[_Node] = field(default_factory=list)
    root: _Node | None = None
    sheet: list[str] = field(default_factory=list)
    in_style: bool = False

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        self.count += 1
        self.depth += 1
        space, _, name = tag.rpartition(" ")
        if self.count == 1 and (space, name) != (_SVG, "svg"):
            raise BadStyle("no SVG drawing", "an SVG drawing with its namespace")
        if self.count > _MOST or self.depth > _DEEPEST:
            raise BadStyle("a drawing beyond measure", f"at most {_MOST} elements, {_DEEPEST} deep")
        if self.silent or space != _SVG or name in SILENT:
            self.silent += 1
        elif name == "style":
            self.in_style = True
        elif name not in ELEMENTS or self.in_style:
            raise BadStyle(f"the element {name[:20]}", _SHAPES)
        else:
            self._add(_node(name, attributes))

    def _add(self, node: _Node) -> None:
        if self.root is None:
            self.root = node
        else:
            self.open[-1].children.append(node)
        self.open.append(node)

    def end(self, _: str) -> None:
        self.depth -= 1
        if self.silent:
            self.silent -= 1
        elif self.in_style:
            self.in_style = False
        else:
            self.open.pop()

    def text(self, text: str) -> None:
        if self.in_style and not self.silent:
            self.sheet.append(text)


def clean_drawing(body: bytes) -> bytes | Wrong:
    """The copy of an SVG file that may be drawn; or what is wrong with the file, and what is accepted."""
    if len(body) > _LARGEST:
        return f"a drawing of {len(body)} bytes", f"at most {_LARGEST} bytes"
    reader = _Reader()
    try:
        _parser(reader).Parse(body, True)
        if reader.root is None:
            return "no SVG drawing", "an SVG drawing with its namespace"
        sheet = Sheet("".join(reader.sheet))
        for node in _every(reader.root):
            below = sheet.of(node.name, node.classes, node.values.get("id"))
            node.values.update({**below, **node.style})
        _check_size(reader.root)
        _measure(reader.root)
        return "".join(_written(reader.root)).encode()
    except BadStyle as refused:
        found, accepted = refused.args
        return found, accepted
    except (expat.ExpatError, ValueError, LookupError, UnicodeError):
        return "no SVG drawing that can be read", "an SVG drawing: well-formed XML"


def drawing_fault(body: bytes) -> Wrong | None:
    """What is wrong with an SVG file, and what is accepted; None when it is a plain drawing."""
    copy = clean_drawing(body)
    return copy if isinstance(copy, tuple) else None


def _node(name: str, attributes: Mapping[str, str]) -> _Node:
    node = _Node(name)
    for key, value in attributes.items():
        space, _, local = key.rpartition(" ")
        if local == "href":
            node.values["href"] = _own_name(name, value.strip())
        elif space == _XML and local not in ("space", "lang"):
            raise BadStyle(f"the attribute xml:{local[:20]}", _SHAPES)
        elif not space:  # others are a drawing program's own notes, which are not copied
            _take(node, local, value.strip())
    return node


def _own_name(element: str, value: str) -> str:
    """The part that a use or a shade refers to, without its mark."""
    if "href" not in ELEMENTS[element] or not value.startswith("#") or not ELEMENTS[element]["href"](value[1:]):
        raise BadStyle("an address", "a drawing that uses parts of its own alone: #name")
    return value[1:]


def _take(node: _Node, name: str, value: str) -> None:
    """One attribute into the copy, if it is of the closed list."""
    own = ELEMENTS[node.name].get(name) or EVERYWHERE.get(name)
    if name == "class":
        node.classes = tuple(value.split()[:20])
    elif name == "style":
        node.style = dict(declarations(value))
    elif name in PAINT:
        if value != "inherit":
            node.values[name] = paint_value(name, value)
    elif own is not None:
        if not own(value):
            raise BadStyle(f"a value of {name} in {node.name} out of the ordinary", "numbers in range, plain words")
        if name not in _IGNORED:
            node.values[name] = value
    elif not (IDLE.fullmatch(name) or name.startswith("data-") or name in ("lang", "tabindex", "role")):
        raise BadStyle(f"the attribute {name[:20]} of {node.name}", _SHAPES)


def _parser(reader: _Reader) -> expat.XMLParserType:
    def refused(*_: object) -> None:
        raise BadStyle("entities or processing instructions", "a drawing without them")

    def doctype(name: str, system: str | None, public: str | None, has_inner: int) -> None:
        if has_inner:  # the mere name of the type does no harm: nothing fetches it
            refused()

    parser = expat.ParserCreate(namespace_separator=" ")
    parser.buffer_text = True
    parser.StartElementHandler, parser.EndElementHandler = reader.start, reader.end
    parser.CharacterDataHandler = reader.text
    parser.StartDoctypeDeclHandler = doctype
    parser.EntityDeclHandler = parser.SkippedEntityHandler = parser.ProcessingInstructionHandler = refused
    return parser


def _every(node: _Node) -> Iterator[_Node]:
    yield node
    for child in node.children:
        yield from _every(child)


def _check_size(root: _Node) -> None:
    """A drawing says how large it is, by width and height or by its view box; and its dashes can be told apart."""
    box = [float(part) for part in root.values.get("viewBox", "").replace(",", " ").split()]
    sides = [root.values[name] for name in ("width", "height") if not root.values.get(name, "%").endswith("%")]
    given = [*box[2:], *(float(side.rstrip("pxtcmin")) for side in sides)]
    if len(box) not in (0, 4) or (not box and len(sides) < 2) or not all(0 < side < _LARGEST_SIDE for side in given):
        raise BadStyle("a drawing without a size", "width and height, or a viewBox, above zero and below 10000")
    for node in _every(root):
        dashes = node.values.get("stroke-dasharray", "none")
        if dashes != "none" and sum(map(float, dashes.replace(",", " ").split())) < max(given) / 2000:
            raise BadStyle("dashes too fine to be seen", "dashes of a two-thousandth of the drawing or more")


def _measure(root: _Node) -> None:
    """How many shapes are drawn when every use is followed; a part that draws itself is refused."""
    parts: dict[str, _Node] = {}
    for node in _every(root):
        own = node.values.get("id")
        if own is not None and own in parts:
            raise BadStyle("one id twice", "each id once")
        if own is not None:
            parts[own] = node
    sizes: dict[str, int] = {}

    def drawn(top: _Node, above: tuple[str, ...]) -> int:
        if len(above) > _DEEPEST:
            raise BadStyle("uses inside uses beyond measure", f"at most {_DEEPEST} deep")
        total = 0
        for node in _every(top):
            total += node.size
            for name in node.draws:
                if name in above:
                    raise BadStyle("a part that draws itself", "parts that do not")
                if name in parts and name not in sizes:
                    sizes[name] = drawn(parts[name], (*above, name))
                total += sizes.get(name, 0)
            if total > _MOST:
                raise BadStyle(f"more than {_MOST} shapes when every use is drawn", "fewer")
        return total

    drawn(root, ())


def _written(node: _Node, top: bool = True) -> Iterator[str]:
    """The copy as XML."""
    yield f'<svg xmlns="{_SVG}"' if top else f"<{node.name}"
    for name, value in node.values.items():
        yield f" {name}={quoteattr('#' + value if name == 'href' else value)}"
    yield ">"
    for child in node.children:
        yield from _written(child, top=False)
    yield f"</{node.name}>"
