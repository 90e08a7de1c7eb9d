"""Products grouped by what is interchangeable: sheets of one panel, bars of one section."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from steepwright.catalog.types import Catalog, Hardware, Screw, SheetProduct, TimberProduct


@dataclass(frozen=True, slots=True)
class SheetFamily:
    """Sheets of one kind, panel and thickness in all their stock sizes."""

    kind: str
    panel: str
    thickness_mm: int
    products: tuple[SheetProduct, ...]

    @property
    def label(self) -> str:
        """Name for tables, such as ``birch 18 mm``."""
        return f"{self.kind} {self.thickness_mm} mm"


@dataclass(frozen=True, slots=True)
class TimberSection:
    """Bars of one section, strength class and surface in all their stock lengths."""

    width_mm: int
    depth_mm: int
    strength_class: str
    surface: str
    products: tuple[TimberProduct, ...]

    @property
    def label(self) -> str:
        """Name for tables, such as ``45 x 95 C24 planed``."""
        return f"{self.width_mm} x {self.depth_mm} {self.strength_class} {self.surface}".strip()


def sheet_families(catalog: Catalog) -> tuple[SheetFamily, ...]:
    """Group the catalogue's sheets; sorted by kind, thickness and panel."""
    groups: dict[tuple[str, int, str], list[SheetProduct]] = defaultdict(list)
    for sheet in catalog.sheets:
        groups[sheet.kind, sheet.thickness_mm, sheet.panel].append(sheet)
    return tuple(
        SheetFamily(kind, panel, thickness, tuple(sorted(products, key=lambda p: p.sku)))
        for (kind, thickness, panel), products in sorted(groups.items())
    )


def timber_sections(catalog: Catalog) -> tuple[TimberSection, ...]:
    """Group the catalogue's bars; sorted by section, class and surface."""
    groups: dict[tuple[int, int, str, str], list[TimberProduct]] = defaultdict(list)
    for bar in catalog.timber:
        groups[bar.width_mm, bar.depth_mm, bar.strength_class, bar.surface].append(bar)
    return tuple(
        TimberSection(*key, tuple(sorted(products, key=lambda p: (p.length_mm, p.sku))))
        for key, products in sorted(groups.items())
    )


def sheet_screws(catalog: Catalog, thickness_mm: int) -> tuple[Screw, ...]:
    """Return the packs of the one screw that fixes sheets of this thickness.

    The shortest type whose length is at least `sheet_screw_length_factor` x thickness, then the
    thinnest; every pack size of that type. Empty when the catalogue has none.
    """
    factor = catalog.materials.factors["sheet_screw_length_factor"]
    return _one_type(catalog, "sheet", factor * thickness_mm)


def frame_screws(catalog: Catalog, stud_width_mm: int) -> tuple[Screw, ...]:
    """Return the packs of the one screw that joins studs and rails.

    The shortest type whose length is at least `frame_screw_length_factor` x stud width, then the
    thinnest; every pack size of that type. Empty when the catalogue has none.
    """
    factor = catalog.materials.factors["frame_screw_length_factor"]
    return _one_type(catalog, "frame", factor * stud_width_mm)


def lip_bolts(catalog: Catalog, stud_width_mm: int) -> tuple[Hardware, ...]:
    """Return the packs of the bolt that fixes mounts to a lip rail of this width.

    The shortest of the demanded diameter that passes the rail, a plate, washers and a nut;
    every pack size of that type. Empty when the catalogue has none.
    """
    factors = catalog.materials.factors
    least = stud_width_mm + factors["lip_bolt_over_mm"]
    fit = [
        h
        for h in catalog.hardware
        if h.kind == "bolt" and h.diameter_mm == factors["lip_bolt_mm"] and h.length_mm >= least
    ]
    shortest = min((h.length_mm for h in fit), default=0)
    same = [h for h in fit if h.length_mm == shortest]
    return tuple(sorted(same, key=lambda h: (h.pack_quantity, h.sku)))


def ties_on_offer(catalog: Catalog) -> tuple[Hardware, ...]:
    """Return the sets that may tie a stud back to a second beam, by price for one and sku."""
    ties = [h for h in catalog.hardware if h.kind == "tie"]
    return tuple(sorted(ties, key=lambda h: (h.price_cents / h.pack_quantity, h.sku)))


def _one_type(catalog: Catalog, role: str, least_mm: float) -> tuple[Screw, ...]:
    fit = [s for s in catalog.screws if s.role == role and s.length_mm >= least_mm]
    if not fit:
        return ()
    best = min((s.length_mm, s.diameter_mm, s.thread_mm, s.head_mm) for s in fit)
    same = [s for s in fit if (s.length_mm, s.diameter_mm, s.thread_mm, s.head_mm) == best]
    return tuple(sorted(same, key=lambda s: (s.pack_quantity, s.sku)))
