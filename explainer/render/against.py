"""A finished leaflet read again, to see whether this paper belongs to this order.

What is compared is the printed text, not what the file says of itself: the foot of every page (number, check word, page
of pages), and what stands for each eye below its lens and in the table of numbers. What should be there comes from the
order by the same templates in the leaflet's own language; what is there comes from the PDF.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, replace
from html import unescape
from io import BytesIO
from pathlib import Path
from typing import NamedTuple

from explainer.compose.choices import choose
from explainer.compose.explained import explained
from explainer.compose.plan import compose
from explainer.errors import Fault, InputError, MissingText
from explainer.orders import Order
from explainer.orders.assembly.check_word import check_word
from explainer.places import start_of, why_not
from explainer.render.fallback import marked, plain
from explainer.render.language import Language, language
from explainer.render.page_words import PageWords
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.titles import PAGE_OF
from explainer.render.voice import Voice

LARGEST = 50_000_000
FIRST_SHEET_PAGES = 2
_LEAFLET = "a leaflet made by this program"
_MARKS = re.compile("[\u200e\u200f\u202a-\u202e\u2066-\u2069]")
_ROW = re.compile(r"<tr>(.*?)</tr>", re.DOTALL)
_EYE = re.compile(r'<div>(<p class="eye">.*?</p>.*?)</div>', re.DOTALL)
_CELL = re.compile(r"<(?:t[hd]|p)\b[^>]*>(.*?)</(?:t[hd]|p)>", re.DOTALL)


_LONG = 20  # letters: what fits into a line of a page's foot in any edition
_ANY_FOOT = re.compile(r"(?<!\S)([\w.-]+), ([A-Z]{4,6}) · \d+")


@dataclass(frozen=True, slots=True)
class Paper:
    """What a PDF shows: its language, and the text of its pages with single blanks."""

    language: str
    pages: tuple[str, ...]

    @property
    def text(self) -> str:
        """The whole text."""
        return " ".join(self.pages)


class Row(NamedTuple):
    """A row of a table as the order has it."""

    name: str
    cells: str


def read_paper(path: Path) -> Paper:
    """The leaflet's text. InputError for what is no PDF, or one without text."""
    import logging

    from pypdf import PdfReader

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)  # it tells of every blemish that it gets over
    try:
        data = _bytes(path)
        reader = PdfReader(BytesIO(data))
        pages = tuple(_plain(page.extract_text()) for page in reader.pages)
        code = str(reader.root_object.get("/Lang", ""))
    except InputError:
        raise
    except Exception as error:  # damaged files make the reader fail in many ways
        found = f"a PDF that cannot be read ({type(error).__name__})"
        raise InputError(str(path), [Fault("file", found, _LEAFLET)]) from None
    if not any(pages):
        raise InputError(str(path), [Fault("file", "a PDF without any text", _LEAFLET)])
    return Paper(code, pages)


def differences(order: Order, paper: Paper) -> list[Fault]:
    """Everything on the paper that is not this order's; empty when it is this order's leaflet."""
    try:
        spoken = language(paper.language)
    except MissingText:
        return [Fault("file", "a PDF in no language of this program", _LEAFLET)]
    own = replace(order, language=paper.language)
    rows = list(expected_rows(own, spoken, numbers=len(paper.pages) > FIRST_SHEET_PAGES))
    return [*_foot_faults(own, paper, spoken), *(fault for row in rows if (fault := _row_fault(row, paper)))]


def expected_rows(order: Order, spoken: Language, *, numbers: bool = True) -> Iterator[Row]:
    """What stands for each eye: below its lens on the first page, and in the table of numbers where that is printed."""
    explanation = explained(order)
    voice = Voice(spoken, explanation.claims)
    speaker = Speaker(voice, compose(order.spectacles, explanation), page_context(order, voice), lambda *_: "")
    words = PageWords(order, speaker, {}, choose(explanation.claims))
    blocks = [(words.block("pair"), _EYE), *([(words.block("numbers"), _ROW)] if numbers else [])]
    for html, pattern in blocks:
        for found in pattern.findall(html):
            name, *cells = (_plain(unescape(re.sub(r"<[^>]+>", " ", cell))) for cell in _CELL.findall(found))
            if name:  # head and explanations have none
                yield Row(name, " ".join(filter(None, cells)))


