"""Tables on stdout; words carry the meaning, colour only repeats it."""

from __future__ import annotations

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
    from rich.table import Table
    from rich.text import Text

    table = Table(box=_box(), title=title or None, title_justify="left", title_style="")
    for heading, is_number in columns:
        table.add_column(
            heading, justify="right" if is_number else "left", no_wrap=is_number, overflow="fold"
        )
    for row in rows:
        table.add_row(*(Text(cell, style=STYLES.get(cell, "")) for cell in row))
    _console().print(table)


def _console() -> Any:
    from rich.console import Console

    is_terminal = sys.stdout.isatty()
    width = shutil.get_terminal_size().columns if is_terminal else PLAIN_WIDTH
    return Console(
        file=sys.stdout, width=width, highlight=False, markup=False, emoji=False, no_color=_plain()
    )


def _plain() -> bool | None:
    """Tell whether colour is off: NO_COLOR (https://no-color.org) or no terminal."""
    import os

    return True if os.environ.get("NO_COLOR") or not sys.stdout.isatty() else None


def _box() -> Any:
    from rich import box

    return box.SIMPLE_HEAD
