"""An invented document in the form of designs.json. A fixture: no room, yard or price is real.

The geometry is worked out with the package's own formulas so that drawings close; everything else
(prices, cut plans, checks) is made up by simple rules that keep the document consistent: bills add
up, pieces lie inside their sheets, no design beats another.
"""

from __future__ import annotations

import itertools
import math
from typing import Any

from steepwright.geometry import (
    floor_run_mm,
    lip_from_pivot_mm,
    lip_height_mm,
    overhang_angle_rad,
)

Doc = dict[str, Any]

ROOM: Doc = {
    "name": "Invented loft",
    "length_mm": 6400,
    "width_mm": 4200,
    "ceiling_mm": 2600,
    "file": "room.toml",
    "beams": [
        {
            "name": name,
            "x_mm": x,
            "underside_mm": underside,
            "width_mm": 140,
            "depth_mm": 200,
            "span_mm": 4350,
            "grade": grade,
            "existing_load_n_per_m": 900.0 if grade else None,
        }
        for name, x, underside, grade in (
            ("second", 1890, [2415, 2415], None),
            ("middle", 3130, [2426, 2408], "C24"),
            ("fourth", 4350, [2440, 2440], "C24"),
        )
    ],
    "solids": [
        {"name": "chimney breast", "x_mm": [2600, 3300], "y_mm": [0, 420], "z_mm": [0, 2600]},
        {"name": "wardrobe", "x_mm": [5780, 6400], "y_mm": [2350, 4200], "z_mm": [0, 2100]},
        {"name": "radiator", "x_mm": [0, 110], "y_mm": [1300, 2700], "z_mm": [120, 720]},
    ],
    "access": {
        "max_piece_mm": [3200, 1300],
        "corridors": [],
        "doors": [{"name": "loft door", "width_mm": 830, "height_mm": 2000}],
        "max_carry_kg": 25.0,
        "carriers": 2,
    },
    "climber": {"mass_kg": 75.0, "span_mm": 1740, "dynamic_factor": 2.0, "climbers": 1},
    "wall": {
        "angle_deg": [20.0, 50.0],
        "kicker_mm": [0, 400],
        "width_mm": [1200, 2400],
        "step_mm": 5,
        "fold_up": True,
        "min_fall_space_mm": 1500,
        "side_passage_mm": 600,
        "align": "centre",
        "hold_spacing_mm": 200,
        "max_columns": 2,
        "max_rows": 2,
        "min_thickness_mm": 18,
    },
    "yard": {
        "catalog": "",
        "cut_price_cents": 150,
        "delivery_price_cents": 3900,
        "vehicle_max_mm": [2600, 1300],
        "kerf_mm": 4,
        "offcuts": [],
    },
}

SHEETS = {  # label: (kind, thickness, ((sku, name, length, width, price), ...))
    "OSB/3 18 mm": (
        "OSB/3",
        18,
        (
            ("osb18-2500", "OSB/3 18 mm 2500 x 1250", 2500, 1250, 3190),
            ("osb18-3000", "OSB/3 18 mm 3000 x 1250", 3000, 1250, 4180),
        ),
    ),
    "birch plywood 18 mm": (
        "birch plywood",
        18,
        (
            ("bir18-2500", "Birch plywood 18 mm 2500 x 1250", 2500, 1250, 9890),
            ("bir18-3000", "Birch plywood 18 mm 3000 x 1500", 3000, 1500, 14650),
        ),
    ),
}
STUDS = {  # label: (b, h, strength class, price in cents per metre)
    "45 x 95 C24 planed": (45, 95, 385),
    "45 x 120 C24 planed": (45, 120, 495),
    "45 x 145 C24 planed": (45, 145, 610),
}
STOCK_MM = (2400, 3000, 3600, 4200, 4800)
DROP_MM, SETBACK_MM, BEHIND_SHEET_MM, KERF_MM, WIDTH_MM = 110, 60, 30, 4, 2400


