"""XLSX, XLS and ODS -> sheets of cells, read in a child process with caps on time and memory."""

from __future__ import annotations

import datetime as dt
import json
import os
import subprocess
import sys
import zipfile
from decimal import Decimal
from pathlib import Path
from typing import Any

from steepwright.errors import InputError
from steepwright.findings import Finding, Findings
from steepwright.pricelist.cells import Cell, Row, Sheet
from steepwright.pricelist.limits import limit
from steepwright.pricelist.xlsx_marks import Marks, read_marks

_CHILD = Path(__file__).with_name("workbook_child.py")
_CAPS = ("max_rows", "max_columns", "max_sheets", "child_bytes")


def read_workbook(path: Path, file: str, findings: Findings) -> tuple[Sheet, ...]:
    """Return every sheet of a spreadsheet file.

    Raises
    ------
    InputError
        When the file is broken, protected, or larger than the caps in ``limits.csv``.
    """
    marks = _checked_zip(path, file)
    document = _run_child(path, file)
    if "error" in document:
        raise InputError(_broken(file, str(document["error"])))
    several = len(document["sheets"]) > 1
    sheets = tuple(_sheet(raw, marks, file, several) for raw in document["sheets"])
    if sum(len(row.cells) for sheet in sheets for row in sheet.rows) > limit("max_cells"):
        message = f"{file}: holds more than {limit('max_cells')} cells"
        raise InputError(message)
    _flag_hidden(sheets, file, findings)
    return sheets


def _checked_zip(path: Path, file: str) -> dict[str, Marks]:
    """Refuse a zip that unpacks to too much; return what an XLSX says beside its values."""
    if not zipfile.is_zipfile(path):
        return {}
    try:
        with zipfile.ZipFile(path) as parts:
            infos = parts.infolist()
            unpacked = sum(info.file_size for info in infos)
            most = limit("max_unpacked_bytes")
            if unpacked > most or len(infos) > 10_000:
                message = (
                    f"{file}: unpacks to {unpacked // 1_000_000} MB, more than the "
                    f"{most // 1_000_000} MB that a price list may hold"
                )
                raise InputError(message)
            return read_marks(parts) if "xl/workbook.xml" in parts.namelist() else {}
    except (zipfile.BadZipFile, OSError, EOFError, NotImplementedError, RuntimeError) as problem:
        raise InputError(_broken(file, str(problem))) from None


def _run_child(path: Path, file: str) -> dict[str, Any]:
    caps = json.dumps({key: limit(key) for key in _CAPS})
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path))}
    command = [sys.executable, "-P", str(_CHILD), str(path.resolve()), caps]
    try:
        done = subprocess.run(
            command,
            capture_output=True,
            timeout=limit("child_seconds"),
            env=environment,
            check=False,
        )
    except subprocess.TimeoutExpired:
        message = f"{file}: takes longer than {limit('child_seconds')} s to open; save it as CSV"
        raise InputError(message) from None
    if done.returncode != 0:
        raise InputError(_broken(file, "the file needs too much memory or breaks the reader"))
    document: dict[str, Any] = json.loads(done.stdout)
    return document


def _broken(file: str, why: str) -> str:
    return f"{file}: can't be read as a spreadsheet ({why}); open it and save it again, or as CSV"


def _sheet(raw: dict[str, Any], marks: dict[str, Marks], file: str, several: bool) -> Sheet:
    name = str(raw["name"])
    if "too_large" in raw:
        height, width = raw["too_large"]
        message = (
            f"{file}: sheet {name!r} spans {height} rows by {width} columns, more than "
            f"{limit('max_rows')} by {limit('max_columns')}"
        )
        raise InputError(message)
    first_row, first_column = raw["start"]
    seen = marks.get(name, Marks())
    table = [[""] * first_column + [_cell(value) for value in row] for row in raw["rows"]]
    filled = _fill_merged(table, raw["merged"], first_row)
    rows = tuple(
        Row(
            first_row + offset + 1,
            tuple(cells),
            frozenset(filled.get(offset, ())),
            first_row + offset + 1 in seen.hidden_rows,
            name if several else "",
        )
        for offset, cells in enumerate(table)
    )
    return Sheet(name, rows, bool(raw["hidden"]), seen.formats, seen.uncomputed)


def _cell(value: Any) -> Cell:
    if isinstance(value, str):
        return value
    if len(value) == 2:
        return dt.date.fromisoformat(value[0])
    number = Decimal(value[0])
    return number if number.is_finite() else ""


def _fill_merged(
    table: list[list[Cell]], merged: list[list[list[int]]], first_row: int
) -> dict[int, set[int]]:
    """Copy the value of a merged area into its blank cells; return the copies by row."""
    filled: dict[int, set[int]] = {}
    for (top, left), (bottom, right) in merged:
        top, bottom = top - first_row, min(bottom - first_row, len(table) - 1)
        if top < 0 or top >= len(table) or left >= len(table[top]):
            continue
        value = table[top][left]
        for offset in range(top, bottom + 1):
            for column in range(left, min(right + 1, len(table[offset]))):
                if table[offset][column] == "" and value != "":
                    table[offset][column] = value
                    filled.setdefault(offset, set()).add(column)
    return filled


def _flag_hidden(sheets: tuple[Sheet, ...], file: str, findings: Findings) -> None:
    for sheet in sheets:
        if sheet.uncomputed:
            shown = ", ".join(map(str, sorted(sheet.uncomputed)[: limit("max_listed_rows")]))
            findings.add(
                Finding(
                    "price-list-uncomputed",
                    "warning",
                    f"formulas without a saved value in rows {shown}",
                    file=file,
                    key=sheet.name,
                    next_step="open the file, let it recalculate, and save it",
                )
            )
