"""Tables on stdout; words carry the meaning, colour only repeats it."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Sequence
from typing import Any

PLAIN_WIDTH = 200
"""Columns when stdout is no terminal, so that a file or a pipe holds whole lines."""

STYLES = {"pass": "green", "fail": "bold red", "not settled": "yellow", "not stated": "yellow"}


def print_table(
    columns: Sequence[tuple[str, bool]], rows: Sequence[Sequence[str]], title: str = ""
) -> None:
    """Print rows under their headings.

    Parameters
    ----------
    columns
        Heading, and whether the column holds numbers (set to the right).
    rows
        Cells as text; a cell that is a key of `STYLES` is coloured on a terminal.
    title
        A line above the table.
    """
    from rich import box
    from rich.table import Table
    from rich.text import Text

    table = Table(
        box=box.SIMPLE_HEAD, title=title or None, title_justify="left", title_style="",
        header_style="",
    )  # fmt: skip
    for heading, is_number in columns:
        table.add_column(
            heading, justify="right" if is_number else "left", no_wrap=is_number, overflow="fold"
        )
    for row in rows:
        table.add_row(*(Text(cell, style=STYLES.get(cell, "")) for cell in row))
    _console().print(table)


def columns_wide() -> int:
    """Return how many columns a table may take."""
    return shutil.get_terminal_size().columns if sys.stdout.isatty() else PLAIN_WIDTH


def _console() -> Any:
    from rich.console import Console

    return Console(
        file=sys.stdout, width=columns_wide(), highlight=False, markup=False, emoji=False,
        no_color=_plain(),
    )  # fmt: skip


def _plain() -> bool | None:
    """Tell whether colour is off: NO_COLOR (https://no-color.org) or no terminal."""
    return True if os.environ.get("NO_COLOR") or not sys.stdout.isatty() else None
