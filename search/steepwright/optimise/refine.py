"""Round one design of a finished search, by the millimetre: exact, in a narrow range of lengths."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from steepwright.catalog.types import Catalog
from steepwright.optimise.document import Document
from steepwright.optimise.search import Result, search
from steepwright.optimise.terms import silent
from steepwright.room.types import Room
from steepwright.units import degrees_down, money

STEPS_AROUND, MOST_AROUND_MM = 4, 20
"""How far to either side of the design's lengths is looked: steps of its grid, but at most mm."""


def refine(
    room: Room,
    catalog: Catalog,
    design: Document,
    *,
    workers: int = 1,
    progress: Callable[[str], None] = silent,
) -> Result:
    """Return the exact front of all walls near a design on a grid of 1 mm.

    Everything that is no length is free as in the search; board and kicker lie within
    `STEPS_AROUND` steps and `MOST_AROUND_MM` of the design's, the kicker in the range asked for.

    Raises
    ------
    InfeasibleError
        When no wall fits there, which the design itself rules out if it is of this room.
    """
    wall = room.wall
    around = min(STEPS_AROUND * wall.step_mm, MOST_AROUND_MM)
    board, kicker = int(design["board_mm"]), int(design["kicker_mm"])
    low, high = wall.kicker_mm
    near = replace(
        wall,
        step_mm=1,
        board_mm=(max(1, board - around), board + around),
        kicker_mm=(max(low, kicker - around), min(high, kicker + around)),
    )
    fine = replace(room, wall=near)
    return search(fine, catalog, workers=workers, progress=progress, changes=False)


def what_it_gains(design: Document, fine: Document) -> tuple[str, ...]:
    """Return in sentences what the finer grid saves at the design's angle and gains at its cost."""
    designs, currency = fine["designs"], fine["currency"]
    cost, angle = design["cost_cents"], design["angle_deg"]
    steep = [d for d in designs if d["angle_deg"] >= angle]
    cheap = [d for d in designs if d["cost_cents"] <= cost]
    told = []
    best = min(steep, key=lambda d: (d["cost_cents"], -d["angle_deg"]), default=None)
    if best is not None and best["cost_cents"] < cost:
        told.append(
            f"As steep for {money(best['cost_cents'], currency)} instead of"
            f" {money(cost, currency)}: {_lengths(best)}."
        )
    best = max(cheap, key=lambda d: (d["angle_deg"], -d["cost_cents"]), default=None)
    if best is not None and best["angle_deg"] > angle:
        told.append(
            f"{degrees_down(best['angle_deg'], 3)} instead of {degrees_down(angle, 3)} degrees for"
            f" {money(best['cost_cents'], currency)}: {_lengths(best)}."
        )
    return tuple(told) or ("The finer grid gains nothing here.",)


def _lengths(design: Document) -> str:
    return f"{design['id']}, board {design['board_mm']} mm, kicker {design['kicker_mm']} mm"
