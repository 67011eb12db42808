"""The workshop's logo inside the page: the checked copy, made small enough for a telephone."""

from __future__ import annotations

import io
from base64 import b64encode
from functools import lru_cache
from pathlib import Path

from explainer.render.press.logo import logo_picture

_MOST_BYTES = 60_000
_LARGEST_PX = (600, 200)  # three times the height at which it is shown
_KINDS = {b"\x89PNG": "image/png", b"\xff\xd8\xff": "image/jpeg"}


def logo_address(path: Path, source: str) -> str:
    """A `data:` address of the logo. InputError, in the name of the workshop file, when it cannot be drawn."""
    return _address(logo_picture(path, source))


@lru_cache(maxsize=4)
def _address(body: bytes) -> str:
    kind = next((kind for start, kind in _KINDS.items() if body.startswith(start)), "image/svg+xml")
    if kind != "image/svg+xml" and len(body) > _MOST_BYTES:
        body, kind = _smaller(body), "image/png"
    return f"data:{kind};base64,{b64encode(body).decode()}"


def _smaller(body: bytes) -> bytes:
    from PIL import Image

    written = io.BytesIO()
    with Image.open(io.BytesIO(body)) as full:
        small = full.convert("RGBA")
    small.thumbnail(_LARGEST_PX)
    small.quantize(64, method=Image.Quantize.FASTOCTREE).save(written, "PNG", optimize=True)
    return written.getvalue()
