"""What would let a wall's pieces in: each change is made, and looked at again, before it is told.

A bar of the frame is one piece however the board is divided, so what helps depends on the piece
that sticks.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from steepwright.geometry.access import bottlenecks
from steepwright.optimise.access import build_access
from steepwright.optimise.changes_room import WAYS, widened
from steepwright.optimise.model import Model, build_model
from steepwright.optimise.space import build_space
from steepwright.room.types import Access, WallRange, Window, stepped_up_mm

GetsIn = Callable[[Model], bool]
Trials = Iterable[tuple[str, Model]]
"""Changes of one kind, the least first, in words and as what is then searched."""

CARRY = "access.max_carry_kg"

STEP_MM, STEPS = 10, 50
"""How much wider [mm] a narrow place is tried, and so many times that at most."""

FLATTER_DEG = (2, 4, 8, 16)
"""By how much flatter [degrees] a wall is tried."""

NARROW = tuple(table for table in WAYS if table != "windows")
MOST_CARRIERS = 3
"""Nothing is gained by more (`geometry.access`)."""

MOST = {"max_columns": 6, "max_rows": 4}
LEAST_OPENING_MM, HIGHEST_KICKER_MM = 300, 2000
"""As a room file takes them."""


@dataclass(frozen=True, slots=True)
class Stuck:
    """A piece that sticks: sides [mm], longest first, by how much, and whether it is a bar."""

    sides_mm: tuple[int, int, int]
    over: float
    is_bar: bool


def helping(model: Model, stuck: Mapping[str, Stuck], gets_in: GetsIn) -> str:
    """Return what would let a wall's pieces in, in words; `stuck` holds a piece per constraint."""
    told = []
    for trials in _changes(model, stuck, gets_in):
        told += [words for words, changed in trials if gets_in(changed)][:1]
    start = ""
    if stuck and all(piece.is_bar for piece in stuck.values()):
        start = "A bar is one piece: dividing the board doesn't shorten it. "
    if not told:
        return f"{start}No single change that was tried lets a wall in; measure the way again."
    return f"{start}Each of these alone would let a wall's pieces in: {'; '.join(told)}."


def _changes(model: Model, stuck: Mapping[str, Stuck], gets_in: GetsIn) -> Iterator[Trials]:
    wall, access = model.space.market.room.wall, model.space.market.room.access
    if not all(piece.is_bar for piece in stuck.values()):
        for key in ("max_columns", "max_rows"):
            more: dict[str, Any] = {key: getattr(wall, key) + 1}
            if more[key] <= MOST[key]:
                yield [(f"wall.{key} = {more[key]}", _asked(model, replace(wall, **more)))]
    if CARRY in stuck:
        yield (
            (f"access.carriers = {n}", _reached(model, replace(access, carriers=n)))
            for n in range(access.carriers + 1, MOST_CARRIERS + 1)
        )
    places = [name for name in stuck if name != CARRY]
    yield from _wider(model, places, gets_in)
    if places:
        yield [_window(model, [stuck[name] for name in places])]
        yield from _shorter(model, max(stuck[name].over for name in places))


def _reached(model: Model, access: Access) -> Model:
    space = model.space
    market = replace(space.market, room=replace(space.market.room, access=access))
    space = replace(space, market=market)
    return replace(model, space=space, access=build_access(space, model.kickers))


def _asked(model: Model, wall: WallRange) -> Model:
    market = model.space.market
    return build_model(build_space(replace(market, room=replace(market.room, wall=wall))))


def _wider(model: Model, places: list[str], gets_in: GetsIn) -> Iterator[Trials]:
    """Yield each narrow place that binds, as much wider as lets pieces in."""
    access = model.space.market.room.access
    for table in NARROW:
        rows = getattr(access, table)
        for n, row in enumerate(rows):
            only: dict[str, Any] = {table: (row,)}
            (place,) = bottlenecks(Access(**only))
            if place.name not in places:
                continue

            def wider(steps: int, table: str = table, rows: Any = rows, n: int = n) -> Model:
                new = widened(rows[n], steps * STEP_MM)
                changed: dict[str, Any] = {table: (*rows[:n], new, *rows[n + 1 :])}
                return _reached(model, replace(access, **changed))

            most = range(1, STEPS + 1)
            steps = most.start + bisect_left(most, True, key=lambda n: gets_in(wider(n)))
            if steps <= STEPS:
                both = " each way" if hasattr(row, "width_b_mm") else ""
                yield [(f"{place.name} {steps * STEP_MM} mm wider{both}", wider(steps))]


def _window(model: Model, pieces: list[Stuck]) -> tuple[str, Model]:
    """Return a window as large as takes the pieces that stick straight in."""
    inside, wide, high = (max(piece.sides_mm[n] for piece in pieces) for n in range(3))
    wide, high = (max(side, LEAST_OPENING_MM) for side in (wide, high))
    access = model.space.market.room.access
    windows = (*access.windows, Window("window", wide, high, inside))
    words = f"a window ([[access.windows]]) of {wide} x {high} mm with {inside} mm clear inside"
    return words, _reached(model, replace(access, windows=windows))


def _shorter(model: Model, by_mm: float) -> Iterator[Trials]:
    """Yield what makes for shorter boards: a higher kicker, or a flatter wall.

    With the pivot at the lip L cos t = H - k (`geometry/wall.py`): a board shorter by d needs at
    the same angle a kicker higher by d cos t. Mounts make it a little more or less.
    """
    wall = model.space.market.room.wall
    step, (flat, steep), (low, high) = wall.step_mm, wall.angle_deg, wall.kicker_mm
    along = ""
    if wall.board_mm is not None:
        shortest = (max(int((wall.board_mm[0] - by_mm) // step), 1) * step, wall.board_mm[1])
        wall = replace(wall, board_mm=shortest)
        along = f"wall.board_mm from {shortest[0]}"
        yield [(along, _asked(model, wall))]
        along += " and "
    first = stepped_up_mm(high, step, high + by_mm * math.cos(math.radians(flat)))
    highest = [k for k in (first, first + step, first + 2 * step) if k <= HIGHEST_KICKER_MM]
    yield (
        (f"{along}wall.kicker_mm up to {k}", _asked(model, replace(wall, kicker_mm=(low, k))))
        for k in highest
    )
    yield (
        (f"{along}wall.angle_deg from {t:g}", _asked(model, replace(wall, angle_deg=(t, steep))))
        for t in (flat - by for by in FLATTER_DEG)
        if t >= 0
    )
