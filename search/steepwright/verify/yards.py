"""Which sets of yards there are to buy from, and what fetching and delivery cost."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Any

from steepwright.verify.verdict import Verdict

Document = dict[str, Any]
Key = tuple[frozenset[str], frozenset[str]]
"""The yards of a set that charge for a trip, and those that deliver."""


def delivery_cents(given: Document, yard: Document) -> int:
    """Return what a delivered wall costs more than one that is fetched [cents].

    Each yard that delivers takes the room's delivery price in place of its trip, unless the
    trip costs more; when no yard is named, one delivery is paid.
    """
    trips = dict(given["trips"])
    price = int(yard["delivery_price_cents"])
    return sum(max(0, price - trips.get(name, 0)) for name in given["delivering"] or [""])


def key_of(part: Document) -> Key:
    """Return the set of yards that a part of the certificate is about."""
    given = part["given"]
    return frozenset(name for name, _ in given["trips"]), frozenset(given["delivering"])


def check_parts(parts: list[Document], room: Document, verdict: Verdict) -> None:
    """Make sure that every set of yards that sells what a wall is made of has its part.

    The last part is that of all yards; every other one must offer just what is left of it.
    """
    whole = parts[-1]["given"]
    found = {key_of(part): part["given"] for part in parts}
    if len(found) != len(parts):
        verdict.wrong("certificate-yards", "a set of yards has two parts", len(parts), len(found))
    for key in _sets(whole, room["yard"]):
        left = _left(whole, key, room["yard"])
        names = f"yards {sorted(key[0])}, delivered by {sorted(key[1])}"
        if key in found:
            if _offers(found.pop(key)) != left:
                verdict.wrong("certificate-yards", f"{names}: not what these sell")
        elif all(left) and any(f["for_the_board"] for f in whole["families"]):
            verdict.wrong("certificate-yards", f"{names}: nothing is shown for them")
    for key in found:
        verdict.wrong("certificate-yards", "a set of yards that is none", str(key))


def _sets(whole: Document, yard: Document) -> Iterator[Key]:
    """Yield every set of yards: that charge for a trip, and of those at hand that deliver."""
    most = int(whole["factors"]["search_yards_combined"])
    trips = dict(whole["trips"])
    price = int(yard["delivery_price_cents"])
    for fetched in _some(sorted(trips), most):
        away = set(trips) - set(fetched)
        large = {
            row["yard"]
            for row in _rows(whole)
            if row["yard"] and row["yard"] not in away and not _goes_in(row, yard)
        }
        extras = {name: max(0, price - trips.get(name, 0)) for name in large}
        free = frozenset(name for name, cents in extras.items() if not cents)
        paid = sorted(name for name, cents in extras.items() if cents)
        delivering = [free | set(some) for some in _some(paid, most)]
        for names in [one for one in delivering if one] or [frozenset()]:
            yield frozenset(fetched), frozenset(names)


def _some(names: list[str], most: int) -> Iterator[tuple[str, ...]]:
    sizes = range(len(names) + 1) if len(names) <= most else (0, 1, len(names))
    for size in sizes:
        yield from combinations(names, size)


def _rows(given: Document) -> Iterator[Document]:
    for group in (*given["families"], *given["sections"]):
        yield from group["stock"]


def _goes_in(row: Document, yard: Document) -> bool:
    """Tell whether a sheet or a bar of full size goes into the builder's vehicle."""
    return fits_vehicle(yard, row["length_mm"], row.get("width_mm", 0))


def fits_vehicle(yard: Document, length_mm: int, width_mm: int) -> bool:
    """Tell whether a piece lies flat in the builder's vehicle."""
    vehicle = yard["vehicle_max_mm"]
    if vehicle is None:
        return True
    long, short = max(length_mm, width_mm), min(length_mm, width_mm)
    return bool(long <= max(vehicle) and short <= min(vehicle))


Offers = tuple[list[Any], list[Any], list[Any]]


def _left(whole: Document, key: Key, yard: Document) -> Offers:
    """Return the sheets, bars and mounts that a set of yards sells, of all that are sold."""
    fetched, delivering = key
    away = {name for name, _ in whole["trips"]} - fetched

    def kept(row: Document) -> bool:
        if row["yard"] in away:
            return False
        return not row["yard"] or row["yard"] in delivering or _goes_in(row, yard)

    sheets, bars, mounts = _offers(whole)
    return (
        [(sku, row) for sku, row in sheets if kept(row)],
        [(sku, row) for sku, row in bars if kept(row)],
        [(sku, row) for sku, row in mounts if row["yard"] not in away],
    )


def _offers(given: Document) -> Offers:
    return (
        sorted(((row["sku"], row) for f in given["families"] for row in f["stock"]), key=_first),
        sorted(((row["sku"], row) for s in given["sections"] for row in s["stock"]), key=_first),
        sorted(((row["sku"], row) for row in given["mounts"]), key=_first),
    )


def _first(pair: tuple[str, Document]) -> str:
    return pair[0]
