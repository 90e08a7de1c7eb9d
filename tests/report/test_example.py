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


def test_example_chooses_from_a_thousand_million_designs_and_says_so() -> None:
    """Counted again from the certificate's own lists: choices per design, times the lengths.

    The lists are those of the least width; all of it can be made wider, and more besides.
    """
    document = json.loads((EXAMPLE / "designs.json").read_text(encoding="utf-8"))
    certificate = json.loads((EXAMPLE / "certificate.json").read_text(encoding="utf-8"))
    step, counted = document["room"]["wall"]["step_mm"], 0
    for part in certificate["parts"]:
        space, given = part["space"], part["given"]
        designs = 2 * len(space["sheetings"]["family"])  # fetched or delivered
        for name in ("places", "mount_counts", "screws_mm"):
            designs *= len(space[name])
        designs *= len(given["sections"]) * len(given["mounts"])
        for name in ("boards_mm", "kickers_mm"):
            first, last = space[name]
            designs *= (last - first) // step + 1
        counted += designs
    assert counted == certificate["designs_in_space"] >= 10**9
    least, most = document["room"]["wall"]["width_mm"]
    every = document["counts"]["designs_in_space"]
    assert 1 < every / counted / ((most - least) // step + 1) < 2
    shown = f"{every:,}".replace(",", " ")
    page = (EXAMPLE / "report.html").read_text(encoding="utf-8").replace("\u202f", " ")
    assert shown in page.replace("\u00a0", " ") or str(every) in page
