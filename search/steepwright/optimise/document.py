"""The search's answer as one plain document: what designs.json holds and the report reads."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import radians
from pathlib import Path
from typing import Any

import numpy as np

from steepwright.catalog.types import Catalog
from steepwright.cutting.records import BarLayout
from steepwright.findings import Finding
from steepwright.geometry import hold_positions, wall_y_range_mm
from steepwright.optimise.access import too_long_whole_mm
from steepwright.optimise.evaluate import (
    Priced,
    Workshop,
    check_all,
    lift_plan,
    mass_kg,
    price,
    stance,
    stud_positions_mm,
)
from steepwright.optimise.fold import parked_document
from steepwright.optimise.hanging import hanging_document
from steepwright.optimise.hold_ends import hold_grid
from steepwright.optimise.padding import padding_document
from steepwright.optimise.particulars import (
    climbing_document,
    hold_clearance_document,
    levelling_document,
    mounts_document,
)
from steepwright.optimise.pieces import pieces_document
from steepwright.optimise.rig_document import rig_document
from steepwright.optimise.rigs_told import rigs_told
from steepwright.optimise.shop import cut_makers, shop_document
from steepwright.optimise.space import Space, limit_range
from steepwright.optimise.tie_document import tie_document
from steepwright.optimise.tolerance import angle_range_deg
from steepwright.optimise.way_in import board_way_in, way_in_document
from steepwright.plain import plain
from steepwright.pricing.stands import missing_bolts_mm
from steepwright.pricing.wall import Wall, columns_of, rows_of
from steepwright.room.types import Room, Yard
from steepwright.structure import Check

Document = dict[str, Any]

FORMAT = "steepwright designs 1"

_LOOKED_AT = {
    "beam": ("the ceiling beam", "its grade or its load"),
    "joist": ("the joists", "their grade or their load"),
    "slab": ("the concrete slab and its anchors", "what an anchor is rated for"),
    "frame": (
        "the frame's plan, and once it stands the frame,",
        "its grade or what holds its feet",
    ),
}


def cautions(room: Room) -> tuple[str, ...]:
    """Return the usual cautions; what has to be looked at is what this room's walls hang from."""
    kinds = {beam.kind for beam in room.beams}
    several = ("what the wall hangs from", "what it bears")
    what, unknown = _LOOKED_AT.get(next(iter(kinds)), several) if len(kinds) == 1 else several
    return (
        "This is a plan, not an approval. A wall that is built or hung wrong can injure or kill.",
        "Local codes, the building's owner and a licensed structural engineer come first.",
        (
            f"Have {what} looked at by someone qualified before anything hangs from it; while"
            f" {unknown} is unknown the design is not settled."
        ),
        "Keep the fall area clear and padded; check screws, mounts and lines before every session.",
    )


def _widths(space: Space) -> str:
    least, most, step = space.width_mm, int(space.widths_mm[-1]), space.market.room.wall.step_mm
    if least == most:
        return f"The front is complete for walls {least} mm wide on a grid of {step} mm."
    return (
        f"The front is complete for walls from {least} to {most} mm wide on a grid of {step} mm; of"
        " widths at which a wall costs the same it is given the greatest."
    )


def search_assumptions(space: Space) -> tuple[str, ...]:
    """Return what the search itself assumes, in sentences."""
    room = space.market.room
    told = [
        _widths(space),
        (
            "Sheets are sawn at the yard, so only their pieces have to fit the vehicle; bars are"
            " taken home at full length and sawn there."
        ),
        (
            "Saw cuts are charged in bought sheets only; every cut counts, trims and those left for"
            " home included."
        ),
        _limits(space),
        _pads(room),
        _moves(space),
    ]
    if room.wall.fold_up:
        told.append(
            "A wall that folds up must be able to swing to level past every solid, even where a"
            " beam stops it before; what stands proud of the face is not counted in the headroom."
        )
    if room.wall.tolerance_mm:
        told.append(
            f"Every measure of room, beams and solids may be wrong by {room.wall.tolerance_mm} mm"
            " and all walls still fit; angle and fall space are told as measured. The beams'"
            " sections, spans and levels, the way in and the wall's place along its beam count as"
            " given."
        )
    told += rigs_told(space)
    long_mm = too_long_whole_mm(space)
    if long_mm is not None:
        told.append(
            f"Some bars of {long_mm} mm and more don't get in whole: saw such bars before you carry"
            " them in; every piece of the frame gets in."
        )
    bolts_mm = {mm for b in room.beams for mm in missing_bolts_mm(space.market.catalog, b)}
    if bolts_mm:
        d = space.market.catalog.materials.factors["frame_bolt_mm"]
        told.append(
            f"The catalogue has no bolts M{d:g} of at least {max(bolts_mm)} mm for the freestanding"
            " frame: they are bought elsewhere and aren't on the bill."
        )
    if any(offcut.price_cents == 0 for offcut in room.yard.offcuts):
        told.append(
            "Pieces sawn from your own offcuts are held to the vehicle and the way in like all"
            " others, though they are at home already."
        )
    return tuple(told)


