"""Setting each part of a leaflet once, without an end to its page; and keeping what the next leaflet has too.

Most of a leaflet's parts are the same, letter for letter and picture for picture, in another one of its language. A
part that two leaflets had is kept in this process, by everything that it was made from; a batch does not set it again.
What one leaflet alone has is kept while it is made, for when it is set again with fewer pictures.
"""

from __future__ import annotations

import contextlib
from collections import OrderedDict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from hashlib import blake2b
from typing import Any, NamedTuple

from explainer.errors import RenderError
from explainer.render.press.painted import kept_page
from explainer.render.press.pictures import lets_go
from explainer.render.press.strips import MM_PER_PX, Strip, emptied, fragment, is_tied_to_next, strips

_ENDLESS_MM = 30_000
_RULES = (  # one over the other, so that a part's place does not depend on what else is set with it
    f"@page {{ size: 300mm {_ENDLESS_MM}mm; margin: 0 }} .part {{ position: absolute; top: 0; left: 0 }}"
)
_KEPT = 160  # parts: what does not depend on the order, and what many orders say, in one language and two papers
_MET = 5000  # parts known by their key alone
_CUTS = 4  # pages kept of one part
_EMPTY = 8  # pages with nothing on them, one for each language and style

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
    tied: bool  # whether the next piece must follow directly
    pages: OrderedDict[tuple[int, ...], Any] = field(default_factory=OrderedDict)

    @property
    def height_mm(self) -> float:
        """From the top of the first strip to the bottom of the last."""
        return self.strips[-1].bottom_mm - self.strips[0].top_mm

    def page(self, kept: Sequence[Strip]) -> Any:
        """The engine's page with these strips alone, the same one whenever it is asked for."""
        boxes = tuple(id(box) for strip in kept for box in strip.boxes)
        if boxes not in self.pages:
            _put(self.pages, boxes, kept_page(fragment(self.empty_page, self.body, kept)), _CUTS)
        return self.pages[boxes]


class Galley:
    """Sets parts for one document: its root element, styles, pictures, and how long a column is at most [mm]."""

    def __init__(self, root: str, styles: Sequence[str], assets: Mapping[str, bytes], longest_mm: float) -> None:
        self._made_from = (root, *styles, str(longest_mm))
        self._assets = assets
        self._longest_mm = longest_mm

    def pieces(self, parts: Sequence[Part], set_pages: SetPages, log: Sequence[str]) -> list[Piece]:
        """The parts set, in order. What made the engine complain is set again the next time, so that it is heard."""
        keys = {part: self._key(part) for part in parts}
        known = {part: piece for part, key in keys.items() if (piece := _store.recall(key)) is not None}
        unknown = [part for part in keys if part not in known]
        for part, piece in zip(unknown, self._set(unknown, set_pages) if unknown else (), strict=True):
            known[part] = piece
            if not log:
                _store.keep(keys[part], piece, for_others=all(lets_go(*picture) for picture in self._pictures(part)))
        return [known[part] for part in parts]

    def _pictures(self, part: Part) -> list[tuple[str, bytes]]:
        """The pictures that a part shows, whichever way it names them."""
        return [(name, body) for name, body in sorted(self._assets.items()) if name in part.html]

    def _key(self, part: Part) -> bytes:
        """Everything that a part's setting depends on: its pictures by what they show, not by what they are called."""
        texts = (*self._made_from, part.html, str(part.width_mm))
        key = blake2b(digest_size=16)
        for made_from in (*(text.encode() for text in texts), *(body for _, body in self._pictures(part))):
            key.update(len(made_from).to_bytes(8, "big") + made_from)
        return key.digest()

    def _set(self, parts: Sequence[Part], set_pages: SetPages) -> list[Piece]:
        """All parts on one page of the engine, each as wide as it is to be, its margins kept inside."""
        html = "".join(f'<div class="part" style="width: {part.width_mm:.3f}mm">{part.html}</div>' for part in parts)
        pages = set_pages(html, _RULES)
        if len(pages) != 1:
            raise RenderError(f"more than {_ENDLESS_MM / 1000:.0f} metres of text, or a style that turns the page")
        empty = _store.empty_page(self._made_from, pages[0]._page_box)
        return [self._piece(empty, placed._box) for placed in pages[0]._page_box.children[0].children[0].children]

    def _piece(self, empty_page: Any, part: Any) -> Piece:
        found = tuple(strips(part, self._longest_mm))
        top_mm, height_mm = (px * MM_PER_PX for px in (part.position_y, part.height))
        return Piece(
            empty_page,
            tuple(part.children),
            found,
            above_mm=found[0].top_mm - top_mm,
            below_mm=top_mm + height_mm - found[-1].bottom_mm,
            tied=is_tied_to_next(part),
        )


@dataclass(slots=True)
class _Store:
    """The parts kept in this process: those of the leaflet at work, and those that more than one had."""

    at_work: bool = False
    own: dict[bytes, Piece] = field(default_factory=dict)
    common: OrderedDict[bytes, Piece] = field(default_factory=OrderedDict)
    met: OrderedDict[bytes, None] = field(default_factory=OrderedDict)
    empty: OrderedDict[object, Any] = field(default_factory=OrderedDict)

    def recall(self, key: bytes) -> Piece | None:
        """The part, if it is here."""
        if key in self.common:
            self.common.move_to_end(key)
            return self.common[key]
        return self.own.get(key)

    def keep(self, key: bytes, piece: Piece, *, for_others: bool) -> None:
        """Note a part that was set: for this leaflet, or for all if an earlier one had it."""
        if for_others and key in self.met:
            _put(self.common, key, piece, _KEPT)
        elif self.at_work:
            self.own[key] = piece
        _put(self.met, key, None, _MET)

    def empty_page(self, made_from: object, page_box: Any) -> Any:
        """The page that parts of one kind stand on, once for all: it holds on to what the engine made it from."""
        if made_from not in self.empty:
            _put(self.empty, made_from, emptied(page_box), _EMPTY)
        return self.empty[made_from]


def _put(into: OrderedDict[Any, Any], key: object, item: Any, most: int) -> None:
    into[key] = item
    into.move_to_end(key)
    while len(into) > most:
        into.popitem(last=False)


_store = _Store()


@contextlib.contextmanager
def one_leaflet() -> Iterator[None]:
    """What is set in here once is not set again in here, whether or not another leaflet ever had it."""
    _store.at_work = True
    try:
        yield
    finally:
        _store.at_work = False
        _store.own.clear()
