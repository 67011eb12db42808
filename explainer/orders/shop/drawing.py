"""An SVG drawing from outside: shapes and nothing else. Whatever runs, fetches, moves or multiplies is refused."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from xml.parsers import expat

_SVG = "http://www.w3.org/2000/svg"
_LINKING = ("use", "linearGradient", "radialGradient")
_LARGEST = 500_000
_MOST = 10_000
_DEEPEST = 60
_SHAPES = frozenset(
    "svg g defs symbol use title desc metadata style path rect circle ellipse line polyline polygon linearGradient "
    "radialGradient stop clipPath".split()
)
_SIZE = re.compile(r"\s*(\d{1,4}(?:\.\d{1,9})?)\s*(?:px|pt|pc|mm|cm|in|q)?\s*", re.IGNORECASE)
_ADDRESS = re.compile(r"url\s*\(\s*([\"']?)(?!#)", re.IGNORECASE)
_SCHEME = re.compile(r"(?:javascript|data|https?|file|ftp):|expression\s*\(", re.IGNORECASE)
_LOCAL = re.compile(r"url\s*\(\s*[\"']?#([^\"')\s]*)", re.IGNORECASE)
Wrong = tuple[str, str]


class _Refused(Exception):  # noqa: N818  (raised to leave the parser)
    def __init__(self, found: str, accepted: str) -> None:
        self.wrong = (found, accepted)


@dataclass(slots=True)
class _Part:
    """An element with an id: how many elements are in it, and which others it draws, each as often as it does."""

    size: int = 0
    draws: list[str] = field(default_factory=list)


@dataclass(slots=True)
class _Reader:
    """Takes a drawing in, element by element; raises at the first thing that no logo needs."""

    count: int = 0
    open: list[str] = field(default_factory=list)
    inside: list[_Part] = field(default_factory=list)
    ended: list[bool] = field(default_factory=list)
    parts: dict[str, _Part] = field(default_factory=dict)
    whole: _Part = field(default_factory=_Part)
    style: list[str] = field(default_factory=list)

    def start(self, name: str, attributes: Mapping[str, str]) -> None:
        self.count += 1
        space, _, local = name.rpartition(" ")
        if self.count == 1 and (space, local) != (_SVG, "svg"):
            raise _Refused("no SVG drawing", "an SVG drawing with its namespace")
        if self.count > _MOST or len(self.open) >= _DEEPEST:
            raise _Refused("a drawing beyond measure", f"at most {_MOST} elements, {_DEEPEST} deep")
        if space == _SVG and local not in _SHAPES:
            raise _Refused(f"the element {local[:20]}", "shapes alone, letters as outlines")
        if self.count == 1:
            _check_size(attributes)
        self._count(attributes)
        for key, value in attributes.items():
            self._attribute(local if space == _SVG else "", key, value)
        self.open.append(local)

    def end(self, _: str) -> None:
        if self.open.pop() == "style":
            if "@" in (style := "".join(self.style)):
                raise _Refused("a style sheet with rules that begin with @", "plain styles")
            self._css(style)
            self.style.clear()
        if self.ended.pop():
            self.inside.pop()

    def text(self, text: str) -> None:
        if self.open and self.open[-1] == "style":
            self.style.append(text)

    def _count(self, attributes: Mapping[str, str]) -> None:
        own = attributes.get("id")
        if own is not None:
            if own in self.parts:
                raise _Refused("one id twice", "each id once")
            self.parts[own] = _Part()
            self.inside.append(self.parts[own])
        self.ended.append(own is not None)
        for part in (self.whole, *self.inside):
            part.size += 1

    def _attribute(self, element: str, name: str, value: str) -> None:
        space, _, local = name.rpartition(" ")
        key = local.lower()
        if space and key not in ("href", "base"):
            return  # a drawing program's own notes; nothing draws by them
        if key.startswith("on"):
            raise _Refused(f"the attribute {key[:20]}", "a drawing without scripts")
        if key in ("href", "src", "base"):
            if element not in _LINKING or not value.strip().startswith("#"):
                raise _Refused("an address", "a drawing that uses parts of its own alone: #name")
            self._draws(value.strip()[1:])
        self._css(value)

    def _css(self, value: str) -> None:
        """A style, or any attribute: nothing from outside, nothing written so that it cannot be read."""
        if "\\" in value:
            raise _Refused("a backslash in a style or an attribute", "plain styles")
        if _ADDRESS.search(value) or _SCHEME.search(value):
            raise _Refused("an address", "a drawing that uses parts of its own alone: #name")
        for name in _LOCAL.findall(value):
            self._draws(name)

    def _draws(self, name: str) -> None:
        for part in (self.whole, *self.inside):
            part.draws.append(name)


def drawing_fault(body: bytes) -> Wrong | None:
    """What is wrong with an SVG file, and what is accepted; None when it is a plain drawing."""
    if len(body) > _LARGEST:
        return f"a drawing of {len(body)} bytes", f"at most {_LARGEST} bytes"
    reader = _Reader()
    try:
        _parser(reader).Parse(body, True)
        _measure(reader)
    except _Refused as refused:
        return refused.wrong
    except (expat.ExpatError, ValueError, LookupError, UnicodeError):
        return "no SVG drawing that can be read", "an SVG drawing: well-formed XML"
    return None


def _parser(reader: _Reader) -> expat.XMLParserType:
    def refused(*_: object) -> None:
        raise _Refused("entities or processing instructions", "a drawing without them")

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


def _check_size(attributes: Mapping[str, str]) -> None:
    """A drawing says how large it is: by width and height, or by its view box."""
    sides = [attributes[name] for name in ("width", "height") if name in attributes]
    box = attributes.get("viewBox", "").replace(",", " ").split()
    sizes = [_SIZE.fullmatch(text) for text in sides if not text.strip().endswith("%")]
    view = [_SIZE.fullmatch(text) for text in box[2:]]
    given = [found for found in (*sizes, *view) if found and float(found[1]) > 0]
    if len(given) < len(sizes) + len(view) or (len(box) != 4 and len(sizes) < 2):
        raise _Refused("a drawing without a size", "width and height, or a viewBox, above zero and below 10000")


def _measure(reader: _Reader) -> None:
    """How many elements are drawn when every use is followed; a part that draws itself is refused."""
    sizes: dict[str, int] = {}

    def drawn(part: _Part, above: tuple[str, ...]) -> int:
        if len(above) > _DEEPEST:
            raise _Refused("uses inside uses beyond measure", f"at most {_DEEPEST} deep")
        total = part.size
        for name in part.draws:
            if name in above:
                raise _Refused("a part that draws itself", "parts that do not")
            if name in reader.parts and name not in sizes:
                sizes[name] = drawn(reader.parts[name], (*above, name))
            total += sizes.get(name, 0)
            if total > _MOST:
                raise _Refused(f"more than {_MOST} shapes when every use is drawn", "fewer")
        return total

    drawn(reader.whole, ())
