"""Changes of what is on offer: an offcut, another size of sheet, another length of bar.

Prices that nobody has named are taken from the offers there are: an offcut at its share of the
sheet's price, a new size at the dearest price by area or length that the yard asks for its like.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from steepwright.catalog.families import SheetFamily, TimberSection, sheet_families, timber_sections
from steepwright.catalog.types import Catalog, SheetProduct, TimberProduct
from steepwright.optimise.changes_search import Better
from steepwright.optimise.changes_types import Change, Document, up_to
from steepwright.pricing.market import offcut_sku
from steepwright.room.types import Offcut, Room
from steepwright.units import money

Size = tuple[int, int]


def offcut_changes(room: Room, catalog: Catalog, design: Document) -> list[tuple[Change, ...]]:
    """Return, for each size that a design has a use for, an offcut of every kind of sheet."""
    step = int(catalog.materials.factors["change_length_mm"])
    sizes: dict[Size, str] = {}
    for use, length, width in _uses(design, catalog):
        sizes.setdefault((up_to(length, step), up_to(width, step)), use)
    families = [
        family
        for family in sheet_families(catalog)
        if family.products and family.thickness_mm >= room.wall.min_thickness_mm
    ]
    return [
        tuple(_offcut(family, size, use, catalog.currency) for family in families)
        for size, use in sizes.items()
    ]


def _uses(design: Document, catalog: Catalog) -> Iterator[tuple[str, int, int]]:
    """Yield what a strip across the wall could serve for: its use, length and width [mm].

    The kicker, the shorter row, and what a board is longer than a sheet on sale.
    """
    least = int(catalog.materials.factors["layout_min_piece_mm"])
    across = max(design["column_widths_mm"])
    if design["kicker_mm"]:
        yield "kicker", across, design["kicker_mm"]
    if design["rows"] > 1:
        yield "shorter row", across, min(design["row_lengths_mm"])
    sides = {s.length_mm for s in catalog.sheets if s.kind == design["sheet_kind"]}
    rests = [design["board_mm"] - side for side in sides if design["board_mm"] > side]
    if rests and design["rows"] == 1:
        yield "board's last strip", across, max(least, min(rests))


def _offcut(family: SheetFamily, size: Size, use: str, currency: str) -> Change:
    cents = min(-(-p.price_cents * size[0] * size[1] // _area(p)) for p in family.products)
    made = Offcut(
        "one more", family.kind, family.thickness_mm, size[0], size[1], "length", 1, cents
    )

    def change(room: Room, catalog: Catalog) -> tuple[Room, Catalog]:
        yard = replace(room.yard, offcuts=(*room.yard.offcuts, made))
        return replace(room, yard=yard), catalog

    def used(room: Room, better: Better) -> bool:
        return offcut_sku(room.yard.offcuts.index(made)) in better.skus

    return Change(
        f"An offcut for the {use}",
        f"With a piece of {family.label} of at least {size[0]} x {size[1]} mm for"
        f" {money(cents, currency)} (its share of a sheet)",
        change,
        used,
        adds=True,
    )


def sheet_changes(catalog: Catalog) -> tuple[Change, ...]:
    """Return, for every kind of sheet, the next larger sizes of other sheets, and a longer one."""
    every = sorted({(s.length_mm, s.width_mm) for s in catalog.sheets})
    grow = catalog.materials.factors["change_stock_growth"]
    step = int(catalog.materials.factors["change_length_mm"])
    made = []
    for family in sheet_families(catalog):
        own = [(p.length_mm, p.width_mm) for p in family.products]
        if not own:
            continue
        longest = max(own)
        larger = [size for size in every if not any(_within(size, has) for has in own)]
        larger = sorted(larger, key=lambda size: (size[0] * size[1], size))[:2]
        longer = up_to(round(longest[0] * grow), step), longest[1]
        sizes = [*larger, longer] if longer not in larger else larger
        made += [_sheet(family, size, catalog.currency) for size in sizes]
    return tuple(made)


def _sheet(family: SheetFamily, size: Size, currency: str) -> Change:
    cents = max(-(-p.price_cents * size[0] * size[1] // _area(p)) for p in family.products)
    near = max(family.products, key=lambda p: (_area(p), p.sku))
    text = f"{size[0]} x {size[1]} mm"
    made = SheetProduct(
        f"new {family.panel} {text}",
        f"{family.label}, {text}",
        family.kind,
        family.panel,
        family.thickness_mm,
        *size,
        near.face_grain,
        cents,
        yard=near.yard,
    )

    return _on_sale(
        "A larger sheet",
        f"With a sheet of {family.label} of {text} for {money(cents, currency)}"
        " (at the same price per area)",
        made,
    )


def bar_changes(catalog: Catalog) -> tuple[Change, ...]:
    """Return, for every section, the lengths that others have, and one longer than its longest."""
    every = sorted({t.length_mm for t in catalog.timber})
    grow = catalog.materials.factors["change_stock_growth"]
    step = int(catalog.materials.factors["change_length_mm"])
    made = []
    for section in timber_sections(catalog):
        own = {p.length_mm for p in section.products}
        longer = up_to(round(max(own) * grow), step)
        lengths = [*(length for length in every if length < longer), longer]
        made += [_bar(section, n, catalog.currency) for n in lengths if n not in own]
    return tuple(made)


def _bar(section: TimberSection, length_mm: int, currency: str) -> Change:
    cents = max(-(-p.price_cents * length_mm // p.length_mm) for p in section.products)
    longest = max(section.products, key=lambda p: (p.length_mm, p.sku))
    made = TimberProduct(
        f"new {section.label} {length_mm}",
        f"{section.label}, {length_mm} mm",
        section.width_mm,
        section.depth_mm,
        length_mm,
        section.strength_class,
        section.surface,
        cents,
        yard=longest.yard,
    )

    return _on_sale(
        "Another length of bar",
        f"With bars of {section.label} in {length_mm} mm for {money(cents, currency)}"
        " (at the same price per metre)",
        made,
    )


def _on_sale(what: str, text: str, made: SheetProduct | TimberProduct) -> Change:
    """Return the change of one more article in the catalogue, told of only where it is bought."""

    def change(room: Room, catalog: Catalog) -> tuple[Room, Catalog]:
        if isinstance(made, SheetProduct):
            return room, replace(catalog, sheets=(*catalog.sheets, made))
        return room, replace(catalog, timber=(*catalog.timber, made))

    return Change(what, text, change, lambda _, better: made.sku in better.skus, adds=True)


def _area(product: SheetProduct) -> int:
    return product.length_mm * product.width_mm


def _within(size: Size, other: Size) -> bool:
    small, large = sorted(size), sorted(other)
    return small[0] <= large[0] and small[1] <= large[1]
