"""Every piece of one wall as plain data: size, number, mass, and how many people carry it."""

from __future__ import annotations

from typing import Any

from steepwright.geometry import people_needed
from steepwright.optimise.access import bar_mass_kg, sheet_mass_kg
from steepwright.optimise.evaluate import Priced, Workshop
from steepwright.pricing.wall import Wall

Key = tuple[str, str, int, int, int]
"""Kind and name of a piece, its two longer sides and its thickness [mm]."""


def pieces_document(shop: Workshop, wall: Wall, priced: Priced) -> list[dict[str, Any]]:
    """Return a design's pieces, equal ones together, those of a freestanding frame included."""
    market = shop.space.market
    access, factors = market.room.access, market.catalog.materials.factors
    rows: dict[Key, list[float]] = {}
    for key, mass in (*_sheets(shop, wall, priced), *_bars(shop, wall, priced)):
        rows.setdefault(key, []).append(mass)
    for key, mass in _stand(shop, priced):
        rows.setdefault(key, []).append(mass)
    return [
        {
            "name": name,
            "kind": kind,
            "length_mm": length,
            "width_mm": width,
            "thickness_mm": thickness,
            "count": len(masses),
            "mass_kg": round(masses[0], 1),
            "people": people_needed(masses[0], access, factors),
        }
        for (kind, name, length, width, thickness), masses in sorted(rows.items())
    ]


def _sheets(shop: Workshop, wall: Wall, priced: Priced) -> list[tuple[Key, float]]:
    found: list[tuple[Key, float]] = []
    for plan, family in zip(priced.sheet_plans, (wall.sheet, wall.kicker_sheet), strict=False):
        index = shop.space.market.families.index(family)
        for part in (part for layout in plan.layouts for part in layout.parts):
            long, short = max(part.length_mm, part.width_mm), min(part.length_mm, part.width_mm)
            mass = sheet_mass_kg(shop.space, index, long, short)
            found.append((("sheet", part.name, long, short, family.thickness_mm), mass))
    return found


def _bars(shop: Workshop, wall: Wall, priced: Priced) -> list[tuple[Key, float]]:
    index, section = shop.space.market.sections.index(wall.section), wall.section
    return [
        (
            ("timber", name, length, section.depth_mm, section.width_mm),
            bar_mass_kg(shop.space, index, length),
        )
        for bar in priced.bar_plan.layouts
        for name, length in bar.pieces
    ]


def _stand(shop: Workshop, priced: Priced) -> list[tuple[Key, float]]:
    catalog = shop.space.market.catalog
    known = {bar.sku: bar for bar in catalog.timber}
    classes = catalog.materials.timber_classes
    found: list[tuple[Key, float]] = []
    for layout in priced.stand.layouts:
        bar = known[layout.sku]
        per_mm = bar.width_mm * bar.depth_mm * classes[bar.strength_class].rho_mean_kg_m3 / 1e9
        sides = max(bar.width_mm, bar.depth_mm), min(bar.width_mm, bar.depth_mm)
        found += [(("timber", name, mm, *sides), mm * per_mm) for name, mm in layout.pieces]
    return found
