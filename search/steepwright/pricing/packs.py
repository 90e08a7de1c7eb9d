"""Whole packs: the cheapest mix of pack sizes that holds at least a quantity."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
import numpy.typing as npt

STEP = 256
"""Tables are made for a multiple of so many pieces: more is then known already."""


@dataclass(frozen=True)
class PackTable:
    """Cheapest cost of at least q pieces, for all q up to `most`, by exhaustive recursion.

    Attributes
    ----------
    packs
        (sku, pieces in the pack, price [cents]) of one and the same article.
    most
        Largest quantity asked for.
    """

    packs: tuple[tuple[str, int, int], ...]
    most: int

    @cached_property
    def cents(self) -> npt.NDArray[np.int64]:
        """The cheapest cost [cents] by quantity; non-decreasing."""
        return self._table[0][: self.most + 1]

    @property
    def _table(self) -> tuple[npt.NDArray[np.int64], list[int]]:
        return _table(self.packs, -(-self.most // STEP) * STEP)

    def cost_cents(self, quantity: npt.NDArray[np.int64]) -> npt.NDArray[np.int64]:
        """Return the cheapest cost [cents] for each quantity."""
        return self.cents[quantity]

    def buy(self, quantity: int) -> tuple[tuple[str, int], ...]:
        """Return the cheapest packs as (sku, number of packs), sorted by sku."""
        counts: dict[str, int] = {}
        choice = self._table[1]
        while quantity > 0:
            sku, pieces, _ = self.packs[choice[quantity]]
            counts[sku] = counts.get(sku, 0) + 1
            quantity = max(0, quantity - pieces)
        return tuple(sorted(counts.items()))


@lru_cache(maxsize=1024)
def _table(
    packs: tuple[tuple[str, int, int], ...], most: int
) -> tuple[npt.NDArray[np.int64], list[int]]:
    """Return cost [cents] and first pack by quantity; many spaces ask for the same."""
    cost, choice = [0], [-1]
    for quantity in range(1, most + 1):
        options = [
            (cost[max(0, quantity - pieces)] + price, i)
            for i, (_, pieces, price) in enumerate(packs)
        ]
        best, first = min(options)
        cost.append(best)
        choice.append(first)
    return np.array(cost, dtype=np.int64), choice


@dataclass(frozen=True)
class CheapestOf:
    """Several types of one article: for each quantity the type that is cheapest then."""

    tables: tuple[PackTable, ...]

    @property
    def packs(self) -> tuple[tuple[str, int, int], ...]:
        """All packs of all types."""
        return tuple(pack for table in self.tables for pack in table.packs)

    @cached_property
    def cents(self) -> npt.NDArray[np.int64]:
        """The cheapest cost [cents] by quantity; non-decreasing."""
        return np.asarray(np.stack([table.cents for table in self.tables]).min(axis=0))

    def cost_cents(self, quantity: npt.NDArray[np.int64]) -> npt.NDArray[np.int64]:
        """Return the cheapest cost [cents] for each quantity."""
        return self.cents[quantity]

    def buy(self, quantity: int) -> tuple[tuple[str, int], ...]:
        """Return the packs of the cheapest type as (sku, number of packs)."""
        asked = np.array([quantity], dtype=np.int64)
        return min(self.tables, key=lambda table: int(table.cost_cents(asked)[0])).buy(quantity)


def pack_table(products: Sequence[object], most: int) -> PackTable | None:
    """Return the pack table of catalogue rows of one article, or None when there are no rows."""
    rows = tuple(
        sorted((p.sku, p.pack_quantity, p.price_cents) for p in products)  # type: ignore[attr-defined]
    )
    return PackTable(rows, most) if rows else None
