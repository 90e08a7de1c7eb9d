"""A price list as it lies in the file: sheets of rows of cells, with the file's row numbers."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from decimal import Decimal
from typing import TypeAlias

Cell: TypeAlias = "str | Decimal | dt.date"
"""Text, an exact number from a spreadsheet, or a date; an empty cell is an empty text."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row: `number` counts from 1 as the file's own program shows it.

    `sheet` is the name of its sheet where the file has several.
    """

    number: int
    cells: tuple[Cell, ...]
    filled: frozenset[int] = frozenset()
    hidden: bool = False
    sheet: str = ""

    @property
    def place(self) -> str:
        """The row as messages name it: its number, after its sheet where there are several."""
        return f"{self.sheet} {self.number}" if self.sheet else str(self.number)

    def cell(self, index: int) -> Cell:
        """Return a cell, or an empty text beyond the row's end."""
        return self.cells[index] if 0 <= index < len(self.cells) else ""

    @property
    def is_blank(self) -> bool:
        """Whether no cell holds anything."""
        return not any(cell != "" for cell in self.cells)


@dataclass(frozen=True, slots=True)
class Sheet:
    """One table of cells; text files have one nameless sheet.

    `formats` holds words found only in number formats, by column; `uncomputed` the rows with
    a formula whose value was never saved; `roles` the columns' roles where we cut the text
    ourselves; `delimiter` the mark between the cells of a text file.
    """

    name: str
    rows: tuple[Row, ...]
    hidden: bool = False
    formats: dict[int, str] = field(default_factory=dict)
    uncomputed: frozenset[int] = frozenset()
    roles: tuple[str, ...] = ()
    delimiter: str = ""


def text_of(cell: Cell) -> str:
    """Return a cell as one line of text, as a reader would see it."""
    if isinstance(cell, str):
        return cell
    if isinstance(cell, Decimal):
        return f"{cell:f}"
    return cell.isoformat()


def cell_text(row: Row, index: int) -> str:
    """Return the text of one cell of a row."""
    return text_of(row.cell(index))


def column_name(index: int) -> str:
    """Return the letter name of a column: 0 is A, 26 is AA."""
    name = ""
    index += 1
    while index:
        index, digit = divmod(index - 1, 26)
        name = chr(ord("A") + digit) + name
    return name


def column_index(name: str) -> int | None:
    """Return the index of a column given as a letter name or a number from 1; None if neither."""
    text = name.strip().upper()
    if text.isdecimal():
        return int(text) - 1 if int(text) >= 1 else None
    if not text or not all("A" <= mark <= "Z" for mark in text) or len(text) > 3:
        return None
    index = 0
    for mark in text:
        index = index * 26 + ord(mark) - ord("A") + 1
    return index - 1
