"""A table of orders: its headings, and each row as the plain data of an order, in our own columns or a shop's."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from explainer.errors import Fault
from explainer.orders.shop.export import ExportTable
from explainer.orders.tables.cells import is_formula
from explainer.orders.tables.columns import COLUMNS, Column, Heading, fill, headings_of, join_prisms, plain_name
from explainer.orders.tables.mapped import mapped_cells, mapped_headings
from explainer.orders.tables.rows import Row, csv_rows
from explainer.orders.tables.workbook import WORKBOOKS, workbook_rows

_NO_ROW = Row(0, 0, [])


class Table:
    """One table, opened: what its headings mean, and its rows as they are asked for. Blank rows are left out.

    A header in our own names is read by them; any other by the workshop's [export]. InputError with every fault of
    the header, or for what breaks the file.
    """

    def __init__(self, path: Path, export: ExportTable | None) -> None:
        rows = iter(_rows(path, export))
        for _ in range(export.header_row - 1 if export else 0):
            next(rows, None)
        header = next(rows, _NO_ROW).cells
        ours = all(plain_name(name) in COLUMNS for name in header if name.strip())
        self._export = None if ours else export
        source = str(path)
        self.headings = (
            mapped_headings(header, self._export, source=source) if self._export else headings_of(header, source=source)
        )
        self.rows: Iterator[Row] = (row for row in rows if any(map(str.strip, row.cells)))

    def number(self, row: Row) -> str | None:
        """The order number of a row, read alone for the first walk through a table."""
        if len(row.cells) != len(self.headings):
            return None
        for heading, cell in zip(self.headings, row.cells, strict=True):
            for column, text in self._cells(heading, cell.strip(), []) if _has_number(heading) else ():
                if column.name == "order":
                    return text
        return None

    def data(self, row: Row, faults: list[Fault]) -> dict[str, Any]:
        """One row as the plain data of an order file; what cannot be read is left out and becomes a fault."""
        data: dict[str, Any] = {}
        if len(row.cells) != len(self.headings):
            found = f"{len(row.cells)} cells"
            faults.append(Fault("row", found, f"{len(self.headings)} cells, as many as the header has"))
            return data
        for name, text in (self._export.always if self._export else {}).items():
            fill(data, COLUMNS[name], text, faults)
        for place, (heading, cell) in enumerate(zip(self.headings, row.cells, strict=True), 1):
            text = cell.strip()
            if not text or heading.left_out:
                continue
            if not heading.columns:
                faults.append(Fault(f"column {place}", "a cell in a column without a name", "a name in the header"))
            elif is_formula(text):
                faults.append(Fault(heading.name, "a cell that begins like a spreadsheet formula", "its value alone"))
            else:
                for column, said in self._cells(heading, text, faults):
                    fill(data, column, said, faults)
        join_prisms(data, faults)
        return data

    def _cells(self, heading: Heading, text: str, faults: list[Fault]) -> list[tuple[Column, str]]:
        if self._export is None:
            return [(column, text) for column in heading.columns]
        return mapped_cells(heading, text, self._export, faults)


def _rows(path: Path, export: ExportTable | None) -> Iterator[Row]:
    if path.suffix.lower() in WORKBOOKS:
        return workbook_rows(
            path, sheet=export.sheet if export else None, header_row=export.header_row if export else 1
        )
    known = [*COLUMNS, *(export.columns if export else ())]
    return csv_rows(path, encoding=export.encoding if export else "utf-8", known=known)


def _has_number(heading: Heading) -> bool:
    return any(column.name == "order" for column in heading.columns)
