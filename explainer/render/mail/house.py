"""A workshop's own topics: Markdown templates of the shop, run in a sandbox, held to the rules of the house.

A file `topics/<name>.md` in the folder of house wording is a topic. It may use claims (`say`, `has`, `is_`, `stated`,
`plain`) but may type no digit and no HTML, since then a number could stand there that no claim holds. Its first heading
is its title. A comment `{# terms: voucher, gift card #}` names words by which customers' messages are matched to it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from explainer.errors import Fault, InputError
from explainer.orders import Workshop
from explainer.render.house.files import house_files
from explainer.render.house.means import TOPIC, Reader
from explainer.render.house.sandbox import parsed, sandbox
from explainer.render.house.speaking import handed, run
from explainer.render.house.words import whole_faults
from explainer.topics.catalogue import Topic, topics

if TYPE_CHECKING:
    from jinja2 import Template

_NAME = re.compile(r"[a-z][a-z0-9-]{0,39}")
_TEMPLATE_MARKS = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", re.DOTALL)
_TITLE = re.compile(r"^#+\s+(.+)$", re.MULTILINE)
_TERMS = re.compile(r"\{#\s*terms:(.*?)#\}", re.DOTALL)
WEIGHT = 6.0  # a workshop that takes the trouble of words of its own means them


@dataclass(frozen=True, slots=True)
class HouseTopic:
    """One topic of the workshop: how it is listed, its words, and the terms that point to it."""

    topic: Topic
    source: str
    terms: Mapping[str, float]


def house_topics(workshop: Workshop | None) -> dict[str, HouseTopic]:
    """The workshop's topics by name; InputError with file and line for everything that is against the rules."""
    home = workshop.house_wording if workshop else None
    if home is None:
        return {}
    faults: list[Fault] = []
    read = [_read(file, source, faults) for file, source in house_files(home, home / "topics")]
    if faults:
        raise InputError(str(home / "topics"), faults)
    return {each.topic.name: each for each in read}


def speak_house(own: HouseTopic, names: Mapping[str, object]) -> str:
    """The topic's Markdown with claims in it."""
    file = f"{own.topic.name}.md"
    return run(lambda: _template(file, own.source).render(handed(TOPIC, names)), "house wording")


def _read(file: str, source: str, faults: list[Fault]) -> HouseTopic:
    stem = file.removesuffix(".md")
    if not _NAME.fullmatch(stem):
        faults.append(Fault(file, "a name of other signs", "small letters, digits and dashes, ending in .md"))
    elif stem in topics():
        faults.append(Fault(file, "the name of a topic of the program", "a name of its own"))
    faults += _against_rules(file, source)
    title = _TITLE.search(_TEMPLATE_MARKS.sub("", source))
    said = title[1].strip() if title else stem
    words = [word.strip() for terms in _TERMS.findall(source) for word in terms.split(",") if word.strip()]
    topic = Topic(name=stem, template=f"house/{stem}", says=said, questions=())
    return HouseTopic(topic, source, dict.fromkeys(words, WEIGHT))


def _against_rules(file: str, source: str) -> list[Fault]:
    """A fault for every digit, mark of HTML, and means of the template language that is not given."""
    tree = parsed(file, source)
    if isinstance(tree, Fault):
        return [tree]
    reader = Reader(file, source.split("\n"), TOPIC)
    reader.read(tree.body)
    return [*reader.faults, *whole_faults(file, source)]


@lru_cache(maxsize=64)
def _template(file: str, source: str) -> Template:
    return sandbox(templates={file: source}).get_template(file)
