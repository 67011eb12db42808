"""Spreadsheet exports (CSV, workbooks): rows of cells, one order a row, read as they come.

Delimiter is the one of ; , and tab that fits the header. Quoted cells may hold line ends and doubled quotation marks.
What breaks the table itself refuses the whole file, since nobody knows where its rows begin any more.
"""

from __future__ import annotations

import csv
from collections.abc import Collection, Iterator
from itertools import chain
from pathlib import Path
from typing import NamedTuple, NoReturn

from explainer.errors import Fault, InputError
from explainer.orders.tables.columns import plain_name
from explainer.orders.values.lines import LONGEST_LINE, byte_lines, text_of

DELIMITERS = ";,\t"
_ENCODING = 'a text in UTF-8: save it as "CSV UTF-8", or say encoding = "cp1252" under [export] in the workshop file'


class Row(NamedTuple):
    """One row: its number as a spreadsheet counts (the header is row 1), the line it begins on, and its cells."""

    number: int
    line: int
    cells: list[str]

    @property
    def place(self) -> str:
        """Where it stands, as a person finds it in a spreadsheet and in an editor."""
        return f"row {self.number}" if self.line == self.number else f"row {self.number} (line {self.line})"


class _Lines:
    """The lines of the file as text. `taken` counts the characters of the present row, which has its limit too."""

    def __init__(self, path: Path, encoding: str) -> None:
        self._path, self._encoding = path, encoding
        self._lines = byte_lines(path)
        self._number = 0
        self.taken = 0

    def __iter__(self) -> Iterator[str]:
        for line in self._lines:
            self._number += 1
            text = text_of(line, encoding=self._encoding)
            self.taken += len(line)
            if isinstance(text, Fault):
                advice = _ENCODING if "UTF-8" in text.found else text.accepted
                _refuse(self._path, self._number, text.found, advice)
            if self.taken > LONGEST_LINE:
                found = f"a row of more than {LONGEST_LINE} bytes"
                _refuse(self._path, self._number, found, "quotation marks that are closed again")
            yield text


def csv_rows(path: Path, *, encoding: str, known: Collection[str]) -> Iterator[Row]:
    """The rows of a table, the header first; or InputError for what breaks it. `known` headings find the delimiter."""
    source = _Lines(path, encoding)
    lines = iter(source)
    first = next(lines, "")
    if not first.strip():
        raise InputError(str(path), [Fault("header", "an empty first line", "the names of the columns")])
    return _rows(path, source, chain([first], lines), _delimiter(first, known))


def _rows(path: Path, source: _Lines, lines: Iterator[str], delimiter: str) -> Iterator[Row]:
    reader = csv.reader(lines, delimiter=delimiter, strict=True)
    number, line = 0, 1
    try:
        for cells in reader:
            number += 1
            source.taken = 0
            yield Row(number, line, cells)
            line = reader.line_num + 1
    except csv.Error as error:
        _refuse(path, line, _said(str(error)), "cells in closed quotation marks, or without any")


def _said(error: str) -> str:
    """The csv module's findings in our words."""
    if "end of data" in error:
        return "a quotation mark that is never closed"
    if "field limit" in error:
        return "a cell beyond measure, or a quotation mark that is never closed"
    if "new-line" in error:
        return "a line end of another kind inside the row"
    return "a quotation mark inside a quoted cell that is not doubled"


def _delimiter(first: str, known: Collection[str]) -> str:
    """The delimiter that makes the most known names out of the header."""
    names = {plain_name(name) for name in known}

    def fits(delimiter: str) -> tuple[int, int]:
        found = [plain_name(name.strip().strip('"')) for name in first.split(delimiter)]
        return sum(name in names for name in found), len(found)

    return max(DELIMITERS, key=fits)


def _refuse(path: Path, line: int, found: str, accepted: str) -> NoReturn:
    raise InputError(str(path), [Fault(f"line {line}", found, accepted)])
