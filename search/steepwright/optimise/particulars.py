"""Smaller facts of one wall: what it offers to climb, how it is levelled, where holds can go."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from steepwright.catalog.families import sheet_screws
from steepwright.geometry import levelling, moves, start_height_mm, wall_y_range_mm
from steepwright.geometry.mounts import bolt_places, mount_centres, over_mm
from steepwright.optimise.evaluate import Workshop, stud_positions_mm
from steepwright.optimise.hold_ends import ends_of
from steepwright.pricing.wall import Wall
from steepwright.structure.rules_sheet import hold_screws_needed

Document = dict[str, Any]


def climbing_document(shop: Workshop, wall: Wall) -> Document:
    """Return the measures of climbing: moves, where the hands start, width in spans."""
    market = shop.space.market
    factors, span = market.catalog.materials.factors, market.room.climber.span_mm
    ends = ends_of(shop.space, wall)
    start = start_height_mm(ends.lowest_mm, wall.kicker_mm, shop.standing(wall).angle)
    return {
        "moves": int(moves(ends, span, factors)),
        "move_gain_mm": round(factors["move_span_share"] * span),
        "start_height_mm": round(float(start[0])),
        "width_spans": math.floor(100 * wall.width_mm / span) / 100,
    }


def mounts_document(shop: Workshop, wall: Wall) -> Document:
    """Return where mounts and their bolts go along the lip rail [mm], from its left end."""
    factors = shop.space.market.catalog.materials.factors
    bolts = bolt_places(factors, stud_positions_mm(shop, wall), wall.mount_count)
    return {
        "mount_centres_mm": [round(at, 1) for at in _mounts_mm(shop, wall)],
        "lip_bolts_mm": [[round(at, 1) for at in each] for each in bolts],
    }


def _mounts_mm(shop: Workshop, wall: Wall) -> tuple[float, ...]:
    over = over_mm(shop.space.market.catalog.materials.factors, wall.section.width_mm)
    return mount_centres(stud_positions_mm(shop, wall), wall.mount_count, over)


def levelling_document(shop: Workshop, wall: Wall) -> Document:
    """Return how far each mount is let down so that the lip is level, in mm and turns.

    From the climber's left, as mounts are counted: y = 0 is there only when the wall faces +x.
    """
    room = shop.space.market.room
    y0, y1 = (float(y) for y in wall_y_range_mm(room, wall.width_mm))
    centres = _mounts_mm(shop, wall)
    rows = levelling(
        room.beams[wall.beam],
        room.width_mm,
        [y0 + at if wall.facing == "+x" else y1 - at for at in centres],
        wall.mount.thread_pitch_mm,
    )
    return {
        "take_up_mm": float(np.max(shop.standing(wall).hanging.take_up_mm)),
        "mounts": [
            {
                "y_mm": round(row.y_mm, 1),
                "drop_mm": round(row.drop_mm, 1),
                "turns": None if row.turns is None else round(row.turns, 2),
            }
            for row in rows
        ],
    }


def hold_clearance_document(shop: Workshop, wall: Wall) -> Document:
    """Return what holds keep clear of: timber, and the screws within it; and the inserts' depth.

    A screw stands at least three diameters inside the timber's side (EN 1995-1-1 Table 8.2).
    ``barrel_mm`` is the longest insert on offer, which must not be longer than the sheet is thick;
    ``screws_without_bolt`` is how many wood screws, of a diameter and reaching so far beyond the
    hold, one needs that has no bolt.
    """
    catalog = shop.space.market.catalog
    factors = catalog.materials.factors
    screws = sheet_screws(catalog, wall.sheet.thickness_mm)
    thinnest = min((screw.diameter_mm for screw in screws), default=0.0)
    clear = factors["hold_clear_mm"]
    return {
        "timber_mm": clear,
        "screw_mm": clear + factors["predrilled_spacing_d"] * thinnest,
        "standoff_mm": factors["hold_standoff_mm"],
        "barrel_mm": max((h.length_mm for h in catalog.hardware if h.kind == "tnut"), default=0),
        "sheet_mm": wall.sheet.thickness_mm,
        "screws_without_bolt": hold_screws_needed(
            shop.tables, shop.space.market.families.index(wall.sheet)
        ),
        "hold_screw_mm": factors["hold_screw_mm"],
        "hold_screw_grip_mm": factors["hold_screw_grip_mm"],
    }
