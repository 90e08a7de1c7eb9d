"""One wall worked out in full, by the plain road: parts, plans, bill, checks, place in the room.

The search's front, the widening of walls and `assess` all end here.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from steepwright.cutting.records import BarPlan, SheetPlan
from steepwright.geometry.layout import largest_bay_mm, stud_centres
from steepwright.geometry.mounts import over_mm
from steepwright.optimise.exact import ExactCosts, SheetChoice
from steepwright.optimise.fit import room_fit
from steepwright.optimise.hold_ends import asks_for_rows, ends_of
from steepwright.optimise.hooks import HungOn, hook_columns, hooks_of, lift_of_blocks
from steepwright.optimise.lift import Turning, eye_of, lift_document, nearest_eye_mm
from steepwright.optimise.pad_floor import laid_pads, pad_thickness_mm, pads_cents, pads_to_buy
from steepwright.optimise.space import Sheeting, Space
from steepwright.optimise.standing import Standing, angle_mdeg, hanging, plan_positions_mm, stand
from steepwright.optimise.tie import tie_line
from steepwright.optimise.tolerance import steepest_rad
from steepwright.pricing.bill import BillLine, Timber, counts_of, make_bill, total_cents
from steepwright.pricing.hardware import UNAVAILABLE_CENTS, HardwarePricer
from steepwright.pricing.stands import StandPlan, stand_plan
from steepwright.pricing.wall import Wall, columns_of, frame_shape, rows_of
from steepwright.structure import Batch, Check, Tables, checks, self_mass, self_weights_n, worst_use


@dataclass(frozen=True, slots=True)
class Priced:
    """A wall's exact cost [cents] and the plans behind it."""

    cost_cents: int
    sheet_plans: tuple[SheetPlan, ...]
    bar_plan: BarPlan
    bill: tuple[BillLine, ...]
    stand: StandPlan


@dataclass(frozen=True, slots=True)
class Workshop:
    """The tools that evaluating needs; all are read-only but for the solvers' memory."""

    space: Space
    pricer: HardwarePricer
    tables: Tables
    exact: ExactCosts

    def place_index(self, wall: Wall) -> int:
        """Return the number of the wall's place."""
        return self.space.places.index((wall.beam, wall.facing))

    def sheeting(self, wall: Wall) -> Sheeting:
        """Return the wall's way to make the board."""
        family = self.space.market.families.index(wall.sheet)
        return Sheeting(family, wall.grain, wall.split, wall.bays)

    def standing(self, wall: Wall) -> Standing:
        """Return the wall as it stands in the room."""
        mount = self.space.market.catalog.mounts.index(wall.mount)
        place = self.place_index(wall)
        hangs = hanging(self.space, place, mount, wall.sheet.thickness_mm)
        return stand(place, hangs, [float(wall.board_mm)], [float(wall.kicker_mm)])


def batch_of(shop: Workshop, wall: Wall) -> Batch:
    """Return the wall as a structural batch of one row.

    Raises
    ------
    ValueError
        When the split can't be made at this size.
    """
    market = shop.space.market
    columns = columns_of(wall.split, wall.width_mm, market.limits)
    rows = rows_of(wall.split, wall.board_mm, market.limits)
    if columns is None or rows is None:
        message = "the board can't be divided like this: a piece would be too small"
        raise ValueError(message)
    bay = largest_bay_mm(columns, wall.bays, wall.section.width_mm)
    beam, centres = market.room.beams[wall.beam], stud_positions_mm(shop, wall)
    factors = market.catalog.materials.factors
    on = HungOn(beam.span_mm, wall.facing, over_mm(factors, wall.section.width_mm))
    hooks = hooks_of(market.room, on, centres, wall.mount_count)
    eye, above = eye_of(shop.space, shop.place_index(wall), wall)
    over = market.room.beams[max(above, 0)]
    lift = lift_of_blocks(market.room, over.span_mm, centres)
    angle = float(steepest_rad(shop.space, shop.standing(wall))[0])
    line = tie_line(shop.space, shop.standing(wall), wall.tie_place)

    def whole(value: int) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
        return np.array([value], dtype=np.int64)

    def real(value: float) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
        return np.array([value], dtype=np.float64)

    return Batch(
        beam=whole(wall.beam),
        sheet=whole(market.families.index(wall.sheet)),
        timber=whole(market.sections.index(wall.section)),
        mount=whole(market.catalog.mounts.index(wall.mount)),
        stud_count=whole(wall.stud_count),
        mount_count=whole(wall.mount_count),
        columns=whole(wall.split.columns),
        rows=whole(wall.split.rows),
        bay_mm=real(bay),
        seam_mm=real(rows[0] if len(rows) > 1 else 0.0),
        grain_across=np.array([wall.grain == "across"]),
        screw_mm=real(wall.screw_mm),
        **hook_columns(hooks.row, lift),
        eye_mm=np.atleast_1d(nearest_eye_mm(shop.space, np.array(eye))),
        lift_beam=whole(above),
        tie=whole(shop.space.ties.index(wall.tie)),
        tie_cos=np.atleast_1d(line.cos),
        tie_mm=np.atleast_1d(line.mm),
        tie_board_mm=real(wall.board_mm),
        tie_place=real(wall.tie_place),
        board_mm=real(wall.board_mm),
        kicker_mm=real(wall.kicker_mm),
        width_mm=real(wall.width_mm),
        angle_rad=real(angle),
    )


