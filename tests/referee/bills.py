"""The bill: every article counted again, the cheapest packs by plain enumeration, the sum."""

from __future__ import annotations

import math
from collections import Counter
from typing import Any

import stands
from ledger import Ledger
from plans import bars_needed, offcut_of
from shop import Row, Shop, cents, least_cents, num, pieces

Doc = dict[str, Any]


def small_parts(shop: Shop, document: Doc, design: Doc) -> dict[str, int]:
    """Return how many of each kind of small part the wall takes; rope in metres."""
    f, wish = shop.factors, document["room"]["wall"]
    board, kicker, width = design["board_mm"], design["kicker_mm"], design["width_mm"]
    studs, columns, rows = design["stud_count"], design["columns"], design["rows"]
    pitch = int(design["screw_mm"])

    def line(length: int) -> int:
        return length // pitch + 1

    up_lines = studs + columns - 1  # a seam up the slope is screwed on both sides
    sheet = up_lines * line(board) + rows * 2 * line(width)
    joints = sum(n for (name, _), n in bars_needed(design).items() if name != "rail") * 2
    joints -= 2 * 2 if kicker else 0  # the plates are joined by the uprights
    joints += studs  # each foot on the floor, which the check of the floor fixing counts on
    if kicker and not wish["fold_up"]:
        joints += studs  # each foot on the kicker, where no hinge holds it
    if kicker:
        sheet += up_lines * line(kicker) + 2 * line(width)

    def holds(length: int) -> int:
        inside = max(0, length - 2 * int(f["hold_edge_margin_mm"]))
        return inside // wish["hold_spacing_mm"] + 1

    need = {
        "sheet screw": sheet,
        "frame screw": joints * int(f["frame_screws_per_joint"]),
        "lip bolt": design["mount_count"] * int(f["lip_bolts"]),
        "tnut": holds(board) * holds(width),
    }
    if wish["fold_up"]:
        rope_m = f["fold_rope_board_lengths"] * board / 1000
        need |= {
            "hinge": math.ceil(width / f["kicker_hinge_spacing_mm"]) + 1 if kicker else 0,
            "rope": math.ceil(rope_m - 1e-9),
            "pulley": int(f["hoist_lines"] + f["hoist_parts"]),
            "brake": 1,
            "latch": int(f["hoist_latches"]),
            "strap": int(f["hoist_lines"]),
        }
    return {kind: count for kind, count in need.items() if count}


def kinds_of(shop: Shop, kind: str, design: Doc) -> list[list[Row]]:
    """Return the types of an article that may serve, each with its packs."""
    rows: list[Row]
    if kind in ("sheet screw", "frame screw"):
        role = kind.split()[0]
        factor = shop.factors[f"{role}_screw_length_factor"]
        thick = design["sheet_thickness_mm"] if role == "sheet" else design["stud_mm"][0]
        rows = [r for r in shop.screws.values() if r["role"] == role]
        rows = [r for r in rows if num(r, "length_mm") >= factor * thick]
        least = min((num(r, "length_mm"), num(r, "diameter_mm")) for r in rows)
        return [[r for r in rows if (num(r, "length_mm"), num(r, "diameter_mm")) == least]]
    if kind == "lip bolt":
        long = design["stud_mm"][0] + shop.factors["lip_bolt_over_mm"]
        rows = [r for r in shop.hardware.values() if r["kind"] == "bolt"]
        rows = [r for r in rows if num(r, "diameter_mm") == shop.factors["lip_bolt_mm"]]
        rows = [r for r in rows if num(r, "length_mm") >= long]
        least_mm = min((num(r, "length_mm") for r in rows), default=0.0)
        return [[r for r in rows if num(r, "length_mm") == least_mm]] if rows else []
    rows = [r for r in shop.hardware.values() if r["kind"] == kind]
    types: dict[tuple[str, ...], list[Row]] = {}
    for r in rows:
        size = tuple(r[k] for k in ("diameter_mm", "length_mm", "width_mm", "rated_n"))
        types.setdefault(size, []).append(r)
    return list(types.values())


