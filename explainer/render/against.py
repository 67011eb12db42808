"""A finished leaflet read again, to see whether this paper belongs to this order.

What is compared is the printed text, not what the file says of itself: the order's number wherever it stands, the check
word, and every row of the prescription table with its four cells. The rows that should be there come from the order by
the same templates in the leaflet's own language; the rows that are there come from the PDF.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from html import unescape
from io import BytesIO
from pathlib import Path
from typing import NamedTuple

from explainer.compose.explained import explained
from explainer.compose.plan import compose
from explainer.errors import Fault, InputError, MissingText
from explainer.orders import Order
from explainer.orders.assembly.check_word import check_word
from explainer.places import start_of, why_not
from explainer.render.fallback import marked, plain
from explainer.render.language import Language, language
from explainer.render.sections import Speaker
from explainer.render.tables import page_context
from explainer.render.voice import Voice

LARGEST = 50_000_000
_LEAFLET = "a leaflet made by this program"
_MARKS = re.compile("[\u200e\u200f\u202a-\u202e\u2066-\u2069]")
_ROW = re.compile(r"<tr>(.*?)</tr>", re.DOTALL)
_CELL = re.compile(r"<t[hd]\b[^>]*>(.*?)</t[hd]>", re.DOTALL)


def _(message: str) -> str:
    """Marks a message for extraction; these two are the ones of the page's head."""
    return message


_LONG = 20  # letters: what fits into a line of the page's head in any edition

NUMBER = _("Order %(number)s")
WORD = _("Check word %(word)s")


@dataclass(frozen=True, slots=True)
class Paper:
    """What a PDF shows: its language, and its text with single blanks."""

    language: str
    text: str


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
        text = " ".join(page.extract_text() for page in reader.pages)
        code = str(reader.root_object.get("/Lang", ""))
    except InputError:
        raise
    except Exception as error:  # damaged files make the reader fail in many ways
        found = f"a PDF that cannot be read ({type(error).__name__})"
        raise InputError(str(path), [Fault("file", found, _LEAFLET)]) from None
    if not text.strip():
        raise InputError(str(path), [Fault("file", "a PDF without any text", _LEAFLET)])
    return Paper(code, _plain(text))


def differences(order: Order, paper: Paper) -> list[Fault]:
    """Everything on the paper that is not this order's; empty when it is this order's leaflet."""
    try:
        spoken = language(paper.language)
    except MissingText:
        return [Fault("file", "a PDF in no language of this program", _LEAFLET)]
    found = [
        *_token("order number", NUMBER, order.number, paper, spoken),
        *_token("check word", WORD, check_word(order), paper, spoken),
    ]
    rows = list(expected_rows(replace(order, language=paper.language), spoken))
    return found + [fault for row in rows if (fault := _row_fault(row, paper))]


def expected_rows(order: Order, spoken: Language) -> Iterator[Row]:
    """The rows of the prescription table, as they must stand on the order's leaflet."""
    explanation = explained(order)
    voice = Voice(spoken, explanation.claims)
    document = compose(order.spectacles, explanation)
    speaker = Speaker(voice, document, page_context(order, voice), lambda *_: "")
    for row in _ROW.findall(speaker.table_html("prescription")):
        name_cell, *cells = (_plain(unescape(re.sub(r"<[^>]+>", " ", cell))) for cell in _CELL.findall(row))
        if name_cell:  # the head row has none
            yield Row(name_cell, " ".join(filter(None, cells)))


def _token(field: str, message: str, expected: str, paper: Paper, spoken: Language) -> list[Fault]:
    """A fault unless this word, and none like it, follows its label wherever the label stands."""
    before, _, after = re.sub(r"%\(\w+\)s", "\0", plain(marked(spoken, message))).partition("\0")
    text = _in_one_piece(expected, paper.text)
    after_label = set(re.findall(rf"(?<!\w){re.escape(before)}([\w.-]*\w){re.escape(after)}", text))
    others = {word for word in after_label - {expected} if word.isupper() or re.search(r"\d", word)}
    if others:
        return [Fault(field, ", ".join(sorted(others)[:3]), expected)]
    stands = re.search(rf"(?<![\w.-]){re.escape(expected)}(?![\w-])", text)
    return [] if stands else [Fault(field, "nothing", expected)]


def _in_one_piece(number: str, text: str) -> str:
    """The text with this number whole where a line ended within it: after a hyphen, or anywhere if it is very long."""
    gap = " ?" if len(number) >= _LONG else ""
    torn = gap.join("- ?" if letter == "-" else re.escape(letter) for letter in number)
    return re.sub(rf"(?<![\w.-]){torn}(?![\w-])", lambda _: number, text)


def _row_fault(row: Row, paper: Paper) -> Fault | None:
    """A fault unless the paper has the row with just these cells."""
    if re.search(rf"(?<!\w){re.escape(row.name)} {re.escape(row.cells)}(?!\S)", paper.text):
        return None
    length = len(row.cells) + 4
    first = re.search(rf"(?<!\w){re.escape(row.name)} ([\d+−].{{0,{length}}})", paper.text)
    return Fault(f'row "{row.name}"', first[1].strip() if first else "no such row", row.cells)


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
