"""Make a wall of the front as wide as it may be at the same cost, angle and fall space."""

from __future__ import annotations

from dataclasses import replace

from steepwright.optimise.access import comes_in, fits_vehicle
from steepwright.optimise.evaluate import Workshop, cost_cents, fits_room, holds, stance
from steepwright.pricing.wall import Wall


def widest_at_same_cost(shop: Workshop, wall: Wall) -> Wall:
    """Return the widest wall of the same choices that costs no more.

    Cost, checks and room only get worse with the width, save that a saw cut is saved where a
    piece meets a sheet's side and that mounts far apart may ease the beam; so halving finds a
    width that can't be raised by one grid step without cost or a failed check, which is what is
    promised.
    """
    widths = shop.space.widths_mm
    price, fall = cost_cents(shop, wall), stance(shop, wall).fall_space_mm

    def good(index: int) -> bool:
        wider = replace(wall, width_mm=int(widths[index]))
        return (
            splits_well(shop, wider)
            and cost_cents(shop, wider) <= price
            and holds(shop, wider)
            and stance(shop, wider).fall_space_mm >= fall
            and fits_room(shop, wider)
        )

    low, high = 0, len(widths)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if good(middle) else (low, middle)
    return replace(wall, width_mm=int(widths[low]))


def splits_well(shop: Workshop, wall: Wall) -> bool:
    """Return whether the board can be divided so and every piece gets in and into the vehicle."""
    space = shop.space
    return comes_in(space, wall) and (wall.delivered or fits_vehicle(space, wall))
