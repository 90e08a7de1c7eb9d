"""What a certificate takes as given: offers, materials, rules and limits, as plain data."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict, fields
from typing import Any

from steepwright.catalog.families import frame_screws, sheet_screws
from steepwright.catalog.types import Screw
from steepwright.optimise.model import Model
from steepwright.optimise.pad_floor import on_offer
from steepwright.pricing.market import Market
from steepwright.pricing.packs import CheapestOf, PackTable
from steepwright.room.types import Ledger, Room
from steepwright.structure.tabulate_beams import possible_classes

Document = dict[str, Any]


def given_document(model: Model) -> Document:
    """Return everything that the proof of one market rests on, the room aside."""
    market = model.space.market
    pricer = model.pricer
    extra = _stand_bolts(market) | _ledger_screws(market) | _ties(model)
    return extra | {
        "trips": [[name, cents] for name, cents in market.trips],
        "delivering": list(market.delivering),
        "families": [_family(model, index) for index in range(len(market.families))],
        "sections": [_section(model, index) for index in range(len(market.sections))],
        "mounts": [
            {
                "sku": mount.sku,
                "name": mount.name,
                "drop_mm": mount.drop_mm,
                "setback_mm": mount.setback_mm,
                "behind_sheet_mm": mount.behind_sheet_mm,
                "adjust_mm": mount.adjust_mm,
                "price_cents": mount.price_cents,
                "yard": mount.yard,
                **{name: getattr(mount, name) for name in _SCREWED},
            }
            for mount in market.catalog.mounts
        ],
        "sheaves": [h.efficiency for h in market.catalog.hardware if h.kind == "pulley"],
        "articles": {
            group: None if table is None else [_packs(one) for one in table.tables]
            for group, table in sorted(pricer.other_tables.items())
        },
        "panels": _materials(market),
        "timber_classes": _timber_classes(market),
        "graded": _graded(market),
        "pads": _pads(market) if market.room.yard.pads_on_bill else [],
        "factors": dict(sorted(market.catalog.materials.factors.values.items())),
    }


_SCREWED = (
    "screws",
    "diameter_mm",
    "root_mm",
    "thread_mm",
    "tensile_mpa",
    "rated_n",
    "plate_mm",
    "row_gap_mm",
    "stiff_mm",
)
"""What of a mount tells how it is held in its beam."""


def _timber_classes(market: Market) -> Document:
    """Return the classes of bars, beams and joists, and those that an unknown one may be of."""
    classes = market.catalog.materials.timber_classes
    names = {s.strength_class for s in market.sections} | {*_graded(market)}
    names |= {grade for grade in _grades(market.room) if grade is not None}
    return {name: _numbers(classes[name]) for name in sorted(names)}


def _grades(room: Room) -> list[str | None]:
    """Return the grades of all beams and joists; a wall's studs, too, are of an unknown one."""
    grades = [beam.grade for beam in room.beams]
    grades += [beam.spreader.grade for beam in room.beams if beam.spreader]
    return [*grades, None] if _on_studs(room) else grades


def _on_studs(room: Room) -> list[Ledger]:
    """Return the ledgers that are screwed to a wall's studs."""
    ledgers = [beam.ledger for beam in room.beams if beam.ledger]
    return [ledger for ledger in ledgers if ledger.wall == "studs"]


def _graded(market: Market) -> list[str]:
    """Return the classes whose least figures stand for an unknown grade; none if none is."""
    if None not in _grades(market.room):
        return []
    return sorted(timber.name for timber in possible_classes(market.catalog))


def _stand_bolts(market: Market) -> Document:
    """Return the bolts that a frame in the room may take: length [mm], sku, pieces, price."""
    if not any(beam.stand for beam in market.room.beams):
        return {}
    d = market.catalog.materials.factors["frame_bolt_mm"]
    rows = [h for h in market.catalog.hardware if h.kind == "bolt" and h.diameter_mm == d]
    packs = sorted([h.length_mm, h.sku, h.pack_quantity, h.price_cents] for h in rows)
    return {"stand_bolts": packs}


