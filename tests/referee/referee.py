"""The referee: every figure of a search's document worked out once more by other means.

    python tests/referee/referee.py reports/loft [--yard catalogs/yard] [--frames 5]

Nothing of steepwright is imported: the document, the yard's CSV files and the material tables are
all it reads. It prints every difference and ends with 1 if there is one.
"""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))

import bills
import details
import frames
import members
import nds
import padding
import places
import plans
import stands
import tied
from ledger import Ledger
from shop import CATALOGS, Shop, in_class, read_shop, table

Doc = dict[str, Any]


def front(book: Ledger, document: Doc) -> None:
    """Check that no design listed beats another, and that they are in order."""
    designs = document["designs"]
    book.about = "front"
    scores = [(d["cost_cents"], round(d["angle_deg"] * 1000), d["fall_space_mm"]) for d in designs]
    book.same("order", scores, sorted(scores))
    book.same("number", document["counts"]["front"], len(designs))
    book.same("names", len({d["id"] for d in designs}), len(designs))
    for i, a in enumerate(scores):
        for j, b in enumerate(scores):
            beats = i != j and a[0] <= b[0] and a[1] >= b[1] and a[2] >= b[2]
            book.true(f"{designs[i]['id']} beats {designs[j]['id']}", not beats)


def judge(document: Doc, shop: Shop, with_frames: int = 0) -> Ledger:
    """Return all differences; `with_frames` designs go through the frame solver as well."""
    book, shop = Ledger(), in_class(shop, document["room"]["service_class"])
    if document["room"]["code"] == "NDS":
        shop = nds.in_code(shop, table(CATALOGS / "materials" / "nds_lumber.csv", "name"))
    front(book, document)
    for design in document["designs"]:
        book.about = design["id"]
        places.place(book, shop, document, design)
        plans.sheets(book, shop, document, design)
        plans.bars(book, shop, document, design)
        stands.bars(book, shop, document, design)
        bills.bill(book, shop, document, design)
        padding.pads(book, shop, document, design)
        members.masses(book, shop, document, design)
        members.every_use(book, design)
        members.studs(book, shop, document, design)
        tied.ties(book, shop, document, design)
        members.sheet(book, shop, document, design)
        spread = stands.beam_of(document, design).get("spreader")
        if not spread:  # a timber under many joists is no simple span
            members.ceiling_beam(book, shop, document, design)
        stands.stands(book, shop, document, design)
        details.climbing(book, shop, document, design)
        details.rolling_shear(book, shop, design)
        details.mount_screws(book, shop, document, design)
        if not spread:
            details.twisted_beam(book, shop, document, design)
    for design in document["designs"][:: max(1, len(document["designs"]) // max(1, with_frames))]:
        if with_frames:
            book.about = design["id"]
            if not stands.beam_of(document, design).get("spreader"):
                frames.ceiling_beam(book, shop, document, design)
            frames.studs(book, shop, document, design)
    return book


def main() -> int:
    """Judge one folder."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--yard", type=Path, default=CATALOGS / "yard")
    parser.add_argument("--frames", type=int, default=5, metavar="N")
    asked = parser.parse_args()
    document = json.loads((asked.folder / "designs.json").read_text(encoding="utf-8"))
    book = judge(document, read_shop(asked.yard), asked.frames)
    for difference in book.differences:
        print(difference)
    print(f"{book.compared} figures compared, {len(book.differences)} differ")
    return bool(book.differences)


if __name__ == "__main__":
    sys.exit(main())