def _stand(design: Doc, beam: Doc, depth: int) -> Doc:
    board, kicker = design["board_mm"], design["kicker_mm"]
    pivot = min(beam["underside_mm"]) - DROP_MM
    behind = design["sheet_thickness_mm"] + BEHIND_SHEET_MM
    angle = float(overhang_angle_rad(board, kicker, pivot, SETBACK_MM, behind))
    if math.isnan(angle):
        return {}
    sign = 1 if design["facing"] == "+x" else -1
    lip = beam["x_mm"] + sign * float(lip_from_pivot_mm(angle, SETBACK_MM, behind))
    run = float(floor_run_mm(board, angle))
    end = ROOM["length_mm"] if sign > 0 else 0
    fall = abs(end - lip) - (620 if sign > 0 else 0)
    return {
        "angle_deg": round(math.degrees(angle), 3),
        "x_lip_mm": round(lip),
        "x_foot_mm": round(lip - sign * run),
        "lip_height_mm": round(float(lip_height_mm(board, kicker, angle))),
        "floor_run_mm": round(run),
        "fall_space_mm": math.floor(fall),
        "x_pivot_mm": beam["x_mm"],
        "pivot_height_mm": pivot,
        "parked": _parked(beam["x_mm"], sign, board, pivot - depth - 60),
    }


def _parked(pivot_x: int, sign: int, board: int, headroom: int) -> Doc | None:
    """Nearly level behind the lip; nothing when that would reach through a wall of the room."""
    low, high = sorted(pivot_x + sign * s for s in (SETBACK_MM, SETBACK_MM - board))
    if low < 0 or high > ROOM["length_mm"]:
        return None
    return {"angle_deg": 88.5, "headroom_mm": headroom, "x_mm": [low, high], "stops_at": "ceiling"}


def _sheet_layout(product: tuple[Any, ...], parts: list[tuple[str, int, int]]) -> Doc:
    """Strips across the sheet, each cut off at its length and then trimmed to its width."""
    sku, _, length, width, _ = product
    x, placed, cuts = 0, [], []
    for name, part_length, part_width in parts:
        placed.append(
            {
                "name": name,
                "x_mm": x,
                "y_mm": 0,
                "length_mm": part_length,
                "width_mm": part_width,
            }
        )
        end = x + part_length
        if end < length:
            cuts.append({"axis": "x", "at_mm": end, "x_mm": [x, length], "y_mm": [0, width]})
        if part_width < width:
            cuts.append({"axis": "y", "at_mm": part_width, "x_mm": [x, end], "y_mm": [0, width]})
        x = end + KERF_MM
    return {
        "sku": sku,
        "length_mm": length,
        "width_mm": width,
        "kerf_mm": KERF_MM,
        "parts": placed,
        "cuts": cuts,
    }


def _sheets(products: tuple[Any, ...], rows: list[int], kicker: int, column: int) -> list[Doc]:
    plan, strip = [], (f"kicker {column} x {kicker}", kicker, column)
    for length in rows:
        fits = [p for p in products if p[2] >= length]
        product = fits[0]
        for _ in range(2):
            parts = [(f"board {length} x {column}", length, column)]
            if kicker and length + KERF_MM + kicker <= product[2]:
                parts.append(strip)
                kicker_left = False
            else:
                kicker_left = bool(kicker)
            plan.append(_sheet_layout(product, parts))
    if kicker_left:
        plan.append(_sheet_layout(products[0], [strip, strip]))
    return plan


def _bars(stud: str, pieces: list[tuple[str, int]]) -> list[Doc]:
    bars: list[list[tuple[str, int]]] = []
    for piece in sorted(pieces, key=lambda p: -p[1]):
        for bar in bars:
            if sum(p[1] + KERF_MM for p in bar) + piece[1] <= STOCK_MM[-1]:
                bar.append(piece)
                break
        else:
            bars.append([piece])
    layouts = []
    for bar in bars:
        need = sum(p[1] for p in bar) + KERF_MM * (len(bar) - 1)
        stock = next(s for s in STOCK_MM if s >= need)
        layouts.append(
            {
                "sku": f"{_code(stud)}-{stock}",
                "stock_mm": stock,
                "kerf_mm": KERF_MM,
                "pieces_mm": [p[1] for p in bar],
                "pieces": [p[0] for p in bar],
            }
        )
    return layouts


def _code(stud: str) -> str:
    b, h, _ = STUDS[stud]
    return f"c24-{b}x{h}"


