"""The shipped material facts: strength classes, panels, rule constants and their sources."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import fields
from functools import cache
from pathlib import Path
from typing import Any

from steepwright.catalog.tables import TableRow, read_table
from steepwright.catalog.types import Factors, Materials, NdsLumber, Panel, Source, TimberClass
from steepwright.findings import Finding, Findings
from steepwright.resources import catalogs_dir


@cache
def read_materials() -> Materials:
    """Return the shipped material facts; read once.

    Raises
    ------
    InputError
        When a shipped file was damaged; it lists every problem.
    """
    return read_materials_from(catalogs_dir() / "materials")


def read_materials_from(folder: Path) -> Materials:
    """Return the material facts of a folder with the five files of ``catalogs/materials``.

    Raises
    ------
    InputError
        When a file is missing, holds a bad number or a name twice, or figures that can't be or
        don't match; it lists every problem.
    """
    problems = Findings()
    classes = _typed(folder / "timber_classes.csv", TimberClass, problems)
    panels = _typed(folder / "panels.csv", Panel, problems)
    lumber = _typed(folder / "nds_lumber.csv", NdsLumber, problems)
    sources = _sources(folder / "sources.csv", problems)
    values, origins = _factors(folder / "factors.csv", problems)
    if not problems.errors:
        for message in _misfits(values):
            problems.add(Finding("catalog-material", "error", message, str(folder / "factors.csv")))
    problems.raise_if_errors("The table of materials")
    return Materials(
        timber_classes={row.name: row for row in classes},
        panels={row.id: row for row in panels},
        factors=Factors(values, origins),
        sources=sources,
        nds_lumber={row.name: row for row in lumber},
    )


def _typed(path: Path, record: type[Any], problems: Findings) -> tuple[Any, ...]:
    """Read rows whose columns are a record's fields, numbers by the field's type."""
    kinds = {f.name: f.type for f in fields(record) if f.metadata.get("in_file", True)}
    numbers: dict[str, Callable[[str], Any]] = {"int": int, "float": _size}
    made = []
    for row in _unique(path, next(iter(kinds)), kinds, problems):
        try:
            cells = {k: numbers.get(str(kinds[k]), str)(cell) for k, cell in row.cells.items()}
        except ValueError as error:
            problems.add(_bad(path, row, str(error)))
            continue
        made.append(record(**cells))
    return tuple(made)


def _size(cell: str) -> float:
    """Return a strength, stiffness, size or density; ValueError when nothing can have it."""
    value = float(cell)
    if not 0.0 < value < math.inf:
        message = f"{cell} is no strength, stiffness, size or density: it must be greater than 0"
        raise ValueError(message)
    return value


def _misfits(values: Mapping[str, float]) -> Iterable[str]:
    """Yield what is wrong with the limits of the search."""
    step = "search_step_screw_mm"
    pairs = [(f"search_least_{n}", f"search_most_{n}") for n in ("studs", "mounts", "screw_mm")]
    missing = [key for key in (*sum(pairs, ()), step) if key not in values]
    if missing:
        yield f"no value is given for {', '.join(missing)}"
        return
    for least, most in pairs:
        if values[least] > values[most]:
            yield f"{least} ({values[least]:g}) is more than {most} ({values[most]:g})"
    least, most = pairs[-1]
    if values[step] <= 0.0 or (values[most] - values[least]) % values[step]:
        yield (
            f"{step} ({values[step]:g}) doesn't divide what lies between {least}"
            f" ({values[least]:g}) and {most} ({values[most]:g}): one of them would never be tried"
        )


def _sources(path: Path, problems: Findings) -> dict[str, Source]:
    columns = ("id", "title", "note", "memory")
    return {
        row.cells["id"]: Source(
            row.cells["id"], row.cells["title"], row.cells["note"], row.cells["memory"] == "yes"
        )
        for row in _unique(path, "id", columns, problems)
    }


def _factors(path: Path, problems: Findings) -> tuple[dict[str, float], dict[str, str]]:
    values: dict[str, float] = {}
    origins: dict[str, str] = {}
    columns = ("key", "value", "unit", "clause", "source", "note")
    for row in _unique(path, "key", columns, problems):
        key = row.cells["key"]
        try:
            values[key] = float(row.cells["value"])
            if not math.isfinite(values[key]):
                problems.add(_bad(path, row, f"{key} is {values[key]}, which is no number"))
        except ValueError as error:
            problems.add(_bad(path, row, str(error)))
        origins[key] = row.cells["source"]
    return values, origins


def _unique(
    path: Path, name: str, columns: Iterable[str], problems: Findings
) -> tuple[TableRow, ...]:
    rows = read_table(path, columns, (), problems) or ()
    known: set[str] = set()
    for row in rows:
        if row.cells[name] in known:
            problems.add(_bad(path, row, f"{row.cells[name]!r} is there twice"))
        known.add(row.cells[name])
    return rows


def _bad(path: Path, row: TableRow, message: str) -> Finding:
    return Finding("catalog-material", "error", message, str(path), row.line)
