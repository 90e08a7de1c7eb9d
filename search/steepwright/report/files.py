"""What a search leaves in its folder: the page, the document and a table for a spreadsheet."""

from __future__ import annotations

import contextlib
import csv
import io
import json
from collections.abc import Callable, Iterable, Sequence
from dataclasses import asdict
from pathlib import Path

from steepwright.imperial import inches, pounds, pounds_force
from steepwright.report.page import render_page
from steepwright.report.views.guidance import guidance_of
from steepwright.report.views.rows import row_of
from steepwright.report.words import Document, in_inches
from steepwright.writing import Content, write_together

_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠")


def write_outputs(
    document: Document, folder: Path, certificate: Document | None = None
) -> list[Path]:
    """Write designs.json, designs.csv and report.html into a folder, all or none; return them.

    With a certificate, certificate.json as well; one that proves another document is removed.
    """
    texts: dict[str, Content] = {
        "designs.json": json.dumps(document, indent=2, ensure_ascii=False, allow_nan=False) + "\n",
        "designs.csv": designs_csv(document),
        "report.html": render_page(document),
    }
    if certificate is not None:
        tight = json.dumps(certificate, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
        texts["certificate.json"] = tight + "\n"
    elif _proves_another(folder / "certificate.json", document):
        texts["certificate.json"] = None
    write_together({folder / name: text for name, text in texts.items()})
    return [folder / name for name, text in texts.items() if text is not None]


def _proves_another(path: Path, document: Document) -> bool:
    """Tell whether a certificate is there that was not made for this document."""
    if not path.exists():
        return False
    from steepwright.optimise.certificate.given import digest

    with contextlib.suppress(OSError, ValueError, KeyError, TypeError):
        proven = json.loads(path.read_text(encoding="utf-8"))["designs_sha256"]
        return not document["complete"] or proven != digest(document["designs"])
    return True


def designs_csv(document: Document) -> str:
    """Return one row per design; lengths in mm, money in cents.

    Rows of a sampled search say that they are not certified. In a room in inches lengths are in
    inches, to the nearest 1/16, masses in lb and forces in lbf, and their columns say so.
    """
    mark = {"certified": "no"} if document["method"] == "sampled" else {}
    rows = [
        asdict(row_of(design, round(guidance_of(design).front_mm))) | mark
        for design in document["designs"]
    ]
    names = list(rows[0]) if rows else ["id"]
    table = ([row[name] for name in names] for row in rows)
    return csv_text(*in_units(names, table, in_inches(document)))


_TURNED: dict[str, tuple[str, Callable[[float], float]]] = {
    "_mm": ("_in", inches),
    "_kg": ("_lb", pounds),
    "_n": ("_lbf", pounds_force),
}
"""Ends of the names of columns, with what they become in a room in inches."""


def in_units(
    names: Sequence[str], rows: Iterable[Iterable[object]], as_inches: bool
) -> tuple[Sequence[str], Iterable[Iterable[object]]]:
    """Return a table as it is, or with its columns in mm, kg and N turned into in, lb and lbf."""
    if not as_inches:
        return names, rows
    ways = [next((end for end in _TURNED if name.endswith(end)), "") for name in names]
    heads = [
        name.removesuffix(end) + _TURNED[end][0] if end else name
        for name, end in zip(names, ways, strict=True)
    ]
    turned = (
        [
            _TURNED[end][1](cell) if end and isinstance(cell, int | float) else cell
            for cell, end in zip(row, ways, strict=True)
        ]
        for row in rows
    )
    return heads, turned


def csv_text(names: Sequence[str], rows: Iterable[Iterable[object]]) -> str:
    """Return a table with a head for a spreadsheet; no cell of it runs as a formula."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(names)
    writer.writerows([neutral(cell) for cell in row] for row in rows)
    return out.getvalue()


def neutral(value: object) -> object:
    """Return a cell that no spreadsheet runs as a formula; numbers stay as they are.

    Text that begins like a formula gets an apostrophe in front (common practice against
    formula injection; OWASP describes it).
    """
    if isinstance(value, str) and value.startswith(_FORMULA_STARTS):
        return f"'{value}"
    return value
