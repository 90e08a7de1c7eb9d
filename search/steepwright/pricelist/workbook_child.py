"""Run as its own process: opens one spreadsheet and writes its cells to stdout.

A broken or hostile file can then only end this process, in bounded time and memory. Uses
nothing of the package, so that it starts fast.
"""

from __future__ import annotations

import datetime as dt
import json
import sys
from typing import Any


def _cap_memory(most_bytes: int) -> None:
    try:
        import resource
    except ImportError:  # not on Windows; there the time cap and the size caps remain
        return
    resource.setrlimit(resource.RLIMIT_AS, (most_bytes, most_bytes))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _plain(value: Any) -> Any:
    """Return text as it is, numbers as [repr], dates as [iso, "d"]."""
    if isinstance(value, str):
        return " ".join(value.split())
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return [f"{value:.12g}"]
    if isinstance(value, int):
        return [str(value)]
    if isinstance(value, dt.datetime):
        return [value.date().isoformat(), "d"]
    if isinstance(value, dt.date):
        return [value.isoformat(), "d"]
    return str(value)


def _sheet(sheet: Any, caps: dict[str, int]) -> dict[str, Any]:
    start = sheet.start or (0, 0)
    end = sheet.end or (-1, -1)
    height, width = end[0] - start[0] + 1, end[1] - start[1] + 1
    if height > caps["max_rows"] or width > caps["max_columns"]:
        return {"too_large": [height, width]}
    rows = sheet.to_python(skip_empty_area=True)
    return {
        "start": list(start),
        "rows": [[_plain(value) for value in row] for row in rows],
        "merged": [list(map(list, area)) for area in (sheet.merged_cell_ranges or [])],
    }


def main() -> int:
    """Read the caps and the path from the command line; write one JSON document."""
    caps = json.loads(sys.argv[2])
    _cap_memory(caps["child_bytes"])
    import python_calamine as calamine

    try:
        book = calamine.load_workbook(sys.argv[1])
        sheets = []
        for index, meta in enumerate(book.sheets_metadata[: caps["max_sheets"]]):
            if meta.typ != calamine.SheetTypeEnum.WorkSheet:
                continue
            found = _sheet(book.get_sheet_by_index(index), caps)
            hidden = meta.visible != calamine.SheetVisibleEnum.Visible
            sheets.append({"name": meta.name, "hidden": hidden, **found})
    except BaseException as problem:
        sys.stdout.write(json.dumps({"error": f"{type(problem).__name__}: {problem}"[:300]}))
        return 0
    sys.stdout.write(json.dumps({"sheets": sheets}))
    return 0


if __name__ == "__main__":
    sys.exit(main())
