"""What would make a failing wall pass: one change at a time, the nearest first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from steepwright.optimise.evaluate import Workshop, batch_of, cost_cents
from steepwright.optimise.space import limit_range
from steepwright.pricing.hardware import UNAVAILABLE_CENTS
from steepwright.pricing.wall import Wall
from steepwright.structure import uses


def mending(shop: Workshop, wall: Wall) -> list[str]:
    """Return sentences, each a single change after which the wall passes, with its cost."""
    before = cost_cents(shop, wall)
    found = []
    for words, changed in _changes(shop, wall):
        after = cost_cents(shop, changed)
        if after < UNAVAILABLE_CENTS and _worst(shop, changed) <= 1:
            found.append((after - before, words))
    return [f"{words} ({difference / 100:+.2f})" for difference, words in sorted(found)[:6]]


def _worst(shop: Workshop, wall: Wall) -> float:
    try:
        return max(float(use[0]) for use in uses(shop.tables, batch_of(shop, wall)).values())
    except ValueError:
        return float("inf")


def _changes(shop: Workshop, wall: Wall) -> Iterator[tuple[str, Wall]]:
    market = shop.space.market
    for section in market.sections:
        if section != wall.section and section.depth_mm >= wall.section.depth_mm:
            yield f"studs of {section.label}", replace(wall, section=section)
    most = limit_range(market, "studs")[-1]
    for bays in range(wall.bays + 1, (most - 1) // wall.split.columns + 1):
        studs = wall.split.columns * bays + 1
        yield f"{studs} studs instead of {wall.stud_count}", replace(wall, bays=bays)
    for family in market.families:
        if family.products and family.thickness_mm > wall.sheet.thickness_mm:
            yield f"a board of {family.label}", replace(wall, sheet=family, kicker_sheet=family)
    yield from _other_fixings(shop, wall)


def _other_fixings(shop: Workshop, wall: Wall) -> Iterator[tuple[str, Wall]]:
    for count in shop.space.mount_counts:
        if count != wall.mount_count and count <= wall.stud_count:
            yield f"{count} mounts instead of {wall.mount_count}", replace(wall, mount_count=count)
    for screw_mm in shop.space.screws_mm:
        if screw_mm < wall.screw_mm:
            yield f"sheet screws every {screw_mm} mm", replace(wall, screw_mm=screw_mm)
    for mount in shop.space.market.catalog.mounts:
        if mount != wall.mount:
            yield f"mounts of the kind {mount.name}", replace(wall, mount=mount)
