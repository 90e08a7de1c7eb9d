"""The shipped example: its page and table are what the code makes of its document."""

from __future__ import annotations

import json
from pathlib import Path

from steepwright.report import write_outputs

EXAMPLE = Path(__file__).resolve().parents[2] / "reports" / "loft"


def test_example_is_rebuilt_byte_for_byte(tmp_path: Path) -> None:
    document = json.loads((EXAMPLE / "designs.json").read_text(encoding="utf-8"))
    write_outputs(document, tmp_path)
    for name in ("designs.json", "designs.csv", "report.html"):
        assert (tmp_path / name).read_bytes() == (EXAMPLE / name).read_bytes(), name
