"""Pads for one wall: bought and owned ones laid over the fall area, and where they end."""

from __future__ import annotations

from collections import Counter
from typing import Any

from steepwright.catalog.types import Catalog, Hardware
from steepwright.geometry import fall_guidance, side_space_mm
from steepwright.geometry.pads import Laid, Pad, Padding, Span, lay_pads
from steepwright.optimise.evaluate import Stance, Workshop
from steepwright.optimise.evaluate import stance as stance_of
from steepwright.pricing.wall import Wall
from steepwright.room.types import Room

Document = dict[str, Any]

_OWN = "own: "


def padding_document(shop: Workshop, wall: Wall, y_mm: tuple[int, int]) -> Document | None:
    """Return the pads to lay under and around one wall, None where there are none at all.

    To be padded is the floor from the kicker's face to the guidance in front of the lip, and to
    the guidance on both sides, as far as it is clear. Of the thicknesses at hand the thinnest
    that meets the guidance is taken, or else the thickest. Own pads cost nothing. What is bought
    is not part of the wall's cost.
    """
    room, catalog = shop.space.market.room, shop.space.market.catalog
    stance = stance_of(shop, wall)
    thicknesses = {row.thickness_mm for row in _on_offer(catalog)}
    thicknesses |= {pad.thickness_mm for pad in room.pads}
    if not thicknesses:
        return None
    guidance = fall_guidance(stance.lip_height_mm, catalog.materials.factors)
    thick = [t for t in sorted(thicknesses) if t >= guidance.mat_mm]
    thickness = thick[0] if thick else max(thicknesses)
    front = min(stance.fall_space_mm, round(guidance.front_mm))
    run = stance.floor_run_mm
    out = Span((0, run + front), (0, run + stance.fall_space_mm), anchored=True)
    sign = 1 if wall.facing == "+x" else -1
    end = stance.x_lip_mm + sign * front
    clear = side_space_mm(room, *y_mm, (stance.x_foot_mm, end), stance.lip_height_mm)
    left, right = (int(side) for side in clear)
    side = round(guidance.side_mm)
    across = Span(
        (y_mm[0] - min(left, side), y_mm[1] + min(right, side)), (y_mm[0] - left, y_mm[1] + right)
    )
    padding = lay_pads(_kinds(room, catalog, thickness), out, across)
    return {
        "thickness_mm": thickness,
        "asked_mm": round(guidance.mat_mm),
        "fall_height_mm": stance.lip_height_mm,
        "covers_kicker_mm": min(thickness, wall.kicker_mm),
        "wanted": _area(stance.x_foot_mm, sign, out.wanted, across.wanted),
        "covered": round(padding.covered_mm2 / max(1, out.size_mm * across.size_mm), 3),
        "ends": _ends(padding, stance, y_mm),
        "laid": [_laid(stance.x_foot_mm, sign, pad) for pad in padding.pads],
        "buy": _buy(catalog, padding),
        "cost_cents": padding.cost_cents,
    }


def _on_offer(catalog: Catalog) -> list[Hardware]:
    return [row for row in catalog.hardware if row.kind == "pad" and row.pack_quantity == 1]


def _kinds(room: Room, catalog: Catalog, thickness_mm: int) -> tuple[Pad, ...]:
    """Return the kinds of one thickness, own ones first; of equal bought ones the cheapest."""
    own = [
        Pad(_OWN + pad.name, pad.length_mm, pad.width_mm, 0, pad.count)
        for pad in room.pads
        if pad.thickness_mm == thickness_mm
    ]
    bought: dict[tuple[int, int], Pad] = {}
    for row in sorted(_on_offer(catalog), key=lambda row: (row.price_cents, row.sku)):
        if row.thickness_mm == thickness_mm:
            sides = (max(row.length_mm, row.width_mm), min(row.length_mm, row.width_mm))
            bought.setdefault(sides, Pad(row.sku, *sides, row.price_cents, None))
    return (*own, *bought.values())


def _area(foot_mm: int, sign: int, out: tuple[int, int], across: tuple[int, int]) -> Document:
    x = sorted(foot_mm + sign * value for value in out)
    return {"x_mm": x, "y_mm": list(across)}


def _laid(foot_mm: int, sign: int, pad: Laid) -> Document:
    own = pad.name.startswith(_OWN)
    area = _area(foot_mm, sign, pad.out_mm, pad.across_mm)
    return {"name": pad.name.removeprefix(_OWN), "own": own, **area}


def _ends(padding: Padding, stance: Stance, y_mm: tuple[int, int]) -> Document | None:
    """Return how far the pads reach beyond the lip and beyond the wall's sides [mm]."""
    if not padding.pads:
        return None
    return {
        "front_mm": max(pad.out_mm[1] for pad in padding.pads) - stance.floor_run_mm,
        "left_mm": y_mm[0] - min(pad.across_mm[0] for pad in padding.pads),
        "right_mm": max(pad.across_mm[1] for pad in padding.pads) - y_mm[1],
    }


def _buy(catalog: Catalog, padding: Padding) -> list[Document]:
    counts = Counter(pad.name for pad in padding.pads)
    return [
        {
            "sku": row.sku,
            "what": row.name,
            "quantity": counts[row.sku],
            "unit_cents": row.price_cents,
            "amount_cents": counts[row.sku] * row.price_cents,
        }
        for row in _on_offer(catalog)
        if counts[row.sku]
    ]