def price(shop: Workshop, wall: Wall) -> Priced | None:
    """Return the wall's exact cost with plans and bill, None when it can't be cut or bought."""
    market = shop.space.market
    family = market.families.index(wall.kicker_sheet)
    section = market.sections.index(wall.section)
    columns = columns_of(wall.split, wall.width_mm, market.limits)
    sheeting, lengths = shop.sheeting(wall), (wall.board_mm, wall.kicker_mm, wall.width_mm)
    if columns is None or shop.exact.parts(sheeting, lengths) is None:
        return None
    shape = frame_shape(wall, columns)
    if shop.exact.bars(shape, section, wall.delivered) is None:
        return None
    sheet_plans = shop.exact.plans(sheeting, SheetChoice(0, family), lengths)
    bar_plan = shop.exact.bar_plan(shape, section, wall.delivered)
    if sheet_plans is None or bar_plan is None:
        return None
    standing = stand_plan(market, market.room.beams[wall.beam], wall.delivered)
    if standing is None or _small_cents(shop, wall) >= UNAVAILABLE_CENTS:
        return None
    bill = make_bill(market, shop.pricer, wall, sheet_plans, Timber(bar_plan, standing))
    bill += _pad_lines(shop, wall)
    cents = total_cents(bill)
    return Priced(cents, sheet_plans, bar_plan, bill, standing)


def cost_cents(shop: Workshop, wall: Wall) -> int:
    """Return the wall's exact cost [cents] without plans; `UNAVAILABLE_CENTS` if not to be had."""
    market = shop.space.market
    sheeting, lengths = shop.sheeting(wall), (wall.board_mm, wall.kicker_mm, wall.width_mm)
    section = market.sections.index(wall.section)
    columns = columns_of(wall.split, wall.width_mm, market.limits)
    if columns is None:
        return UNAVAILABLE_CENTS
    kicker = market.families.index(wall.kicker_sheet)
    sheets = shop.exact.sheets_of(sheeting, kicker, lengths)
    bars = shop.exact.bars(frame_shape(wall, columns), section, wall.delivered)
    if sheets is None or bars is None:
        return UNAVAILABLE_CENTS
    delivery = wall.delivered * market.delivery_cents
    total = sheets + bars + _small_cents(shop, wall) + delivery + _pads_cents(shop, wall)
    total += int(shop.pricer.stand_cents[wall.beam, int(wall.delivered)])
    return min(total, UNAVAILABLE_CENTS)


def _small_cents(shop: Workshop, wall: Wall) -> int:
    market = shop.space.market
    cents = shop.pricer.cost_cents(
        np.array([market.families.index(wall.sheet)]),
        np.array([market.sections.index(wall.section)]),
        np.array([market.catalog.mounts.index(wall.mount)]),
        counts_of(market, wall),
    )
    return int(cents[0])


def _pads_cents(shop: Workshop, wall: Wall) -> int:
    if not shop.space.market.room.yard.pads_on_bill:
        return 0
    fall_mm = [stance(shop, wall).fall_space_mm]
    return int(pads_cents(shop.space, shop.standing(wall), fall_mm, wall.width_mm)[0])