def packs_bought(book: Ledger, shop: Shop, document: Doc, design: Doc, bill: list[Doc]) -> None:
    """Check that the packs hold what the wall takes and that no other packs are cheaper."""
    lines = {line["sku"]: line for line in bill if line["group"] == "hardware"}
    stands.bolts(book, shop, document, design, lines)
    inserts = small_parts(shop, document, design)["tnut"]
    book.true("an insert for every hold drawn", inserts >= design["hold_positions"])
    for kind, need in small_parts(shop, document, design).items():
        options = []
        for rows in kinds_of(shop, kind, design):
            bought = [(row, lines.pop(row["sku"])) for row in rows if row["sku"] in lines]
            if bought:
                have = sum(pieces(row) * line["quantity"] for row, line in bought)
                book.true(f"too few pieces for {kind}: {have} of {need}", have >= need)
                paid = sum(line["amount_cents"] for _, line in bought)
                packs = [line["what"] for row, line in bought if pieces(row) > 1]
                of = "m" if kind == "rope" else "pieces"
                sizes = [f"(pack of {pieces(row)} {of}" for row, _ in bought if pieces(row) > 1]
                ok = all(size in what for size, what in zip(sizes, packs, strict=True))
                book.true(f"size of packs of {kind}", ok)
                told = sum(f", {need} needed" in what for what in packs)
                book.same(f"number of {kind} on the bill", told, min(1, len(packs)))
            options.append([(pieces(row), cents(row["price"])) for row in rows])
            if bought:
                book.same(f"{kind} of one type", kind in lines, False)
                stated = paid
        if options:
            book.same(f"price of {kind}", stated, min(least_cents(o, need) for o in options))
    mount = shop.mounts[design["mount"]]
    line = lines.pop(mount["sku"])
    book.same("mounts", (line["quantity"], line["unit_cents"]),
              (design["mount_count"], cents(mount["price"])))  # fmt: skip
    if "tie_back" in design:
        tie = shop.hardware[design["tie_back"]["sku"]]
        line = lines.pop(tie["sku"])
        book.same("ties", (line["quantity"], line["unit_cents"]),
                  (math.ceil(design["stud_count"] / pieces(tie)), cents(tie["price"])))  # fmt: skip
    book.same("hardware that nothing needs", sorted(lines), [])


def bill(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check every line of the bill and its sum."""
    yard, lines = document["room"]["yard"], design["bill"]
    cuts = 0
    for sheet in design["cut_plan"]["sheets"]:
        offcut = offcut_of(document, sheet["sku"])
        if offcut is None or offcut["price_cents"]:  # the builder's own are sawn at home
            cuts += max(0, len(sheet["cuts"]) - yard["free_cuts"])
    plan: Counter[str] = Counter(row["sku"] for rows in design["cut_plan"].values() for row in rows)
    for line in lines:
        sku = line["sku"]
        sold = {**shop.sheets, **shop.timber, **shop.screws, **shop.hardware,
                **{row["sku"]: row for row in shop.mounts.values()}}.get(sku)  # fmt: skip
        yard_name = (sold.get("yard") or document["catalog"]["name"]) if sold else ""
        book.same(f"yard of {sku}", line["yard"], yard_name)
        book.same(f"amount of {sku}", line["amount_cents"], line["quantity"] * line["unit_cents"])
        if line["group"] in ("sheets", "timber"):
            offcut = offcut_of(document, sku)
            row = shop.sheets.get(sku) or shop.timber.get(sku)
            own = offcut["price_cents"] if offcut else cents(row["price"]) if row else -1
            book.same(f"price of {sku}", line["unit_cents"], own)
            book.same(f"number of {sku}", line["quantity"], plan.pop(sku, 0))
        if line["group"] == "hardware" and sku in {**shop.screws, **shop.hardware}:
            price = {**shop.screws, **shop.hardware}[sku]["price"]
            book.same(f"price of {sku}", line["unit_cents"], cents(price))
    book.same("material that is not on the bill", dict(plan), {})
    charges = {r["sku"]: (r["quantity"], r["unit_cents"]) for r in lines if r["group"] == "charges"}
    own_charges = {}
    if cuts and yard["cut_price_cents"]:
        own_charges["cut"] = (cuts, yard["cut_price_cents"])
    if design["delivered"] and yard["delivery_price_cents"]:
        own_charges["delivery"] = (1, yard["delivery_price_cents"])
    book.same("charges", charges, own_charges)
    packs_bought(book, shop, document, design, lines)
    book.same("sum", design["cost_cents"], sum(line["amount_cents"] for line in lines))
