"""A workshop's own words for words of ours: for phrases of the leaflet, and for sections that mail is made of.

`phrases/clean.dry.md` stands for that phrase wherever it is said; `sections/care.md` for a whole section,
`sections/care.harm.md` for a block of it. Words are in one language: the files themselves in that of the workshop file,
files for another language in a folder of its code, `phrases/de/`. Only what protects nobody, or protects by claims
alone, can be worded: so a check can see that nothing of it is gone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from explainer.errors import Fault, InputError
from explainer.orders import Workshop
from explainer.places import is_folder
from explainer.render.house.files import house_files
from explainer.render.house.kept import kept_faults
from explainer.render.house.means import PHRASE, SECTION, Reader
from explainer.render.house.sandbox import parsed, parsed_ours
from explainer.render.house.words import heading_faults, line_faults, whole_faults
from explainer.resources import root

if TYPE_CHECKING:
    from jinja2 import nodes

WHOLE = frozenset({"numbers", "direction", "lens", "fit", "care"})
NEVER = frozenset({"cautions", "urgent", "sources"})
PHRASES = ("clean", "fit", "first")
NO_PHRASES = frozenset({"clean.never", "fit.home", "first.not_usual", "first.wear", "first.still"})
"""Of care, fit and the first days these stay ours: they keep people safe, or their rights, beyond what claims hold."""
_LETTERS = 40
Kind = Literal["sections", "phrases"]
KINDS: tuple[Kind, ...] = ("sections", "phrases")
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
    kind: Kind = "sections"

    @property
    def path(self) -> str:
        """Our template that these words stand for, without its ending."""
        return f"{self.kind}/{self.name}"


def house_sections(workshop: Workshop | None, language: str) -> Mapping[str, HouseSection]:
    """The workshop's sections in this language by our template's path; InputError for what is against the rules."""
    found: dict[str, HouseSection] = {}
    for kind in KINDS:
        found |= _of_kind(kind, workshop, language)
    return found


def _of_kind(kind: Kind, workshop: Workshop | None, language: str) -> Mapping[str, HouseSection]:
    home = workshop.house_wording if workshop else None
    if workshop is None or home is None or not is_folder(home / kind):
        return {}
    words = home / kind
    spoken, own = _main_part(language), _main_part(workshop.language or "")
    if not own and house_files(home, words):
        fault = Fault("language", "nothing", f"the language of the words in {kind}/, in the workshop file")
        raise InputError(str(words), [fault])
    if own and is_folder(words / own):
        accepted = f"words in the workshop's language ({own}) in {kind}/ itself"
        raise InputError(str(words), [Fault(f"{own}/", "a folder for the workshop's own language", accepted)])
    folder = words if spoken == own else words / spoken
    files = house_files(home, folder)
    return checked(str(folder), files) if kind == "sections" else checked_phrases(str(folder), files)


@lru_cache(maxsize=16)
def checked_phrases(folder: str, files: Files) -> Mapping[str, HouseSection]:
    """The files as phrases, or every fault in them."""
    faults: list[Fault] = []
    for file, source in files:
        wrong = _phrase_fault(file)
        faults += [wrong] if wrong else _phrase_faults(file, source)
    if faults:
        raise InputError(folder, faults)
    names = [(file.removesuffix(".md"), HouseText(file, None, source)) for file, source in files]
    return {f"phrases/{name}": HouseSection(name, folder, (text,), "phrases") for name, text in names}


def _phrase_fault(file: str) -> Fault | None:
    """What is wrong with the name of the file."""
    name = file.removesuffix(".md")
    if name in NO_PHRASES:
        return Fault(file, f"words for {name}", "our own, since they keep people safe")
    free = [name for name in _phrases_of_ours() - NO_PHRASES if name.partition(".")[0] in PHRASES]
    return None if name in free else Fault(file, "a name that no phrase has", f"{', '.join(sorted(free))}, with .md")


def _phrase_faults(file: str, source: str) -> list[Fault]:
    """What is wrong with the words of a phrase: as with those of a section, and that they fit into its place."""
    tree = parsed(file, source)
    if isinstance(tree, Fault):
        return [tree]
    reader = Reader(file, source.split("\n"), PHRASE)
    if not reader.read(tree.body):
        reader.faults.append(Fault(f"{file}, line 1", "no words", "words, or no such file"))
    faults = [*reader.faults, *whole_faults(file, source), *line_faults(file, reader.texts)]
    ours = parsed_ours(f"phrases/{file.removesuffix('.md')}").body
    most = 2 * _letters(ours) + _LETTERS
    if _letters(tree.body) > most:
        faults.append(
            Fault(f"{file}, line 1", f"{_letters(tree.body)} letters", f"at most {most}, as there is room for")
        )
    if not faults:
        faults = list(kept_faults(file, tree.body, ours, ours, f"templates/phrases/{file}"))
    return _in_order(faults)


def _letters(body: list[nodes.Node]) -> int:
    """The letters that stand in these nodes, whatever their conditions; those of a translation among them."""
    from jinja2 import nodes

    found = [data for node in body for data in (node, *node.find_all((nodes.TemplateData, nodes.Const)))]
    texts = [data.data for data in found if isinstance(data, nodes.TemplateData)]
    texts += [data.value for data in found if isinstance(data, nodes.Const) and isinstance(data.value, str)]
    return sum(len(text.strip()) for text in texts)


def _in_order(faults: list[Fault]) -> list[Fault]:
    return sorted(faults, key=lambda fault: int(fault.field.rpartition(" ")[2]))


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

    return {block.name: block.body for block in parsed_ours(f"sections/{section}").find_all(nodes.Block)}


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
    faults = [
        *reader.faults,
        *whole_faults(text.file, text.source),
        *heading_faults(text.file, reader.texts, titled=text.block is None),
    ]
    if not faults:
        whole = parsed_ours(f"sections/{section}").body
        ours = whole if text.block is None else blocks(section)[text.block]
        faults = list(kept_faults(text.file, tree.body, ours, whole, f"templates/sections/{section}.md"))
    return _in_order(faults)


@cache
def _phrases_of_ours() -> frozenset[str]:
    return frozenset(path.stem for path in (root("templates") / "phrases").glob("*.md"))


@cache
def _ours() -> frozenset[str]:
    return frozenset(path.stem for path in (root("templates") / "sections").glob("*.md"))


def _main_part(code: str) -> str:
    """The language without its country, as our catalogues go: words in en-GB serve en-US."""
    return Path(code).name.partition("-")[0].lower()
