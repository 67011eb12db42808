"""What the PDF engine may fetch: names from a table, small pictures inside a drawing, and nothing else.

The engine's own fetcher would open files and addresses that a text names; this one has no way out. A refused address
stops the page: a leaflet with a hole in it is not posted.
"""

from __future__ import annotations

import base64
import binascii
import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from explainer.errors import RenderError
from explainer.render.press.engine import engine

_NAME = re.compile(r"(?:figure|font|css|logo):[A-Za-z0-9._-]+")
_PNG_URL = "data:image/png;base64,"
_KINDS = (
    (b"\x89PNG\r\n\x1a\n", "image/png"),
    (b"\xff\xd8\xff", "image/jpeg"),
    (b"\x00\x01\x00\x00", "font/ttf"),
    (b"OTTO", "font/otf"),
)


def table_fetcher(assets: Mapping[str, bytes]) -> Any:
    """A fetcher that answers `figure:…`, `font:…`, `css:…` and `logo:…` from the table, and inline PNG data."""
    for name in assets:
        if not _NAME.fullmatch(name):
            raise RenderError(f"an asset is named figure:…, font:…, css:… or logo:…, not {_short(name)}")
    return _fetcher_class()(assets)


def content_type(name: str, body: bytes) -> str:
    """The kind of an asset, told by its first bytes, else by its name."""
    for start, kind in _KINDS:
        if body.startswith(start):
            return kind
    return "text/css" if name.startswith("css:") else "image/svg+xml"


def png_of(url: str) -> bytes:
    """The picture in an inline PNG address; ValueError if it is anything else."""
    try:
        body = base64.b64decode(url.removeprefix(_PNG_URL), validate=True)
    except binascii.Error:
        raise ValueError("inline data that is not base64") from None
    if content_type("data:", body) != "image/png":
        raise ValueError("inline data that is not a PNG picture")
    return body


@lru_cache(maxsize=1)
def _fetcher_class() -> Any:
    """The fetcher's class. Made late, because its base comes with the engine."""
    engine()
    from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse

    class TableFetcher(URLFetcher):  # type: ignore[misc, unused-ignore]
        """Answers from a table. The base's constructor is left out on purpose: it opens ways to files and networks."""

        def __init__(self, assets: Mapping[str, bytes]) -> None:
            self._assets = dict(assets)
            self._fail_on_errors = True

        def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> Any:
            """The asset of that name; a fatal error for every other address."""
            if url in self._assets:
                body = self._assets[url]
                return URLFetcherResponse(url, body, {"Content-Type": content_type(url, body)})
            if not url.startswith(_PNG_URL):
                raise FatalURLFetchingError(f"the page may not fetch {_short(url)}")
            try:
                return URLFetcherResponse(url, png_of(url), {"Content-Type": "image/png"})
            except ValueError as error:
                raise FatalURLFetchingError(f"the page may not use {error}") from None

    return TableFetcher


def _short(url: str) -> str:
    """An address fit for a message: not the whole of an inline picture."""
    return repr(url if len(url) <= 80 else url[:77] + "...")
