"""Looks at numbers before anything counts up to them: a damaged file must not keep one waiting."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

Document = dict[str, Any]

MOST_MM, MOST_CENTS, MOST_PIECES = 100_000, 10**9, 10**6

COUNTS = {
    "search_least_studs": (1, 100),
    "search_most_studs": (1, 100),
    "search_least_mounts": (2, 100),
    "search_most_mounts": (2, 100),
    "search_yards_combined": (0, 8),
    "layout_min_piece_mm": (1, MOST_MM),
    "layout_min_upright_mm": (1, MOST_MM),
    "sheet_screw_spacing_mm": (1, MOST_MM),
    "search_least_screw_mm": (1, MOST_MM),
    "search_most_screw_mm": (1, MOST_MM),
    "search_step_screw_mm": (1, MOST_MM),
    "kicker_hinge_spacing_mm": (1, MOST_MM),
    "frame_screws_per_joint": (0, 100),
    "fold_rope_board_lengths": (0, 100),
    "hoist_lines": (0, 100),
    "hoist_parts": (0, 100),
    "hoist_latches": (0, 100),
    "lip_bolts": (0, 100),
    "hold_edge_margin_mm": (0, MOST_MM),
    "hold_clear_mm": (0, MOST_MM),
    "move_span_share": (0, 10),
    "fall_mat_mm": (0, MOST_MM),
    "fall_side_mm": (0, MOST_MM),
    "fall_front_low_mm": (0, MOST_MM),
    "fall_front_high_mm": (0, MOST_MM),
    "fall_low_wall_mm": (0, MOST_MM),
}
"""Factors that something is counted by, with the least and greatest that make sense."""


def need_sense(part: Document, room: Document) -> None:
    """Raise ValueError, with the place, for a number that makes no sense."""
    for place, value, least, most in (*_of_room(room), *_of_given(part["given"])):
        whole = isinstance(value, int | float) and not isinstance(value, bool)
        if not whole or not math.isfinite(value) or not least <= value <= most:
            message = f"{place} is {str(value)[:40]}, not {least} to {most}"
            raise ValueError(message)


Row = tuple[str, Any, float, float]


def _of_room(room: Document) -> Iterator[Row]:
    wall, yard = room["wall"], room["yard"]
    yield "max_columns", wall["max_columns"], 1, 20
    yield "max_rows", wall["max_rows"], 1, 20
    yield "step_mm", wall["step_mm"], 1, MOST_MM
    yield "hold_spacing_mm", wall["hold_spacing_mm"], 1, MOST_MM
    for name in ("width_mm", "kicker_mm"):
        for value in wall[name]:
            yield name, value, 0, MOST_MM
    for value in wall["angle_deg"]:
        yield "angle_deg", value, 0, 89
    yield "length_mm", room["length_mm"], 0, MOST_MM
    yield "width_mm", room["width_mm"], 0, MOST_MM
    for beam in room["beams"]:
        under = beam.get("spreader") or {"joists_mm": ()}
        yield f"joists over {beam['name']}", len(under["joists_mm"]), 0, 100
    yield "kinds of own pads", len(room.get("pads", [])), 0, 20
    for n, pad in enumerate(room.get("pads", [])):
        yield from _of_pad(pad, f"own pad {n}")
        yield f"number of own pads {n}", pad["count"], 0, 20
    yield "min_width_spans", wall.get("min_width_spans", 0), 0, 20
    yield "min_moves", wall.get("min_moves", 0), 0, 1000
    yield "min_climbable_mm", wall.get("min_climbable_mm", 0), 0, MOST_MM
    yield "max_start_mm", wall.get("max_start_mm") or 0, 0, MOST_MM
    yield "span_mm", room["climber"]["span_mm"], 1, MOST_MM
    yield "kerf_mm", yard["kerf_mm"], 0, 100
    yield "cut_price_cents", yard["cut_price_cents"], 0, MOST_CENTS
    yield "delivery_price_cents", yard["delivery_price_cents"], 0, MOST_CENTS


def _of_given(given: Document) -> Iterator[Row]:
    for name, (least, most) in COUNTS.items():
        yield name, given["factors"][name], least, most
    for n, pad in enumerate(given.get("pads", [])):
        yield from _of_pad(pad, f"pad {n}")
        yield f"price of pad {n}", pad["price_cents"], 0, MOST_CENTS
    yield "yards", len(given["trips"]), 0, 30
    for name, cents in given["trips"]:
        yield f"trip to {name}", cents, 0, MOST_CENTS
    for kind in ("families", "sections"):
        for n, group in enumerate(given[kind]):
            for row in group["stock"]:
                yield from _of_stock(row, f"{kind} {n}, {row['sku']}")
            yield from _of_packs(group["screw_packs"], f"{kind} {n}, screws")
            yield from _of_packs(group.get("bolt_packs"), f"{kind} {n}, bolts")
    for name, types in given["articles"].items():
        for packs in types or []:
            yield from _of_packs(packs, name)
    for mount in given["mounts"]:
        yield mount["name"], mount["price_cents"], 0, MOST_CENTS
    yield from _of_ties(given)


def _of_ties(given: Document) -> Iterator[Row]:
    for tie in given["ties"]["sets"] if "ties" in given else []:
        yield tie["name"], tie["price_cents"], 0, MOST_CENTS
        yield f"{tie['name']}, pieces", tie["pieces"], 1, MOST_PIECES
        yield f"{tie['name']}, stiffness", tie["stiffness_n"], 1, 10**9
        yield f"{tie['name']}, working load", tie["rated_n"], 0, 10**9
        yield f"{tie['name']}, length_mm", tie["length_mm"], 1, MOST_MM


def _of_pad(pad: Document, where: str) -> Iterator[Row]:
    for name in ("length_mm", "width_mm", "thickness_mm"):
        yield f"{where}, {name}", pad[name], 20 if name == "thickness_mm" else 100, MOST_MM


def _of_stock(row: Document, where: str) -> Iterator[Row]:
    yield f"{where}, length_mm", row["length_mm"], 1, MOST_MM
    yield f"{where}, width_mm", row.get("width_mm", 1), 1, MOST_MM
    yield f"{where}, price_cents", row["price_cents"], 0, MOST_CENTS
    yield f"{where}, cut_cents", row.get("cut_cents", 0), 0, MOST_CENTS
    yield f"{where}, free_cuts", row.get("free_cuts", 0), 0, 100
    if row["limit"] is not None:
        yield f"{where}, limit", row["limit"], 0, 1000


def _of_packs(packs: list[list[Any]] | None, where: str) -> Iterator[Row]:
    for sku, pieces, cents in packs or []:
        yield f"{where}, pieces of {sku}", pieces, 1, MOST_PIECES
        yield f"{where}, price of {sku}", cents, 0, MOST_CENTS
