"""Blocks: what stands together on a page, each set by the engine as a page of its own.

A leaflet's blocks are set together, each on a sheet as wide as the block is to stand and as tall as any could need. How
tall it came out is read from the engine's own anchors. So where a block goes is arithmetic, and no block is ever set
twice because another one grew. Most blocks stand in other leaflets too, letter for letter and picture for picture: one
that was met before is kept in this process, by everything that it was made from.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterator, Mapping, Sequence
from hashlib import blake2b
from typing import Any, NamedTuple

from explainer.errors import RenderError

MM_PER_PX = 25.4 / 96
_TALLEST_MM = 900
_KEPT = 120  # blocks: what depends on no order, and what many orders say, in one language and two papers
_MET = 4000  # blocks known by their key alone
_NAME = "block"

SetPages = Callable[[str, str], Sequence[Any]]
"""HTML of a body and page rules, to the engine's pages."""


class Block(NamedTuple):
    """The HTML of a block and its width [mm]."""

    html: str
    width_mm: float


class SetBlock(NamedTuple):
    """A block as the engine set it: its page, and its height [mm]."""

    page: Any
    height_mm: float


class Setter:
    """Sets the blocks of one leaflet by its root element, its styles and its pictures."""

    def __init__(self, root: str, styles: Sequence[str], assets: Mapping[str, bytes], set_pages: SetPages) -> None:
        self._made_from = (root, *styles)
        self._assets = assets
        self._set_pages = set_pages

    def set_all(self, blocks: Sequence[Block], log: Sequence[str]) -> list[SetBlock]:
        """The blocks set, in order. What made the engine complain is not kept, so that it is heard again."""
        keys = [self._key(block) for block in blocks]
        found = {key: made for key in keys if (made := _store.recall(key)) is not None}
        once = {key: block for key, block in zip(keys, blocks, strict=True) if key not in found and not _store.met(key)}
        found |= dict(zip(once, self._set(list(once.values())), strict=True)) if once else {}
        for key, block in zip(keys, blocks, strict=True):
            if key not in found:  # alone, so that what is kept holds on to nothing else of this leaflet
                found[key] = self._set([block])[0]
                if not log:
                    _store.keep(key, found[key])
        return [found[key] for key in keys]

    def _key(self, block: Block) -> bytes:
        """Everything that a setting depends on: the block's pictures by what they show, not by what they are called."""
        pictures = (body for name, body in sorted(self._assets.items()) if name in block.html)
        texts = (*self._made_from, block.html, str(block.width_mm))
        key = blake2b(digest_size=16)
        for made_from in (*(text.encode() for text in texts), *pictures):
            key.update(len(made_from).to_bytes(8, "big") + made_from)
        return key.digest()

    def _set(self, blocks: Sequence[Block]) -> list[SetBlock]:
        """Each block on a page of its own."""
        widths = sorted({block.width_mm for block in blocks})
        rules = "".join(
            f"@page w{number} {{ size: {width:.3f}mm {_TALLEST_MM}mm; margin: 0 }} .w{number} {{ page: w{number} }}"
            for number, width in enumerate(widths)
        )
        rules += ".set { break-after: page } .set:last-child { break-after: auto }"
        html = "".join(
            f'<div class="set w{widths.index(block.width_mm)}" id="{_NAME}{number}">{block.html}</div>'
            for number, block in enumerate(blocks)
        )
        pages = self._set_pages(html, rules)
        if len(pages) != len(blocks):
            raise RenderError(f"a block is taller than {_TALLEST_MM} mm, or a style turns the page")
        return list(map(_measured, pages))


def _measured(page: Any) -> SetBlock:
    """The block's height is where its anchor ends. The anchors are for us alone, and taken away."""
    bottom = next(place[3] for name, place in page.anchors.items() if name.startswith(_NAME))
    for name in [name for name in page.anchors if name.startswith(_NAME)]:
        del page.anchors[name]
    return SetBlock(page, bottom * MM_PER_PX)


class _Store:
    """The blocks kept in this process, and the keys of those that were met."""

    def __init__(self) -> None:
        self._kept: OrderedDict[bytes, SetBlock] = OrderedDict()
        self._met: OrderedDict[bytes, None] = OrderedDict()

    def recall(self, key: bytes) -> SetBlock | None:
        """The block, if it is here."""
        if key in self._kept:
            self._kept.move_to_end(key)
        return self._kept.get(key)

    def met(self, key: bytes) -> bool:
        """Whether the key was asked for before; from now on it was."""
        was_met = key in self._met
        _put(self._met, key, None, _MET)
        return was_met

    def keep(self, key: bytes, block: SetBlock) -> None:
        """Note a block that was set alone."""
        _put(self._kept, key, block, _KEPT)


def _put(into: OrderedDict[bytes, Any], key: bytes, item: Any, most: int) -> None:
    into[key] = item
    into.move_to_end(key)
    while len(into) > most:
        into.popitem(last=False)


def kept_keys() -> Iterator[bytes]:
    """What is kept, for tests."""
    yield from _store._kept


_store = _Store()
