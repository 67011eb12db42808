"""A workshop's own topics: Markdown templates of the shop, run in a sandbox, held to the rules of the house.

A file `topics/<name>.md` in the folder of house wording is a topic. It may use claims (`say`, `has`, `is_`, `stated`,
`plain`) but may type no digit and no HTML, since then a number could stand there that no claim holds. Its first heading
is its title. A comment `{# terms: voucher, gift card #}` names words by which customers' messages are matched to it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from explainer.errors import Fault, InputError
from explainer.orders import Workshop
from explainer.topics.catalogue import Topic, topics

if TYPE_CHECKING:
    from jinja2.sandbox import ImmutableSandboxedEnvironment

_LARGEST = 20_000
_NAME = re.compile(r"[a-z][a-z0-9-]{0,39}")
_TEMPLATE_MARKS = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", re.DOTALL)
_LIST_NUMBER = re.compile(r"^\d{1,2}\. ", re.MULTILINE)
_TITLE = re.compile(r"^#+\s+(.+)$", re.MULTILINE)
_TERMS = re.compile(r"\{#\s*terms:(.*?)#\}", re.DOTALL)
_ENTITY = re.compile(r"&#?\w+;")
_MEANS = frozenset(
    "Template Output TemplateData Name Call Const If For CallBlock Not And Or Compare Operand Concat Keyword".split()
)
WEIGHT = 4.0
GIVEN = ("say", "has", "is_", "stated", "plain", "flag", "eyes", "eye_name", "lens_name")


@dataclass(frozen=True, slots=True)
class HouseTopic:
    """One topic of the workshop: how it is listed, its words, and the terms that point to it."""

    topic: Topic
    source: str
    terms: Mapping[str, float]


def house_topics(workshop: Workshop | None) -> dict[str, HouseTopic]:
    """The workshop's topics by name; InputError with file and line for everything that is against the rules."""
    folder = workshop.house_wording / "topics" if workshop and workshop.house_wording else None
    if folder is None or not folder.is_dir():
        return {}
    faults: list[Fault] = []
    found = {path.stem: _read(path, faults) for path in sorted(folder.glob("*.md"))}
    if faults:
        raise InputError(str(folder), faults)
    return found


def speak_house(source: str, names: Mapping[str, object]) -> str:
    """The topic's Markdown with claims in it."""
    from jinja2 import TemplateError

    try:
        return _sandbox().from_string(source).render({name: names[name] for name in GIVEN})
    except TemplateError as error:
        raise InputError("house wording", [Fault("topic", str(error), f"only {', '.join(GIVEN)}")]) from None


def _read(path: Path, faults: list[Fault]) -> HouseTopic:
    source = path.read_text(encoding="utf-8")
    if not _NAME.fullmatch(path.stem):
        faults.append(Fault(path.name, "a name of other signs", "small letters, digits and dashes, ending in .md"))
    elif path.stem in topics():
        faults.append(Fault(path.name, "the name of a topic of the program", "a name of its own"))
    if len(source) > _LARGEST:
        faults.append(Fault(path.name, f"{len(source)} characters", f"at most {_LARGEST}"))
    _against_rules(path.name, source, faults)
    title = _TITLE.search(_TEMPLATE_MARKS.sub("", source))
    said = title[1].strip() if title else path.stem
    words = [word.strip() for terms in _TERMS.findall(source) for word in terms.split(",") if word.strip()]
    topic = Topic(name=path.stem, template=f"house/{path.stem}", says=said, questions=())
    return HouseTopic(topic, source, dict.fromkeys(words, WEIGHT))


def _against_rules(name: str, source: str, faults: list[Fault]) -> None:
    """A fault for every digit, mark of HTML, and means of the template language that is not given."""
    from jinja2 import TemplateSyntaxError, nodes

    try:
        tree = _sandbox().parse(source)
    except TemplateSyntaxError as error:
        faults.append(Fault(f"{name}, line {error.lineno}", str(error.message), "a template"))
        return
    for node in tree.find_all(nodes.Node):
        if isinstance(node, nodes.TemplateData):
            faults += _typed(name, node.lineno, node.data)
        elif type(node).__name__ not in _MEANS or (isinstance(node, nodes.Name) and node.name == "loop"):
            faults.append(Fault(f"{name}, line {node.lineno}", type(node).__name__.lower(), f"only {', '.join(GIVEN)}"))
        elif isinstance(node, nodes.Output):
            printed = [part for part in node.nodes if not isinstance(part, nodes.TemplateData | nodes.Call)]
            faults += [Fault(f"{name}, line {part.lineno}", "a value of its own", "say('...')") for part in printed]


def _typed(name: str, first_line: int, text: str) -> list[Fault]:
    faults = []
    for place, line in enumerate(_LIST_NUMBER.sub("", text).splitlines(), start=first_line):
        digit = next((sign for sign in line if sign.isnumeric()), None)
        if digit:
            faults.append(Fault(f"{name}, line {place}", f"the digit {digit}", "numbers of claims, by say('...')"))
        if "<" in line or _ENTITY.search(line):
            faults.append(Fault(f"{name}, line {place}", "a mark of HTML", "Markdown"))
    return faults


@cache
def _sandbox() -> ImmutableSandboxedEnvironment:
    from jinja2 import StrictUndefined
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    made = ImmutableSandboxedEnvironment(
        autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    made.globals.clear()
    return made
