"""The style sheet inside a drawing, read once and written to the shapes themselves, so that nothing selects later."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator

from explainer.orders.shop.drawing_values import IDLE, PAINT

_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_RULE = re.compile(r"\s*([^{}]{1,2000})\{([^{}]*)\}\s*")
_SELECTOR = re.compile(r"(\*|[a-zA-Z]+)?(?:([.#])([\w-]{1,200}))?")
_MOST_RULES = 500
_MOST_OFTEN = 2_000
Wrong = tuple[str, str]


class BadStyle(Exception):  # noqa: N818  (it says what it is)
    """A style that is not of the closed list; its arguments say what was found and what is accepted."""


def declarations(text: str) -> Iterator[tuple[str, str]]:
    """Names and values of a style, those that change nothing left out."""
    if len(text) > _MOST_OFTEN:
        raise BadStyle("a style beyond measure", "a few plain styles for each shape")
    for part in _COMMENT.sub("", text).split(";"):
        name, colon, value = part.partition(":")
        name, value = name.strip().lower(), value.strip()
        if not name and not colon:
            continue
        if name in PAINT:
            if value != "inherit":
                yield name, paint_value(name, value)
        elif not IDLE.fullmatch(name) or "url" in value.lower() or "\\" in value:
            raise BadStyle(f"the style {name[:20]}", "fill, stroke, opacity and their like alone")


def paint_value(name: str, value: str) -> str:
    """The value, if that style may have it."""
    if not PAINT[name](value):
        raise BadStyle(f"a value of {name} out of the ordinary", "plain colours, numbers in range, parts of its own")
    return value


class Sheet:
    """Rules by what they select: an element, a class or an id, alone or an element with one of them."""

    def __init__(self, text: str) -> None:
        self._rules: dict[tuple[str, str], list[tuple[int, str, list[tuple[str, str]]]]] = defaultdict(list)
        plain, place, count = _COMMENT.sub("", text), 0, 0
        while place < len(plain) and (found := _RULE.match(plain, place)):
            place, count = found.end(), count + 1
            held = list(declarations(found[2]))
            for selector in found[1].split(","):
                self._add(selector.strip(), held, count)
        if plain[place:].strip() or count > _MOST_RULES:
            raise BadStyle("a style sheet that does more than name shapes", "rules such as .a { fill: #123456 }")

    def _add(self, selector: str, held: list[tuple[str, str]], count: int) -> None:
        found = _SELECTOR.fullmatch(selector)
        if not selector or found is None:
            raise BadStyle("a style sheet that does more than name shapes", "rules such as .a { fill: #123456 }")
        element, kind, name = found[1] or "*", found[2] or "", found[3] or ""
        weight = {"": 0, ".": 1, "#": 2}[kind] * 10_000 + (element != "*") * 5_000 + count
        self._rules[kind, name].append((weight, element, held))

    def of(self, element: str, classes: Iterable[str], own_id: str | None) -> dict[str, str]:
        """What the sheet says of one shape; the more a rule names, and the later it stands, the more it counts."""
        keys = [("", ""), *((".", name) for name in classes), *([("#", own_id)] if own_id else [])]
        found = [rule for key in keys for rule in self._rules.get(key, ()) if rule[1] in ("*", element)]
        return {name: value for _, _, held in sorted(found, key=lambda rule: rule[0]) for name, value in held}
