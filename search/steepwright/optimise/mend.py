"""What would make a failing wall pass: one change at a time, the cheapest first."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from steepwright.optimise.evaluate import Workshop, batch_of, check_all, cost_cents, wall_margins
from steepwright.optimise.space import limit_range
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.pricing.wall import Wall
from steepwright.structure import uses
from steepwright.units import percent_up

MOST_SHOWN = 6


@dataclass(frozen=True, slots=True)
class _Change:
    """One change of a wall: what it costs more [cents], and every check's use after it [-].

    `tilt` tells the new angle in words where another mount or sheet changes it.
    """

    kind: str
    words: str
    cents: int
    uses: Mapping[str, float]
    tilt: str

    @property
    def cost(self) -> str:
        return f"{self.cents / 100:+.2f}{self.tilt}"


def mending(shop: Workshop, wall: Wall) -> dict[str, Any]:
    """Return what mends a wall's failing checks, as plain data.

    ``mend`` holds sentences, each a single change after which every check passes; ``mend_checks``
    tells per failing check the cheapest change of each kind (section, studs, sheet, mounts,
    screws, ties) after which that check passes, or how near the best of them comes.
    """
    failing = {check.name: check.use for check in check_all(shop, wall) if not check.use <= 1}
    changes = list(_tried(shop, wall)) if failing else []
    all_pass = [c for c in changes if max(c.uses.values()) <= 1]
    return {
        "mend": [f"{change.words} ({change.cost})" for change in all_pass[:MOST_SHOWN]],
        "mend_checks": [
            {"check": name, "use": float(f"{use:.4g}"), "changes": _for_one(name, use, changes)}
            for name, use in failing.items()
        ],
    }


def _for_one(name: str, use: float, changes: list[_Change]) -> list[str]:
    """Return the cheapest change of each kind after which one check passes."""
    enough: dict[str, _Change] = {}
    for change in changes:
        if change.uses[name] <= 1:
            enough.setdefault(change.kind, change)
    if enough:
        return [f"{c.words} ({percent_up(c.uses[name])}, {c.cost})" for c in enough.values()]
    nearest = min(changes, key=lambda c: c.uses[name], default=None)
    if nearest is None or nearest.uses[name] > use * 0.995:
        return ["no other section, number of studs, sheet, mount or screws on offer helps here"]
    text = f"nothing on offer is enough alone; nearest: {nearest.words}"
    return [f"{text} ({percent_up(nearest.uses[name])}, {nearest.cost})"]


def _tried(shop: Workshop, wall: Wall) -> Iterator[_Change]:
    """Yield every change that can be bought and built and fits the room, the cheapest first."""
    before, found = cost_cents(shop, wall), []
    lacking, angle = _lacking(shop, wall), _angle_deg(shop, wall)
    for kind, words, changed in _changes(shop, wall):
        after = cost_cents(shop, changed)
        if after >= UNAVAILABLE_CENTS or not _lacking(shop, changed) <= lacking:
            continue
        try:
            batch = batch_of(shop, changed)
        except ValueError:
            continue
        use = {name: float(column[0]) for name, column in uses(shop.tables, batch).items()}
        leans = _angle_deg(shop, changed)
        tilt = f"; the wall then leans {leans:.1f}°" if abs(leans - angle) >= 0.05 else ""
        found.append(_Change(kind, words, after - before, use, tilt))
    yield from sorted(found, key=lambda change: (change.cents, change.words))


def _lacking(shop: Workshop, wall: Wall) -> set[str]:
    """Return the names of what the wall lacks in the room."""
    return {name for name, margin in wall_margins(shop, wall).items() if not margin >= 0}


def _angle_deg(shop: Workshop, wall: Wall) -> float:
    return math.degrees(float(shop.standing(wall).angle[0]))


def _changes(shop: Workshop, wall: Wall) -> Iterator[tuple[str, str, Wall]]:
    market = shop.space.market
    for section in market.sections:
        if section != wall.section and section.depth_mm >= wall.section.depth_mm:
            yield "section", f"studs of {section.label}", replace(wall, section=section)
    most = limit_range(market, "studs")[-1]
    for bays in range(wall.bays + 1, (most - 1) // wall.split.columns + 1):
        studs = wall.split.columns * bays + 1
        yield "studs", f"{studs} studs instead of {wall.stud_count}", replace(wall, bays=bays)
    for family in market.families:
        if family.products and family.thickness_mm > wall.sheet.thickness_mm:
            thicker = replace(wall, sheet=family, kicker_sheet=family)
            yield "sheet", f"a board of {family.label}", thicker
    yield from _other_fixings(shop, wall)
    yield from _usual_places(wall)


def _usual_places(wall: Wall) -> Iterator[tuple[str, str, Wall]]:
    if wall.tie_at_mm is not None:
        yield "tie_at_mm", "ties half-way up the board", replace(wall, tie_at_mm=None)
    if wall.eye_mm is not None:
        yield "eye_mm", "lifting eyes at their usual place", replace(wall, eye_mm=None)


def _other_fixings(shop: Workshop, wall: Wall) -> Iterator[tuple[str, str, Wall]]:
    for count in shop.space.mount_counts:
        if count != wall.mount_count and count <= wall.stud_count:
            words = f"{count} mounts instead of {wall.mount_count}"
            yield "mounts", words, replace(wall, mount_count=count)
    for screw_mm in shop.space.screws_mm:
        if screw_mm < wall.screw_mm:
            yield "screws", f"sheet screws every {screw_mm} mm", replace(wall, screw_mm=screw_mm)
    for tie in shop.space.ties:
        if tie != wall.tie:
            words = f"every stud tied back by {tie.name}" if tie else "no ties"
            yield "ties", words, replace(wall, tie=tie, tie_at_mm=wall.tie_at_mm if tie else None)
    for mount in shop.space.market.catalog.mounts:
        if mount != wall.mount:
            yield "mount", f"mounts of the kind {mount.name}", replace(wall, mount=mount)
