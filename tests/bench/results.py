"""Where measurements are written down: results.json beside this file, one entry per measurement.

``figures.md`` is made from it by ``figures.csv``: what the search is to reach, side by side.
"""

from __future__ import annotations

import csv
import json
from pathlib import Path
from typing import Any

from runs import OTHER_ROOM

from steepwright.writing import write_whole

FILE = Path(__file__).with_name("results.json")
TABLE = Path(__file__).with_name("figures.md")
ROWS = Path(__file__).with_name("figures.csv")
"""The table's lines: words, the entry and its keys in braces, and what is to be reached."""
HEAD = """\
# Figures

Made by `tests/bench/results.py` from `results.json`; measured together on one machine by

```sh
python -m pytest -q -s -m bench tests/bench/test_bench_{search,again,changes,sampled,resume}.py
```

Seconds are by the clock with two workers, of a machine that may have been busy; CPU seconds, of all
processes together, change least with that. There is no numba anywhere: this is numpy and Python.

| what | figure | to reach |
| --- | --- | --- |
"""


def record(name: str, figures: dict[str, Any]) -> None:
    """Put the figures of one measurement in the place of its older ones."""
    if OTHER_ROOM:
        return
    known = json.loads(FILE.read_text(encoding="utf-8")) if FILE.exists() else {}
    known[name] = figures
    write_whole(FILE, json.dumps(known, indent=2, sort_keys=True) + "\n")
    write_whole(TABLE, table(known))


def table(known: dict[str, dict[str, Any]]) -> str:
    """Return the figures as a table; one that has not been measured is told as such."""
    lines = []
    with ROWS.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            try:
                figure = row["figure"].format_map(known[row["entry"]])
            except KeyError:
                figure = "not measured"
            lines.append(f"| {row['what']} | {figure} | {row['target']} |\n")
    return HEAD + "".join(lines)


def made() -> str:
    """Return the table of what is written down."""
    return table(json.loads(FILE.read_text(encoding="utf-8")))


if __name__ == "__main__":
    write_whole(TABLE, made())
