"""Catalogues of a test's own, in place of those of the program."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.pofile import write_po

from explainer.render import language as tongues
from explainer.resources import root


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


def signed(code: str, change: Callable[[Catalog], None]) -> Catalog:
    """The program's own catalogue as if a qualified person had signed it, with a change."""
    catalogue = tongues.read_catalogue(root("locales") / code / "LC_MESSAGES" / "explainer.po")
    catalogue.header_comment = "# Status: reviewed"
    change(catalogue)
    return catalogue
