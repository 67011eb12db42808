"""A shop's export in our columns: its headings, its words, its dates and numbers, as the workshop file says."""

from __future__ import annotations

import datetime as dt
import difflib
import re
from collections import Counter
from collections.abc import Sequence

from explainer.errors import Fault, InputError
from explainer.orders.shop.export import DateForm, ExportTable, heading_of, same_heading
from explainer.orders.tables.cells import POWER, WORDS
from explainer.orders.tables.columns import COLUMNS, Column, Heading, needed_columns
from explainer.orders.values.texts import of_a_kind, quoted

_FORMS: dict[str, str] = {
    "yyyy-mm-dd": "%Y-%m-%d",
    "dd.mm.yyyy": "%d.%m.%Y",
    "dd.mm.yy": "%d.%m.%y",
    "dd/mm/yyyy": "%d/%m/%Y",
    "dd/mm/yy": "%d/%m/%y",
    "mm/dd/yyyy": "%m/%d/%Y",
    "mm/dd/yy": "%m/%d/%y",
}
_DAY_ZERO = dt.date(1899, 12, 30)  # spreadsheets count from here, as if 1900 had been a leap year
_SERIAL_DAYS = (36_526, 73_050)  # 2000 to 2099
_DATES = ("date", "written", "bench_release_date")
_SIGNED = re.compile(r"([+\-\u2212]?)(\d{1,3}(?:[.,]\d{1,4})?)", re.ASCII)
_NUMBERS = re.compile(r"\d{1,3}(?:[.,]\d{1,2})?", re.ASCII)
_MONTHS = ("january february march april may june july august september october november december",)
_LIST = re.compile(r"\s*[,;|+/&]\s*")
_TIME = re.compile(r"[ T]\d{1,2}:\d{2}(:\d{2})?(\.\d+)?Z?$")


def export_faults(export: ExportTable) -> list[Fault]:
    """What [export] says of columns that there are not."""
    named = [(f'export.columns."{heading}"', name) for heading, name in _named(export)]
    named += [(f"export.values.{name}", name) for name in export.values]
    named += [(f"export.always.{name}", name) for name in export.always]
    faults = [Fault(place, quoted(name), _near(name)) for place, name in named if name not in COLUMNS]
    faults += [
        Fault("export.numbers_with_sign", quoted(heading), "a heading that export.columns names")
        for heading in export.numbers_with_sign
        if heading_of(export.columns, heading) is None
    ]
    filled = Counter([name for _, name in _named(export)] + list(export.always))
    twice = [name for name, times in filled.items() if times > 1]
    return faults + [Fault("export", f"{name} filled {filled[name]} times", "each column once") for name in twice]


def mapped_headings(header: Sequence[str], export: ExportTable, *, source: str) -> list[Heading]:
    """The headings of an export in our columns. InputError names every heading that the workshop file leaves open."""
    faults = export_faults(export)
    any_known = any(heading_of(export.columns, name) is not None for name in header)  # else the headings are missing
    headings = [_heading(name.strip(), place, export, faults, shown=any_known) for place, name in enumerate(header, 1)]
    present = {column.name for heading in headings for column in heading.columns} | set(export.always)
    faults += needed_columns(present)
    for name, times in Counter(" ".join(name.casefold().split()) for name in header if name.strip()).items():
        if times > 1:
            shown = quoted(name) if heading_of(export.columns, name) is not None else "that is not known"
            faults.append(Fault(f"heading {shown}", f"{times} times", "each heading once"))
    if faults:
        raise InputError(source, faults)
    return headings


def mapped_cells(heading: Heading, text: str, export: ExportTable, faults: list[Fault]) -> list[tuple[Column, str]]:
    """A cell of an export as cells of ours; a cell that says nothing we know becomes a fault under its heading."""
    if any(same_heading(word, text) for word in export.nothing):
        return []
    names = _as_list(export.columns[heading_of(export.columns, heading.name) or heading.name])
    if len(names) > 1 and all(name in export.values for name in names):
        return _each_in_our_words(heading, text, export, faults)
    parts = _NUMBERS.findall(text) if len(names) > 1 else [text]
    if len(parts) != len(names):
        accepted = f"{len(names)} numbers, for {', '.join(name or 'nothing' for name in names)}"
        faults.append(Fault(heading.name, of_a_kind(text, [accepted]), accepted))
        return []
    found = []
    for name, part in zip(names, parts, strict=True):
        if not name:
            continue
        column = COLUMNS[name]
        said = _said(column, part, heading, export)
        if isinstance(said, Fault):
            faults.append(said)
        else:
            found.append((column, said))
    return found


