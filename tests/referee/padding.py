"""Pads: on the bill what lies on the floor, clear of each other, and no plain grid is better."""

from __future__ import annotations

from collections import Counter
from itertools import combinations
from typing import Any

from ledger import Ledger
from shop import Shop, cents, num

Doc = dict[str, Any]


def meets(one: Doc, other: Doc) -> bool:
    """Tell whether two areas share more than an edge."""
    return all(
        one[key][0] < other[key][1] and other[key][0] < one[key][1] for key in ("x_mm", "y_mm")
    )


def within(pad: Doc, wanted: Doc) -> int:
    """Return how much of the wanted area a pad covers [mm2]."""
    sides = [
        max(0, min(pad[key][1], wanted[key][1]) - max(pad[key][0], wanted[key][0]))
        for key in ("x_mm", "y_mm")
    ]
    return sides[0] * sides[1]


def pads(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check a design's pads and, where they are part of the cost, their lines."""
    room, laid = document["room"], design["pads"]
    if laid is None:
        return
    on_bill = room["yard"].get("pads_on_bill", False)
    book.same("pads are on the bill", laid.get("on_bill", False), on_bill)
    for one, other in combinations(laid["laid"], 2):
        book.true("pads lie on each other", not meets(one, other))
    bought = Counter(pad["name"] for pad in laid["laid"] if not pad["own"])
    price = {sku: cents(row["price"]) for sku, row in shop.hardware.items()}
    due = sum(price[sku] * count for sku, count in bought.items())
    book.same("cost of pads", laid["cost_cents"], due)
    lines = {
        line["sku"]: (line["quantity"], line["unit_cents"])
        for line in design["bill"]
        if line["group"] == "pads"
    }
    own = {sku: (count, price[sku]) for sku, count in bought.items()} if on_bill else {}
    book.same("pads on the bill", lines, own)
    wanted = laid["wanted"]
    size = [wanted[key][1] - wanted[key][0] for key in ("x_mm", "y_mm")]
    covered = sum(within(pad, wanted) for pad in laid["laid"])
    book.near("share covered", laid["covered"], covered / max(1, size[0] * size[1]), 0.00051)
    for row in shop.hardware.values():
        if row["kind"] == "pad" and num(row, "thickness_mm") == laid["thickness_mm"]:
            sides = int(num(row, "length_mm")), int(num(row, "width_mm"))
            for along, across in (sides, sides[::-1]):
                rows, columns = size[0] // along, size[1] // across  # as many as lie inside
                area = rows * along * columns * across
                dear = rows * columns * cents(row["price"]) >= laid["cost_cents"]
                book.true("a plain grid of pads is cheaper", area < covered or dear)