def _foot_faults(order: Order, paper: Paper, spoken: Language) -> Iterator[Fault]:
    """Every page names the order, its check word, and which of how many it is: none is missing, none is old."""
    word = check_word(order)
    for number, text in enumerate(paper.pages, 1):
        page_of = plain(marked(spoken, PAGE_OF)) % {"page": str(number), "pages": str(len(paper.pages))}
        foot = f"{order.number}, {word} · {page_of}"
        whole = _in_one_piece(order.number, text)
        if spoken.direction == "rtl":
            stands = _foot_any_way(whole, order.number, word, {number, len(paper.pages)})
        else:
            stands = foot in whole
        if not stands:
            found = _ANY_FOOT.search(text)
            yield Fault(f"foot of page {number}", found[0] if found else "nothing", foot)


def _foot_any_way(text: str, number: str, word: str, counts: set[int]) -> bool:
    """Whether a foot stands in a text whose signs a reader may give in another order, as with pages from right to left.

    Page 2 of 6 and page 6 of 2 read alike then; but only one of them can be page 2 of this paper of six.
    """
    for found in re.finditer(rf"{re.escape(number)}\W{{1,4}}{word}\W(.{{0,30}})", text):
        if {int(digits) for digits in re.findall(r"\d+", found[1])[:2]} == counts:
            return True
    return False


def _in_one_piece(number: str, text: str) -> str:
    """The text with this number whole where a line ended within it: after a hyphen, or anywhere if it is very long."""
    gap = " ?" if len(number) >= _LONG else ""
    torn = gap.join("- ?" if letter == "-" else re.escape(letter) for letter in number)
    return re.sub(rf"(?<![\w.-]){torn}(?![\w-])", lambda _: number, text)


def _row_fault(row: Row, paper: Paper) -> Fault | None:
    """A fault unless the paper has the row with just these cells, however a reader parts words and lines."""
    name, cells = _closed(row.name), _closed(row.cells)
    text = _closed(paper.text)
    if re.search(rf"{re.escape(name)}{re.escape(cells)}(?![\d.,°])", text) or _row_any_way(name, cells, text):
        return None
    length = len(row.cells) + 4
    first = re.search(rf"(?<!\w){re.escape(row.name)} ([\d+−].{{0,{length}}})", paper.text)
    return Fault(f'row "{row.name}"', first[1].strip() if first else "no such row", row.cells)


def _row_any_way(name: str, cells: str, text: str) -> bool:
    """The same where the name is in letters that are joined from right to left, which a reader gives in another order.

    The letters of the name stand before its numbers, all of them and no others.
    """
    if not any(unicodedata.bidirectional(letter) == "AL" for letter in name):
        return False
    letters = sorted(name)
    for found in re.finditer(rf"{re.escape(cells)}(?![\d.,°])", text):
        if sorted(text[max(0, found.start() - len(name)) : found.start()]) == letters:
            return True
    return False


def _closed(text: str) -> str:
    """The text without blanks."""
    return "".join(text.split())


def _bytes(path: Path) -> bytes:
    try:
        data = start_of(path, LARGEST + 1)
    except OSError as error:
        raise InputError(str(path), [Fault("file", why_not(error), _LEAFLET)]) from None
    if not data.lstrip()[:5] == b"%PDF-" or len(data) > LARGEST:
        raise InputError(str(path), [Fault("file", "no PDF", _LEAFLET)])
    return data


def _plain(text: str) -> str:
    """Single blanks, no marks of direction."""
    return " ".join(_MARKS.sub("", text).split())
