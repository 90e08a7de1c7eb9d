"""A catalogue's tables, read with the standard library alone: rows of text by their key."""

from __future__ import annotations

import csv
import itertools
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path

Row = dict[str, str]
CATALOGS = Path(__file__).resolve().parents[2] / "catalogs"


@dataclass(frozen=True)
class Shop:
    """What is for sale and what it is made of."""

    sheets: dict[str, Row]
    timber: dict[str, Row]
    mounts: dict[str, Row]
    screws: dict[str, Row]
    hardware: dict[str, Row]
    panels: dict[str, Row]
    classes: dict[str, Row]
    factors: dict[str, float]
    code: str = "EN 1995"


def table(path: Path, key: str) -> dict[str, Row]:
    with path.open(encoding="utf-8-sig", newline="") as stream:
        return {row[key]: row for row in csv.DictReader(stream)}


def read_shop(yard: Path = CATALOGS / "yard", materials: Path = CATALOGS / "materials") -> Shop:
    """Read a yard's folder and the material tables."""
    factors = table(materials / "factors.csv", "key")
    return Shop(
        sheets=table(yard / "sheets.csv", "sku"),
        timber=table(yard / "timber.csv", "sku"),
        mounts=table(yard / "mounts.csv", "name"),
        screws=table(yard / "screws.csv", "sku"),
        hardware=table(yard / "hardware.csv", "sku"),
        panels=table(materials / "panels.csv", "id"),
        classes=table(materials / "timber_classes.csv", "name"),
        factors={key: float(row["value"]) for key, row in factors.items()},
    )


def in_class(shop: Shop, service_class: int) -> Shop:
    """Return the shop with kmod and kdef of a service class; Tables 3.1 and 3.2."""
    f = dict(shop.factors)
    if service_class == 2:
        f |= {"kdef_solid": 0.8, "kdef_plywood": 1.0, "kdef_osb3": 2.25, "kmod_osb3_short": 0.7}
    return replace(shop, factors=f)


def cents(text: str) -> int:
    """Return a price as integer cents."""
    return int(Decimal(text) * 100)


def num(row: Row, key: str) -> float:
    """Return a cell as a number."""
    return float(row[key])


def pieces(row: Row) -> int:
    """Return how many pieces a pack holds; metres of a rope."""
    count = int(row["pack_quantity"])
    return count * int(row["length_mm"]) // 1000 if row.get("kind") == "rope" else count


def least_cents(packs: list[tuple[int, int]], need: int) -> int:
    """Return the least price of packs (pieces, cents) that hold `need` pieces together."""
    most = [-(-need // size) for size, _ in packs]
    best = None
    for counts in itertools.product(*(range(n + 1) for n in most)):
        if sum(n * size for n, (size, _) in zip(counts, packs, strict=True)) >= need:
            price = sum(n * price for n, (_, price) in zip(counts, packs, strict=True))
            best = price if best is None else min(best, price)
    assert best is not None
    return best
