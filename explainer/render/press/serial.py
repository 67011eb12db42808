"""Every object of a finished PDF written down once, before the file is.

The engine writes each object twice: for the file's identifier, which is a checksum of all of them, and into the file.
It also compresses at the highest level, which takes three times as long as the usual one and saves one part in twenty.
"""

from __future__ import annotations

import zlib
from typing import Any

import pydyf

from explainer.errors import RenderError

_LEVEL = 6  # zlib's own default


class _Written(pydyf.Object):  # type: ignore[misc]
    """An object of a PDF as it stands in the file: it can no longer change."""

    def __init__(self, item: Any) -> None:
        super().__init__()
        self.number, self.generation, self.free = item.number, item.generation, item.free
        self._compressible = item.compressible
        self._data = _packed(item) if isinstance(item, pydyf.Stream) and item.compress else item.data

    @property
    def data(self) -> bytes:
        """The object without its number."""
        return self._data

    @property
    def compressible(self) -> bool:
        """Whether it may stand in a compressed stream of objects."""
        return bool(self._compressible)


def write_down(pdf: Any) -> None:
    """Replace each object by what it looks like in the file. Nothing may be changed afterwards."""
    pdf.objects[:] = [item if item.free == "f" else _Written(item) for item in pdf.objects]


def _packed(stream: Any) -> bytes:
    """A stream compressed by us."""
    stream.compress = False
    before, opened, rest = stream.data.partition(b">>\nstream\n")
    plain, closed, after = rest.rpartition(b"\nendstream")
    if not before or not opened or not closed or after:
        raise RenderError("the PDF engine writes its streams in a way that was not tried")
    packed = zlib.compress(plain, _LEVEL)
    extra = pydyf.Dictionary({**stream.extra, "Filter": "/FlateDecode", "Length": len(packed)})
    return b"\n".join((extra.data, b"stream", packed, b"endstream"))
