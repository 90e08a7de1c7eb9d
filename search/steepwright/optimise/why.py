"""Why no wall is left: which constraint binds, and by how much.

A constraint binds when walls appear as soon as it alone is let go; the shortfall told is the
least one among the walls that keep all the others.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator

import numpy as np

from steepwright.optimise.branch import root_entries, solve_point
from steepwright.optimise.depth import fits_with_depth
from steepwright.optimise.entries import Entries, joined
from steepwright.optimise.fit import EVERY_LIFT, Fit, room_fit
from steepwright.optimise.fixing import Fixing
from steepwright.optimise.hold_ends import asks_for_rows, best_ends
from steepwright.optimise.model import Model
from steepwright.optimise.rigs_told import rigs_stuck
from steepwright.optimise.standing import hanging, stand
from steepwright.optimise.why_access import access_reason, accessible
from steepwright.optimise.why_bought import cutting_reason, missing_articles
from steepwright.optimise.wishes import REACHES
from steepwright.optimise.words import amount_short
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.pricing.wall import rows_of
from steepwright.structure import uses

LEAST_ANGLE = "wall.angle_deg (least)"

CHUNK = 16_384


def why_nothing(model: Model, held: tuple[str, ...] = ()) -> str:
    """Return a sentence or two that name the binding constraint and its shortfall.

    `held` names constraints of the room that can't be let go: then what else binds is told.
    """
    missing = missing_articles(model)
    if missing:
        return f"No wall can be bought: {missing}."
    stuck = rigs_stuck(model.space)
    if stuck and not _places(model):
        return f"What the wall is to hang from can't be brought in. {stuck}"
    return f"{_reason(model, held)} {stuck}".rstrip()


def _reason(model: Model, held: tuple[str, ...]) -> str:
    fits = _fits(model, 1)
    if not any(bool(fit.fits.any()) for fit in fits):
        return f"No wall fits this room. {_room_reason(model, fits, held)}"
    chances = _largest_chances(model)
    if not len(chances):
        return f"No wall's pieces can be brought in. {access_reason(model, _gets_in)}"
    return _structure_reason(model, chances)


def _places(model: Model) -> list[int]:
    """Return the places whose frame, or whatever has to be bought to hang from, can be had."""
    had = (model.stand_cents < UNAVAILABLE_CENTS).any(axis=1)
    return [int(place) for place in np.flatnonzero(had)]


def _fits(model: Model, broken: int) -> list[Fit]:
    """Return how every wall fits the room with the shallowest frame and the best rows of holds.

    The lift is looked at where at most so many other constraints are broken.
    """
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
    ends = best_ends(space, space.boards_mm[:, None]) if asks_for_rows(market.room) else None
    return [
        room_fit(
            space,
            stand(place, hanging(space, place, mount, thickness), boards, kickers),
            float(thickness + shallow),
            ends=ends,
            lift_broken=broken,
        )
        for place in _places(model)
        for mount in range(len(market.catalog.mounts))
        for thickness in thicknesses
    ]


def _room_reason(model: Model, fits: list[Fit], held: tuple[str, ...]) -> str:
    alone: dict[str, float] = defaultdict(lambda: -np.inf)
    for fit in fits:
        for name, margin in fit.margins.items():
            others = np.logical_and.reduce(
                [m >= 0 for other, m in fit.margins.items() if other != name]
            )
            if others.any():
                alone[name] = max(alone[name], float(margin[others].max()))
    binding = {name: gap for name, gap in alone.items() if name not in held}
    if alone and not binding:
        return (
            "wall.board_mm and wall.kicker_mm bind: no lengths on their grid that keep all else"
            f" come nearer than {_nearest(alone)}."
        )
    if binding:
        parts = [f"{name} binds: {amount_short(name, -gap)}" for name, gap in binding.items()]
        return "With every other constraint kept, " + "; ".join(sorted(parts)) + "."
    return _together(_fits(model, EVERY_LIFT) if model.space.market.room.wall.fold_up else fits)


def _together(fits: list[Fit]) -> str:
    """Tell what no wall keeps, or that no wall keeps all at once."""
    best: dict[str, float] = defaultdict(lambda: -np.inf)
    for fit in fits:
        for name, margin in fit.margins.items():
            there = margin[(fit.margins[REACHES] >= 0) | (name == REACHES)]
            if there.size:
                best[name] = max(best[name], float(there.max()))
    failing = [
        f"{name} ({amount_short(name, -gap)})" for name, gap in sorted(best.items()) if gap < 0
    ]
    if failing:
        return "These can't be kept by any wall at all: " + "; ".join(failing) + "."
    return (
        "Each constraint alone can be kept, but no wall keeps all at once; loosen two of: "
        + ", ".join(sorted(best))
        + "."
    )


def _nearest(alone: dict[str, float]) -> str:
    name, gap = max(alone.items(), key=lambda item: item[1])
    return amount_short(name, -gap).removesuffix(" short")


def _largest_chances(model: Model) -> Entries:
    """Return every family once, at the flattest wall whose pieces get in and that fits the room."""
    places = [root_entries(model, place) for place in _places(model)]
    # What is delivered gets in wherever what is fetched does, and is as strong.
    places = [some.take(some.delivered == some.delivered.max(initial=0)) for some in places]
    found = [accessible(model, entries) for entries in places]
    return joined(
        [some.take(fits_with_depth(model, some)) if len(some) else some for some in found]
    )


def _gets_in(model: Model) -> bool:
    """Tell whether a wall's pieces get in; a board that can't be divided so is no wall."""
    space, chances = model.space, _largest_chances(model)
    lengths = {(space.sheetings[n].split, m) for n, m in _pairs(chances)}
    return any(
        rows_of(split, int(space.boards_mm[row]), space.market.limits) for split, row in lengths
    )


def _pairs(entries: Entries) -> set[tuple[int, int]]:
    return set(zip(entries.sheeting.tolist(), entries.row.tolist(), strict=True))


def _structure_reason(model: Model, entries: Entries) -> str:
    """Tell which check the flattest walls fail, or, when one holds, why it can't be had."""
    use = _least_use(model, entries)
    strong = np.flatnonzero(use <= 1)
    if len(strong):
        return cutting_reason(model, entries.take(strong), solve_point)
    best = entries.take(np.array([int(use.argmin())]))
    ways = _ways(model, int(model.sheetings.studs[best.sheeting].min()))
    name, worst = min((_worst_check(model, best, way) for way in ways), key=lambda x: x[1])
    if not np.isfinite(worst):
        return (
            f"No wall is strong enough: the check '{name}' can't be met with what is on offer; a"
            " part that it needs is missing or too short."
        )
    over = math.ceil((worst - 1) * 100 - 1e-9)
    return (
        f"No wall is strong enough: the check '{name}' binds; of the flattest walls that fit the"
        f" room the strongest uses {over / 100 + 1:.2f} of what it can bear ({over} % too"
        " much). A deeper section, more studs, another mount or a stronger beam would help."
    )


