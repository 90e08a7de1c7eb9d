"""Screws, mounts, T-nuts, hinges and the lifting kit: how many, and what whole packs cost.

Every quantity is non-decreasing in the wall's lengths, so that the cost at the smallest corner of
a box of designs bounds the box from below.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from steepwright.catalog.families import frame_screws, lip_bolts, sheet_screws, ties_on_offer
from steepwright.catalog.types import Catalog, Factors, Hardware, Screw
from steepwright.pricing.market import Market
from steepwright.pricing.packs import CheapestOf, PackTable, pack_table
from steepwright.pricing.stands import stand_cents

IntArray = npt.NDArray[np.int64]

UNAVAILABLE_CENTS = 10**11
"""Stands for an article that is not on offer; far above any bill, far below overflow."""


@dataclass(frozen=True, slots=True)
class Counts:
    """What the quantities depend on, column-wise; lengths in mm, all arrays of one length.

    `tie` is 0 for none, or counts in `HardwarePricer.ties` from 1.
    """

    studs: IntArray
    columns: IntArray
    rows: IntArray
    mounts: IntArray
    board_mm: IntArray
    kicker_mm: IntArray
    width_mm: IntArray
    screw_mm: IntArray
    tie: IntArray


@dataclass(frozen=True, slots=True)
class HardwareRules:
    """Spacings and numbers of the parts list, from ``factors.csv``."""

    screws_per_joint: int
    hinge_spacing_mm: int
    hold_margin_mm: int
    hold_spacing_mm: int
    rope_lengths: int
    pulleys: int
    latches: int
    straps: int
    bolts_per_mount: int
    fold_up: bool


def rules_from(factors: Factors, hold_spacing_mm: int, fold_up: bool) -> HardwareRules:
    """Collect the rules of the parts list."""
    return HardwareRules(
        screws_per_joint=int(factors["frame_screws_per_joint"]),
        hinge_spacing_mm=int(factors["kicker_hinge_spacing_mm"]),
        hold_margin_mm=int(factors["hold_edge_margin_mm"]),
        hold_spacing_mm=hold_spacing_mm,
        rope_lengths=int(factors["fold_rope_board_lengths"]),
        latches=int(factors["hoist_latches"]),
        straps=int(factors["hoist_lines"]),
        pulleys=int(factors["hoist_lines"] + factors["hoist_parts"]),
        bolts_per_mount=int(factors["lip_bolts"]),
        fold_up=fold_up,
    )


def quantities(rules: HardwareRules, c: Counts) -> dict[str, IntArray]:
    """Return the number of pieces per article group; rope in metres.

    Sheet screws stand at their spacing along every stud and rail line; a seam has one
    line on either side. Frame screws also fix every upright, or stud where there is no kicker, to
    the floor (as the check of the floor fixing takes it), and a foot that has no hinges to its
    kicker.
    """
    pitch = c.screw_mm
    across = c.width_mm // pitch + 1
    board_lines = c.studs + c.columns - 1
    has_kicker = (c.kicker_mm > 0).astype(np.int64)
    sheet = board_lines * (c.board_mm // pitch + 1) + 2 * c.rows * across
    sheet = sheet + has_kicker * (board_lines * (c.kicker_mm // pitch + 1) + 2 * across)
    joints = 2 * c.studs + 2 * (c.rows - 1) * (c.studs - 1) + has_kicker * 2 * c.studs
    holds = _grid(c.width_mm, rules) * _grid(c.board_mm, rules)
    fold = int(rules.fold_up)
    fixed = c.studs + (1 - fold) * has_kicker * c.studs
    one = np.ones_like(c.studs)
    return {
        "sheet screw": sheet,
        "frame screw": (joints + fixed) * rules.screws_per_joint,
        "mount": c.mounts,
        "lip bolt": c.mounts * rules.bolts_per_mount,
        "tnut": holds,
        "hinge": fold * has_kicker * (-(-c.width_mm // rules.hinge_spacing_mm) + 1),
        "rope": fold * -(-rules.rope_lengths * c.board_mm // 1000),
        "pulley": fold * rules.pulleys * one,
        "brake": fold * one,
        "latch": fold * rules.latches * one,
        "strap": fold * rules.straps * one,
    }


def _grid(length_mm: IntArray, rules: HardwareRules) -> IntArray:
    inside = np.maximum(length_mm - 2 * rules.hold_margin_mm, 0)
    return inside // rules.hold_spacing_mm + 1


@dataclass(frozen=True)
class HardwarePricer:
    """Prices the parts list, one wall or many at once.

    Attributes
    ----------
    sheet_tables, frame_tables, bolt_tables
        Pack tables per sheet family and per timber section; bolts that the catalogue lacks are
        no part of the bill, which reading it tells.
    mount_cents
        Price per mount set, in catalogue order.
    other_tables
        Pack table per remaining article group; a missing group is not on offer.
    stand_cents
        What the freestanding frame below each of the room's beams costs, [beam, delivered]; 0
        where there is none. It is no part of `cost_cents`.
    ties
        What may tie the studs back to a second beam, one for each stud.
    trips_cents
        What the trips to the market's yards cost; part of every wall's cost.
    most
        The largest quantity per article group that the tables hold.
    """

    rules: HardwareRules
    sheet_tables: tuple[PackTable | None, ...]
    frame_tables: tuple[PackTable | None, ...]
    bolt_tables: tuple[PackTable | None, ...]
    mount_cents: IntArray
    stand_cents: IntArray
    other_tables: dict[str, CheapestOf | None]
    names: dict[str, str]
    ties: tuple[Hardware, ...]
    trips_cents: int
    most: dict[str, int]

    def cost_cents(
        self, sheet: IntArray, section: IntArray, mount: IntArray, c: Counts
    ) -> IntArray:
        """Return the cost of all small parts and of the trips [cents] per row."""
        need = quantities(self.rules, c)
        sheet_cents, frame_cents, bolt_cents, others = self._cents
        total = self.trips_cents + need["mount"] * self.mount_cents[mount]
        total = total + sheet_cents[sheet, need["sheet screw"]]
        total = total + frame_cents[section, need["frame screw"]]
        total = total + bolt_cents[section, need["lip bolt"]]
        for group, cents in others.items():
            total = total + cents[need[group]]
        return total + self._tie_cents(c) if c.tie.any() else total

    def _tie_cents(self, c: Counts) -> IntArray:
        size = np.array([1, *(tie.pack_quantity for tie in self.ties)], dtype=np.int64)
        price = np.array([0, *(tie.price_cents for tie in self.ties)], dtype=np.int64)
        return -(-c.studs // size[c.tie]) * price[c.tie]

    @cached_property
    def _cents(self) -> tuple[IntArray, IntArray, IntArray, dict[str, IntArray]]:
        """The tables' costs by group and quantity, those of the other articles by quantity."""
        most = self.most
        others = {
            group: _cents_of((table,), most[group])[0] for group, table in self.other_tables.items()
        }
        return (
            _cents_of(self.sheet_tables, most["sheet screw"]),
            _cents_of(self.frame_tables, most["frame screw"]),
            _cents_of(self.bolt_tables, most["lip bolt"], missing_cents=0),
            others,
        )

    def table_for(self, group: str, sheet: int, section: int) -> PackTable | CheapestOf | None:
        """Return the pack table of an article group for one wall."""
        if group == "sheet screw":
            return self.sheet_tables[sheet]
        if group == "frame screw":
            return self.frame_tables[section]
        if group == "lip bolt":
            return self.bolt_tables[section]
        return self.other_tables[group]


