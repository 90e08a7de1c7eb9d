"""`Catalog` -> the folder form that `read_catalog` takes; the folder is the old or the new one."""

from __future__ import annotations

import csv
import errno
import io
import json
import os
import shutil
import tempfile
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict
from decimal import Decimal
from pathlib import Path
from typing import Any

from steepwright.catalog.columns import guard, one_line
from steepwright.catalog.rows import (
    CATALOG_FILES,
    HARDWARE,
    MOUNTS,
    SCREWS,
    SHEETS,
    TIMBER,
    TRIPS_FILE,
    YARD_FILE,
    Table,
)
from steepwright.catalog.types import Catalog
from steepwright.errors import UsageError
from steepwright.units import money
from steepwright.writing import exchanged, write_for


def write_catalog(catalog: Catalog, folder: Path, beside: Mapping[str, str] | None = None) -> None:
    """Write a catalogue as a folder that `read_catalog` reads back as the same catalogue.

    The files are written to a folder of a temporary name, which then takes the place of
    `folder`. Text cells that a spreadsheet would run as a formula get an apostrophe in front.
    A table without rows is left out, so that the shipped one serves when it is read.

    Parameters
    ----------
    folder
        Made when missing. When it is there, it may hold nothing but files of this form.
    beside
        More text files to write into the same folder, by name.

    Raises
    ------
    UsageError
        When `folder` is a file or holds anything else, which would be lost.
    OSError
        When it can't be written, or is there and may not be.
    """
    folder = folder.resolve()
    files = {**catalog_files(catalog), **(beside or {})}
    _refuse_to_lose(folder, {*CATALOG_FILES, TRIPS_FILE, *files})
    folder.parent.mkdir(parents=True, exist_ok=True)
    new = Path(tempfile.mkdtemp(dir=folder.parent, prefix=f".{folder.name}."))
    try:
        for name, text in files.items():
            write_for(folder / name, new / name, text.encode())
        new.chmod(0o755)
        _put_in_place(new, folder)
    finally:
        shutil.rmtree(new, ignore_errors=True)


def catalog_files(catalog: Catalog) -> dict[str, str]:
    """Return the texts of a catalogue's files by name."""
    tables: tuple[tuple[Table[Any], Sequence[Any]], ...] = (
        (SHEETS, catalog.sheets),
        (TIMBER, catalog.timber),
        (SCREWS, catalog.screws),
        (MOUNTS, catalog.mounts),
        (HARDWARE, catalog.hardware),
    )
    texts = {YARD_FILE: _heading(catalog)}
    for table, records in tables:
        if records:
            texts[table.file] = _table(records, catalog.name)
    if catalog.trips:
        rows = [(_cell(yard), money(price_cents)) for yard, price_cents in catalog.trips]
        texts[TRIPS_FILE] = _csv([("yard", "price"), *rows])
    return texts


def _heading(catalog: Catalog) -> str:
    values = {
        "name": catalog.name,
        "currency": catalog.currency,
        "date": catalog.date,
        "vat": catalog.vat,
        "note": catalog.note,
    }
    return "".join(f"{key} = {_toml(value)}\n" for key, value in values.items())


def _toml(text: str) -> str:
    """Return a TOML basic string; JSON's escapes are a subset of TOML's but for DEL."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _table(records: Iterable[Any], yard: str) -> str:
    rows = [_cells(asdict(record), yard) for record in records]
    columns = list(rows[0])
    if not any(row["yard"] for row in rows):
        columns.remove("yard")
    return _csv([columns, *([row[name] for name in columns] for row in rows)])


def _csv(rows: Iterable[Sequence[str]]) -> str:
    stream = io.StringIO(newline="")
    csv.writer(stream, lineterminator="\n").writerows(rows)
    return stream.getvalue()


def _cells(values: dict[str, Any], yard: str) -> dict[str, str]:
    if values["yard"] == yard:
        values["yard"] = ""
    return {
        name.removesuffix("_cents"): money(value) if name == "price_cents" else _cell(value)
        for name, value in values.items()
    }


def _cell(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, float):
        return _plain(value)
    return guard(one_line(value)) if isinstance(value, str) else str(value)


def _plain(value: float) -> str:
    """Return the shortest decimal number that reads back as the same float, no exponent."""
    text = f"{Decimal(repr(value)):f}"
    return text.removesuffix(".0")


def _refuse_to_lose(folder: Path, ours: set[str]) -> None:
    if folder.exists() and not folder.is_dir():
        message = f"{folder} is a file; name a folder for the catalogue"
        raise UsageError(message)
    others = (
        sorted(p.name for p in folder.iterdir() if p.name not in ours) if folder.exists() else []
    )
    if others:
        message = (
            f"{folder} holds other things ({', '.join(others[:3])}), which would be lost; "
            "name a new folder or one that holds only a catalogue"
        )
        raise UsageError(message)
    if folder.exists() and not os.access(folder, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(folder))


def _put_in_place(new: Path, folder: Path) -> None:
    """Let `new` take the place of `folder`; if that fails, the old one is put back."""
    if exchanged(new, folder):
        return
    if not folder.exists():
        new.rename(folder)
        return
    old = Path(tempfile.mkdtemp(dir=folder.parent, prefix=f".{folder.name}.old."))
    folder.rename(old / "kept")
    try:
        new.rename(folder)
    except OSError:
        (old / "kept").rename(folder)
        raise
    finally:
        shutil.rmtree(old, ignore_errors=True)
