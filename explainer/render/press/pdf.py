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
from itertools import islice
from typing import Any, cast
from unicodedata import bidirectional

from explainer.collector import collector_at_rest
from explainer.errors import RenderError
from explainer.render.press.blocks import blocks
from explainer.render.press.engine import engine
from explainer.render.press.fetch import table_fetcher
from explainer.render.press.finish import finisher
from explainer.render.press.galley import Galley, Part
from explainer.render.press.layout import Kind, Layout, set_kind
from explainer.render.press.pictures import pictures
from explainer.render.press.sheet import Sheet, foot_css, sheet
from explainer.render.press.told import told

_PART = re.compile(r"<!--(wide|pair|columns|foot)-->")
_BESIDE = "<!--beside-->"  # between the halves of a pair
_ROOT = re.compile(r"<html\b[^>]*>")
_LINK = re.compile(r'<a\b[^>]*\bhref="([^"]+)"[^>]*>(.*?)</a>', re.DOTALL)
_TAG = re.compile(r"<[^>]*>")
_AUTO = re.compile(r'(<bdi\b[^>]*\bdir=")auto("[^>]*>)([^<]*)')
_VARIANT = "pdf/ua-1"
# About the machine, not the page: `engine_notes` says it once.
_NOT_OF_THE_PAGE = "Using fontTools instead of HarfBuzz-Subset"


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
    most_pages: int | None = None,
) -> Pdf:
    """Lay the page out and write it as PDF/UA-1. Equal arguments give equal bytes.

    `stylesheets` are texts, in the order of the cascade. `created` is the order's date. `title`, `identifier`
    and `keywords` stand in the file: no wearer's name in any. With `strict` any warning of the engine (a character that
    no font has, an unknown property) is a RenderError, because it is a fault on the printed page. More pages than
    `most_pages` are laid out, and not painted: `data` is empty then.
    """
    with _listening() as log, collector_at_rest(), _as_render_error():
        setting = _Setting(assets, stylesheets)
        layout = _laid_out(html, setting, direction, log)
        if layout is not None and most_pages is not None and layout.page_count > most_pages:
            return Pdf(b"", layout.page_count, tuple(log))
        document = setting.document(html) if layout is None else _on_sheets(html, setting, layout)
        _describe(document.metadata, title, language, created, keywords)
        placements = layout.placements if layout else []
        data = document.write_pdf(
            finisher=finisher(direction=direction, link_words=_link_words(html), placements=placements),
            pdf_variant=_VARIANT,
            pdf_identifier=identifier.encode(),
        )
        log.extend(f"error: a figure is taller than the page: {words}" for words in (layout.spilt if layout else ()))
    if strict and log:
        raise RenderError("the page has faults:\n" + "\n".join(f"  - {told(line)}" for line in dict.fromkeys(log)))
    return Pdf(data, layout.page_count if layout else len(document.pages), tuple(log))


class _Setting:
    """What all parts of one document are set with."""

    def __init__(self, assets: Mapping[str, bytes], stylesheets: Sequence[str]) -> None:
        self.assets, self.stylesheets = assets, stylesheets
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


def _laid_out(html: str, setting: _Setting, direction: str, log: Sequence[str]) -> Layout | None:
    """The place of each part on paper; None if the page is not made of parts."""
    head, *found = _PART.split(html)
    if not found:
        return None
    on = _sheet_of(head)
    parts = [
        (kind, [Part(text, on.set_width_mm if kind == "wide" else on.set_column_mm) for text in texts])
        for kind, texts in _kinds(found, on)
    ]
    root = _ROOT.findall(head)[0]
    galley = Galley(root, setting.stylesheets, setting.assets, on.set_height_mm)
    pieces = galley.pieces(
        [part for _, texts in parts for part in texts],
        lambda text, css: setting.document(f"{root}<body>{text}", css).pages,
        log,
    )
    layout, rest = Layout(on, direction), iter(pieces)
    layout.add_all([(kind, list(islice(rest, len(texts)))) for kind, texts in parts])
    return layout


def _kinds(found: Sequence[str], on: Sheet) -> Iterator[tuple[Kind, list[str]]]:
    """Each part but the foot: how it is set, and the HTML of what it consists of: blocks, or the halves of a pair."""
    for name, html in zip(found[::2], found[1::2], strict=True):
        if name != "foot":
            kind = set_kind(cast("Kind", name), html, on.set_column_mm)
            if kind == "columns":
                yield kind, blocks(html)
            else:
                yield kind, [half for half in html.split(_BESIDE) if half.strip()] if kind == "pair" else [html]


def _on_sheets(html: str, setting: _Setting, layout: Layout) -> Any:
    """The document: all that was placed, and after it a sheet with its foot for each page."""
    head, foot = html.split("<!--foot-->", maxsplit=1)[0], html.rsplit("<!--foot-->", maxsplit=1)[-1]
    leaves = '<div class="leaf"></div>' * layout.page_count
    feet = setting.document(_ROOT.findall(head)[0] + "<body>" + foot + leaves, foot_css(layout.on))
    return feet.copy([*layout.pages(), *feet.pages])


def _sheet_of(head: str) -> Sheet:
    """The sheet that the page asks for at its root element."""
    paper, edition = (re.search(rf'data-{name}="([^"]*)"', head) for name in ("paper", "edition"))
    if paper is None or edition is None:
        raise RenderError("the page's root element names no data-paper or no data-edition")
    return sheet(paper[1], edition[1])


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


def _describe(metadata: Any, title: str, language: str, created: date, keywords: Sequence[str]) -> None:
    """What the file says of itself. The date is the order's, never the clock's."""
    metadata.title = title
    metadata.lang = language
    metadata.generator = "explainer"
    metadata.keywords = list(keywords)
    metadata.created = metadata.modified = created.isoformat()


def _link_words(html: str) -> dict[str, str]:
    """The words of each link by its target, as the engine will name the target."""
    return {
        unescape(target).removeprefix("#"): " ".join(unescape(_TAG.sub("", words)).split())
        for target, words in _LINK.findall(html)
    }


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
    except RenderError:
        raise
    except Exception as error:
        raise RenderError(f"the PDF engine stopped: {type(error).__name__}: {error}") from error