def _cents_of(
    tables: Sequence[PackTable | CheapestOf | None],
    most: int,
    missing_cents: int = UNAVAILABLE_CENTS,
) -> IntArray:
    missing = np.full(most + 1, missing_cents, dtype=np.int64)
    missing[0] = 0
    return np.stack([missing if table is None else table.cents for table in tables])


def build_pricer(market: Market, largest: Counts) -> HardwarePricer:
    """Make the pack tables large enough for walls of up to the largest counts and sizes."""
    catalog, wall = market.catalog, market.room.wall
    rules = rules_from(catalog.materials.factors, wall.hold_spacing_mm, wall.fold_up)
    most = {group: int(count.max()) for group, count in quantities(rules, largest).items()}
    sheet_packs = [sheet_screws(catalog, family.thickness_mm) for family in market.families]
    bolt_packs = [lip_bolts(catalog, section.width_mm) for section in market.sections]
    frame_packs = [frame_screws(catalog, section.width_mm) for section in market.sections]
    names = {s.sku: s.name for s in catalog.screws} | {h.sku: h.name for h in catalog.hardware}
    return HardwarePricer(
        rules=rules,
        sheet_tables=_tables(sheet_packs, most["sheet screw"]),
        frame_tables=_tables(frame_packs, most["frame screw"]),
        bolt_tables=_tables(bolt_packs, most["lip bolt"]),
        mount_cents=np.array([m.price_cents for m in catalog.mounts], dtype=np.int64),
        stand_cents=stand_cents(market, UNAVAILABLE_CENTS),
        other_tables={group: _article(catalog, group, most[group]) for group in _OTHERS},
        names=names | {m.sku: m.name for m in catalog.mounts},
        ties=ties_on_offer(catalog),
        trips_cents=market.trips_cents,
        most=most,
    )


_OTHERS = ("tnut", "hinge", "rope", "pulley", "brake", "latch", "strap")


def _tables(
    packs: Sequence[tuple[Screw | Hardware, ...]], most: int
) -> tuple[PackTable | None, ...]:
    made: dict[tuple[Screw | Hardware, ...], PackTable | None] = {}
    for group in packs:
        if group not in made:
            made[group] = pack_table(group, most)
    return tuple(made[group] for group in packs)


def _article(catalog: Catalog, kind: str, most: int) -> CheapestOf | None:
    """Return the pack table of a kind: per quantity the cheapest of its types.

    Rows of one type differ only in their packs. A rope is bought in one length; every coil is a
    type of its own.
    """
    types: dict[tuple[object, ...], list[Hardware]] = {}
    for row in catalog.hardware:
        if row.kind == kind:
            sizes = (row.diameter_mm, row.length_mm, row.width_mm, row.thickness_mm, row.rated_n)
            types.setdefault(sizes, []).append(row)
    tables = [pack_table(_in_metres(rows), most) for _, rows in sorted(types.items(), key=str)]
    made = tuple(table for table in tables if table is not None)
    return CheapestOf(made) if made else None


@dataclass(frozen=True, slots=True)
class _Pack:
    sku: str
    pack_quantity: int
    price_cents: int


def _in_metres(rows: Sequence[Hardware]) -> tuple[_Pack, ...]:
    return tuple(
        _Pack(
            h.sku,
            h.pack_quantity * h.length_mm // 1000 if h.kind == "rope" else h.pack_quantity,
            h.price_cents,
        )
        for h in rows
    )
