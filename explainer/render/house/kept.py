"""What of our section must stand in a workshop's words for it: everything that rests on a claim.

Cautions, sentences on claims, values, figures and tables are found in both syntax trees and compared. A workshop may
word them in its own way and order, but may not leave one out, nor put a condition round it that our section has not.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import TYPE_CHECKING

from explainer.errors import Fault
from explainer.render.house.means import pattern, sides

if TYPE_CHECKING:
    from jinja2 import nodes

_KEPT = frozenset(
    {"caution", "stated", "say", "is_", "figure", "table", "outside", "unchecked", "coatings", "usual_signs"}
)
_ONCE = ("caution", "stated")
_WITH_VALUE = ("caution", "is_")  # the signal word and the answer belong to what must stand


@dataclass(frozen=True, slots=True)
class Use:
    """One call in a template, with the conditions round it."""

    name: str
    texts: tuple[str, ...]
    line: int
    conditions: tuple[nodes.Node, ...]
    pictured: bool = False

    def __str__(self) -> str:
        return f"{self.name}({', '.join(repr(text) for text in self.texts)})"

    def covers(self, name: str, texts: tuple[str, ...]) -> bool:
        """Whether this call is that one, or one of the kind."""
        return (
            self.name == name
            and len(self.texts) == len(texts)
            and all(fnmatchcase(text, own) for text, own in zip(texts, self.texts, strict=True))
        )


def uses(
    body: Iterable[nodes.Node], conditions: tuple[nodes.Node, ...] = (), *, pictured: bool = False
) -> Iterator[Use]:
    """Every call of ours in these nodes that rests on a claim; `pictured` in the description of a figure, unseen."""
    for node in body:
        yield from _uses(node, conditions, pictured)


def _uses(node: nodes.Node, conditions: tuple[nodes.Node, ...], pictured: bool) -> Iterator[Use]:
    from jinja2 import nodes

    if isinstance(node, nodes.CallBlock) and getattr(node.call.node, "name", "") == "figure":
        yield from _uses(node.call, conditions, pictured)
        yield from uses(node.body, conditions, pictured=True)
        return

    if isinstance(node, nodes.If):
        alone = isinstance(node.test, nodes.Call)
        yield from _uses(node.test, conditions if alone else (*conditions, node.test), pictured)
        yield from uses([*node.body, *node.elif_, *node.else_], (*conditions, node.test), pictured=pictured)
        return
    if isinstance(node, nodes.For) and node.test is not None:
        yield from uses(node.body, (*conditions, node.test), pictured=pictured)
        return
    if isinstance(node, nodes.Call) and isinstance(node.node, nodes.Name) and node.node.name in _KEPT:
        name = node.node.name
        texts = [pattern(argument) or "*" for argument in node.args[: 2 if name in _WITH_VALUE else 1]]
        yield Use(name, tuple(texts), node.lineno, conditions, pictured)
    yield from uses(node.iter_child_nodes(), conditions, pictured=pictured)


def kept_faults(
    file: str, theirs: list[nodes.Node], ours: list[nodes.Node], section: list[nodes.Node], path: str
) -> Iterator[Fault]:
    """A fault for everything in `ours` that `theirs` leaves out or makes to depend on a condition of its own.

    `section` is the whole of our section; its conditions may be used.
    """
    known = {str(atom) for use in _tests(section) for atom in _atoms(use)}
    written = list(uses(theirs))
    needs = sorted(uses(ours), key=lambda use: not use.pictured)  # of two alike the visible one counts
    for need in {(use.name, use.texts): use for use in needs}.values():
        for texts in _for_each_side(need.texts):
            named = [use for use in written if use.covers(need.name, texts)]
            found = [use for use in named if need.pictured or not use.pictured]
            if not found:
                unseen = " but in the description of a figure" if named else ""
                where = f"visible words for it, as in line {need.line} of {path}"
                yield Fault(f"{file}, line {named[0].line if named else 1}", f"nothing with {need}{unseen}", where)
                break
            if all(_is_held_back(use, known) for use in found):
                wanted = f"{need} without it, as in line {need.line} of {path}"
                yield Fault(f"{file}, line {found[0].line}", f"a condition of its own round {need}", wanted)
                break
    yield from _not_ours(file, written, section, path)
    yield from _twice(file, written)


def _not_ours(file: str, written: list[Use], section: list[nodes.Node], path: str) -> Iterator[Fault]:
    """Figures, tables and cautions that our section has not: there is no drawing, or no claim, for them here."""
    ours = {str(use) for use in uses(section)}
    for use in written:
        if use.name in ("figure", "table", "caution") and str(use) not in ours:
            yield Fault(f"{file}, line {use.line}", str(use), f"one that stands in {path}")


def _twice(file: str, written: list[Use]) -> Iterator[Fault]:
    """What is said a second time without any condition: the second sentence could take the first one back."""
    seen: set[str] = set()
    for use in written:
        if use.name in _ONCE and not use.conditions and not use.pictured:
            if str(use) in seen:
                yield Fault(f"{file}, line {use.line}", f"{use} a second time", "each of them once")
            seen.add(str(use))


def _is_held_back(use: Use, known: set[str]) -> bool:
    """Whether a condition of the workshop's own decides on it; of a caution, any condition."""
    if use.name == "caution":
        return bool(use.conditions)
    return any(str(atom) not in known and not _is_has(atom) for test in use.conditions for atom in _atoms(test))


def _tests(body: Iterable[nodes.Node]) -> Iterator[nodes.Node]:
    from jinja2 import nodes

    for node in body:
        if isinstance(node, nodes.If | nodes.For) and getattr(node, "test", None) is not None:
            yield node.test  # type: ignore[misc]
        yield from _tests(node.iter_child_nodes())


def _atoms(test: nodes.Node) -> Iterator[nodes.Node]:
    """The single questions that a condition is made of."""
    from jinja2 import nodes

    if isinstance(test, nodes.And | nodes.Or | nodes.Not):
        for part in test.iter_child_nodes():
            yield from _atoms(part)
    else:
        yield test


def _is_has(node: nodes.Node) -> bool:
    from jinja2 import nodes

    return isinstance(node, nodes.Call) and isinstance(node.node, nodes.Name) and node.node.name == "has"


def _for_each_side(texts: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """The texts for the right and for the left side, where they do not name one."""
    if not texts:
        return iter([()])
    return ((first, *texts[1:]) for first in sides(texts[0]))
