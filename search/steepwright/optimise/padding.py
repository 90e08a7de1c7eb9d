"""Pads for one wall: bought and owned ones laid over the fall area, and where they end."""

from __future__ import annotations

from collections import Counter
from typing import Any

from steepwright.geometry import fall_guidance
from steepwright.geometry.pads import Laid, Padding
from steepwright.optimise.evaluate import Stance, Workshop
from steepwright.optimise.evaluate import stance as stance_of
from steepwright.optimise.pad_floor import OWN, laid_pads, pad_thickness_mm, pads_to_buy
from steepwright.pricing.wall import Wall
from steepwright.room.types import Room

Document = dict[str, Any]


def padding_document(shop: Workshop, wall: Wall, y_mm: tuple[int, int]) -> Document | None:
    """Return the pads to lay under and around one wall, None where there are none at all.

    To be padded is the floor from the kicker's face to the guidance in front of the lip, and to
    the guidance on both sides, as far as it is clear. Of the thicknesses at hand the thinnest
    that meets the guidance is taken, or else the thickest. Own pads cost nothing. What is bought
    is part of the wall's cost where the room says so. Pads lie between the sides of a freestanding
    frame: none is laid over its feet or beyond them.
    """
    room, catalog = shop.space.market.room, shop.space.market.catalog
    thickness = pad_thickness_mm(room, catalog)
    if thickness is None:
        return None
    stance = stance_of(shop, wall)
    guidance = fall_guidance(stance.lip_height_mm, catalog.materials.factors)
    walls, fall_mm = shop.standing(wall), stance.fall_space_mm
    out, across, padding = laid_pads(shop.space, walls, fall_mm, wall.width_mm)
    sign = 1 if wall.facing == "+x" else -1
    return {
        "thickness_mm": thickness,
        "asked_mm": round(guidance.mat_mm),
        "fall_height_mm": stance.lip_height_mm,
        "covers_kicker_mm": min(thickness, wall.kicker_mm),
        "wanted": _area(stance.x_foot_mm, sign, out.wanted, across.wanted),
        "covered": round(padding.covered_mm2 / max(1, out.size_mm * across.size_mm), 3),
        "ends": _ends(padding, stance, y_mm, sign),
        "laid": [_laid(stance.x_foot_mm, sign, pad) for pad in padding.pads],
        "buy": [
            {
                "sku": row.sku,
                "what": row.name,
                "quantity": count,
                "unit_cents": row.price_cents,
                "amount_cents": count * row.price_cents,
            }
            for row, count in pads_to_buy(catalog, padding)
        ],
        "cost_cents": padding.cost_cents,
        "on_bill": room.yard.pads_on_bill,
    } | ({"left_over": _left_over(room, padding)} if room.pads else {})


def _left_over(room: Room, padding: Padding) -> list[Document]:
    """Return the builder's own pads that are not laid: how many of each kind, and how thick."""
    laid = Counter(pad.name for pad in padding.pads)
    counts = [(pad, pad.count - laid[OWN + pad.name]) for pad in room.pads]
    return [
        {"name": pad.name, "count": count, "thickness_mm": pad.thickness_mm}
        for pad, count in counts
        if count
    ]


def _area(foot_mm: int, sign: int, out: tuple[int, int], across: tuple[int, int]) -> Document:
    x = sorted(foot_mm + sign * value for value in out)
    return {"x_mm": x, "y_mm": list(across)}


def _laid(foot_mm: int, sign: int, pad: Laid) -> Document:
    own = pad.name.startswith(OWN)
    area = _area(foot_mm, sign, pad.out_mm, pad.across_mm)
    return {"name": pad.name.removeprefix(OWN), "own": own, **area}


def _ends(padding: Padding, stance: Stance, y_mm: tuple[int, int], sign: int) -> Document | None:
    """Return how far the pads reach beyond the lip and beyond the wall's sides [mm].

    Left is the climber's: towards y = 0 when the wall faces +x, away from it when it faces -x.
    """
    if not padding.pads:
        return None
    near = y_mm[0] - min(pad.across_mm[0] for pad in padding.pads)
    far = max(pad.across_mm[1] for pad in padding.pads) - y_mm[1]
    left, right = (near, far)[::sign]
    return {
        "front_mm": max(pad.out_mm[1] for pad in padding.pads) - stance.floor_run_mm,
        "left_mm": left,
        "right_mm": right,
    }
