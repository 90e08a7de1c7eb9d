"""A csv file as rows with line numbers; what is wrong with the file as such becomes findings."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from steepwright.findings import Finding, Findings, nearest


@dataclass(frozen=True, slots=True)
class TableRow:
    """One row: its line in the file (from 1) and its cells by column, stripped."""

    line: int
    cells: Mapping[str, str]


def read_table(
    path: Path, required: Iterable[str], optional: Iterable[str], problems: Findings
) -> tuple[TableRow, ...] | None:
    """Return the rows of a csv file, or None when its form is wrong (then a finding tells).

    Parameters
    ----------
    path
        A UTF-8 file (a byte-order mark is allowed), commas between cells, one header row.
    required, optional
        Names of the columns that must and may be there.
    problems
        Takes the findings.
    """
    text = read_text(path, problems)
    if text is None:
        return None
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    before = len(problems.items)
    try:
        header = _header(path, reader, problems)
        if header is None:
            return None
        problems.extend(_column_problems(path, header, tuple(required), tuple(optional)))
        if len(problems.items) > before:
            return None
        return tuple(_rows(path, reader, header, problems))
    except csv.Error as error:
        problems.add(
            Finding(
                "catalog-csv",
                "error",
                "this line can't be read as comma-separated cells",
                str(path),
                reader.line_num,
                seen=str(error),
                next_step="look for a quote that is opened and not closed",
            )
        )
        return None


def _how_to_get(kind: str) -> str:
    if kind in ("sheets", "timber"):
        return (
            f"no wall is made without {kind}; 'steepwright prices' takes several lists together, "
            f"or {kind} from another catalogue with --fill-from DIR"
        )
    return "'steepwright new' writes a folder with all files to start from"


def read_text(path: Path, problems: Findings) -> str | None:
    """Return a file's text, or None with a finding when it is missing or no UTF-8 text."""
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except FileNotFoundError:
        problems.add(
            Finding(
                "catalog-missing-file",
                "error",
                f"the catalogue has no {path.name}",
                str(path),
                expected=f"a file {path.name} in the catalogue's folder",
                next_step=_how_to_get(path.stem),
            )
        )
        return None
    except OSError as error:
        problems.add(
            Finding("catalog-unreadable", "error", f"can't be read: {error.strerror}", str(path))
        )
        return None
    except UnicodeDecodeError as error:
        problems.add(_no_utf8(path, f"byte {error.object[error.start]:#04x}"))
        return None
    if "\0" in text:
        problems.add(_no_utf8(path, "a NUL character"))
        return None
    return text


def _no_utf8(path: Path, seen: str) -> Finding:
    return Finding(
        "catalog-encoding",
        "error",
        "the file is not UTF-8 text",
        str(path),
        seen=seen,
        expected="plain text in UTF-8",
        next_step="save it from the spreadsheet as 'CSV UTF-8'; a yard's own list goes "
        "through 'steepwright prices'",
    )


def _header(path: Path, reader: Iterable[list[str]], problems: Findings) -> tuple[str, ...] | None:
    first = next(iter(reader), None)
    if not first or not any(cell.strip() for cell in first):
        problems.add(
            Finding(
                "catalog-empty-file",
                "error",
                "the file is empty",
                str(path),
                expected="a header row and one row per article",
            )
        )
        return None
    header = tuple(cell.strip() for cell in first)
    other = next((mark for mark in (";", "\t") if len(header) == 1 and mark in header[0]), None)
    if other is None:
        return header
    problems.add(
        Finding(
            "catalog-separator",
            "error",
            "the cells are not separated by commas",
            str(path),
            1,
            seen="semicolons" if other == ";" else "tabs",
            expected="commas between cells and a point in decimal numbers",
            next_step="save it as comma-separated; a yard's own list goes through "
            "'steepwright prices'",
        )
    )
    return None


def _column_problems(
    path: Path, header: tuple[str, ...], required: tuple[str, ...], optional: tuple[str, ...]
) -> Iterable[Finding]:
    known = (*required, *optional)
    missing = [name for name in known if name not in header]
    for name in required:
        if name not in header:
            yield Finding(
                "catalog-missing-column",
                "error",
                "this column is missing",
                str(path),
                1,
                name,
                expected=f"the columns {', '.join(required)}",
                next_step=_rename_hint(name, header, known),
            )
    hinted = {nearest(name, [h for h in header if h not in known]) for name in missing} - {""}
    for i, name in enumerate(header):
        if name in header[:i]:
            yield Finding(
                "catalog-double-column", "error", "this column is there twice", str(path), 1, name,
                expected="each column once", next_step="take one of the two out",
            )  # fmt: skip
        elif name not in known and not (name in hinted and set(missing) & set(required)):
            yield _unknown_column(path, name, known)


def _rename_hint(name: str, header: tuple[str, ...], known: tuple[str, ...]) -> str:
    like = nearest(name, [h for h in header if h not in known])
    return f"rename the column {like!r} to {name!r}" if like else f"add a column {name!r}"


def _unknown_column(path: Path, name: str, known: tuple[str, ...]) -> Finding:
    like = nearest(name, known)
    return Finding(
        "catalog-unknown-column",
        "error",
        "this column is not known",
        str(path),
        1,
        name or "(no name)",
        expected=f"one of {', '.join(known)}",
        next_step=f"did you mean {like!r}?" if like else "remove the column",
    )


def _rows(
    path: Path, reader: Iterable[list[str]], header: tuple[str, ...], problems: Findings
) -> Iterable[TableRow]:
    found = False
    for cells in reader:
        if not any(cell.strip() for cell in cells):
            continue
        found = True
        line: int = reader.line_num  # type: ignore[attr-defined]
        if len(cells) == len(header):
            stripped = (cell.strip() for cell in cells)
            yield TableRow(line, dict(zip(header, stripped, strict=True)))
        else:
            problems.add(_uneven(path, line, len(cells), len(header)))
    if not found:
        problems.add(
            Finding(
                "catalog-empty-file",
                "error",
                "the file has a header row and nothing below it",
                str(path),
                expected="one row per article",
            )
        )


def _uneven(path: Path, line: int, cells: int, columns: int) -> Finding:
    more = cells > columns
    return Finding(
        "catalog-cells",
        "error",
        f"the row has {'more' if more else 'fewer'} cells than the header",
        str(path),
        line,
        seen=f"{cells} cells",
        expected=f"{columns} cells",
        next_step="write decimal numbers with a point (48.90) and put a text that holds a comma "
        "between double quotes"
        if more
        else "add the missing cells; an empty one still needs its comma",
    )
