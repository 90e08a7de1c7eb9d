"""What would make a wall fit its room and get in: the smallest change of each kind that does."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from steepwright.geometry import board_for_angle_mm
from steepwright.geometry.layout import Split
from steepwright.optimise.assess_margins import margins_of, stuck_pieces
from steepwright.optimise.evaluate import Workshop, batch_of, check_all, cost_cents
from steepwright.optimise.mend_wishes import file_changes
from steepwright.optimise.space import Space
from steepwright.optimise.standing import hanging
from steepwright.optimise.words import amount_short
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.pricing.wall import Wall, columns_of, rows_of
from steepwright.units import percent_up

MOST_TRIED = 25
"""Of the lengths of one range, about evenly spread, so many are tried."""

ShopOf = Callable[[Wall], Workshop]


@dataclass(frozen=True, slots=True)
class _Change:
    """One change of a wall, in the words of a design file."""

    kind: str
    words: str
    wall: Wall


def room_mending(shop: Workshop, wall: Wall, shop_of: ShopOf) -> list[dict[str, Any]]:
    """Return per margin that a wall lacks what is short, and what would mend it, as plain data.

    ``what`` tells the shortfall, with the piece where one sticks. ``changes`` are the smallest
    change of each kind (angle, kicker, width, division, place, mount, stud, delivery) after which
    that margin is kept and no other is lost that was kept; each names the checks of strength that
    then fail and what it costs more. Where none is enough, nor another division with one of the
    lengths, the nearest is told. Last comes what the room file would have to ask less of.
    """
    before = margins_of(shop, wall)
    broken = _lacking(before)
    if not broken:
        return []
    tried = _measured(shop, _changes(shop, wall))
    more: list[_Measured] | None = None
    now, pieces = (cost_cents(shop, wall), _failing(shop, wall)), stuck_pieces(shop.space, wall)
    told = []
    for name in (name for name in before if name in broken):
        lines = list(_told(_mending(tried, name, broken), now, shop_of))
        if not lines:
            more = _measured(shop, _pairs(shop, wall)) if more is None else more
            lines = list(_told(_mending(more, name, broken), now, shop_of))
        if not lines:
            lines = _nearest(shop, tried + (more or []), (name, before[name]), broken)
        less = file_changes(shop.space, name, before[name], _leans_deg(shop, wall))
        what = pieces.get(name) or amount_short(name, -before[name])
        told.append({"margin": name, "what": what, "changes": lines + less})
    return told


_Measured = tuple[_Change, dict[str, float]]


def _measured(shop: Workshop, changes: Iterator[_Change]) -> list[_Measured]:
    return [(change, margins_of(shop, change.wall)) for change in changes]


def _mending(tried: list[_Measured], name: str, broken: set[str]) -> list[_Change]:
    """Return the changes that keep a margin, and lose none that was kept."""
    lacking = [(change, _lacking(margins)) for change, margins in tried]
    return [change for change, lacks in lacking if name not in lacks and lacks <= broken]


def _lacking(margins: dict[str, float]) -> set[str]:
    return {name for name, margin in margins.items() if not margin >= 0}


def _nearest(
    shop: Workshop, tried: list[_Measured], now: tuple[str, float], broken: set[str]
) -> list[str]:
    """Return what is left over, or lost, at the change that leaves most of a margin."""
    name, before = now
    nearest = max(tried, key=lambda one: min(one[1].get(name, 0.0), 0.0), default=None)
    if nearest is None or nearest[1].get(name, 0.0) <= before:
        return []
    change, margins = nearest
    lost = next(iter(sorted(_lacking(margins) - broken)), name)
    lost = name if margins.get(name, 0.0) < 0 else lost
    if margins.get(lost, 0.0) >= 0:
        return []
    what = stuck_pieces(shop.space, change.wall).get(lost) or amount_short(lost, -margins[lost])
    return [f"none that was tried is enough; nearest: {change.words}, then {lost} fails ({what})"]


def _failing(shop: Workshop, wall: Wall) -> set[str]:
    return {check.name for check in check_all(shop, wall) if not check.use <= 1}


def _told(changes: list[_Change], now: tuple[int, set[str]], shop_of: ShopOf) -> Iterator[str]:
    """Yield the first change of each kind that can be bought, with its cost and what then fails."""
    cents, failing = now
    done: set[str] = set()
    for change in changes:
        if change.kind in done:
            continue
        shop = shop_of(change.wall)
        after = cost_cents(shop, change.wall)
        if after >= UNAVAILABLE_CENTS:
            continue
        done.add(change.kind)
        fresh = [c for c in check_all(shop, change.wall) if c.use > 1 and c.name not in failing]
        worse = "".join(f"; {c.name} then fails, {percent_up(c.use)}" for c in fresh)
        yield f"{change.words} ({(after - cents) / 100:+.2f}{worse})"


def _changes(shop: Workshop, wall: Wall) -> Iterator[_Change]:
    """Yield every change that makes a wall which stands and can be divided, the smallest first."""
    for change in _all_changes(shop, wall):
        if _stands(shop, change.wall):
            yield change


def _pairs(shop: Workshop, wall: Wall) -> Iterator[_Change]:
    """Yield walls that are divided otherwise and have another length or angle besides."""
    for split in _splits(shop.space, wall):
        for change in _lengths(shop, split.wall):
            if _stands(shop, change.wall):
                yield _Change("two", f"{change.words} with {split.words}", change.wall)


def _stands(shop: Workshop, wall: Wall) -> bool:
    limits = shop.space.market.limits
    if columns_of(wall.split, wall.width_mm, limits) is None:
        return False
    if rows_of(wall.split, wall.board_mm, limits) is None or np.isnan(shop.standing(wall).angle[0]):
        return False
    try:
        batch_of(shop, wall)
    except ValueError:
        return False
    return True


def _all_changes(shop: Workshop, wall: Wall) -> Iterator[_Change]:
    space, deg = shop.space, _leans_deg(shop, wall)
    yield from _lengths(shop, wall)
    yield from _splits(space, wall)
    yield from _places(space, wall, deg)
    yield from _parts(space, wall, deg)


def _lengths(shop: Workshop, wall: Wall) -> Iterator[_Change]:
    space = shop.space
    asked, deg = space.market.room.wall, _leans_deg(shop, wall)
    low, high = asked.angle_deg
    angles = {low, high, *range(math.ceil(low), math.floor(high) + 1)}
    for angle in sorted(angles, key=lambda angle: (abs(angle - deg), angle)):
        yield from _leaning(space, wall, angle, ("angle", f"{angle:g}°"))
    for kicker in _spread(asked.kicker_mm, wall.kicker_mm, asked.step_mm):
        changed = replace(wall, kicker_mm=kicker)
        yield from _leaning(space, changed, deg, ("kicker", f"kicker_mm = {kicker}"))
    for width in _spread(asked.width_mm, wall.width_mm, asked.step_mm):
        yield _Change("width", f"width_mm = {width}", replace(wall, width_mm=width))


def _spread(limits: tuple[int, int], now: int, step_mm: int) -> list[int]:
    """Return lengths of a range on its grid, the nearest to what is first, both ends among them."""
    low, high = limits
    step = step_mm * max(1, math.ceil((high - low) / step_mm / MOST_TRIED))
    lengths = {*range(low, high + 1, step), high} - {now}
    return sorted(lengths, key=lambda length: (abs(length - now), length))


def _leaning(space: Space, wall: Wall, deg: float, told: tuple[str, str]) -> Iterator[_Change]:
    """Yield a wall with the board that leans so far, where there is one."""
    place = space.places.index((wall.beam, wall.facing))
    mount = space.market.catalog.mounts.index(wall.mount)
    hangs = hanging(space, place, mount, wall.sheet.thickness_mm)
    length = float(
        board_for_angle_mm(
            math.radians(deg),
            wall.kicker_mm,
            hangs.pivot_height_mm,
            hangs.setback_mm,
            hangs.behind_mm,
        )
    )
    if math.isnan(length):
        return
    # The angle grows with the board: rounded so that the range's ends are kept.
    steepest = deg >= space.market.room.wall.angle_deg[1]
    board = math.floor(length) if steepest else math.ceil(length)
    kind, words = told
    yield _Change(kind, f"{words} (board_mm = {board})", replace(wall, board_mm=board))


def _splits(space: Space, wall: Wall) -> Iterator[_Change]:
    asked, now = space.market.room.wall, wall.split
    ways = [
        (columns, rows)
        for columns in range(1, asked.max_columns + 1)
        for rows in range(1, asked.max_rows + 1)
        if (columns, rows) != (now.columns, now.rows)
    ]
    for columns, rows in sorted(ways, key=lambda way: (way[0] * way[1], way)):
        bays = max(1, -(-(wall.stud_count - 1) // columns), 3 - columns)
        changed = replace(wall, split=Split(columns, 0, rows, 0), bays=bays)
        words = f"columns = {columns}, rows = {rows}"
        studs = f", stud_count = {changed.stud_count}"
        words += studs if changed.stud_count != wall.stud_count else ""
        yield _Change("split", words, changed)


def _places(space: Space, wall: Wall, deg: float) -> Iterator[_Change]:
    for beam, facing in space.places:
        if (beam, facing) != (wall.beam, wall.facing):
            name = space.market.room.beams[beam].name
            words = f'beam = "{name}", facing = "{facing}"'
            changed = replace(wall, beam=beam, facing=facing)
            yield from _leaning(space, changed, deg, ("place", words))


def _parts(space: Space, wall: Wall, deg: float) -> Iterator[_Change]:
    market = space.market
    for section in sorted(market.sections, key=lambda s: (-s.depth_mm, s.label)):
        if section.depth_mm < wall.section.depth_mm:
            changed = replace(wall, section=section)
            yield _Change("section", f'stud = "{section.label}"', changed)
    for mount in market.catalog.mounts:
        if mount != wall.mount:
            changed = replace(wall, mount=mount)
            yield from _leaning(space, changed, deg, ("mount", f'mount = "{mount.name}"'))
    for count in space.mount_counts[::-1]:
        if count < wall.mount_count:
            changed = replace(wall, mount_count=count)
            yield _Change("mounts", f"mount_count = {count}", changed)
    if not wall.delivered:
        yield _Change("delivery", "delivered = true", replace(wall, delivered=True))


def _leans_deg(shop: Workshop, wall: Wall) -> float:
    return math.degrees(float(shop.standing(wall).angle[0]))
