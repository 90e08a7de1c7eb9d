"""The day of a list: the user's answer, its titles, its file name, at last the file's own day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

from steepwright.errors import InputError
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.limits import limit
from steepwright.pricelist.notes import list_date
from steepwright.pricelist.table import Table


def date_of(path: Path, tables: Sequence[Table], ctx: ListContext, today: dt.date | None) -> str:
    """Return the list's date: the answer, its titles, its file name; else the file's own day."""
    if ctx.answers.date:
        return _answered_date(ctx.answers.date)
    notes = [note for table in tables for note in table.notes]
    month_first = ctx.currency == "USD"
    found, swappable = list_date(notes, month_first)
    if not found:
        found, swappable = list_date([path.stem.replace("_", " ")], month_first)
    if swappable:
        order = "month first" if month_first else "day first"
        ctx.assume(
            "price-list-date", f"the list's date is read {order}, as {found}", "", f"--date {found}"
        )
    if not found:
        found = _day_of_file(path, today)
        message = f"the list names no date; its file is of {found}"
        ctx.assume("price-list-date", message, "", "settle it with --date")
    if today and (today - dt.date.fromisoformat(found)).days > limit("stale_days"):
        ctx.warn(
            "price-list-old", f"the list is of {found}, older than half a year", "ask for a new one"
        )
    return found


def _day_of_file(path: Path, today: dt.date | None) -> str:
    """Return the day a file was last written; one in the future comes from a wrong clock."""
    try:
        day = dt.date.fromtimestamp(path.stat().st_mtime)
    except (OverflowError, ValueError):
        day = dt.date.max
    return (min(day, today) if today else day).isoformat()


def _answered_date(text: str) -> str:
    try:
        return dt.date.fromisoformat(text.strip()).isoformat()
    except ValueError:
        message = f"--date {text}: is no date such as 2026-11-01"
        raise InputError(message) from None
