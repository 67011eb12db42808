"""A workshop's own words for sections of ours: `sections/care.md` for a whole one, `sections/care.harm.md` for a block.

Words are in one language. The files in `sections/` are in the language of the workshop file and speak in leaflets of
that language alone; files for another language stand in a folder of its code, `sections/de/`. Only sections of which
every sentence that protects somebody rests on a claim can be replaced whole: so a check can see that none is gone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from explainer.errors import Fault, InputError
from explainer.orders import Workshop
from explainer.render.house.files import house_files
from explainer.render.house.kept import kept_faults
from explainer.render.house.means import SECTION, Reader
from explainer.render.house.sandbox import parsed, parsed_ours
from explainer.render.house.words import heading_faults
from explainer.resources import root

if TYPE_CHECKING:
    from jinja2 import nodes

WHOLE = frozenset({"numbers", "direction", "lens", "fit", "care"})
NEVER = frozenset({"cautions", "urgent", "sources"})
Files = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class HouseText:
    """One file: the block that its words stand for, or None for the whole section."""

    file: str
    block: str | None
    source: str


@dataclass(frozen=True, slots=True)
class HouseSection:
    """The workshop's words for one section, checked."""

    name: str
    folder: str
    texts: tuple[HouseText, ...]


def house_sections(workshop: Workshop | None, language: str) -> Mapping[str, HouseSection]:
    """The workshop's sections in this language by our template's path; InputError for what is against the rules."""
    home = workshop.house_wording if workshop else None
    if workshop is None or home is None or not (home / "sections").is_dir():
        return {}
    sections = home / "sections"
    spoken, own = _main_part(language), _main_part(workshop.language or "")
    if not own and house_files(home, sections):
        fault = Fault("language", "nothing", "the language of the words in sections/, in the workshop file")
        raise InputError(str(sections), [fault])
    if (sections / own).is_dir() and own:
        accepted = f"words in the workshop's language ({own}) in sections/ itself"
        raise InputError(str(sections), [Fault(f"{own}/", "a folder for the workshop's own language", accepted)])
    folder = sections if spoken == own else sections / spoken
    return checked(str(folder), house_files(home, folder))


@lru_cache(maxsize=16)
def checked(folder: str, files: Files) -> Mapping[str, HouseSection]:
    """The files as sections, or every fault in them."""
    faults: list[Fault] = []
    texts = [(file.partition(".")[0], _text(file, source)) for file, source in files]
    for section, text in texts:
        twice = text.block is None and sum(section == other for other, _ in texts) > 1
        wrong = _name_fault(section, text) or (_twice(section, text) if twice else None)
        faults += [wrong] if wrong else _text_faults(section, text)
    if faults:
        raise InputError(folder, faults)
    names = dict.fromkeys(section for section, _ in texts)
    return {
        f"sections/{name}": HouseSection(name, folder, tuple(text for section, text in texts if section == name))
        for name in names
    }


@cache
def blocks(section: str) -> dict[str, list[nodes.Node]]:
    """The blocks of our section by name."""
    from jinja2 import nodes

    return {block.name: block.body for block in parsed_ours(section).find_all(nodes.Block)}


def _text(file: str, source: str) -> HouseText:
    block = file.removesuffix(".md").partition(".")[2]
    return HouseText(file, block or None, source)


def _name_fault(section: str, text: HouseText) -> Fault | None:
    """What is wrong with the name of the file."""
    if section in NEVER:
        return Fault(text.file, f"words for {section}", "our own, since they keep people safe; add words to a topic")
    if section not in _ours():
        return Fault(text.file, "a name that no section has", f"{', '.join(sorted(_ours() - NEVER))}, with .md")
    names = ", ".join(f"{section}.{block}.md" for block in blocks(section))
    if text.block is None and section not in WHOLE:
        return Fault(text.file, "words for the whole section", f"words for a block of it: {names}")
    if text.block is not None and text.block not in blocks(section):
        return Fault(text.file, f'the block "{text.block[:40]}"', names)
    return None


def _twice(section: str, text: HouseText) -> Fault:
    return Fault(text.file, "words for the section and for blocks of it", f"either {section}.md or files for blocks")


def _text_faults(section: str, text: HouseText) -> list[Fault]:
    """What is wrong with the words: how they are made, and what is missing."""
    tree = parsed(text.file, text.source)
    if isinstance(tree, Fault):
        return [tree]
    reader = Reader(text.file, text.source.split("\n"), SECTION)
    if not reader.read(tree.body):
        reader.faults.append(Fault(f"{text.file}, line 1", "no words", "words, or no such file"))
    faults = [*reader.faults, *heading_faults(text.file, reader.texts, titled=text.block is None)]
    if not faults:
        whole = parsed_ours(section).body
        ours = whole if text.block is None else blocks(section)[text.block]
        faults = list(kept_faults(text.file, tree.body, ours, whole, f"templates/sections/{section}.md"))
    return sorted(faults, key=lambda fault: int(fault.field.rpartition(" ")[2]))


@cache
def _ours() -> frozenset[str]:
    return frozenset(path.stem for path in (root("templates") / "sections").glob("*.md"))


def _main_part(code: str) -> str:
    """The language without its country, as our catalogues go: words in en-GB serve en-US."""
    return Path(code).name.partition("-")[0].lower()
