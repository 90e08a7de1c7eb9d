"""Small parts: how many a wall asks for, and what whole packs of them cost, by its own tables."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

IntArray = npt.NDArray[np.int64]
Document = dict[str, Any]

UNAVAILABLE_CENTS = 10**11
"""Stands for what nobody sells; the same figure as the search's, far above any bill."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """What the numbers of small parts depend on; arrays of one length, lengths in mm."""

    studs: IntArray
    columns: IntArray
    rows: IntArray
    board_mm: IntArray
    kicker_mm: IntArray
    width_mm: IntArray
    mounts: int
    screw_mm: int


def needed_parts(factors: Document, wall: Document, sizes: Sizes) -> dict[str, IntArray]:
    """Return how many pieces of each article are needed; rope in metres."""
    pitch = sizes.screw_mm
    stands = (sizes.kicker_mm > 0).astype(np.int64)
    across = sizes.width_mm // pitch + 1
    # A seam has a line of screws on either side.
    lines = sizes.studs + sizes.columns - 1
    sheet = lines * (sizes.board_mm // pitch + 1) + 2 * across * sizes.rows
    sheet = sheet + stands * (lines * (sizes.kicker_mm // pitch + 1) + 2 * across)
    joints = 2 * sizes.studs + 2 * (sizes.rows - 1) * (sizes.studs - 1) + stands * 2 * sizes.studs
    folds = int(wall["fold_up"])
    # As many hold every stud, or its upright, to the floor; and to a kicker without hinges.
    joints = joints + sizes.studs * (1 + (stands if not folds else 0))
    hinges = -(-sizes.width_mm // int(factors["kicker_hinge_spacing_mm"])) + 1
    rope = -(-int(factors["fold_rope_board_lengths"]) * sizes.board_mm // 1000)
    one = np.ones_like(sizes.studs)
    margin, step = int(factors["hold_edge_margin_mm"]), int(wall["hold_spacing_mm"])
    up = np.maximum(sizes.board_mm - 2 * margin, 0) // step + 1
    wide = np.maximum(sizes.width_mm - 2 * margin, 0) // step + 1
    return {
        "sheet screw": sheet,
        "frame screw": joints * int(factors["frame_screws_per_joint"]),
        "lip bolt": sizes.mounts * int(factors["lip_bolts"]) * one,
        "tnut": up * wide,
        "hinge": folds * stands * hinges,
        "rope": folds * rope,
        "pulley": folds * int(factors["hoist_lines"] + factors["hoist_parts"]) * one,
        "brake": folds * one,
        "latch": folds * int(factors["hoist_latches"]) * one,
        "strap": folds * int(factors["hoist_lines"]) * one,
    }


def pack_costs(packs: list[list[Any]] | None, most: int) -> IntArray:
    """Return the least cost [cents] of 0 ... `most` pieces in whole packs of one type."""
    cost = np.zeros(most + 1, dtype=np.int64)
    if packs is None:
        cost[1:] = UNAVAILABLE_CENTS
        return cost
    sizes = [(int(pieces), int(cents)) for _, pieces, cents in packs]
    values = [0]
    for count in range(1, most + 1):
        values.append(min(cents + values[max(0, count - pieces)] for pieces, cents in sizes))
    return np.array(values, dtype=np.int64)


def article_costs(types: list[list[list[Any]]] | None, most: int) -> IntArray:
    """Return the least cost [cents] of 0 ... `most` pieces of the type that is cheapest then."""
    if types is None:
        return pack_costs(None, most)
    return np.asarray(np.min([pack_costs(packs, most) for packs in types], axis=0))


def _bolt_costs(packs: list[list[Any]] | None, most: int) -> IntArray:
    """Return the cost of bolts; those that the yard lacks are no part of the bill."""
    return np.zeros(most + 1, dtype=np.int64) if packs is None else pack_costs(packs, most)


OF_A_PRODUCT = ("sheet screw", "frame screw", "lip bolt")
"""Articles that go with a sheet or a section; the others are the same for every wall."""


@dataclass(frozen=True, slots=True)
class SmallParts:
    """Prices small parts [cents]: packs by family, by section, and of every other article."""

    factors: Document
    wall: Document
    by_family: list[IntArray]
    by_section: list[IntArray]
    bolts: list[IntArray]
    others: dict[str, IntArray]
    trips_cents: int

    def cost_cents(self, family: IntArray, section: IntArray, sizes: Sizes) -> IntArray:
        """Return trips and small parts without the mounts, per row."""
        need = needed_parts(self.factors, self.wall, sizes)
        total = np.full(len(family), self.trips_cents, dtype=np.int64)
        for index, table in enumerate(self.by_family):
            rows = family == index
            total[rows] += table[need["sheet screw"][rows]]
        for index, (screws, bolts) in enumerate(zip(self.by_section, self.bolts, strict=True)):
            rows = section == index
            total[rows] += screws[need["frame screw"][rows]] + bolts[need["lip bolt"][rows]]
        for article, table in self.others.items():
            total += table[need[article]]
        return total


def small_parts(given: Document, wall: Document, largest: Sizes) -> SmallParts:
    """Set up the tables, large enough for the largest wall.

    Raises
    ------
    KeyError
        When an article that walls need is missing in what is given.
    """
    most = {k: int(v.max()) for k, v in needed_parts(given["factors"], wall, largest).items()}
    known: dict[str, IntArray] = {}

    def table(packs: Any, article: str) -> IntArray:
        key = f"{article} {packs}"
        if key not in known:
            known[key] = pack_costs(packs, most[article])
        return known[key]

    articles = given["articles"]
    return SmallParts(
        given["factors"],
        wall,
        [table(f["screw_packs"], "sheet screw") for f in given["families"]],
        [table(s["screw_packs"], "frame screw") for s in given["sections"]],
        [_bolt_costs(s["bolt_packs"], most["lip bolt"]) for s in given["sections"]],
        {
            name: article_costs(articles[name], most[name])
            for name in most
            if name not in OF_A_PRODUCT
        },
        sum(cents for _, cents in given["trips"]),
    )
