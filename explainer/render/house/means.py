"""The means of a house template: a few calls, conditions and loops of ours, and no other part of the language."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING

from explainer.errors import FactError, Fault
from explainer.optics.claims.statements import statement
from explainer.render.house.words import words_faults
from explainer.resources import root

if TYPE_CHECKING:
    from jinja2 import nodes

_DEEPEST = 8
_SIDES = ("right", "left")
_ABOUT_CLAIMS = ("say", "has", "is_", "stated", "caution")
_FLAG = re.compile(r"flag\('(\w+)'\)")


@dataclass(frozen=True, slots=True)
class Means:
    """What may be called, with how many arguments at most (at least one, if any), and what may be named."""

    printed: Mapping[str, int]
    asked: Mapping[str, int]
    around: Mapping[str, int]
    texts: tuple[str, ...] = ()
    values: tuple[str, ...] = ()

    @property
    def listed(self) -> str:
        """All of it, for a message."""
        names = (*self.printed, *self.asked, *self.around, *self.texts, "eyes")
        return f"only {', '.join(names)}"


_PRINTED = {"say": 1, "eye_name": 1, "lens_name": 1}
_ASKED = {"has": 1, "is_": 2, "flag": 1}
TOPIC = Means(printed=_PRINTED, asked=_ASKED, around={"stated": 1, "plain": 0})
SECTION = Means(
    printed={**_PRINTED, "table": 1, "coatings": 0, "phrase": 1},
    asked={**_ASKED, "phrase": 1},
    around={"stated": 1, "plain": 0, "figure": 2, "caution": 2},
    texts=("adjustments", "returns"),
    values=("section_side", "sight_side"),
)


PHRASE = Means(
    printed={**_PRINTED, "usual_signs": 0},
    asked=_ASKED,
    around={"stated": 1, "plain": 0},
    texts=("adjustments", "returns", "recheck_until"),
)


@dataclass(slots=True)
class Reader:
    """Reads the syntax tree of one house template and notes every fault."""

    name: str
    source: list[str]
    means: Means
    faults: list[Fault] = field(default_factory=list)
    texts: list[tuple[int, str]] = field(default_factory=list)

    def read(self, body: list[nodes.Node], depth: int = 0) -> bool:
        """Whether anything is said by these nodes."""
        spoken = [self._statement(node, depth) for node in body]
        return any(spoken)

    def _statement(self, node: nodes.Node, depth: int) -> bool:
        kind = type(node).__name__
        if depth > _DEEPEST:
            self._fault(node, f"more than {_DEEPEST} levels", "fewer conditions inside one another")
            return True
        if kind == "Output":
            spoken = [self._printed(part) for part in node.nodes]  # type: ignore[attr-defined]
            return any(spoken)
        if kind in ("If", "For", "CallBlock"):
            return bool(getattr(self, f"_{kind.lower()}")(node, depth))
        self._fault(node, kind.lower())
        return True

    def _printed(self, node: nodes.Node) -> bool:
        kind = type(node).__name__
        if kind == "TemplateData":
            text = str(node.data)  # type: ignore[attr-defined]
            self.texts.append((node.lineno, text))
            self.faults += words_faults(self.name, node.lineno, text, self.source)
            return any(sign.isalpha() for sign in text)
        if kind == "Call":
            return self._call(node, self.means.printed)
        if not (kind == "Name" and node.name in self.means.texts):  # type: ignore[attr-defined]
            self._fault(node, "a value of its own" if kind in ("Const", "Name", "Concat") else kind.lower())
        return True

    def _if(self, node: nodes.If, depth: int) -> bool:
        self._condition(node.test)
        for body in (node.body, node.else_):
            if (body or body is node.body) and not self.read(body, depth + 1):
                self._fault(node, "an empty part of a condition", "words in each part")
        self.read(list(node.elif_), depth + 1)
        return True

    def _for(self, node: nodes.For, depth: int) -> bool:
        plain = getattr(node.target, "name", "") == "side" and getattr(node.iter, "name", "") == "eyes"
        if not plain or node.else_ or node.recursive:
            self._fault(node, "a loop of its own", "{% for side in eyes %}")
        if node.test:
            self._condition(node.test)
        return self.read(node.body, depth + 1)

    def _callblock(self, node: nodes.CallBlock, depth: int) -> bool:
        self._call(node.call, self.means.around)
        if node.args or node.defaults:
            self._fault(node, "a block with arguments")
        if not self.read(node.body, depth + 1):
            self._fault(node, "a block without words", "the sentence that the block is for")
        return True

    def _condition(self, node: nodes.Node, depth: int = 0) -> None:
        kind = type(node).__name__
        if kind == "Call":
            self._call(node, {**self.means.asked, **{name: 0 for name, n in self.means.printed.items() if n == 0}})
        elif kind in ("And", "Or", "Not") and depth <= _DEEPEST:
            for part in node.iter_child_nodes():
                self._condition(part, depth + 1)
        elif not (kind == "Name" and node.name in self.means.texts):  # type: ignore[attr-defined]
            self._fault(node, "a condition of another kind", "has, is_ and flag, with and, or, not")

    def _call(self, node: nodes.Node, among: Mapping[str, int]) -> bool:
        name = str(getattr(getattr(node, "node", None), "name", ""))
        if name not in among:
            self._fault(node, f"the call of {name}" if name else "a call")
            return True
        arguments = list(node.args)  # type: ignore[attr-defined]
        extra = node.kwargs or node.dyn_args or node.dyn_kwargs  # type: ignore[attr-defined]
        fewest = 1 if name == "figure" else among[name]
        texts = [pattern(argument, ("side", *self.means.values)) for argument in arguments]
        if extra or not fewest <= len(arguments) <= among[name] or None in texts:
            self._fault(node, f"{name} with other arguments", f"{name} with {among[name]} of plain text")
        else:
            self._arguments(node, name, [text for text in texts if text is not None])
        return True

    def _arguments(self, node: nodes.Node, name: str, texts: list[str]) -> None:
        """Claims that the core makes, sides that there are, conditions that are known, captions without a number."""
        if name in _ABOUT_CLAIMS:
            self._claim(node, texts)
        elif name in ("eye_name", "lens_name") and texts[0] not in ("*", *_SIDES):
            self._fault(node, f"{name} of another thing", f"{name}(side)")
        elif name == "flag" and texts[0] not in _flags():
            self._fault(node, "a condition that is not known", f"flag of {', '.join(sorted(_flags()))}")
        elif name == "figure":
            self.faults += words_faults(self.name, node.lineno, "".join(texts[1:]), self.source)

    def _claim(self, node: nodes.Node, texts: list[str]) -> None:
        try:
            found = [statement(claim_id) for claim_id in sides(texts[0])]
        except FactError:
            self._fault(node, f"the claim {texts[0]}", "a claim of the program: see explainer claims ORDER")
            return
        among = found[0].among
        if texts[1:] and among and texts[1] not in among and found[0].unit == "word":
            self._fault(node, f'the value "{texts[1]}"', " or ".join(among))

    def _fault(self, node: nodes.Node, found: str, accepted: str | None = None) -> None:
        self.faults.append(Fault(f"{self.name}, line {node.lineno}", found, accepted or self.means.listed))


def pattern(node: nodes.Node, values: tuple[str, ...] | None = None) -> str | None:
    """An argument as text, with a star where a side stands that is not known yet; None for another kind of value."""
    kind = type(node).__name__
    if kind == "Const":
        return node.value if isinstance(node.value, str) else None  # type: ignore[attr-defined]
    if kind == "Name":
        return "*" if values is None or node.name in values else None  # type: ignore[attr-defined]
    if kind == "Concat":
        parts = [pattern(part, values) for part in node.nodes]  # type: ignore[attr-defined]
        return None if None in parts else "".join(part or "" for part in parts)
    return None


def sides(text: str) -> Iterator[str]:
    """The text for each side, where it has a star; else the text."""
    return (text.replace("*", side) for side in (_SIDES if "*" in text else ("",)))


@cache
def _flags() -> frozenset[str]:
    """Every condition that a template of ours asks for."""
    templates = root("templates").glob("*/*.md")
    return frozenset(flag for path in templates for flag in _FLAG.findall(path.read_text(encoding="utf-8")))
