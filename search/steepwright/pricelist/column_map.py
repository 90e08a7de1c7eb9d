"""A header that the user gives: which column holds what, where the list does not say."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from steepwright.errors import InputError
from steepwright.pricelist.cells import Sheet, column_index, column_name, text_of
from steepwright.pricelist.header import Column, Header, read_header
from steepwright.pricelist.offers import Question
from steepwright.pricelist.table import Table

ROLES = (
    "sku",
    "name",
    "group",
    "unit",
    "price_per",
    "thickness",
    "width",
    "depth",
    "length",
    "size",
    "price",
    "pack_pieces",
    "stock",
    "min_quantity",
    "discount",
    "strength",
    "species",
    "surface",
    "grain",
    "currency",
    "vat",
    "ignore",
)
"""Roles that ``--columns`` can give to a column."""


def read_header_roles(roles: Sequence[str]) -> Header:
    """Return a header that stands in no row, with the given role of each column."""
    columns = tuple(Column(i, role, role) for i, role in enumerate(roles) if role)
    return Header(columns, 0, 0)


def fixed_header(text: str) -> Header:
    """Return the header of a column map such as ``sku,name,-,price`` or ``B=name,D=price``.

    Raises
    ------
    InputError
        When a role or a column is not known.
    """
    columns: list[Column] = []
    for index, part in enumerate(text.split(",")):
        at: int | None = index
        role = part.strip()
        if "=" in role:
            letter, role = (side.strip() for side in role.split("=", 1))
            at = column_index(letter)
        title, _, more = role.partition(" ")
        if at is None or (title and title not in (*ROLES, "-")):
            message = f"--columns: {part.strip()!r} is no column role; there are {', '.join(ROLES)}"
            raise InputError(message)
        if title and title != "-":
            told = read_header([f"{title} {more}"], 0, 0).columns if more else ()
            columns.append(
                replace(told[0], index=at, role=title) if told else Column(at, title, title)
            )
    return Header(tuple(columns), 0, 0, 0 if "=" in text else text.count(",") + 1)


def columns_question(sheets: Sequence[Sheet]) -> Question:
    """Ask for a column map, showing the first full row."""
    rows = [row for sheet in sheets for row in sheet.rows if not row.is_blank]
    sample = max(rows[:40], key=lambda row: sum(c != "" for c in row.cells), default=None)
    shown = ""
    if sample is not None:
        cells = [
            f"{column_name(i)} {text_of(cell)[:18]!r}"
            for i, cell in enumerate(sample.cells[:10])
            if cell != ""
        ]
        shown = f" Row {sample.number} is: {', '.join(cells)}."
    return Question(
        "columns",
        f"No header row with a price was found; what do the columns hold?{shown}",
        "--columns sku,name,-,unit,price",
    )


def price_question(tables: Sequence[Table]) -> Question:
    """Ask for the price column of a table whose header was found but names no price."""
    header = next(table.headers[0] for table in tables if table.headers)
    rows = next(table.sheet.rows for table in tables if table.headers)
    titles = next((row for row in rows if row.number == header.first_row), None)
    cells = titles.cells if titles else ()
    shown = [f"{column_name(i)} ({text_of(c)[:24]})" for i, c in enumerate(cells[:12]) if c != ""]
    return Question(
        "price_column",
        f"The header in row {header.first_row} names no price with a number under it; which column "
        f"holds it: {', '.join(shown)}?",
        "--price-column E (its letter)",
    )
