"""How goods come home: the builder goes to a yard for its trip price, or the yard delivers.

What comes from a yard is paid for once: its trip, or the room's delivery price where that is more
and something from this yard does not fit the builder's vehicle. Too large a thing comes only from
a yard that delivers, and each such yard charges for it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import combinations

from steepwright.catalog.types import Catalog
from steepwright.room.types import Yard


def most_combined(catalog: Catalog) -> int:
    """Return of how many yards every set is looked at."""
    return int(catalog.materials.factors["search_yards_combined"])


def sets_of(names: tuple[str, ...], catalog: Catalog) -> tuple[tuple[str, ...], ...]:
    """Return the sets of yards to look at, the empty one first, smaller ones before larger.

    Of more yards than `most_combined` only each alone and all together.
    """
    sizes: Iterable[int] = range(len(names) + 1)
    if len(names) > most_combined(catalog):
        sizes = (0, 1, len(names))
    return tuple(chosen for size in sizes for chosen in combinations(names, size))


def lies_flat(vehicle_mm: tuple[int, int] | None, length_mm: int, width_mm: int) -> bool:
    """Return whether a sheet or a piece [mm] lies flat in a vehicle; None takes anything."""
    if vehicle_mm is None:
        return True
    long, short = max(length_mm, width_mm), min(length_mm, width_mm)
    return long <= max(vehicle_mm) and short <= min(vehicle_mm)


def goes_in(vehicle_mm: tuple[int, int] | None, length_mm: int) -> bool:
    """Return whether a bar [mm] fits a vehicle at full length, since bars are sawn at home."""
    return vehicle_mm is None or length_mm <= max(vehicle_mm)


def delivering_yards(yard: Yard, catalog: Catalog) -> tuple[str, ...]:
    """Return the names of the yards that sell anything too large for the builder's vehicle."""
    vehicle = yard.vehicle_max_mm
    names = {s.yard for s in catalog.sheets if not lies_flat(vehicle, s.length_mm, s.width_mm)}
    names |= {bar.yard for bar in catalog.timber if not goes_in(vehicle, bar.length_mm)}
    return tuple(sorted(names))


def delivery_extras(yard: Yard, catalog: Catalog) -> dict[str, int]:
    """Return what a delivery costs beyond a trip [cents], for each yard that may deliver."""
    trips = dict(catalog.trips)
    names = delivering_yards(yard, catalog)
    return {name: max(0, yard.delivery_price_cents - trips.get(name, 0)) for name in names}


def sets_that_deliver(yard: Yard, catalog: Catalog) -> tuple[tuple[str, ...], ...]:
    """Return the sets of yards that may deliver for one wall, the set of all of them last.

    A yard whose delivery costs no more than the trip to it is in every set.
    """
    extras = delivery_extras(yard, catalog)
    free = {name for name, cents in extras.items() if not cents}
    paid = tuple(name for name, cents in extras.items() if cents)
    found = [tuple(sorted({*free, *chosen})) for chosen in sets_of(paid, catalog)]
    return tuple(names for names in found if names) or ((),)


def brought_by(yard: Yard, catalog: Catalog, names: tuple[str, ...]) -> Catalog:
    """Return what can be bought when only these yards deliver: of the others, what fits."""
    vehicle = yard.vehicle_max_mm
    return replace(
        catalog,
        sheets=tuple(
            s
            for s in catalog.sheets
            if s.yard in names or lies_flat(vehicle, s.length_mm, s.width_mm)
        ),
        timber=tuple(
            bar for bar in catalog.timber if bar.yard in names or goes_in(vehicle, bar.length_mm)
        ),
    )
