"""Catalogues of a test's own, in place of those of the program."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.extract import DEFAULT_KEYWORDS, extract_from_dir
from babel.messages.pofile import write_po

from explainer.render import language as tongues
from explainer.resources import root

HOME = Path(__file__).parents[1]


@contextmanager
def catalogues(folder: Path, **held: Catalog) -> Iterator[None]:
    """The program with just these catalogues, by language."""
    for code, catalogue in held.items():
        path = folder / code / "LC_MESSAGES" / "explainer.po"
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("wb") as file:
            write_po(file, catalogue)
    tongues.language.cache_clear()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(tongues, "root", lambda kind: folder if kind == "locales" else root(kind))
        yield
    tongues.language.cache_clear()


def few(code: str, **translations: str) -> Catalog:
    """A signed catalogue with these messages and no others; a blank in a name is written as a low line."""
    catalogue = Catalog(header_comment="# Invented.\n# Status: reviewed", charset="utf-8", locale=code)
    for message, said in translations.items():
        catalogue.add(message, said)
    return catalogue


@cache
def messages() -> list[str]:
    """Every message of the program, as pybabel would extract it."""
    mappings = tomllib.loads((HOME / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["babel"]["mappings"]
    methods = [(mapping["pattern"], mapping["method"]) for mapping in mappings]
    options = {mapping["pattern"]: mapping for mapping in mappings}
    found = extract_from_dir(HOME, methods, options, keywords=DEFAULT_KEYWORDS)
    return list(dict.fromkeys(message for _, _, message, _, _ in found))


def the(beginning: str) -> str:
    """The one message of the program that begins so."""
    (found,) = [message for message in messages() if message.startswith(beginning)]
    return found


def signed(code: str, change: Callable[[Catalog], None]) -> Catalog:
    """The program's own catalogue as if a qualified person had signed it, with a change.

    What it has not translated yet stands in it as if its words were the same in the language.
    """
    catalogue = tongues.read_catalogue(root("locales") / code / "LC_MESSAGES" / "explainer.po")
    catalogue.header_comment = "# Status: reviewed"
    for message in messages():
        known = catalogue.get(message)
        if known is None or not tongues.is_sound(known):
            catalogue.delete(message)
            catalogue.add(message, message)
    change(catalogue)
    return catalogue
