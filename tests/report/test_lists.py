"""The lists of one design, read back by the standard library."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from pathlib import Path

from steepwright.report.finished import choose, read_document
from steepwright.report.lists import bill_csv
from steepwright.report.views.open_items import open_items

EXAMPLE = Path(__file__).resolve().parents[2] / "reports" / "loft"


def test_what_has_no_price_stands_on_the_bill_without_an_amount() -> None:
    """A wall hung from a slab needs an anchor in each hole of its mounts."""
    document = read_document(EXAMPLE)
    chosen = choose(document, "W01", EXAMPLE)
    assert chosen.open == ()
    check = {"name": "anchor working load", "demand": 2345.1}
    slab = {"anchors": 8, "mount_count": 4, "checks": [check]}
    bill = list(csv.DictReader(io.StringIO(bill_csv(replace(chosen, open=open_items(slab))))))
    *priced, last = bill
    assert priced == list(csv.DictReader(io.StringIO(bill_csv(chosen))))
    assert last["quantity"] == "8"
    assert (last["amount"], last["unit"], last["sku"]) == ("", "", "")
    assert last["what"].startswith("Not in the sum: Anchor")
    assert "at least 2346 N" in last["what"]
