"""Give a wall of the front the width at which it costs least, and of such widths the greatest."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from steepwright.optimise.access import comes_in, fits_vehicle
from steepwright.optimise.evaluate import Workshop, cost_cents, fits_room, holds, stance
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.pricing.wall import Wall


def at_best_width(shop: Workshop, wall: Wall) -> Wall:
    """Return the wall at the width, of all that fit and hold, at which it costs least.

    All else stays, the fall space at least. Of widths that cost the same the greatest is taken.
    """
    fall_mm = stance(shop, wall).fall_space_mm
    ranked = sorted(_affordable(shop, wall), key=lambda row: (row[0], -row[1].width_mm))
    return next((wider for _, wider in ranked if _stands(shop, wider, fall_mm)), wall)


def _affordable(shop: Workshop, wall: Wall) -> Iterator[tuple[int, Wall]]:
    """Yield cost [cents] and wall for every width at which it costs no more than it does now.

    But for trims, a cut that only takes a rest off, no cost falls with the width. What is left
    without most of them, the quick bound, with all but the sheets, ends the looking.
    """
    price = cost_cents(shop, wall)
    sheeting, family = shop.sheeting(wall), shop.space.market.families.index(wall.kicker_sheet)
    widest = wall.board_mm, wall.kicker_mm, int(shop.space.widths_mm[-1])
    for width in shop.space.widths_mm.tolist():
        lengths = wall.board_mm, wall.kicker_mm, width
        if width < wall.width_mm or shop.exact.parts(sheeting, lengths) is None:
            continue
        wider = replace(wall, width_mm=width)
        cents, sheets = cost_cents(shop, wider), shop.exact.sheets_of(sheeting, family, lengths)
        if cents <= price:
            yield cents, wider
        least = shop.exact.sheet_bound(sheeting, (family,), lengths, widest, quick=True)
        if sheets is not None and cents < UNAVAILABLE_CENTS and cents - sheets + least > price:
            return


def _stands(shop: Workshop, wall: Wall, fall_mm: int) -> bool:
    return (
        splits_well(shop, wall)
        and holds(shop, wall)
        and stance(shop, wall).fall_space_mm >= fall_mm
        and fits_room(shop, wall)
    )


def splits_well(shop: Workshop, wall: Wall) -> bool:
    """Return whether the board can be divided so and every piece gets in and into the vehicle."""
    space = shop.space
    return comes_in(space, wall) and (wall.delivered or fits_vehicle(space, wall))
