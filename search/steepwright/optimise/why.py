"""Why no wall is left: which constraint binds, and by how much.

A constraint binds when walls appear as soon as it alone is let go; the shortfall told is the
least one among the walls that keep all the others.
"""

from __future__ import annotations

from collections import defaultdict

import numpy as np

from steepwright.optimise.branch import root_entries
from steepwright.optimise.entries import Entries, joined
from steepwright.optimise.model import Model
from steepwright.optimise.reach import Fit, room_fit
from steepwright.optimise.standing import hanging, stand
from steepwright.structure import uses


def why_nothing(model: Model) -> str:
    """Return a sentence or two that name the binding constraint and its shortfall."""
    fits = _fits(model)
    if not any(bool(fit.fits.any()) for fit in fits):
        return f"No wall fits this room. {_room_reason(fits)}"
    entries = _largest_chance(model)
    entries = entries.take(model.access.passes(entries))
    if not len(entries):
        return (
            "No wall's pieces can be brought in: access.max_piece_mm, a corridor, a door, the"
            " vehicle or the carriers' limit binds even for the most divided board. Allow more"
            " columns or rows (wall.max_columns, wall.max_rows), more carriers or delivery."
        )
    return _structure_reason(model, entries)


def _fits(model: Model) -> list[Fit]:
    """Return how every wall with the shallowest frame fits the room."""
    space = model.space
    market = space.market
    thicknesses = sorted(
        {
            family.thickness_mm
            for family, allowed in zip(market.families, market.board_allowed, strict=True)
            if allowed
        }
    )
    shallow = min(section.depth_mm for section in market.sections)
    boards, kickers = space.boards_mm[:, None], space.kickers_mm[None, :]
    return [
        room_fit(
            space,
            stand(place, hanging(space, place, mount, thickness), boards, kickers),
            float(thickness + shallow),
        )
        for place in range(len(space.places))
        for mount in range(len(market.catalog.mounts))
        for thickness in thicknesses
    ]


def _room_reason(fits: list[Fit]) -> str:
    alone: dict[str, float] = defaultdict(lambda: -np.inf)
    best: dict[str, float] = defaultdict(lambda: -np.inf)
    for fit in fits:
        for name, margin in fit.margins.items():
            others = np.logical_and.reduce(
                [m >= 0 for other, m in fit.margins.items() if other != name]
            )
            if others.any():
                alone[name] = max(alone[name], float(margin[others].max()))
            best[name] = max(best[name], float(margin.max()))
    if alone:
        parts = [f"{name} binds: {_short(name, -gap)}" for name, gap in sorted(alone.items())]
        return "With every other constraint kept, " + "; ".join(parts) + "."
    failing = [f"{name} ({_short(name, -gap)})" for name, gap in sorted(best.items()) if gap < 0]
    if failing:
        return "These can't be kept by any wall at all: " + "; ".join(failing) + "."
    return (
        "Each constraint alone can be kept, but no wall keeps all at once; loosen two of: "
        + ", ".join(sorted(best))
        + "."
    )


def _short(name: str, gap: float) -> str:
    if "angle" in name:
        return f"{gap:.2f} degrees short"
    if name == "wall.min_moves":
        return f"{gap:.0f} moves short"
    if "solids" in name and gap <= 1:
        return "something stands there"
    return f"{gap:.0f} mm short"


def _largest_chance(model: Model) -> Entries:
    """Return every family once at the flattest wall that fits the room with its mounting."""
    roots = joined([root_entries(model, place) for place in range(len(model.space.places))])
    table = model.reach.angle_mdeg[1]
    flat = np.where(table >= 0, table, np.iinfo(np.int32).max).reshape(len(table), -1)
    cell = flat.argmin(axis=1)
    number = model.mounting(roots)
    exists = np.asarray((table >= 0).any(axis=(1, 2)))[number]
    columns = model.grid[1]
    return roots.at(cell[number] // columns, cell[number] % columns).take(exists)


def _structure_reason(model: Model, entries: Entries) -> str:
    step = max(1, len(entries) // 200_000)
    entries = entries.take(np.arange(0, len(entries), step))
    each = uses(model.tables, model.batch(entries, None))
    names = list(each)
    stacked = np.stack([each[name] for name in names])
    worst = stacked.max(axis=0)
    best = int(worst.argmin())
    check = names[int(stacked[:, best].argmax())]
    if worst[best] <= 1:
        return (
            "Walls fit the room and are strong enough, but none can be cut from the sheets and bars"
            " on offer: a piece is longer or wider than every stock sheet, or the grain can't be"
            " kept. Allow more columns or rows, or a yard with larger sheets."
        )
    return (
        f"No wall is strong enough: the check '{check}' binds; the strongest wall on offer uses"
        f" {worst[best]:.2f} of what it can bear ({(worst[best] - 1) * 100:.0f} % too much)."
        " A deeper section, more studs, another mount or a stronger beam would help."
    )
