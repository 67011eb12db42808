"""The tag tree of a PDF, walked from the root."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pikepdf


def tags(pdf: Any) -> Iterator[tuple[str, Any, tuple[str, ...]]]:
    """Every tag in reading order: its kind, the tag, and the kinds of those above it, outermost first."""
    yield from _below(pdf.Root.StructTreeRoot.K, ())


def _below(kids: Any, above: tuple[str, ...]) -> Iterator[tuple[str, Any, tuple[str, ...]]]:
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            kind = str(kid.S)
            yield kind, kid, above
            if "/K" in kid:
                yield from _below(kid.K, (*above, kind))


def text_of(tag: Any, said: dict[tuple[int, int], str], pages: dict[Any, int]) -> str:
    """The words under a tag, from what each marked content of each page says."""
    own = pages.get(tag.Pg.objgen) if "/Pg" in tag else None
    words = ""
    kids = tag.get("/K", [])
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, int):
            words += said.get((own or 0, kid), "")
        elif isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            words += text_of(kid, said, pages)
    return words
