"""What the way into the room forces: the narrow places' limits, and what divides a board."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from steepwright.geometry.access import (
    NO_LIMIT_MM,
    bottlenecks,
    carry_limit_kg,
    longest_mm,
    windows,
)
from steepwright.geometry.layout import Split
from steepwright.optimise.access import sheet_mass_kg
from steepwright.optimise.evaluate import Workshop
from steepwright.optimise.space import Space
from steepwright.pricing.market import Market
from steepwright.pricing.wall import Wall, columns_of, rows_of
from steepwright.room.types import Access

Document = dict[str, Any]

CARRIERS = "the carriers' hands"
VEHICLE = "the vehicle"
SHEETS = "the sheets on offer, by size or grain"


def way_in_document(space: Space) -> list[Document]:
    """Return, for every narrow place, the longest piece of each stock sheet's width that passes.

    Rows are (name, width, thickness, longest) in mm; a place that limits no length has None.
    """
    market = space.market
    sizes = {
        (min(p.length_mm, p.width_mm), family.thickness_mm)
        for family, allowed in zip(market.families, market.board_allowed, strict=True)
        for p in family.products
        if allowed
    }
    return [
        {
            "name": place.name,
            "width_mm": width,
            "thickness_mm": thickness,
            "longest_mm": _limit(longest_mm(place.passes, width, thickness)),
        }
        for place in bottlenecks(market.room.access)
        for width, thickness in sorted(sizes)
    ]


def board_way_in(shop: Workshop, wall: Wall) -> Document:
    """Return how the board's largest piece gets in, and what stops a board divided less.

    ``largest_piece_mm`` and ``longest_mm``, the longest piece of its width that would get in
    (None: any), with the ``bottleneck`` that sets it; ``undivided`` tells for one column or one
    row fewer what stops its largest piece: a narrow place, the carriers, the vehicle or the
    sheets on offer. Empty words mean that it gets in, so the division saves money or strength.
    """
    market = shop.space.market
    length, width = _largest(market, wall.split, wall)
    limits = list(_limits(shop.space, wall, width))
    longest, name = min(limits, default=(NO_LIMIT_MM, ""))
    return {
        "largest_piece_mm": [length, width],
        "longest_mm": _limit(longest),
        "bottleneck": name if longest < NO_LIMIT_MM else "",
        "undivided": [_undivided(shop.space, wall, split) for split in _less_divided(wall.split)],
    }


def _limit(longest: int) -> int | None:
    return longest if longest < NO_LIMIT_MM else None


def _largest(market: Market, split: Split, wall: Wall) -> tuple[int, int]:
    columns = columns_of(split, wall.width_mm, market.limits)
    rows = rows_of(split, wall.board_mm, market.limits)
    assert columns is not None
    assert rows is not None
    return max(rows), max(columns)


def _less_divided(split: Split) -> Iterator[Split]:
    if split.columns > 1:
        yield Split(split.columns - 1, 0, split.rows, split.full_row_mm)
    if split.rows > 1:
        yield Split(split.columns, split.full_column_mm, split.rows - 1, 0)


def _undivided(space: Space, wall: Wall, split: Split) -> Document:
    length, width = _largest(space.market, split, wall)
    stops = [name for longest, name in _limits(space, wall, width) if longest < length]
    if not stops and not _in_stock(space.market, wall, length, width):
        stops = [SHEETS]
    return {
        "columns": split.columns,
        "rows": split.rows,
        "piece_mm": [length, width],
        "stopped_by": stops[0] if stops else "",
    }


def _limits(space: Space, wall: Wall, width_mm: int) -> Iterator[tuple[int, str]]:
    """Yield the longest piece of a width that each place on the way lets in [mm], and its name.

    To the narrow places come the carriers and the vehicle.
    """
    market = space.market
    access, factors = market.room.access, market.catalog.materials.factors
    yield from narrow_places(access, width_mm, wall.sheet.thickness_mm)
    kg_per_mm = sheet_mass_kg(space, market.families.index(wall.sheet), 1, width_mm)
    yield int(carry_limit_kg(access, factors) / kg_per_mm), CARRIERS
    vehicle = market.room.yard.vehicle_max_mm
    if vehicle is not None and not wall.delivered:
        yield _in_vehicle(vehicle, width_mm), VEHICLE


@lru_cache(maxsize=256)
def narrow_places(access: Access, width_mm: int, thickness_mm: int) -> tuple[tuple[int, str], ...]:
    """Return the longest piece [mm] that each narrow place lets past, and its name.

    A window lets pieces past all of them.
    """
    by_window = max((longest_mm(p, width_mm, thickness_mm) for p in windows(access)), default=0)
    return tuple(
        (max(by_window, longest_mm(place.passes, width_mm, thickness_mm)), place.name)
        for place in bottlenecks(access)
    )


def _in_vehicle(vehicle_mm: tuple[int, int], width_mm: int) -> int:
    if width_mm <= min(vehicle_mm):
        return max(vehicle_mm)
    return min(vehicle_mm) if width_mm <= max(vehicle_mm) else 0


def _in_stock(market: Market, wall: Wall, length_mm: int, width_mm: int) -> bool:
    """Tell whether any sheet of the board's family holds the piece, grain kept where it has to."""
    for stock in market.sheet_stock[market.families.index(wall.sheet)]:
        along = (stock.length_mm, stock.width_mm)
        grain, across = along if stock.face_grain == "length" else along[::-1]
        if width_mm <= grain and length_mm <= across:
            return True
        if wall.grain == "any" and length_mm <= grain and width_mm <= across:
            return True
    return False
