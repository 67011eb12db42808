"""How a shop's own export is read: which of its headings is which column of ours, and what its words mean.

It stands in the workshop file under [export]. Nothing is guessed while orders are read: a heading or a word that is
not named there is refused. `explainer headings` proposes the table from an export, for a person to look over.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal

from pydantic import Field

from explainer.orders.values.field_types import Line, ShortLine, Strict

DateForm = Literal["yyyy-mm-dd", "dd.mm.yyyy", "dd.mm.yy", "dd/mm/yyyy", "dd/mm/yy", "mm/dd/yyyy", "mm/dd/yy", "serial"]
Encoding = Literal["utf-8", "cp1250", "cp1251", "cp1252", "cp1253", "cp1256", "iso-8859-1", "iso-8859-15", "mac-roman"]
_Column = Annotated[str, Field(max_length=60)]  # "" for what is left out
Columns = Annotated[list[_Column], Field(min_length=1, max_length=6)]


class OrderNumbers(Strict):
    """What an export writes round or into its order numbers."""

    drop: Annotated[str | None, Field(max_length=5, description='signs before the number, such as "#"')] = None
    instead_of: dict[Annotated[str, Field(min_length=1, max_length=3)], Annotated[str, Field(max_length=3)]] = Field(
        default_factory=dict, description='signs inside it and what stands for them, such as { "/" = "-" }'
    )


class ExportTable(Strict):
    """The table [export] of the workshop file."""

    columns: dict[Line, _Column | Columns] = Field(
        description='heading = column of ours, "" to leave it out; several for the numbers or words of one cell'
    )
    values: dict[ShortLine, dict[Line, Line]] = Field(
        default_factory=dict, description="for each column of ours: the shop's word = our word"
    )
    always: dict[ShortLine, Line] = Field(default_factory=dict, description="column of ours = what every order has")
    numbers_with_sign: list[Line] = Field(
        default_factory=list,
        description="headings whose cells are numbers with their own sign: a spreadsheet drops the plus and last zeros",
    )
    dates: DateForm = Field(
        default="yyyy-mm-dd", description='how dates are written; "serial": a spreadsheet\'s count of days'
    )
    nothing: list[Line] = Field(default_factory=list, description='cells that stand for nothing at all, such as "-"')
    header_row: Annotated[int, Field(ge=1, le=50, description="the row of the headings, if not the first")] = 1
    order_numbers: OrderNumbers = Field(default_factory=OrderNumbers)
    encoding: Encoding = Field(default="utf-8", description="how the file's letters are stored, if not as UTF-8")
    sheet: Line | None = Field(default=None, description="the sheet of a workbook, if not its first")

    def meant(self, column: str, text: str) -> str | None:
        """Our word for a word of the shop's, whatever its capitals and blanks; numbers are compared as numbers."""
        words = self.values.get(column, {})
        return next((ours for theirs, ours in words.items() if _alike(theirs, text)), None)


def same_heading(one: str, other: str) -> bool:
    """Whether two headings are the same but for capitals and blanks."""
    return _plain(one) == _plain(other)


def heading_of(headings: Mapping[str, object], name: str) -> str | None:
    """The heading among these that is the same as this one."""
    return next((heading for heading in headings if same_heading(heading, name)), None)


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def _alike(one: str, other: str) -> bool:
    if _plain(one) == _plain(other):
        return True
    try:
        return float(one.replace(",", ".")) == float(other.replace(",", "."))
    except ValueError:
        return False
