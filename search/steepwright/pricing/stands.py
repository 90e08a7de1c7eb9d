"""What a freestanding frame costs, or a beam on ledgers: timber cut from the yard's bars, bolts.

It is as the room tells it, whatever hangs from it; so its cost is a constant of the place
and of whether the yard delivers. Its bars are bought for it alone: rests of the wall's aren't
looked at, nor bars of which there are only so many.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from steepwright.catalog.types import Catalog, Hardware, TimberProduct
from steepwright.cutting import cut_bars
from steepwright.cutting.records import BarLayout, BarPart, BarStock
from steepwright.geometry.stand_parts import bought_parts, left_outside, stand_bolts
from steepwright.pricing.market import Market
from steepwright.pricing.packs import PackTable, pack_table
from steepwright.pricing.transport import goes_in
from steepwright.room.types import Beam

IntArray = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class StandBolt:
    """A bolt of a frame: its packs, and how many are needed."""

    table: PackTable
    needed: int


@dataclass(frozen=True, slots=True)
class StandPlan:
    """A frame's bars as they are cut, and its bolts; empty for one that is there already."""

    layouts: tuple[BarLayout, ...] = ()
    bolts: tuple[StandBolt, ...] = ()
    cents: int = 0


def stand_plan(market: Market, beam: Beam, delivered: bool) -> StandPlan | None:
    """Return the cheapest way to buy what a wall is to hang from, None when it can't be had.

    Nobody sells it then, or a piece of it doesn't get in. Bolts that the catalogue lacks are no
    part of it, which reading the catalogue tells.
    """
    factors = market.catalog.materials.factors
    if left_outside(factors, market.room.access, beam):
        return None
    groups: dict[tuple[int, int], list[BarPart]] = defaultdict(list)
    for part in bought_parts(factors, beam):
        groups[part.section_mm].append(BarPart(part.name, part.length_mm, part.count))
    layouts: list[BarLayout] = []
    cents = 0
    for section, parts in sorted(groups.items()):
        stock = _stock(market, section, beam.grade, delivered)
        plan = cut_bars(tuple(parts), stock, market.kerf_mm) if stock else None
        if plan is None:
            return None
        layouts += plan.layouts
        cents += plan.cost_cents
    bolts = _bolts(market, beam)
    cents += sum(int(bolt.table.cents[bolt.needed]) for bolt in bolts)
    return StandPlan(tuple(layouts), bolts, cents)


def stand_cents(market: Market, unavailable_cents: int) -> IntArray:
    """Return what each beam's frame costs [cents], fetched and delivered; 0 of what has none."""
    known: dict[Beam, list[int]] = {}
    for beam in market.room.beams:
        alike = replace(beam, name="", x_mm=0)
        if alike not in known:
            plans = [stand_plan(market, beam, delivered) for delivered in (False, True)]
            known[alike] = [unavailable_cents if p is None else p.cents for p in plans]
    cents = [known[replace(beam, name="", x_mm=0)] for beam in market.room.beams]
    return np.array(cents, dtype=np.int64).reshape(len(cents), 2)


def sold_for_stands(
    catalog: Catalog, section_mm: tuple[int, int], grade: str | None
) -> tuple[TimberProduct, ...]:
    """Return the bars of a section and strength class, any class when none is asked for."""
    return tuple(
        bar
        for bar in catalog.timber
        if sorted((bar.width_mm, bar.depth_mm)) == sorted(section_mm)
        and grade in (None, bar.strength_class)
        and bar.limit is None
    )


def _stock(
    market: Market, section_mm: tuple[int, int], grade: str | None, delivered: bool
) -> tuple[BarStock, ...]:
    vehicle = None if delivered else market.room.yard.vehicle_max_mm
    return tuple(
        BarStock(bar.sku, bar.length_mm, bar.price_cents, None)
        for bar in sold_for_stands(market.catalog, section_mm, grade)
        if goes_in(vehicle, bar.length_mm)
    )


def _bolts(market: Market, beam: Beam) -> tuple[StandBolt, ...]:
    factors = market.catalog.materials.factors
    if beam.stand is None or beam.stand.owned:
        return ()
    needed: Counter[int] = Counter()
    for bolts in stand_bolts(factors, beam, beam.stand):
        needed[_shortest_mm(market.catalog, bolts.least_mm)] += bolts.count
    made = []
    for length, count in sorted(needed.items()):
        rows = [h for h in _all_bolts(market.catalog) if h.length_mm == length]
        table = pack_table(rows, count)
        if table is not None:
            made.append(StandBolt(table, count))
    return tuple(made)


def _all_bolts(catalog: Catalog) -> tuple[Hardware, ...]:
    d = catalog.materials.factors["frame_bolt_mm"]
    return tuple(h for h in catalog.hardware if h.kind == "bolt" and h.diameter_mm == d)


def _shortest_mm(catalog: Catalog, least_mm: int) -> int:
    """Return the length of the shortest bolt on sale that is long enough [mm], 0 if none is."""
    fit = [h.length_mm for h in _all_bolts(catalog) if h.length_mm >= least_mm]
    return min(fit, default=0)


def missing_bolts_mm(catalog: Catalog, beam: Beam) -> tuple[int, ...]:
    """Return how long the bolts must be at least [mm] that a frame needs and nobody sells."""
    if beam.stand is None or beam.stand.owned:
        return ()
    asked = stand_bolts(catalog.materials.factors, beam, beam.stand)
    return tuple(sorted({b.least_mm for b in asked if not _shortest_mm(catalog, b.least_mm)}))
