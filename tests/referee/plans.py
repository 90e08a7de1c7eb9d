"""Cut plans: pieces on the sheets, bars, and whether these are the pieces that the wall needs."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import Any

from ledger import Ledger
from shop import Shop

Doc = dict[str, Any]
Box = tuple[int, int, int, int]


def offcut_of(document: Doc, sku: str) -> Doc | None:
    """Return the room's offcut behind a number such as offcut-2."""
    if not sku.startswith("offcut-"):
        return None
    found: Doc = document["room"]["yard"]["offcuts"][int(sku.removeprefix("offcut-")) - 1]
    return found


def boxes(sheet: Doc) -> list[Box]:
    """Return the parts as (x0, y0, x1, y1)."""
    return [
        (p["x_mm"], p["y_mm"], p["x_mm"] + p["length_mm"], p["y_mm"] + p["width_mm"])
        for p in sheet["parts"]
    ]


def sawable(parts: list[Box], kerf: int) -> bool:
    """Tell whether straight cuts from side to side, each a kerf wide, part the pieces."""
    if len(parts) <= 1:
        return True
    for axis in (0, 1):
        for edge in {part[axis + 2] for part in parts}:
            before = [part for part in parts if part[axis + 2] <= edge]
            after = [part for part in parts if part[axis] >= edge + kerf]
            if after and len(before) + len(after) == len(parts):
                return sawable(before, kerf) and sawable(after, kerf)
    return False


def saw(sheet: Doc) -> list[Box] | None:
    """Carry the stated cuts out; return the rectangles they leave, None when one hits nothing."""
    left: list[Box] = [(0, 0, sheet["length_mm"], sheet["width_mm"])]
    for cut in sheet["cuts"]:
        axis = 0 if cut["axis"] == "x" else 1
        at, kerf = cut["at_mm"], sheet["kerf_mm"]
        where = (cut["x_mm"][0], cut["y_mm"][0], cut["x_mm"][1], cut["y_mm"][1])
        if where not in left or not where[axis] < at < where[axis + 2]:
            return None
        left.remove(where)
        first, second = list(where), list(where)
        first[axis + 2], second[axis] = at, at + kerf
        left.append((first[0], first[1], first[2], first[3]))
        if second[axis] < second[axis + 2]:
            left.append((second[0], second[1], second[2], second[3]))
    return left


def one_sheet(book: Ledger, shop: Shop, document: Doc, sheet: Doc) -> Doc:
    """Check one sheet; return kind, thickness and face grain of what it is cut from."""
    offcut = offcut_of(document, sheet["sku"])
    row: Doc = offcut if offcut is not None else dict(shop.sheets[sheet["sku"]])
    sides = (sheet["length_mm"], sheet["width_mm"])
    book.same(f"size of {sheet['sku']}", sides, (int(row["length_mm"]), int(row["width_mm"])))
    book.same("kerf", sheet["kerf_mm"], document["room"]["yard"]["kerf_mm"])
    parts = boxes(sheet)
    for x0, y0, x1, y1 in parts:
        inside = 0 <= x0 < x1 <= sides[0] and 0 <= y0 < y1 <= sides[1]
        book.true(f"a part sticks out of {sheet['sku']}", inside)
    for i, a in enumerate(parts):
        for b in parts[:i]:
            lap = a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
            book.true(f"two parts of {sheet['sku']} overlap", not lap)
    book.true(f"{sheet['sku']} can't be sawn from side to side", sawable(parts, sheet["kerf_mm"]))
    left = saw(sheet)
    freed = left is not None and not Counter(parts) - Counter(left)
    book.true(f"the cuts of {sheet['sku']} don't free its parts", freed)
    return row


def grain_runs_across(design: Doc, part: Doc, face_grain: str) -> bool:
    """Tell whether a part's face grain runs across the wall, as its name and place tell."""
    kind, first, _, second = part["name"].split()
    wide = int(second) if kind == "board" else int(first)
    other = int(first) if kind == "board" else int(second)
    along_grain = part["length_mm"] if face_grain == "length" else part["width_mm"]
    return along_grain == wide or wide == other


