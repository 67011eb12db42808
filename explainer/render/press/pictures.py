"""Drawings that many leaflets share, painted once in a process and copied from then on.

The engine takes a drawing apart and paints it anew on every page. The same picture at the same size gives the same
operations, so the engine paints it once on a sheet of its own, and what came out is put on the pages, and kept for the
next run beside the drawing. The engine's public `cache` of pictures takes an object of ours for that. A picture that
needs more than paths, colours and opacity (a photograph, a pattern) goes the engine's usual way.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from functools import cache, lru_cache
from pathlib import Path
from typing import Any, NamedTuple
from xml.etree import ElementTree

from explainer.keeping import keeping_folder, read_kept, write_kept
from explainer.render.press.apart import OPACITY, as_bytes, complaints, painted_apart
from explainer.render.press.engine import engine
from explainer.render.press.fetch import content_type, table_fetcher

_LEFT_TO_THE_ENGINE = (b"<image", b"<text", b"<use")
_SIZE_AT = (1, 16)  # dots a pixel, and the size of letters [px], which sizes in `em` count from
_KEPT = 40  # drawings that stay in memory: those of one order, and all that do not depend on the order


def pictures(assets: Mapping[str, bytes]) -> dict[str, Any]:
    """The engine's cache of pictures with the drawings among these assets; the engine adds what else it meets."""
    found = {name: _picture(body) for name, body in assets.items() if lets_go(name, body)}
    return {name: picture for name, picture in found.items() if picture is not None}


def lets_go(name: str, body: bytes) -> bool:
    """Whether a picture is painted by us. One that the engine paints holds on to the whole page from then on."""
    is_drawing = name.startswith("figure:") and content_type(name, body) == "image/svg+xml"
    return engine().repaired and is_drawing and not any(mark in body for mark in _LEFT_TO_THE_ENGINE)


@lru_cache(maxsize=_KEPT)
def _picture(svg: bytes) -> _Picture | None:
    """The drawing, or None if the engine finds fault with it, so that it does so again on the page."""
    try:
        with complaints() as found:
            picture = _Picture(svg)
    except ElementTree.ParseError:
        return None
    return None if found else picture


class _Picture:
    """A drawing in the form in which the engine keeps its own ones: it has a size, and it can paint itself."""

    def __init__(self, svg: bytes) -> None:
        self._svg = svg
        self._sizes = {_SIZE_AT: _loaded(svg).get_intrinsic_size(*_SIZE_AT)}
        self._painted: dict[tuple[float, float], _Painted | None] = {}

    def get_intrinsic_size(self, resolution: Any, font_size: Any) -> Any:
        """Width, height and their ratio."""
        at = (resolution, font_size)
        if at not in self._sizes:
            self._sizes[at] = _loaded(self._svg).get_intrinsic_size(*at)
        return self._sizes[at]

    def draw(self, stream: Any, width: float, height: float, style: Any) -> None:
        """Paint the drawing at that size: as it was painted before, if that can be copied."""
        if (width, height) not in self._painted:
            self._painted[width, height] = self._kept(stream, width, height, style)
        painted = self._painted[width, height]
        if painted is None:
            _loaded(self._svg).draw(stream, width, height, style)
            return
        for alpha, stroke in painted.opacities:
            stream.set_alpha(alpha, stroke=stroke)
        stream.stream.append(painted.operations)

    def _kept(self, stream: Any, width: float, height: float, style: Any) -> _Painted | None:
        """The operations from an earlier run, or painted and kept for the next one."""
        folder = keeping_folder("paintings")
        key = _fingerprint(self._svg, width, height)
        file = folder / f"{key}.json" if folder else None
        painted = _Painted.of(read_kept(file, key)) if file else None
        if painted is None:
            painted = self._paint(stream, width, height, style)
            if painted is not None and file is not None:
                write_kept(file, key, painted.fields())
        return painted

    def _paint(self, stream: Any, width: float, height: float, style: Any) -> _Painted | None:
        """The operations on a sheet of its own; None if they cannot be copied."""
        ink = painted_apart(stream, lambda sheet: _loaded(self._svg).draw(sheet, width, height, style))
        if ink is None:
            return None
        opacities = filter(None, map(OPACITY.fullmatch, ink.opacities))
        return _Painted(
            b"\n".join(map(as_bytes, ink.operations)),
            tuple((_number(found[2]), found[1] == "A") for found in opacities),
        )


def _loaded(svg: bytes) -> Any:
    """The engine's own picture. Once it has painted it holds on to the whole page, so it is used once."""
    from weasyprint.images import SVGImage

    return SVGImage(ElementTree.fromstring(svg), "figure:kept", table_fetcher({}), None)


class _Painted(NamedTuple):
    """Operations of a page, and the opacities that they call for by name: how much, and whether of strokes."""

    operations: bytes
    opacities: tuple[tuple[float, bool], ...]

    def fields(self) -> dict[str, Any]:
        """As it is written to a file."""
        return {"operations": self.operations.decode("latin-1"), "opacities": self.opacities}

    @classmethod
    def of(cls, fields: Mapping[str, Any] | None) -> _Painted | None:
        """As it was read from a file."""
        if fields is None:
            return None
        try:
            opacities = tuple((alpha, stroke) for alpha, stroke in fields["opacities"])
            return cls(fields["operations"].encode("latin-1"), opacities)
        except (AttributeError, KeyError, TypeError, ValueError):
            return None


def _fingerprint(svg: bytes, width: float, height: float) -> str:
    """What tells this painting from every other one: the drawing, its size, and who paints."""
    import pydyf

    painter = (engine().package.__version__, pydyf.__version__, _source())
    return hashlib.sha256(repr((width, height, painter)).encode() + svg).hexdigest()[:32]


def _number(text: str) -> float:
    """The number that is written like this: the engine names an opacity by its digits."""
    return float(text) if "." in text else int(text)


@cache
def _source() -> bytes:
    """Our own part in it: what an older version of this file kept is painted again."""
    return Path(__file__).read_bytes()
