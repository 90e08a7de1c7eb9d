"""The three files that a search leaves behind."""

from __future__ import annotations

import csv
import json
from pathlib import Path
from typing import Any

import pandas as pd
import pytest

from steepwright.report import write_outputs
from steepwright.report.files import neutral

Doc = dict[str, Any]


def test_three_whole_files_and_nothing_else(document: Doc, tmp_path: Path) -> None:
    paths = write_outputs(document, tmp_path / "out")
    assert [path.name for path in paths] == ["designs.json", "designs.csv", "report.html"]
    assert sorted(p.name for p in (tmp_path / "out").iterdir()) == sorted(p.name for p in paths)
    text = paths[0].read_text(encoding="utf-8")
    assert json.loads(text) == document
    assert text.startswith('{\n  "format"')


def test_the_table_reads_back_in_pandas(document: Doc, tmp_path: Path) -> None:
    path = write_outputs(document, tmp_path)[1]
    table = pd.read_csv(path)
    assert list(table["id"]) == [d["id"] for d in document["designs"]]
    assert list(table["cost_cents"]) == [d["cost_cents"] for d in document["designs"]]
    assert list(table["angle_deg"]) == [d["angle_deg"] for d in document["designs"]]


def test_no_cell_is_a_formula(document: Doc, tmp_path: Path) -> None:
    # Characters after OWASP, "CSV Injection": = + - @ tab carriage return.
    # The wide forms (U+FF1D and so on) are read as the narrow ones by spreadsheets in East Asia.
    starts = "=+-@\t\r＝＋－＠"
    designs = (document["designs"] * 2)[: len(starts)]
    hostile = [d | {"sheet": s + "1+1"} for d, s in zip(designs, starts, strict=True)]
    path = write_outputs(document | {"designs": hostile}, tmp_path)[1]
    with path.open(encoding="utf-8", newline="") as stream:
        cells = [cell for row in csv.reader(stream) for cell in row]
    assert sum("1+1" in cell for cell in cells) == len(starts)
    assert not [cell for cell in cells if cell.startswith(tuple(starts))]


@pytest.mark.parametrize(("value", "expected"), [(-5, -5), (True, True), ("-x", "'-x"), ("a", "a")])
def test_only_text_is_neutralised(value: object, expected: object) -> None:
    assert neutral(value) == expected
