"""Which ways to make a wall are new: all others the unchanged room had too, at the same cost."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.catalog.families import SheetFamily, TimberSection
from steepwright.optimise.model import Model, kicker_families
from steepwright.optimise.space import Space
from steepwright.pricing.market import Market
from steepwright.structure import Tables

BoolArray = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Before:
    """The unchanged room: the model that was searched last, and all markets searched.

    All walls of it that may be of use are known.
    """

    model: Model
    markets: tuple[Market, ...]

    def fresh(self, space: Space) -> BoolArray:
        """Tell of which sheeting and section a changed room's walls may be new, [both].

        Where nothing but sheets, bars and offcuts differs, a wall of other families and sections
        than these is the unchanged room's too: it costs the same, stands and holds as it did.
        """
        market, shape = space.market, (len(space.sheetings), len(space.market.sections))
        before = next((one for one in self.markets if _alike(one, market)), None)
        if before is None:
            return np.ones(shape, dtype=np.bool_)
        had = {_sheet(family): _sheets(before, n) for n, family in enumerate(before.families)}
        new = {n for n, f in enumerate(market.families) if had[_sheet(f)] != _sheets(market, n)}
        own = {sheeting.family for sheeting in space.sheetings}
        boards = {n for n in own if not new.isdisjoint({n, *kicker_families(space, n)})}
        bars = {_bar(section): _bars(before, section) for section in before.sections}
        fresh = [bars.get(_bar(section)) != _bars(market, section) for section in market.sections]
        sheeting = np.array([sheeting.family in boards for sheeting in space.sheetings])
        return np.asarray(sheeting.astype(np.bool_)[:, None] | np.array(fresh, dtype=np.bool_))


def tables_of(before: Model, market: Market) -> Tables | None:
    """Return the tables of a changed room's sections and mounts if the unchanged room has them.

    They tell of materials, small parts, beams and climbers: neither sizes on sale, nor what walls
    are asked for but whether they fold up, nor the yard bear on them.
    """
    its = before.space.market
    wall = replace(
        its.room.wall,
        angle_deg=market.room.wall.angle_deg,
        kicker_mm=market.room.wall.kicker_mm,
        min_fall_space_mm=market.room.wall.min_fall_space_mm,
    )
    room = replace(its.room, wall=wall, yard=market.room.yard, findings=market.room.findings)
    offers = replace(its.catalog, sheets=market.catalog.sheets, timber=market.catalog.timber)
    sections = [_bar(section) for section in its.sections]
    same = (
        room == market.room
        and _classes(its) == _classes(market)
        and offers == replace(market.catalog, mounts=its.catalog.mounts)
        and [_sheet(one) for one in its.families] == [_sheet(one) for one in market.families]
        and set(map(_bar, market.sections)) <= set(sections)
        and set(market.catalog.mounts) <= set(its.catalog.mounts)
    )
    if not same:
        return None
    kept = [sections.index(_bar(section)) for section in market.sections]
    mounts = [its.catalog.mounts.index(mount) for mount in market.catalog.mounts]
    return before.tables.only(np.array(kept), np.array(mounts))


def _alike(before: Market, market: Market) -> bool:
    """Tell whether nothing differs that bears on walls of the same sheets and bars.

    What a frame below the wall is made of is bought from the same bars as the wall.
    """
    room, was = replace(market.room, yard=before.room.yard), before.room.yard
    offers = replace(market.catalog, sheets=before.catalog.sheets)
    if not any(beam.stand or beam.ledger or beam.spreader for beam in room.beams):
        offers = replace(offers, timber=before.catalog.timber)
    return (
        market.delivering == before.delivering
        and replace(market.room.yard, offcuts=was.offcuts) == was
        and room == before.room
        and offers == before.catalog
        and _classes(market) == _classes(before)
        and [_sheet(family) for family in market.families] == [_sheet(f) for f in before.families]
    )


def _classes(market: Market) -> set[str]:
    """Return the strength classes on sale: a beam of unknown grade is taken for one of them."""
    return {bar.strength_class for bar in market.catalog.timber}


def _sheet(family: SheetFamily) -> tuple[Any, ...]:
    return family.kind, family.panel, family.thickness_mm


def _sheets(market: Market, family: int) -> tuple[Any, ...]:
    return market.sheet_stock[family], market.split_sides_mm[family], market.board_allowed[family]


def _bar(section: TimberSection) -> tuple[Any, ...]:
    return section.width_mm, section.depth_mm, section.strength_class, section.surface


def _bars(market: Market, section: TimberSection) -> tuple[Any, ...]:
    return market.bar_stock(section, False), market.bar_stock(section, True)