def _line(sku: str, what: str, quantity: int, unit: int, group: str, yard: str) -> Doc:
    return {
        "sku": sku,
        "what": what,
        "quantity": quantity,
        "unit_cents": unit,
        "amount_cents": quantity * unit,
        "group": group,
        "yard": yard,
    }


def _bill(design: Doc, products: tuple[Any, ...]) -> list[Doc]:
    plan = design["cut_plan"]
    lines = []
    for sku, what, _, _, price in products:
        count = sum(s["sku"] == sku for s in plan["sheets"])
        if count:
            lines.append(_line(sku, what, count, price, "sheets", "Invented yard"))
    rate = STUDS[design["stud"]][2]
    for stock in STOCK_MM:
        sku = f"{_code(design['stud'])}-{stock}"
        count = sum(t["sku"] == sku for t in plan["timber"])
        if count:
            what = f"Timber {design['stud']}, {stock} mm"
            lines.append(_line(sku, what, count, rate * stock // 1000, "timber", "Invented yard"))
    screws, holds = 18 * design["stud_count"], design["hold_positions"]
    lines += [
        _line("mount-a", design["mount"], design["mount_count"], 2350, "hardware", "Invented shop"),
        _line(
            "screw-5x60-200",
            f"Sheet screw 5 x 60 (pack of 200 pieces, {screws} needed)",
            -(-screws // 200),
            1290,
            "hardware",
            "Invented yard",
        ),
        _line(
            "tnut-m10-100",
            f"T-nut M10 (pack of 100 pieces, {holds} needed)",
            -(-holds // 100),
            2140,
            "hardware",
            "Invented shop",
        ),
        _line(
            "rope-11-20",
            "Low-stretch rope 11 mm (pack of 20 m, 12 needed)",
            1,
            3480,
            "hardware",
            "Invented shop",
        ),
        _line("hinge-80", "Hinge 80 mm (pack of 2 pieces, 6 needed)", 3, 520, "hardware", ""),
        _line(
            "cut",
            "saw cut at the yard",
            sum(len(s["cuts"]) for s in plan["sheets"]),
            150,
            "charges",
            "",
        ),
    ]
    if design["delivered"]:
        lines.append(_line("delivery", "delivery", 1, 3900, "charges", ""))
    return lines


CHECKS = (
    ("stud bending", "EN 1995-1-1 6.1.6", 12.4, "MPa", "one climber at mid-length, factor 2"),
    ("stud shear", "EN 1995-1-1 6.1.7", 2.77, "MPa", "kcr 0.67"),
    ("stud deflection", "EN 1995-1-1 7.2", 12.0, "mm", "limit l/250, a choice of comfort"),
    ("sheet between studs", "EN 12871", 8.0, "mm", "0.8 kN on a 50 mm square, l/100"),
    ("hold insert pull-out", "EN 1995-1-1 8.7", 4200.0, "N", "hold lever arm 80 mm"),
    ("mount screws, axial", "EN 1995-1-1 8.7.2", 6100.0, "N", "one mount lost"),
    ("ceiling beam bending", "EN 1995-1-1 6.1.6", 14.8, "MPa", "existing load as stated"),
    ("rope, design factor", "trade practice, no source", 1850.0, "N", "factor 12 on breaking"),
)


# As many more as a real check sheet has, so that sizes and lengths of the page are realistic.
MORE_CHECKS = tuple(
    (
        f"{part}, {what}",
        f"EN 1995-1-1 {clause}",
        900.0 + 31.7 * number,
        "Nmm",
        f"{part}: simple span, load of short duration; {what} at the worst place",
    )
    for number, (part, (what, clause)) in enumerate(
        itertools.product(
            ("lip rail", "foot rail", "seam blocking", "kicker upright", "kicker plate"),
            (
                ("bending", "6.1.6"),
                ("shear", "6.1.7"),
                ("bearing", "6.1.5"),
                ("deflection", "7.2"),
                ("joint", "8.2.2"),
                ("parked", "3.1.3"),
            ),
        )
    )
)


def _checks(design: Doc, slack: float, settled: bool) -> list[Doc]:
    rows = []
    for number, (name, clause, capacity, unit, assumption) in enumerate(CHECKS + MORE_CHECKS):
        use = max(0.05, 0.35 + 0.055 * ((number * 5 + 3) % 8) + slack)
        if number >= len(CHECKS):
            use = 0.11 + 0.01 * number + 1e-5 * design["board_mm"] + 1e-4 * design["kicker_mm"]
            capacity = capacity * design["stud_mm"][1]
        known = settled or "beam" not in name
        rows.append(
            {
                "name": name,
                "clause": clause,
                "demand": round(capacity * use, 4),
                "capacity": capacity,
                "unit": unit,
                "use": round(use, 4),
                "assumption": assumption if known else "grade unknown: C16 assumed, find out",
                "settled": known,
            }
        )
    return rows


def _holds(design: Doc) -> Doc:
    free, blocked = [], []
    for u in range(100, design["board_mm"] - 99, 200):
        for y in range(100, WIDTH_MM - 99, 200):
            near = any(abs(y - c) < 38 for c in design["stud_centres_mm"])
            near = near or (design["rows"] > 1 and abs(u - design["row_lengths_mm"][0]) < 60)
            (blocked if near else free).append([y, u])
    return {"free_mm": free, "blocked_mm": blocked}


def _pieces(design: Doc) -> list[Doc]:
    seen: dict[tuple[str, str, int, int], int] = {}
    for sheet in design["cut_plan"]["sheets"]:
        for part in sheet["parts"]:
            key = ("sheet", part["name"], part["length_mm"], part["width_mm"])
            seen[key] = seen.get(key, 0) + 1
    for bar in design["cut_plan"]["timber"]:
        for name, length in zip(bar["pieces"], bar["pieces_mm"], strict=True):
            key = ("timber", name, length, design["stud_mm"][1])
            seen[key] = seen.get(key, 0) + 1
    rows = []
    for (kind, name, length, width), count in sorted(seen.items()):
        thick = design["sheet_thickness_mm"] if kind == "sheet" else design["stud_mm"][0]
        mass = length * width * thick * (6.4e-7 if kind == "sheet" else 4.2e-7)
        rows.append(
            {
                "name": name,
                "kind": kind,
                "length_mm": length,
                "width_mm": width,
                "thickness_mm": thick,
                "count": count,
                "mass_kg": round(mass, 1),
                "people": 1 if mass <= 25 else 2,
            }
        )
    return rows


def _design(beam: Doc, facing: str, choice: tuple[str, str, int, int, int, int]) -> Doc | None:
    sheet, stud, rows, bays, board, kicker = choice
    kind, thickness, products = SHEETS[sheet]
    b, h, _ = STUDS[stud]
    if rows == 1 and board > products[-1][2]:
        return None
    lengths = [board] if rows == 1 else [products[0][2], board - products[0][2]]
    if min(lengths) < 200:
        return None
    column = WIDTH_MM // 2
    anchors = [b / 2, WIDTH_MM / 2, WIDTH_MM - b / 2]
    centres = [anchors[0]]
    for left, right in itertools.pairwise(anchors):
        centres += [left + (right - left) * (i + 1) / bays for i in range(bays)]
    studs = len(centres)
    design: Doc = {
        "id": "",
        "board_mm": board,
        "kicker_mm": kicker,
        "width_mm": WIDTH_MM,
        "beam": beam["name"],
        "facing": facing,
        "columns": 2,
        "rows": rows,
        "sheet": sheet,
        "sheet_kind": kind,
        "sheet_thickness_mm": thickness,
        "grain": "across",
        "kicker_sheet": sheet if kicker else "",
        "stud": stud,
        "stud_mm": [b, h],
        "stud_count": studs,
        "mount": "Swivel mount A",
        "mount_count": 3,
        "delivered": max(lengths) > 2600,
        "column_widths_mm": [column, column],
        "row_lengths_mm": lengths,
        "stud_centres_mm": [round(c, 1) for c in centres],
        "mount_centres_mm": [round(c, 1) for c in (centres[0], centres[bays], centres[-1])],
        "y_mm": [900, 3300],
        "climbable_mm": board + kicker,
    }
    stood = _stand(design, beam, thickness + h)
    if not stood or not 25 <= stood["angle_deg"] <= 50 or stood["fall_space_mm"] < 1500:
        return None
    design |= stood
    if min(design["x_foot_mm"], 5780 - design["x_foot_mm"]) < thickness + h:
        return None
    holds = _holds(design)
    design["holds"], design["hold_positions"] = holds, len(holds["free_mm"])
    upright = kicker - 2 * b
    pieces = [("stud", board - 2 * b)] * studs + [("rail", WIDTH_MM)] * 2
    if kicker:
        pieces += [("kicker plate", WIDTH_MM)] * 2 + [("kicker upright", upright)] * studs
    if rows > 1:
        pieces += [("seam blocking", int(centres[1] - centres[0] - b))] * (studs - 1)
    design["cut_plan"] = {
        "sheets": _sheets(products, lengths, kicker, column),
        "timber": _bars(stud, pieces),
    }
    design["bill"] = _bill(design, products)
    design["cost_cents"] = sum(line["amount_cents"] for line in design["bill"])
    settled = beam["grade"] is not None
    checks = _checks(design, (board - 2450) / 2200 - (h - 95) / 160 - (bays - 2) / 30, settled)
    if max(c["use"] for c in checks) > 1:
        return None
    design["checks"] = checks
    design["governing_check"] = max(checks, key=lambda c: c["use"])["name"]
    design["settled"] = settled
    design["pieces"] = _pieces(design)
    design["mass_kg"] = round(sum(p["count"] * p["mass_kg"] for p in design["pieces"]) + 6.5, 1)
    return design


_PLACES = [(ROOM["beams"][i], facing) for i, facing in ((0, "+x"), (1, "-x"), (2, "-x"))]


def _choices(step: int) -> list[tuple[str, str, int, int, int, int]]:
    return list(
        itertools.product(SHEETS, STUDS, (1, 2), (2, 3), range(2300, 3400, step), (200, 400))
    )


def _all(step: int) -> list[Doc]:
    made = (_design(beam, facing, choice) for beam, facing in _PLACES for choice in _choices(step))
    return [design for design in made if design]


def _score(design: Doc) -> tuple[int, int, int]:
    angle_mdeg = math.floor(1000 * design["angle_deg"])
    return (design["cost_cents"], -angle_mdeg, -design["fall_space_mm"])


def _unbeaten(designs: list[Doc]) -> list[Doc]:
    kept: dict[tuple[int, int, int], Doc] = {}
    for score, design in sorted(((_score(d), d) for d in designs), key=lambda item: item[0]):
        if not any(all(x <= y for x, y in zip(k, score, strict=True)) for k in kept):
            kept[score] = design
    return list(kept.values())


def document(most: int | None = None, step: int = 100, target: float | None = 40.0) -> Doc:
    """Return the fixture; with `most`, that many designs whether or not they beat each other."""
    found = _all(step)
    chosen = _unbeaten(found) if most is None else found[:: max(1, len(found) // most)][:most]
    chosen.sort(key=lambda d: (d["cost_cents"], d["angle_deg"]))
    for number, design in enumerate(chosen, start=1):
        design["id"] = f"W{number:02d}"
    beaten = [d for d in found if not d["id"]]
    cloud = [
        [d["angle_deg"], d["cost_cents"], d["fall_space_mm"]]
        for d in beaten[:: max(1, len(beaten) // 590)]
    ][:600]
    return {
        "format": "steepwright designs 1",
        "room": ROOM,
        "catalog": {
            "name": "Invented yard",
            "currency": "EUR",
            "date": "2026-01-15",
            "note": "All prices are invented.",
        },
        "currency": "EUR",
        "method": "exact",
        "complete": True,
        "counts": {"designs_in_space": 48211200, "families": 1728, "front": len(chosen)},
        "target_angle_deg": target,
        "max_cost_cents": None,
        "assumptions": [
            "Climber of 75 kg, dynamic factor 2: a stated assumption.",
            "Screws, saw and glue at hand; prices include tax.",
        ],
        "cautions": [
            "This is a plan, not an approval.",
            "Local building codes and a licensed structural engineer come first.",
            "Have the ceiling beam looked at before anything hangs from it.",
        ],
        "findings": [
            {
                "code": "room-beam-unknown",
                "severity": "assumption",
                "message": "the grade of beam second is unknown; C16 is assumed",
                "file": "room.toml",
                "line": 61,
                "key": "beams[0].grade",
                "seen": "unknown",
                "expected": "a strength class",
                "next_step": "have it graded",
            }
        ],
        "cloud": cloud,
        "designs": chosen,
    }
