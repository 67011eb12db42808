"""From finished HTML to a tagged PDF (PDF/UA-1), with everything the engine had to say about it."""

from __future__ import annotations

import contextlib
import logging
import re
import threading
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from html import unescape
from typing import Any
from unicodedata import bidirectional

from explainer.collector import collector_at_rest
from explainer.errors import ExplainerError, RenderError
from explainer.render.press.engine import engine
from explainer.render.press.fetch import table_fetcher
from explainer.render.press.finish import finisher
from explainer.render.press.pictures import pictures
from explainer.render.press.setting import Block, SetBlock, Setter
from explainer.render.press.sheet import Paper, Placement, sheets_css, sheets_html
from explainer.render.press.told import told

_LINK = re.compile(r'<a\b[^>]*\bhref="([^"]+)"[^>]*>(.*?)</a>', re.DOTALL)
_TAG = re.compile(r"<[^>]*>")
_AUTO = re.compile(r'(<bdi\b[^>]*\bdir=")auto("[^>]*>)([^<]*)')
_VARIANT = "pdf/ua-1"
# About the machine, not the page: `engine_notes` says it once.
_NOT_OF_THE_PAGE = "Using fontTools instead of HarfBuzz-Subset"


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What a file says of itself. No wearer's name in any; `created` is the order's date, never the clock's."""

    title: str
    language: str
    direction: str
    created: date
    identifier: str
    keywords: Sequence[str] = ()


@dataclass(frozen=True, slots=True)
class Pdf:
    """A finished PDF: its bytes, its number of pages, and what the engine logged while making it."""

    data: bytes
    pages: int
    log: tuple[str, ...]


def write_pdf(
    html: str,
    *,
    assets: Mapping[str, bytes],
    stylesheets: Sequence[str],
    title: str,
    language: str,
    direction: str,
    created: date,
    identifier: str,
    keywords: Sequence[str] = (),
    strict: bool = True,
) -> Pdf:
    """One page or more as they flow, written as PDF/UA-1. Equal arguments give equal bytes.

    `stylesheets` are texts, in the order of the cascade; for the rest see `About`. With `strict` any warning of the
    engine (a character that no font has, an unknown property) is a RenderError, because it is a fault on the page.
    """
    about = About(
        title=title,
        language=language,
        direction=direction,
        created=created,
        identifier=identifier,
        keywords=keywords,
    )
    with at_work() as log:
        return _written(_Setting(assets, stylesheets).document(html), about, html, log, strict=strict)


class Press:
    """One leaflet at the press: its blocks are set, and then printed where they are to stand."""

    def __init__(
        self, root: str, assets: Mapping[str, bytes], styles: Sequence[str], foot_styles: Sequence[str], log: list[str]
    ) -> None:
        """`root` is the page's `<html …>` tag; `log` the list that `at_work` gave."""
        self._root, self._log = root, log
        self._setting, self._foot_setting = _Setting(assets, styles), _Setting({}, foot_styles)
        self._setter = Setter(root, styles, assets, lambda html, css: self._document(self._setting, html, css).pages)

    def set_all(self, blocks: Sequence[Block]) -> list[SetBlock]:
        """The blocks set, in order, each with its height."""
        return self._setter.set_all(blocks, self._log)

    def printed(
        self,
        blocks: Sequence[tuple[SetBlock, Placement]],
        feet: Sequence[str],
        paper: Paper,
        html: str,
        about: About,
    ) -> Pdf:
        """The file: each block at its place, in the order in which they are read, and a foot on every page.

        `html` is all that is printed, for the words of its links.
        """
        leaves = self._document(self._foot_setting, sheets_html(feet), sheets_css(paper))
        document = leaves.copy([*(block.page for block, _ in blocks), *leaves.pages])
        return _written(document, about, html, self._log, places=[place for _, place in blocks])

    def _document(self, setting: _Setting, html: str, css: str) -> Any:
        return setting.document(f"{self._root}<body>{html}", css)


