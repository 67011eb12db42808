"""Workbooks (.xlsx): the rows of one sheet as text, by a library that reads values and runs nothing.

Numbers and dates have types there: a date comes as year-month-day, a number as its digits. Signs are the number's own,
so a column of powers needs the workshop's word that it has them (numbers_with_sign), as in any other table.
"""

from __future__ import annotations

import datetime as dt
import warnings
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NoReturn

from explainer.errors import Fault, InputError
from explainer.orders.tables.rows import Row
from explainer.places import start_of, why_not

WORKBOOKS = (".xlsx",)
LARGEST_FILE = 20_000_000
LARGEST_UNPACKED = 200_000_000
MOST_ROWS = 100_000
MOST_COLUMNS = 300


def workbook_rows(path: Path, *, sheet: str | None, header_row: int = 1) -> Iterator[Row]:
    """The rows of a sheet, as wide as its row of headings. InputError for no workbook, or one beyond measure."""
    _look_first(path)
    try:
        rows = _open(path, sheet)
        yield from _counted(path, rows, header_row)
    except (InputError, GeneratorExit):
        raise
    except Exception as error:  # the library meets damaged files with errors of many kinds
        _refuse(path, f"a workbook that cannot be read ({type(error).__name__})", "an .xlsx file as saved")


def _look_first(path: Path) -> None:
    """A workbook is a zip file; one that unpacks beyond measure is not unpacked at all."""
    try:
        start_of(path, 1)
        if path.stat().st_size > LARGEST_FILE:
            _refuse(path, f"more than {LARGEST_FILE} bytes", f"at most {LARGEST_FILE} bytes")
    except OSError as error:
        _refuse(path, why_not(error), "a readable file")
    try:
        with zipfile.ZipFile(path) as packed:
            unpacked = sum(part.file_size for part in packed.infolist())
    except (OSError, zipfile.BadZipFile, ValueError, NotImplementedError):
        _refuse(path, "no workbook", "an .xlsx file as saved by a spreadsheet")
    if unpacked > LARGEST_UNPACKED:
        _refuse(path, f"{unpacked} bytes when unpacked", f"at most {LARGEST_UNPACKED} bytes")


def _open(path: Path, sheet: str | None) -> Iterator[tuple[Any, ...]]:
    import openpyxl

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # about styles and extensions that do not matter here
        book = openpyxl.load_workbook(path, read_only=True, data_only=True, keep_links=False)
    if sheet is not None and sheet not in book.sheetnames:
        names = ", ".join(book.sheetnames[:8])
        _refuse(path, f"no sheet named {sheet[:40]!r}", f"one of {names}, under export.sheet")
    found = book[sheet] if sheet else book.worksheets[0]
    rows: Iterator[tuple[Any, ...]] = found.iter_rows(values_only=True, max_col=MOST_COLUMNS)
    return rows


def _counted(path: Path, rows: Iterator[tuple[Any, ...]], header_row: int) -> Iterator[Row]:
    width = 0
    for number, values in enumerate(rows, 1):
        if number > MOST_ROWS:
            _refuse(path, f"more than {MOST_ROWS} rows", f"at most {MOST_ROWS} rows in a workbook")
        cells = [_text(value) for value in values]
        if number == header_row:
            width = max((place for place, cell in enumerate(cells, 1) if cell.strip()), default=0)
            if not width:
                _refuse(path, f"an empty row {number}", "the names of the columns")
        while len(cells) > width and not cells[-1].strip():
            cells.pop()
        yield Row(number, number, cells + [""] * (width - len(cells)))


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dt.datetime):
        return value.date().isoformat() if value.time() == dt.time() else value.isoformat(sep=" ")
    if isinstance(value, float):
        return f"{round(value, 6):.6f}".rstrip("0").rstrip(".")
    return str(value)


def _refuse(path: Path, found: str, accepted: str) -> NoReturn:
    raise InputError(str(path), [Fault("file", found, accepted)]) from None
