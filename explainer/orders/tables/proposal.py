"""A first [export] for a workshop file, proposed from an export: what is sure is written, what is not is marked.

Only a person turns a proposal into what orders are read by. Words are known from headings.toml, and a heading counts
as sure only if the cells below it look like what it promises.
"""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from itertools import islice
from pathlib import Path
from typing import Any

from explainer.errors import InputError
from explainer.orders.tables.cells import AXIS, MILLIMETRES, POWER, WHOLE, Kind
from explainer.orders.tables.columns import COLUMNS
from explainer.orders.tables.rows import Row, csv_rows
from explainer.orders.tables.workbook import WORKBOOKS, workbook_rows

_LOOKED_AT = 300
_MOST_WORDS = 40
_WORD = re.compile(r"[^\W\d_]+|\d+(?:\.\d+)?")
_NUMBER = re.compile(r"[+\-\u2212]?\d{1,3}(?:[.,]\d{1,4})?")
_DATES = ("date", "written")
_FORMS = {
    "yyyy-mm-dd": "%Y-%m-%d",
    "dd.mm.yyyy": "%d.%m.%Y",
    "dd.mm.yy": "%d.%m.%y",
    "dd/mm/yyyy": "%d/%m/%Y",
    "dd/mm/yy": "%d/%m/%y",
    "mm/dd/yyyy": "%m/%d/%Y",
    "mm/dd/yy": "%m/%d/%y",
}
_SIZE = re.compile(r"\d{2}\D{1,3}\d{2}(\D{1,3}\d{3})?")  # as it is stamped on a frame: lens, bridge, arm
_LISTS = ("lens_coatings", "wearer_uses")


@dataclass(frozen=True, slots=True)
class Guess:
    """What a heading may be: a column of ours, "" for one to leave out, None where nothing fits."""

    heading: str
    column: str | None
    sure: bool


@dataclass(frozen=True, slots=True)
class Sample:
    """The headings of an export and its first rows, with the encoding that reads them."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    encoding: str

    def cells(self, heading: str) -> list[str]:
        """What stands below a heading, without empty cells."""
        place = self.headings.index(heading)
        return [text for row in self.rows if place < len(row) and (text := row[place].strip())]


def sample_of(path: Path) -> Sample:
    """The beginning of an export, read as the first encoding that fits. InputError if it is no table."""
    if path.suffix.lower() in WORKBOOKS:
        return _taken(workbook_rows(path, sheet=None), "utf-8")
    known = _heading_words()
    try:
        return _taken(csv_rows(path, encoding="utf-8", known=known), "utf-8")
    except InputError as error:
        if "UTF-8" not in str(error):
            raise
    return _taken(csv_rows(path, encoding="cp1252", known=known), "cp1252")


def guesses(sample: Sample) -> list[Guess]:
    """A guess for each heading; of two headings for one column, only the first one is sure."""
    found: list[Guess] = []
    for heading in sample.headings:
        column = _column_for(heading)
        twice = bool(column) and any(guess.column == column for guess in found)
        sure = column == "" or (column is not None and not twice and _fits(column, sample.cells(heading)))
        found.append(Guess(heading, column, sure))
    return found


def is_frame_size(cells: Sequence[str]) -> tuple[str, ...]:
    """The columns of sizes as they are stamped on a frame, such as 52-18-140; nothing if the cells are not such."""
    found = [_SIZE.fullmatch(cell) for cell in cells]
    if not cells or not all(found):
        return ()
    with_arm = {bool(size and size[1]) for size in found}
    return () if len(with_arm) > 1 else ("frame_a_mm", "frame_dbl_mm", *([""] if with_arm == {True} else []))


def word_for(column: str, text: str) -> str | None:
    """Our word for a shop's word in that column, if it is known."""
    plain = " ".join(text.casefold().split())
    plain = plain.replace(",", ".") if _NUMBER.fullmatch(plain) else plain
    table: dict[str, list[str]] = _data()["values"].get(column, {})
    return next((ours for ours, theirs in table.items() if plain in theirs or plain == ours), None)


def shop_words(column: str, cells: Sequence[str]) -> list[str]:
    """The different words of a column, most frequent first; of a list in a cell, its members."""
    parts = [part for cell in cells for part in (re.split(r"\s*[,;|+/&]\s*", cell) if column in _LISTS else [cell])]
    return [word for word, _ in Counter(part.strip() for part in parts if part.strip()).most_common(_MOST_WORDS)]


def date_forms(cells: Sequence[str]) -> list[str]:
    """The forms in which every date can be read: more than one where no day is after the twelfth."""
    plain = [cell.split(" ")[0].split("T")[0] for cell in cells]
    return [name for name, form in _FORMS.items() if plain and all(_is_date(text, form) for text in plain)]


def unsigned(cells: Sequence[str]) -> int:
    """How many numbers other than zero stand without a sign."""
    return sum(bool(_NUMBER.fullmatch(cell)) and cell[0].isdigit() and bool(cell.strip("0.,")) for cell in cells)


def is_power(column: str) -> bool:
    """Whether the cells of a column are powers, which need a sign."""
    return COLUMNS[column].kind is POWER


def has_words(column: str) -> bool:
    """Whether a column takes words of a closed set."""
    return column in _data()["values"]


def _taken(rows: Any, encoding: str) -> Sample:
    header: Row = next(rows)
    first = [tuple(row.cells) for row in islice(rows, _LOOKED_AT) if any(map(str.strip, row.cells))]
    return Sample(tuple(name.strip() for name in header.cells if name.strip()), tuple(first), encoding)


def _column_for(heading: str) -> str | None:
    words = [word.casefold() for word in _WORD.findall(heading)]
    said = " ".join(words)
    eye = [side for side in ("right", "left") if set(words) & set(_data()["eyes"][side])]
    if len(eye) == 1:
        rest = " ".join(word for word in words if word not in _data()["eyes"][eye[0]])
        part = _listed(_data()["eye_parts"], rest)
        if part is not None:
            return {"pd": f"pd_{eye[0]}_mm", "height": f"height_{eye[0]}_mm"}.get(part, f"{eye[0]}_{part}")
    column = _listed(_data()["columns"], said) or _listed(_data()["columns"], _without_units(words))
    return "" if column == "left_out" else column


def _listed(table: dict[str, list[str]], said: str) -> str | None:
    return next((name for name, forms in table.items() if said in forms), None)


def _without_units(words: Sequence[str]) -> str:
    return " ".join(word for word in words if word not in ("mm", "d", "dpt", "deg", "grad"))


def _fits(column: str, cells: Sequence[str]) -> bool:
    """Whether the cells look like what the column holds; an empty column shows nothing against it."""
    kind: Kind = COLUMNS[column].kind
    if column in _DATES:
        return bool(date_forms(cells)) or not cells
    if kind is POWER or kind in (AXIS, MILLIMETRES, WHOLE):
        return all(_NUMBER.fullmatch(cell.rstrip(" °")) for cell in cells)
    return True


def _is_date(text: str, form: str) -> bool:
    try:
        datetime.strptime(text, form)
    except ValueError:
        return False
    return True


@cache
def _data() -> dict[str, Any]:
    return tomllib.loads((Path(__file__).parent / "headings.toml").read_text(encoding="utf-8"))


@cache
def _heading_words() -> tuple[str, ...]:
    return tuple(form for forms in _data()["columns"].values() for form in forms)