def _pad_lines(shop: Workshop, wall: Wall) -> tuple[BillLine, ...]:
    room, catalog = shop.space.market.room, shop.space.market.catalog
    if not room.yard.pads_on_bill or pad_thickness_mm(room, catalog) is None:
        return ()
    walls, fall_mm = shop.standing(wall), stance(shop, wall).fall_space_mm
    _, _, padding = laid_pads(shop.space, walls, fall_mm, wall.width_mm)
    return tuple(
        BillLine(row.sku, row.name, count, row.price_cents, "pads", row.yard)
        for row, count in pads_to_buy(catalog, padding)
    )


def holds(shop: Workshop, wall: Wall) -> bool:
    """Return whether every structural check passes."""
    return bool(worst_use(shop.tables, batch_of(shop, wall))[0] <= 1)


def check_all(shop: Workshop, wall: Wall) -> tuple[Check, ...]:
    """Return every structural check of the wall."""
    return checks(shop.tables, batch_of(shop, wall))


def mass_kg(shop: Workshop, wall: Wall) -> float:
    """Return the finished wall's mass [kg]."""
    kicker = np.array([shop.space.market.families.index(wall.kicker_sheet)], dtype=np.int64)
    return float(self_mass(shop.tables, batch_of(shop, wall), kicker)[0])


def lift_plan(shop: Workshop, wall: Wall, parked_rad: float) -> dict[str, Any]:
    """Return how the wall is lifted and held, as plain data."""
    sheet = np.array([shop.space.market.families.index(wall.kicker_sheet)])
    board, kicker = self_weights_n(shop.tables, batch_of(shop, wall), sheet)
    standing = float(shop.standing(wall).angle[0])
    turning = Turning(float(board[0]), float(kicker[0]), standing, parked_rad)
    return lift_document(shop.space, shop.place_index(wall), wall, turning, shop.tables.hoist)


def fits_room(shop: Workshop, wall: Wall) -> bool:
    """Return whether the wall, its frame's depth included, fits the room and the asked angles."""
    return all(margin >= 0 for margin in wall_margins(shop, wall).values())


def wall_margins(shop: Workshop, wall: Wall, lift_broken: int | None = None) -> dict[str, float]:
    """Return the margin of every constraint of the room and the asked angles (>= 0 fits).

    `lift_broken` as for `room_fit`.
    """
    walls = shop.standing(wall)
    deep = wall.sheet.thickness_mm + wall.section.depth_mm
    ends = ends_of(shop.space, wall) if asks_for_rows(shop.space.market.room) else None
    fit = room_fit(shop.space, walls, float(deep), wall.width_mm, ends, lift_broken=lift_broken)
    return {name: float(np.ravel(margin)[0]) for name, margin in fit.margins.items()}


@dataclass(frozen=True, slots=True)
class Stance:
    """Where the wall stands: whole mm along the room, angle in degrees to three decimals."""

    angle_deg: float
    fall_space_mm: int
    floor_run_mm: int
    x_foot_mm: int
    x_lip_mm: int
    lip_height_mm: int


def stance(shop: Workshop, wall: Wall) -> Stance:
    """Return where the wall stands in the room."""
    walls = shop.standing(wall)
    fall = room_fit(shop.space, walls, None, wall.width_mm).fall_mm
    foot, lip = plan_positions_mm(shop.space, walls)
    angle = float(walls.angle[0])
    return Stance(
        angle_deg=int(angle_mdeg(walls.angle)[0]) / 1000,
        fall_space_mm=int(fall[0]),
        floor_run_mm=round(wall.board_mm * math.sin(angle)),
        x_foot_mm=round(float(foot[0])),
        x_lip_mm=round(float(lip[0])),
        lip_height_mm=round(wall.kicker_mm + wall.board_mm * math.cos(angle)),
    )


def stud_positions_mm(shop: Workshop, wall: Wall) -> tuple[float, ...]:
    """Return the studs' middle lines [mm] from the wall's left edge."""
    columns = columns_of(wall.split, wall.width_mm, shop.space.market.limits)
    assert columns is not None
    return stud_centres(columns, wall.bays, wall.section.width_mm)
