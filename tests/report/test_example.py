"""The shipped example: its page and table are what the code makes of its document."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema

from steepwright.report import write_outputs
from steepwright.resources import catalogs_dir

EXAMPLE = Path(__file__).resolve().parents[2] / "reports" / "loft"


def test_example_is_rebuilt_byte_for_byte(tmp_path: Path) -> None:
    document = json.loads((EXAMPLE / "designs.json").read_text(encoding="utf-8"))
    write_outputs(document, tmp_path)
    for name in ("designs.json", "designs.csv", "report.html"):
        assert (tmp_path / name).read_bytes() == (EXAMPLE / name).read_bytes(), name


def test_example_satisfies_the_schema() -> None:
    schema = json.loads((catalogs_dir() / "schemas" / "designs.schema.json").read_text("utf-8"))
    document = json.loads((EXAMPLE / "designs.json").read_text(encoding="utf-8"))
    errors = jsonschema.Draft202012Validator(schema).iter_errors(document)
    assert [error.message for error in errors] == []


def test_example_chooses_from_a_thousand_million_designs_and_says_so() -> None:
    """Counted again from the certificate's own lists: choices per design, times the lengths.

    A board of columns as wide as a sheet, but for the last, has a least width of its own.
    """
    document = json.loads((EXAMPLE / "designs.json").read_text(encoding="utf-8"))
    certificate = json.loads((EXAMPLE / "certificate.json").read_text(encoding="utf-8"))
    step, counted = document["room"]["wall"]["step_mm"], 0
    for part in certificate["parts"]:
        space, given = part["space"], part["given"]
        made, (narrow, wide) = space["sheetings"], space["widths_mm"]
        smallest = given["factors"]["layout_min_piece_mm"]
        designs = 0
        for columns, full in zip(made["columns"], made["full_column_mm"], strict=True):
            rest = (columns - 1) * (full or smallest) + smallest if columns > 1 else 0
            widths = range(narrow, wide + 1, step)
            designs += 2 * sum(width >= rest for width in widths)  # fetched or delivered
        for name in ("places", "mount_counts", "screws_mm"):
            designs *= len(space[name])
        designs *= len(given["sections"]) * len(given["mounts"])
        for name in ("boards_mm", "kickers_mm"):
            first, last = space[name]
            designs *= (last - first) // step + 1
        counted += designs
    assert counted == certificate["designs_in_space"] >= 10**9
    every = document["counts"]["designs_in_space"]
    assert every == counted
    shown = f"{every:,}".replace(",", " ")
    page = (EXAMPLE / "report.html").read_text(encoding="utf-8").replace("\u202f", " ")
    assert shown in page.replace("\u00a0", " ") or str(every) in page