def sheets(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check all sheets: each one, the grain, the pieces asked for, numbers on hand."""
    seen: Counter[tuple[str, int, int]] = Counter()
    used: Counter[str] = Counter()
    for sheet in design["cut_plan"]["sheets"]:
        row = one_sheet(book, shop, document, sheet)
        used[sheet["sku"]] += 1
        for part in sheet["parts"]:
            kind = part["name"].split()[0]
            size = sorted((part["length_mm"], part["width_mm"]))
            seen[kind, size[0], size[1]] += 1
            label = design["sheet"] if kind == "board" else design["kicker_sheet"]
            book.same("family", label, f"{row['kind']} {row['thickness_mm']} mm")
            if design["grain"] == "across":
                runs = grain_runs_across(design, part, row["face_grain"])
                book.true(f"grain of {part['name']} runs wrong", runs)
    for sku, count in used.items():
        offcut = offcut_of(document, sku)
        limit = offcut["count"] if offcut else shop.sheets[sku]["limit"]
        book.true(f"more {sku} than there are", limit == "" or count <= int(limit))
    need: Counter[tuple[str, int, int]] = Counter()
    columns, rows = design["column_widths_mm"], design["row_lengths_mm"]
    for wide in columns:
        for long in rows:
            need["board", min(long, wide), max(long, wide)] += 1
        if design["kicker_mm"]:
            low, high = sorted((design["kicker_mm"], wide))
            need["kicker", low, high] += 1
    book.same("pieces of sheet", dict(seen), dict(need))
    book.same("columns", sum(columns), design["width_mm"])
    book.same("rows", sum(rows), design["board_mm"])


def studs_mm(design: Doc) -> list[float]:
    """Return the studs' middle lines: flush at the edges, under every seam, even between."""
    half = design["stud_mm"][0] / 2
    columns = design["column_widths_mm"]
    bays = (design["stud_count"] - 1) // len(columns)
    seams = [float(sum(columns[:i])) for i in range(1, len(columns))]
    anchors = [half, *seams, design["width_mm"] - half]
    places = [anchors[0]]
    for left, right in pairwise(anchors):
        places += [left + (right - left) * i / bays for i in range(1, bays + 1)]
    return places


def bars_needed(design: Doc) -> Counter[tuple[str, int]]:
    """Return the frame's bars as (name, length)."""
    thick, studs = design["stud_mm"][0], design["stud_count"]
    need: Counter[tuple[str, int]] = Counter()
    need["stud", design["board_mm"] - 2 * thick] += studs
    need["rail", design["width_mm"]] += 2
    for left, right in pairwise(studs_mm(design)):
        if design["rows"] > 1:
            need["seam blocking", int(right - left - thick)] += design["rows"] - 1
    if design["kicker_mm"]:
        need["kicker plate", design["width_mm"]] += 2
        need["kicker upright", design["kicker_mm"] - 2 * thick] += studs
    return need


def bars(book: Ledger, shop: Shop, document: Doc, design: Doc) -> None:
    """Check all bars: lengths with kerfs, section, the frame's bars, what the vehicle takes."""
    vehicle = document["room"]["yard"]["vehicle_max_mm"]
    seen: Counter[tuple[str, int]] = Counter()
    for bar in design["cut_plan"]["timber"]:
        row = shop.timber[bar["sku"]]
        section = [int(row["width_mm"]), int(row["depth_mm"])]
        book.same(f"section of {bar['sku']}", design["stud_mm"], section)
        book.same(f"length of {bar['sku']}", bar["stock_mm"], int(row["length_mm"]))
        pieces = bar["pieces_mm"]
        whole = sum(pieces) + bar["kerf_mm"] * (len(pieces) - 1)
        book.true(f"{bar['sku']} is too short for {pieces}", whole <= bar["stock_mm"])
        if vehicle is not None and not design["delivered"]:
            book.true("a bar too long for the vehicle", bar["stock_mm"] <= max(vehicle))
        seen.update(zip(bar["pieces"], pieces, strict=True))
    book.same("bars of the frame", dict(seen), dict(bars_needed(design)))
    for stated, own in zip(design["stud_centres_mm"], studs_mm(design), strict=True):
        book.near("stud centre", stated, own, 0.0501)