def _said(column: Column, text: str, heading: Heading, export: ExportTable) -> str | Fault:
    if column.name in export.values:
        return _in_our_words(column, text, heading, export)
    if column.name in _DATES:
        return _date(text, export.dates, heading)
    if column.name == "order":
        return _order_number(text, export)
    if heading.signed and column.kind is POWER:
        return _signed(text)
    return text


def _in_our_words(column: Column, text: str, heading: Heading, export: ExportTable) -> str | Fault:
    """The shop's word in ours; of a list, each word, where the whole cell is not named."""
    whole = export.meant(column.name, text)
    if whole is not None:
        return whole
    parts = [part for part in _LIST.split(text) if part] if column.kind is WORDS else []
    meant = [export.meant(column.name, part) for part in parts]
    if parts and all(word is not None for word in meant):
        return " ".join(word for word in meant if word)
    return Fault(
        heading.name, quoted(text), f"a word under export.values.{column.name}: {_some(export.values[column.name])}"
    )


def _each_in_our_words(
    heading: Heading, text: str, export: ExportTable, faults: list[Fault]
) -> list[tuple[Column, str]]:
    """What a cell says to each of several columns, such as kind and colour of a tint; at least one must know it."""
    found = [(column, word) for column in heading.columns if (word := export.meant(column.name, text)) is not None]
    if not found:
        tables = " or ".join(f"export.values.{column.name}" for column in heading.columns)
        faults.append(Fault(heading.name, quoted(text), f"a word under {tables}"))
    return found


def _some(words: dict[str, str]) -> str:
    named = list(words)[:8]
    return ", ".join(named) + (" …" if len(words) > len(named) else "")


def _date(text: str, form: DateForm, heading: Heading) -> str | Fault:
    plain = _TIME.sub("", text)
    if form == "serial" and plain.isdecimal() and _SERIAL_DAYS[0] <= int(plain[:6]) <= _SERIAL_DAYS[1]:
        return (_DAY_ZERO + dt.timedelta(days=int(plain))).isoformat()
    for known in dict.fromkeys((_FORMS.get(form, "%Y-%m-%d"), "%Y-%m-%d")):
        try:
            return dt.datetime.strptime(plain, known).date().isoformat()
        except ValueError:
            continue
    return Fault(heading.name, of_a_kind(text, _MONTHS), f"a date written as {form}, as export.dates says")


def _order_number(text: str, export: ExportTable) -> str:
    plain = text.removeprefix(export.order_numbers.drop or "").strip()
    for sign, ours in export.order_numbers.instead_of.items():
        plain = plain.replace(sign, ours)
    return plain


def _signed(text: str) -> str:
    """A number with its own sign as our cells want it; what is none stays as it is and is refused there."""
    found = _SIGNED.fullmatch(text)
    if found is None:
        return text
    value = float(found[2].replace(",", "."))
    digits = 2 if round(value, 2) == value else 3
    sign = "-" if found[1] in ("-", "\u2212") else "+"
    return f"{sign}{value:.{digits}f}" if value else "0"


def _heading(name: str, place: int, export: ExportTable, faults: list[Fault], *, shown: bool) -> Heading:
    known = heading_of(export.columns, name)
    if not name:
        return Heading("", ())
    if known is None:
        accepted = 'this heading under export.columns in the workshop file, "" to leave it out; `explainer headings`'
        faults.append(Fault(f"column {place}", f"the heading {quoted(name) if shown else 'that it has'}", accepted))
        return Heading(name, (), left_out=True)
    signed = any(same_heading(known, one) for one in export.numbers_with_sign)
    columns = tuple(COLUMNS[one] for one in _as_list(export.columns[known]) if one in COLUMNS)
    return Heading(name, columns, signed=signed, left_out=not columns)


def _as_list(names: str | list[str]) -> list[str]:
    return ([names] if names else []) if isinstance(names, str) else names


def _named(export: ExportTable) -> list[tuple[str, str]]:
    return [(heading, name) for heading, names in export.columns.items() for name in _as_list(names) if name]


def _near(name: str) -> str:
    near = difflib.get_close_matches(name[:60], COLUMNS, n=1)
    return f"{near[0]}?" if near else "a column that `explainer schema --csv` prints"
