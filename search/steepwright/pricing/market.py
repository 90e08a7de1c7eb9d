"""What this builder can buy: the yard's stock and the offcuts, ready for the cutting solvers."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from steepwright.catalog.codes import in_code
from steepwright.catalog.families import (
    SheetFamily,
    TimberSection,
    sheet_families,
    timber_sections,
)
from steepwright.catalog.types import OFFCUT, Catalog
from steepwright.cutting.records import BarStock, SheetStock
from steepwright.geometry.layout import LayoutLimits
from steepwright.pricing.transport import (
    brought_by,
    delivering_yards,
    delivery_extras,
    goes_in,
    lies_flat,
)
from steepwright.room.types import Room, Yard
from steepwright.room.with_catalog import fits_service_class, panels_of


@dataclass(frozen=True)
class Market:
    """Everything on offer, grouped; built once per search.

    Attributes
    ----------
    families, sections
        Sheets of one panel; bars of one section. A family may consist of offcuts alone.
    board_allowed
        Per family, whether the builder wants the board made of it; the kicker takes any.
    sheet_stock
        Per family, what the cutting solver may take, offcuts last.
    split_sides_mm
        Per family, the sheet sides [mm] that a board may be divided at, ascending: those of
        every yard's sheets, whatever yards are bought from.
    delivering
        The yards that bring what they sell, for a wall that is delivered.
    """

    room: Room
    catalog: Catalog
    families: tuple[SheetFamily, ...]
    sections: tuple[TimberSection, ...]
    board_allowed: tuple[bool, ...]
    sheet_stock: tuple[tuple[SheetStock, ...], ...]
    limits: LayoutLimits
    split_sides_mm: tuple[tuple[int, ...], ...]
    delivering: tuple[str, ...] = ()

    @property
    def trips(self) -> tuple[tuple[str, int], ...]:
        """The yards bought from that cost something to go to, with the price [cents] of a trip."""
        return tuple((yard, price_cents) for yard, price_cents in self.catalog.trips if price_cents)

    @property
    def trips_cents(self) -> int:
        """What one trip to every yard of this market costs [cents]; the same for each wall."""
        return sum(price_cents for _, price_cents in self.trips)

    @property
    def delivery_charges(self) -> tuple[tuple[str, int], ...]:
        """The deliveries of a delivered wall: yard and price [cents], each in place of its trip."""
        extras = delivery_extras(self.room.yard, self.catalog)
        price_cents = self.room.yard.delivery_price_cents
        names = self.delivering or ("",)
        return tuple((name, price_cents) for name in names if extras.get(name, price_cents))

    @cached_property
    def delivery_cents(self) -> int:
        """What a delivered wall costs more than one that is fetched [cents]; never negative."""
        trips = dict(self.trips)
        return sum(price - trips.get(name, 0) for name, price in self.delivery_charges)

    def bar_stock(self, section: TimberSection, delivered: bool) -> tuple[BarStock, ...]:
        """Return the stock lengths to choose from.

        Without delivery only those that fit the builder's vehicle at full length, since bars are
        sawn at home.
        """
        vehicle = None if delivered else self.room.yard.vehicle_max_mm
        return tuple(
            BarStock(p.sku, p.length_mm, p.price_cents, p.limit)
            for p in section.products
            if goes_in(vehicle, p.length_mm)
        )

    @property
    def kerf_mm(self) -> int:
        """Width of the saw's cut [mm]."""
        return self.room.yard.kerf_mm

    def fits_vehicle(self, length_mm: int, width_mm: int) -> bool:
        """Return whether a sheet piece lies flat in the builder's vehicle."""
        return lies_flat(self.room.yard.vehicle_max_mm, length_mm, width_mm)


def build_market(
    room: Room,
    catalog: Catalog,
    every_yard: Catalog | None = None,
    delivering: tuple[str, ...] | None = None,
) -> Market:
    """Group the catalogue's offers and the builder's offcuts.

    Parameters
    ----------
    every_yard
        The whole catalogue, when `catalog` holds only some of its yards' offers.
    delivering
        The yards that deliver, None for all that sell something too large for the vehicle.
    """
    if delivering is None:
        delivering = delivering_yards(room.yard, catalog)
    else:
        catalog = brought_by(room.yard, catalog, delivering)
    materials = catalog.materials
    factors = materials.factors.in_service_class(room.service_class)
    materials = in_code(replace(materials, factors=factors), room.code)
    catalog = replace(catalog, materials=materials)
    if room.code == "NDS":
        graded = (bar for bar in catalog.timber if bar.strength_class in materials.nds_lumber)
        catalog = replace(catalog, timber=tuple(graded))
    families = _with_offcut_families(room.yard, catalog)
    wanted = room.wall.sheet_kinds
    kept = tuple(
        family
        for family in families
        if family.thickness_mm >= room.wall.min_thickness_mm
        and fits_service_class(room, catalog, family.panel)
    )
    return Market(
        room=room,
        catalog=catalog,
        families=kept,
        sections=timber_sections(catalog),
        board_allowed=tuple(not wanted or family.kind in wanted for family in kept),
        sheet_stock=tuple(_sheet_stock(family, room.yard, catalog) for family in kept),
        limits=LayoutLimits(
            int(factors["layout_min_piece_mm"]), int(factors["layout_min_upright_mm"])
        ),
        split_sides_mm=tuple(_sides_mm(family, every_yard or catalog) for family in kept),
        delivering=delivering,
    )


def _sides_mm(family: SheetFamily, catalog: Catalog) -> tuple[int, ...]:
    key = (family.kind, family.panel, family.thickness_mm)
    same = [s for s in catalog.sheets if (s.kind, s.panel, s.thickness_mm) == key]
    return tuple(sorted({side for s in same for side in (s.length_mm, s.width_mm)}))


def offcut_sku(index: int) -> str:
    """Return the stock name of the builder's offcut number `index`."""
    return f"{OFFCUT}{index + 1}"


def _with_offcut_families(yard: Yard, catalog: Catalog) -> tuple[SheetFamily, ...]:
    families = list(sheet_families(catalog))
    known = {family.panel for family in families}
    for offcut in yard.offcuts:
        panels = panels_of(offcut, catalog)
        if len(panels) == 1 and panels[0] not in known:
            known.add(panels[0])
            families.append(SheetFamily(offcut.kind, panels[0], offcut.thickness_mm, ()))
    return tuple(sorted(families, key=lambda f: (f.kind, f.thickness_mm, f.panel)))


def _sheet_stock(family: SheetFamily, yard: Yard, catalog: Catalog) -> tuple[SheetStock, ...]:
    bought = [
        SheetStock(
            p.sku,
            p.length_mm,
            p.width_mm,
            p.face_grain,
            p.price_cents,
            yard.cut_price_cents,
            p.limit,
            yard.free_cuts,
        )
        for p in family.products
    ]
    offcuts = [
        SheetStock(
            offcut_sku(i),
            o.length_mm,
            o.width_mm,
            o.face_grain,
            o.price_cents,
            yard.cut_price_cents if o.price_cents else 0,
            o.count,
            yard.free_cuts,
        )
        for i, o in enumerate(yard.offcuts)
        if panels_of(o, catalog) == (family.panel,)
    ]
    return tuple(bought + offcuts)
