"""A wall's parts with their masses and centres, its order of hanging, and who lifts what."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from typing import Any

from steepwright.geometry import people_needed, people_overhead
from steepwright.optimise.access import sheet_mass_kg
from steepwright.optimise.assembly import KINDS, Order, Part, Step, best_order
from steepwright.optimise.evaluate import Workshop, mass_kg, stud_positions_mm
from steepwright.pricing.wall import Wall, columns_of, rows_of
from steepwright.structure.raising import Body, foot_force_n
from steepwright.units import GRAVITY_M_S2

Document = dict[str, Any]


def hanging_order(shop: Workshop, wall: Wall) -> Order:
    """Return the order of hanging the board that keeps its heaviest lift smallest."""
    studs = _studs(shop, wall)
    last = len(studs) - 1
    at_mounts = {round(i * last / (wall.mount_count - 1)) for i in range(wall.mount_count)}
    must = (*_rails(shop, wall), *(p for i, p in enumerate(studs) if i in at_mounts))
    waiting = tuple(p for i, p in enumerate(studs) if i not in at_mounts)
    others = (*waiting, *_blocking(shop, wall), *_sheets(shop, wall))
    return best_order(must, others, wall.board_mm)


def hanging_document(shop: Workshop, wall: Wall) -> Document:
    """Return the order of hanging with masses [kg], forces [N] and the people for each lift.

    The foot is lifted only onto a kicker. ``fold_force_n`` is what the finished board takes at
    its lower edge to be folded up by hand, None when it doesn't fold.
    """
    order = hanging_order(shop, wall)
    steps = [s for s in order.steps if s.where != "lower edge" or wall.kicker_mm]
    whole = mass_kg(shop, wall) - _kicker_kg(shop, wall)
    board = Body(whole, wall.board_mm / 2, wall.width_mm / 2)
    folds = shop.space.market.room.wall.fold_up
    return {
        "heaviest_force_n": round(order.heaviest_n),
        "whole_board_force_n": round(order.whole_n),
        "fold_force_n": round(foot_force_n(board, wall.board_mm)) if folds else None,
        "steps": [_step(shop, step) for step in steps],
    }


def _step(shop: Workshop, step: Step) -> Document:
    market = shop.space.market
    access, factors = market.room.access, market.catalog.materials.factors
    people = people_needed if step.where == "lower edge" else people_overhead
    return {
        "what": step.what,
        "parts": [{"name": name, "count": count} for name, count in step.parts],
        "where": step.where,
        "mass_kg": round(step.moved.mass_kg, 1),
        "centre_up_mm": round(step.moved.up_mm),
        "centre_across_mm": round(step.moved.across_mm),
        "force_n": round(step.force_n),
        "people": people(step.force_n / GRAVITY_M_S2, access, factors),
        "hung_kg": round(step.hung.mass_kg, 1),
        "hung_centre_up_mm": round(step.hung.up_mm),
    }


def _kg_per_mm(shop: Workshop, wall: Wall) -> float:
    section = wall.section
    classes = shop.space.market.catalog.materials.timber_classes
    rho = classes[section.strength_class].rho_mean_kg_m3
    return rho * section.width_mm * section.depth_mm * 1e-9


def _rails(shop: Workshop, wall: Wall) -> Iterator[Part]:
    mass, half = _kg_per_mm(shop, wall) * wall.width_mm, wall.section.width_mm / 2
    for up in (half, wall.board_mm - half):
        yield Part("rail", "rail", Body(mass, up, wall.width_mm / 2))


def _studs(shop: Workshop, wall: Wall) -> list[Part]:
    mass = _kg_per_mm(shop, wall) * (wall.board_mm - 2 * wall.section.width_mm)
    return [
        Part("stud", KINDS[0], Body(mass, wall.board_mm / 2, across))
        for across in stud_positions_mm(shop, wall)
    ]


def _blocking(shop: Workshop, wall: Wall) -> Iterator[Part]:
    rows = rows_of(wall.split, wall.board_mm, shop.space.market.limits)
    assert rows is not None
    centres = stud_positions_mm(shop, wall)
    for seam in itertools.accumulate(rows[:-1]):
        for left, right in itertools.pairwise(centres):
            mass = _kg_per_mm(shop, wall) * (right - left - wall.section.width_mm)
            yield Part("seam blocking", KINDS[1], Body(mass, seam, (left + right) / 2))


def _sheets(shop: Workshop, wall: Wall) -> Iterator[Part]:
    market = shop.space.market
    rows = rows_of(wall.split, wall.board_mm, market.limits)
    columns = columns_of(wall.split, wall.width_mm, market.limits)
    assert rows is not None
    assert columns is not None
    family = market.families.index(wall.sheet)
    for top, length in zip(itertools.accumulate(rows), rows, strict=True):
        for right, width in zip(itertools.accumulate(columns), columns, strict=True):
            mass = sheet_mass_kg(shop.space, family, length, width)
            centre = Body(mass, top - length / 2, right - width / 2)
            yield Part(f"board {length} x {width}", KINDS[2], centre)


def _kicker_kg(shop: Workshop, wall: Wall) -> float:
    """Return the kicker's share of the wall's mass: its strip and frame [kg]."""
    if not wall.kicker_mm:
        return 0.0
    family = shop.space.market.families.index(wall.kicker_sheet)
    uprights = wall.stud_count * (wall.kicker_mm - 2 * wall.section.width_mm)
    bars = _kg_per_mm(shop, wall) * (2 * wall.width_mm + uprights)
    return bars + sheet_mass_kg(shop.space, family, wall.kicker_mm, wall.width_mm)
