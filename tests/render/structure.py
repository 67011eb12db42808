"""The tag tree of a PDF, walked from the root, and the drawing operations of its pages."""

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


def operations(page: Any) -> Iterator[tuple[list[Any], str]]:
    """The drawing operations of a page: operands and name."""
    for instruction in pikepdf.parse_content_stream(page):
        yield list(instruction.operands), str(instruction.operator)
