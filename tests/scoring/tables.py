"""The tables of a finished leaflet as a reader understands them: each cell with the heads above and beside it."""

from __future__ import annotations

import re
from typing import NamedTuple

from scoring.leaflet import Made
from scoring.source import classes
from scoring.tagged import Node
from scoring.words import EYE, PART


class Cell(NamedTuple):
    """A data cell: its words, its place, and the heads of its column and its row."""

    text: str
    row: int
    column: int
    column_head: str
    row_head: str


def cells(table: Node) -> list[Cell]:
    """The data cells of a table, row by row; heads that span several rows or columns count for each."""
    grid, heads = _grid(table)
    found = []
    for (row, column), cell in grid.items():
        if (row, column) in heads:
            continue
        above = " ".join(grid[r, column].text for r in range(row) if (r, column) in heads and _in_head(grid[r, column]))
        beside = " ".join(grid[row, c].text for c in range(column) if (row, c) in heads)
        if above or beside:
            found.append(Cell(cell.text, row, column, above, beside))
    return found


def _in_head(cell: Node) -> bool:
    return str(cell.attribute("/Scope")) != "/Row"


def _grid(table: Node) -> tuple[dict[tuple[int, int], Node], set[tuple[int, int]]]:
    grid: dict[tuple[int, int], Node] = {}
    heads: set[tuple[int, int]] = set()
    for row, line in enumerate(table.all("/TR")):
        column = 0
        for cell in line.all("/TH", "/TD"):
            while (row, column) in grid:
                column += 1
            for down in range(int(cell.attribute("/RowSpan") or 1)):
                for right in range(int(cell.attribute("/ColSpan") or 1)):
                    grid[row + down, column + right] = cell
                    if cell.kind == "/TH":
                        heads.add((row + down, column + right))
            column += int(cell.attribute("/ColSpan") or 1)
    return grid, heads


def named(text: str, patterns: dict[str, str]) -> str | None:
    """The one name whose pattern is in the text; None for none or several."""
    found = [name for name, pattern in patterns.items() if re.search(pattern, text, re.IGNORECASE)]
    return found[0] if len(found) == 1 else None


def by_eye_and_part(table: Node, speech: str) -> dict[tuple[str, str], list[Cell]]:
    """Cells by eye and part of the prescription, whichever of the two stands above and which beside."""
    found: dict[tuple[str, str], list[Cell]] = {}
    for cell in cells(table):
        eye = named(cell.column_head, EYE[speech]) or named(cell.row_head, EYE[speech])
        part = named(cell.row_head, PART[speech]) or named(cell.column_head, PART[speech])
        if eye and part:
            found.setdefault((eye, part), []).append(cell)
    return found


def prescription_table(root: Node, speech: str) -> Node | None:
    """The first table with the sphere of both eyes."""
    for table in root.all("/Table"):
        found = by_eye_and_part(table, speech)
        if ("right", "sphere") in found and ("left", "sphere") in found:
            return table
    return None


def tables_without(made: Made, kind: str) -> list[Node]:
    """The tables of the finished page without those of that class in the source."""
    written = made.source.all("table")
    printed = made.tags.all("/Table")
    if len(written) != len(printed):
        return printed
    return [node for node, each in zip(printed, written, strict=True) if kind not in classes(each)]
