"""Pages that many leaflets share, painted twice in a process and copied from then on.

The engine paints a page by calling it with the stream to paint on. The second time a page is painted on a sheet of its
own, and what came out is noted: operations, tags, opacities, and which letters of which font. Then, and from then on,
the notes are put on the stream. A page that needs more than that (a photograph, a pattern) goes the usual way.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any, NamedTuple

from explainer.render.press.apart import as_bytes, painted_apart
from explainer.render.press.engine import engine


def kept_page(page_box: Any) -> Any:
    """The engine's page of this box, to be painted many times."""
    from weasyprint.document import Page

    return _page_class()(page_box) if engine().repaired else Page(page_box)  # an untried version paints for itself


@cache
def _page_class() -> Any:
    from weasyprint.document import Page

    class KeptPage(Page):  # type: ignore[misc]
        """A page that notes how it is painted the second time, and is copied from these notes."""

        was_painted = False
        notes: _Notes | None = None
        is_plain = True

        def paint(self, stream: Any, scale: float = 1) -> None:
            """Paint the page on a stream."""
            if self.was_painted and self.is_plain and self.notes is None:
                self.notes = _noted(super().paint, stream, scale)
                self.is_plain = self.notes is not None
            self.was_painted = True
            if self.notes is None or not self.notes.put_on(stream):
                super().paint(stream, scale)

    return KeptPage


class _Notes(NamedTuple):
    """What a page leaves on a stream. The letters of each font: which text a glyph stands for, and its width."""

    operations: tuple[Any, ...]
    opacities: Mapping[str, Any]
    tags: Mapping[Any, Mapping[str, Any]]
    letters: Mapping[Any, tuple[Mapping[int, str], Mapping[int, int]]]

    def put_on(self, stream: Any) -> bool:
        """Copy it; False if this document has not met one of the fonts yet, or the page has marks of its own."""
        if stream._tags or not self.letters.keys() <= stream._fonts.keys():
            return False
        for key, (texts, widths) in self.letters.items():
            font = stream._fonts[key]
            _grow(font.to_unicode, texts)
            _grow(font.widths, widths)
        for name, opacity in self.opacities.items():
            stream._resources["ExtGState"].setdefault(name, _copied(opacity))
        stream._tags.update((box, dict(entry)) for box, entry in self.tags.items())
        stream.stream.extend(map(_copied, self.operations))
        return True


def _noted(paint: Callable[[Any, float], None], stream: Any, scale: float) -> _Notes | None:
    """The notes of a page; None if it cannot be copied."""
    with _letters_apart(stream._fonts) as letters:
        ink = painted_apart(stream, lambda sheet: paint(sheet, scale))
    return ink and _Notes(tuple(_joined(ink.operations)), ink.opacities, ink.tags, letters)


@contextlib.contextmanager
def _letters_apart(fonts: dict[Any, Any]) -> Iterator[dict[Any, Any]]:
    """The letters that are painted meanwhile, by font."""
    before = {key: (font.to_unicode, font.widths) for key, font in fonts.items()}
    for font in fonts.values():
        font.to_unicode, font.widths = {}, {}
    found: dict[Any, Any] = {}
    try:
        yield found
    finally:
        for key, font in fonts.items():
            if font.widths:
                found[key] = (font.to_unicode, font.widths)
            font.to_unicode, font.widths = before.get(key, ({}, {}))


def _grow(known: dict[int, Any], more: Mapping[int, Any]) -> None:
    """The first text of a glyph stands."""
    for glyph, what in more.items():
        known.setdefault(glyph, what)


def _joined(operations: list[Any]) -> Iterator[Any]:
    """The operations, with all text between two dictionaries in one piece but for the tag before a dictionary."""
    plain: list[bytes] = []
    for item in operations:
        if isinstance(item, dict):
            *before, tag = plain
            yield from ([b"\n".join(before)] if before else [])
            yield tag
            yield item
            plain = []
        else:
            plain.append(as_bytes(item))
    if plain:
        yield b"\n".join(plain)


def _copied(item: Any) -> Any:
    """Dictionaries are changed later, when parts become pages."""
    return type(item)(dict(item)) if isinstance(item, dict) else item