def _ledger_screws(market: Market) -> Document:
    """Return the screw that holds a ledger to studs, by the ledger's lesser side [mm]."""
    sides = {min(ledger.section_mm) for ledger in _on_studs(market.room)}
    screws = {str(side): _screw(frame_screws(market.catalog, side)) for side in sorted(sides)}
    return {"ledger_screws": screws} if screws else {}


def _ties(model: Model) -> Document:
    """Return what may tie studs back; nothing for a room that names no beam for that."""
    if len(model.space.ties) == 1:
        return {}
    soft = model.tables.beams.soft_mm_per_n[model.tables.ties.beam]
    sets = [
        {
            "sku": tie.sku,
            "name": tie.name,
            "pieces": tie.pack_quantity,
            "price_cents": tie.price_cents,
            "length_mm": tie.length_mm,
            "stiffness_n": tie.stiffness_n,
            "rated_n": tie.rated_n or 0.0,
            "yard": tie.yard,
        }
        for tie in model.space.ties
        if tie is not None
    ]
    return {"ties": {"soft_mm_per_n": float(soft), "sets": sets}}


def _pads(market: Market) -> list[Document]:
    """Return the pads on offer that are sold singly."""
    names = ("sku", "length_mm", "width_mm", "thickness_mm", "price_cents")
    return [{name: getattr(row, name) for name in names} for row in on_offer(market.catalog)]


def digest(document: Any) -> str:
    """Return the SHA-256 of plain data written in one canonical way."""
    text = json.dumps(document, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def _family(model: Model, index: int) -> Document:
    market = model.space.market
    family = market.families[index]
    yards = {product.sku: product.yard for product in family.products}
    return {
        "kind": family.kind,
        "panel": family.panel,
        "thickness_mm": family.thickness_mm,
        "for_the_board": market.board_allowed[index],
        "split_sides_mm": list(market.split_sides_mm[index]),
        "stock": [
            asdict(stock) | {"yard": yards.get(stock.sku, "")}
            for stock in market.sheet_stock[index]
        ],
        "screw": _screw(sheet_screws(market.catalog, family.thickness_mm)),
        "screw_packs": _packs(model.pricer.sheet_tables[index]),
    }


def _section(model: Model, index: int) -> Document:
    market = model.space.market
    section = market.sections[index]
    return {
        "width_mm": section.width_mm,
        "depth_mm": section.depth_mm,
        "strength_class": section.strength_class,
        "surface": section.surface,
        "stock": [
            {
                "sku": bar.sku,
                "length_mm": bar.length_mm,
                "price_cents": bar.price_cents,
                "limit": bar.limit,
                "yard": bar.yard,
            }
            for bar in section.products
        ],
        "screw": _screw(frame_screws(market.catalog, section.width_mm)),
        "screw_packs": _packs(model.pricer.frame_tables[index]),
        "bolt_packs": _packs(model.pricer.bolt_tables[index]),
    }


def _packs(table: PackTable | CheapestOf | None) -> list[list[Any]] | None:
    """Return a type's packs as [sku, pieces, price [cents]]; None when it is not on offer."""
    return None if table is None else [list(pack) for pack in table.packs]


def _materials(market: Market) -> Document:
    panels = market.catalog.materials.panels
    return {name: _numbers(panels[name]) for name in sorted({f.panel for f in market.families})}


def _numbers(record: Any) -> Document:
    """Return a record's figures and words, its notes left out."""
    kept = {field.name: getattr(record, field.name) for field in fields(record)}
    return {name: value for name, value in kept.items() if isinstance(value, str | int | float)}


def _screw(packs: tuple[Screw, ...]) -> Document | None:
    """Return the sizes of the one screw that all packs hold; None when there is none."""
    if not packs:
        return None
    names = ("diameter_mm", "root_mm", "length_mm", "thread_mm", "head_mm", "tensile_mpa")
    return {name: getattr(packs[0], name) for name in names}
