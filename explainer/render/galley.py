"""Setting each part of a leaflet once, without an end to its page; and keeping what the next leaflet has too.

Half of a leaflet's sections are the same, letter for letter and picture for picture, in the next one of its language. A
part that was set is kept in this process, by everything that it was made from; a batch does not set it again.
"""

from __future__ import annotations

import re
from collections import OrderedDict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from explainer.errors import RenderError
from explainer.render.strips import MM_PER_PX, Strip, emptied, fragment, strips

_ENDLESS_MM = 30_000
_RULES = f"@page {{ size: 300mm {_ENDLESS_MM}mm; margin: 0 }} .part {{ display: flow-root; margin: 0 auto 0 0 }}"
_KEPT = 60  # parts: all that does not depend on the order, in two languages
_ASSET = re.compile(r'\bsrc="([^"]*)"')

SetPages = Callable[[str, str], Sequence[Any]]  # html and page rules, to the engine's pages


class Part(NamedTuple):
    """The HTML of a part, and its width [mm]."""

    html: str
    width_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """A part as the engine set it: where it may be cut, and its margins [mm]."""

    empty_page: Any
    body: tuple[Any, ...]
    strips: tuple[Strip, ...]
    above_mm: float
    below_mm: float

    @property
    def height_mm(self) -> float:
        """From the top of the first strip to the bottom of the last."""
        return self.strips[-1].bottom_mm - self.strips[0].top_mm

    def page(self, kept: Sequence[Strip]) -> Any:
        """The engine's page with these strips alone."""
        return fragment(self.empty_page, self.body, kept)


class Galley:
    """Sets parts for one document: its root element, what its pictures are, how long a column is at most [mm]."""

    def __init__(self, root: str, styles: Sequence[str], assets: Mapping[str, bytes], longest_mm: float) -> None:
        self._made_from = (root, *styles, longest_mm)
        self._assets = assets
        self._longest_mm = longest_mm

    def pieces(self, parts: Sequence[Part], set_pages: SetPages, log: Sequence[str]) -> list[Piece]:
        """The parts set, in order. What made the engine complain is set again the next time, so that it is heard."""
        known = {part: piece for part in parts if (piece := _recall(self._key(part))) is not None}
        unknown = [part for part in dict.fromkeys(parts) if part not in known]
        for part, piece in zip(unknown, self._set(unknown, set_pages) if unknown else (), strict=True):
            known[part] = piece
            if not log:
                _keep(self._key(part), piece)
        return [known[part] for part in parts]

    def _key(self, part: Part) -> tuple[object, ...]:
        """Everything that a part's setting depends on: its pictures by what they show, not by what they are called."""
        pictures = tuple(self._assets.get(name, b"") for name in _ASSET.findall(part.html))
        return (*self._made_from, *part, *pictures)

    def _set(self, parts: Sequence[Part], set_pages: SetPages) -> list[Piece]:
        """All parts on one page of the engine, each as wide as it is to be, its margins kept inside."""
        html = "".join(f'<div class="part" style="width: {part.width_mm:.3f}mm">{part.html}</div>' for part in parts)
        pages = set_pages(html, _RULES)
        if len(pages) != 1:
            raise RenderError(f"more than {_ENDLESS_MM / 1000:.0f} metres of text, or a style that turns the page")
        empty = emptied(pages[0]._page_box)
        return [self._piece(empty, part) for part in pages[0]._page_box.children[0].children[0].children]

    def _piece(self, empty_page: Any, part: Any) -> Piece:
        found = tuple(strips(part, self._longest_mm))
        top_mm, height_mm = (px * MM_PER_PX for px in (part.position_y, part.height))
        return Piece(
            empty_page,
            tuple(part.children),
            found,
            above_mm=found[0].top_mm - top_mm,
            below_mm=top_mm + height_mm - found[-1].bottom_mm,
        )


_pieces: OrderedDict[tuple[object, ...], Piece] = OrderedDict()


def _recall(key: tuple[object, ...]) -> Piece | None:
    if key in _pieces:
        _pieces.move_to_end(key)
    return _pieces.get(key)


def _keep(key: tuple[object, ...], piece: Piece) -> None:
    _pieces[key] = piece
    while len(_pieces) > _KEPT:
        _pieces.popitem(last=False)