def _ways(model: Model, fewest: int) -> Iterator[tuple[int, int]]:
    """Yield numbers of mounts, at most `fewest`, with each tie."""
    for count in model.space.mount_counts:
        if count <= fewest:
            yield from ((count, tie) for tie in range(len(model.space.ties)))


def _closest(model: Model, way: tuple[int, int], rows: int) -> Fixing:
    return Fixing.of(way[0], model.space.screws_mm[-1], rows, way[1])


def _least_use(model: Model, entries: Entries) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Return each wall's largest use with the number of mounts and the tie that suit it best."""
    least = np.full(len(entries), np.inf)
    studs = model.sheetings.studs[entries.sheeting]
    for way in _ways(model, int(studs.max(initial=0))):
        rows = np.flatnonzero(studs >= way[0])
        for start in range(0, len(rows), CHUNK):
            part = rows[start : start + CHUNK]
            fixing = _closest(model, way, len(part))
            each = uses(model.tables, model.batch(entries.take(part), fixing))
            worst = np.nan_to_num(np.max(list(each.values()), axis=0), nan=np.inf, posinf=np.inf)
            least[part] = np.minimum(least[part], worst)
    return least


def _worst_check(model: Model, entry: Entries, way: tuple[int, int]) -> tuple[str, float]:
    each = uses(model.tables, model.batch(entry, _closest(model, way, 1)))
    name = max(each, key=lambda check: float(np.nan_to_num(each[check][0], nan=np.inf)))
    return name, float(np.nan_to_num(each[name][0], nan=np.inf))