def _written(
    document: Any, about: About, html: str, log: list[str], *, places: Sequence[Placement] = (), strict: bool = True
) -> Pdf:
    metadata = document.metadata
    metadata.title, metadata.lang, metadata.generator = about.title, about.language, "explainer"
    metadata.keywords = list(about.keywords)
    metadata.created = metadata.modified = about.created.isoformat()
    data = document.write_pdf(
        finisher=finisher(direction=about.direction, link_words=_link_words(html), placements=places),
        pdf_variant=_VARIANT,
        pdf_identifier=about.identifier.encode(),
    )
    if strict and log:
        raise RenderError("the page has faults:\n" + "\n".join(f"  - {told(line)}" for line in dict.fromkeys(log)))
    return Pdf(data, len(document.pages) - len(places), tuple(log))


class _Setting:
    """What all parts of one document are set with."""

    def __init__(self, assets: Mapping[str, bytes], stylesheets: Sequence[str]) -> None:
        self._fetcher = table_fetcher(assets)
        self._styles = [_stylesheet(text) for text in stylesheets]
        self._pictures = pictures(assets)

    def document(self, html: str, css: str = "") -> Any:
        """The engine's document of one part."""
        source = engine().package.HTML(string=_with_directions(html), url_fetcher=self._fetcher)
        return source.render(
            font_config=engine().fonts,
            stylesheets=[*self._styles, _stylesheet(css)],
            cache=self._pictures,
            pdf_variant=_VARIANT,
        )


@lru_cache(maxsize=64)
def _stylesheet(text: str) -> Any:
    """A parsed stylesheet, kept: the same text is parsed once in a process."""
    loaded = engine()
    return loaded.package.CSS(string=text, font_config=loaded.fonts, url_fetcher=table_fetcher({}))


def _with_directions(html: str) -> str:
    """The direction of each `<bdi dir="auto">` told by its first letter: the engine takes it for the page's own."""
    return _AUTO.sub(lambda found: f"{found[1]}{_direction(unescape(found[3]))}{found[2]}{found[3]}", html)


def _direction(text: str) -> str:
    strong = (bidirectional(letter) for letter in text)
    return "rtl" if next((kind for kind in strong if kind in ("L", "R", "AL")), "L") != "L" else "ltr"


def _link_words(html: str) -> dict[str, str]:
    """The words of each link by its target, as the engine will name the target."""
    return {
        unescape(target).removeprefix("#"): " ".join(unescape(_TAG.sub("", words)).split())
        for target, words in _LINK.findall(html)
    }


@contextlib.contextmanager
def at_work() -> Iterator[list[str]]:
    """The press at work: what the engine logs meanwhile; its failures are ours."""
    with _listening() as log, collector_at_rest(), _as_render_error():
        yield log


@contextlib.contextmanager
def _listening() -> Iterator[list[str]]:
    """Collect what the engine logs in this thread, from warnings upward."""
    lines: list[str] = []
    thread = threading.get_ident()

    class Listener(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            message = record.getMessage()
            if record.thread == thread and _NOT_OF_THE_PAGE not in message:
                lines.append(f"{record.levelname.lower()}: {message}")

    logger = logging.getLogger("weasyprint")
    listener = Listener(logging.WARNING)
    logger.addHandler(listener)
    try:
        yield lines
    finally:
        logger.removeHandler(listener)


@contextlib.contextmanager
def _as_render_error() -> Iterator[None]:
    """The engine, and its failures as ours. Its refusal to fetch is no Exception and would pass all other handlers."""
    engine()
    from weasyprint.urls import FatalURLFetchingError

    try:
        yield
    except FatalURLFetchingError as error:
        raise RenderError(str(error)) from None
    except ExplainerError:
        raise
    except Exception as error:
        raise RenderError(f"the PDF engine stopped: {type(error).__name__}: {error}") from error