def _pads(room: Room) -> str:
    start = "T-nuts are bought for the whole hold grid; holds"
    if room.yard.pads_on_bill:
        return (
            f"{start} are not on the bill; pads that have to be bought are, laid in rows at the"
            " least cost, for as much of the guidance's fall area as the room has. A wall with less"
            " room for pads beside it costs less: look at the share that they cover before you"
            " choose."
        )
    return f"{start} and pads are not on the bill; what pads would cost stands beside each wall."


def _moves(space: Space) -> str:
    factors, span = space.market.catalog.materials.factors, space.market.room.climber.span_mm
    share = factors["move_span_share"]
    return (
        f"A move of a hand gains {share * span:.0f} mm up the board, {share:g} of the climber's"
        " span: an assumption, to compare walls with. The hands start at the board's lowest row of"
        " holds, and a wall's width is told in spans (common practice, no source)."
    )


def _limits(space: Space) -> str:
    wall = space.market.room.wall
    studs, mounts = limit_range(space.market, "studs"), space.mount_counts
    return (
        f"Looked at were frames of {studs[0]} to {studs[-1]} studs, as many in each column, on"
        f" {mounts[0]} to {mounts[-1]} mounts, and boards of up to {wall.max_columns} x"
        f" {wall.max_rows} pieces (across x up), either equal or all but the last as long or wide"
        " as a sheet on sale."
    )


def room_document(room: Room) -> Document:
    """Return the room as plain data."""
    document: Document = plain(room)
    document.pop("findings")
    tied = document.pop("tie_beam")
    if tied is not None:
        document["tie_beam"] = room.beams[tied].name
    document["beams"] = [_beam_document(beam) for beam in document["beams"]]
    document["file"] = Path(room.file).name
    return document


def _beam_document(beam: Document) -> Document:
    """Return a beam as plain data; what only hidden ones have is left out of the others."""
    hidden = {"kind", "lining_mm", "found", "anchor_rated_n", "anchor_least_mm", "stand"}
    hidden |= {"ledger", "spreader"}
    return {k: v for k, v in beam.items() if beam["kind"] != "beam" or k not in hidden}


def catalog_document(catalog: Catalog) -> Document:
    """Return what identifies the price list."""
    return {
        "name": catalog.name,
        "currency": catalog.currency,
        "date": catalog.date,
        "note": catalog.note,
    }


def design_document(shop: Workshop, wall: Wall, name: str) -> Document:
    """Return one design in full.

    Raises
    ------
    ValueError
        When the wall can't be cut from what is on offer.
    """
    priced = price(shop, wall)
    if priced is None:
        message = "this wall can't be cut from the sheets and bars on offer"
        raise ValueError(message)
    results = check_all(shop, wall)
    document = _choice(shop, wall, name)
    market = shop.space.market
    factors, beam = market.catalog.materials.factors, market.room.beams[wall.beam]
    document |= rig_document(factors, beam, wall)
    document |= _place(shop, wall)
    document |= _layout(shop, wall)
    document |= _purchase(priced, shop.space.market.room.yard)
    document["shop"] = shop_document(shop.space, priced)
    document["mass_kg"] = round(mass_kg(shop, wall), 1)
    document["pieces"] = pieces_document(shop, wall, priced)
    document["way_in"] = board_way_in(shop, wall)
    document["assembly"] = hanging_document(shop, wall)
    document["climbing"] = climbing_document(shop, wall)
    document["levelling"] = levelling_document(shop, wall)
    document["pads"] = padding_document(shop, wall, tuple(document["y_mm"]))
    document["hold_clearance"] = hold_clearance_document(shop, wall)
    document |= _checks(results)
    return document


def _choice(shop: Workshop, wall: Wall, name: str) -> Document:
    beam = shop.space.market.room.beams[wall.beam]
    kind = {} if beam.seen else {"mount_kind": beam.kind}
    return (
        kind
        | {
            "id": name,
            "board_mm": wall.board_mm,
            "kicker_mm": wall.kicker_mm,
            "width_mm": wall.width_mm,
            "beam": beam.name,
            "facing": wall.facing,
            "columns": wall.split.columns,
            "rows": wall.split.rows,
            "sheet": wall.sheet.label,
            "sheet_kind": wall.sheet.kind,
            "sheet_thickness_mm": wall.sheet.thickness_mm,
            "grain": wall.grain,
            "kicker_sheet": wall.kicker_sheet.label if wall.kicker_mm else "",
            "stud": wall.section.label,
            "stud_mm": [wall.section.width_mm, wall.section.depth_mm],
            "stud_count": wall.stud_count,
            "mount": wall.mount.name,
            "mount_count": wall.mount_count,
            "screw_mm": wall.screw_mm,
            "delivered": wall.delivered,
        }
        | tie_document(shop.space, shop.standing(wall), wall)
    )


def _place(shop: Workshop, wall: Wall) -> Document:
    room = shop.space.market.room
    y0, y1 = wall_y_range_mm(room, wall.width_mm)
    parked = _parked(shop, wall) if room.wall.fold_up else None
    place: Document = plain(stance(shop, wall)) | {
        "x_pivot_mm": room.beams[wall.beam].x_mm,
        "pivot_height_mm": int(np.asarray(shop.standing(wall).hanging.pivot_height_mm)),
        "y_mm": [round(float(y0)), round(float(y1))],
        "climbable_mm": wall.board_mm + wall.kicker_mm,
        "parked": parked,
        "lift": lift_plan(shop, wall, radians(parked["angle_deg"])) if parked else None,
    }
    if room.wall.tolerance_mm:
        place["angle_range_deg"] = list(angle_range_deg(shop.space, shop.standing(wall)))
    return place


def _parked(shop: Workshop, wall: Wall) -> Document:
    deep = float(wall.sheet.thickness_mm + wall.section.depth_mm)
    y_mm = wall_y_range_mm(shop.space.market.room, wall.width_mm)
    return parked_document(shop.space, shop.standing(wall), deep, y_mm)


def _layout(shop: Workshop, wall: Wall) -> Document:
    market = shop.space.market
    columns = columns_of(wall.split, wall.width_mm, market.limits)
    rows = rows_of(wall.split, wall.board_mm, market.limits)
    assert columns is not None
    assert rows is not None
    centres = stud_positions_mm(shop, wall)
    free, blocked = hold_positions(
        columns,
        rows,
        centres,
        wall.section.width_mm,
        hold_grid(shop.space),
    )
    return {
        "column_widths_mm": list(columns),
        "row_lengths_mm": list(rows),
        "stud_centres_mm": [round(c, 1) for c in centres],
        **mounts_document(shop, wall),
        "hold_positions": len(free),
        "holds_lost": len(blocked),
        "holds": {
            "free_mm": [[round(y), round(u)] for y, u in free],
            "blocked_mm": [[round(y), round(u)] for y, u in blocked],
        },
    }


def _purchase(priced: Priced, yard: Yard) -> Document:
    sheets = [
        {
            "sku": layout.sku,
            "length_mm": layout.length_mm,
            "width_mm": layout.width_mm,
            "kerf_mm": layout.kerf_mm,
            "parts": [plain(part) for part in layout.parts],
            "cuts": [
                plain(cut) | {"by": maker}
                for cut, maker in zip(layout.cuts, cut_makers(layout, yard), strict=True)
            ],
        }
        for plan in priced.sheet_plans
        for layout in plan.layouts
    ]
    plan: Document = {"sheets": sheets, "timber": _bars(priced.bar_plan.layouts)}
    if priced.stand.layouts:
        plan["stand"] = _bars(priced.stand.layouts)
    bill = [plain(line) | {"amount_cents": line.amount_cents} for line in priced.bill]
    return {
        "cost_cents": priced.cost_cents,
        "bill": bill,
        "cut_plan": plan,
    }


def _bars(layouts: Sequence[BarLayout]) -> list[Document]:
    return [
        {
            "sku": layout.sku,
            "stock_mm": layout.stock_mm,
            "kerf_mm": layout.kerf_mm,
            "pieces_mm": [length for _, length in layout.pieces],
            "pieces": [name for name, _ in layout.pieces],
        }
        for layout in layouts
    ]


def _check(check: Check) -> Document:
    row = plain(check) | {
        "demand": float(f"{check.demand:.6g}"),
        "capacity": float(f"{check.capacity:.6g}"),
        "use": float(f"{check.use:.4g}"),
    }
    return {key: value for key, value in row.items() if key != "find_out" or value}


def _checks(results: Sequence[Check]) -> Document:
    worst = max(results, key=lambda check: check.use)
    return {
        "checks": [_check(check) for check in results],
        "governing_check": worst.name,
        "settled": all(check.settled for check in results),
    }


def document_head(
    space: Space, assumptions: Sequence[str], findings: Sequence[Finding], wishes: Mapping[str, Any]
) -> Document:
    """Return the part of the document that comes before the designs."""
    catalog = space.market.catalog
    return {
        "format": FORMAT,
        "room": room_document(space.market.room),
        "catalog": catalog_document(catalog),
        "currency": catalog.currency,
        "cautions": list(cautions(space.market.room)),
        "assumptions": list(assumptions),
        "way_in": way_in_document(space),
        "findings": [finding.as_dict() | {"file": Path(finding.file).name} for finding in findings],
        **wishes,
    }
