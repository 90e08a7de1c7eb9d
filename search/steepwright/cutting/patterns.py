"""Every way to fill a bar: the demand-maximal patterns of a list of lengths."""

from __future__ import annotations

from typing import NamedTuple


class BarType(NamedTuple):
    """Equal pieces: length inflated by the kerf [mm] and how many are needed."""

    length: int
    needed: int


class BarOffer(NamedTuple):
    """A stock length inflated by the kerf [mm], its price [cents] and how many there are."""

    length: int
    price: int
    limit: int | None


class Pattern(NamedTuple):
    """How many pieces of each type come from one bar of an offer."""

    pieces: tuple[int, ...]
    offer: int


def useful_offers(offers: tuple[BarOffer, ...]) -> tuple[int, ...]:
    """Return the offers for which no other is as long, as cheap and without limit."""

    def beaten(i: int) -> bool:
        mine = offers[i]
        for j, other in enumerate(offers):
            if j == i or other.limit is not None:
                continue
            if other.length >= mine.length and other.price <= mine.price:
                same = other[:2] == mine[:2] and mine.limit is None
                if not same or j < i:
                    return True
        return False

    return tuple(i for i in range(len(offers)) if not beaten(i))


def fillings(types: tuple[BarType, ...], length: int, at_least: int) -> list[tuple[int, ...]]:
    """Return the patterns of one bar to which no needed piece can be added.

    Patterns whose pieces together are not longer than `at_least` are left out: a bar of that
    length holds them too. The types are sorted, longest first.
    """
    last = len(types) - 1
    tails = [0] * (len(types) + 1)
    for i in range(last, -1, -1):
        tails[i] = tails[i + 1] + types[i].length * types[i].needed
    found: list[tuple[int, ...]] = []
    chosen = [0] * len(types)

    def fill(i: int, room: int, shortest_open: int) -> None:
        # `shortest_open` is the shortest type, so far, of which one more piece is needed. All
        # later pieces together can't use up the room down to it: then nothing here is maximal.
        if room - tails[i] >= shortest_open:
            return
        size, count = types[i]
        most = min(count, room // size)
        if i == last:
            chosen[i] = most
            rest = room - most * size
            if rest < shortest_open and length - rest > at_least:
                found.append(tuple(chosen))
            return
        for number in range(most, -1, -1):
            chosen[i] = number
            open_size = size if number < count and size < shortest_open else shortest_open
            fill(i + 1, room - number * size, open_size)

    fill(0, length, length + 1)
    return found


def all_patterns(types: tuple[BarType, ...], offers: tuple[BarOffer, ...]) -> list[Pattern]:
    """Return the maximal patterns of every useful offer.

    A pattern that a shorter unlimited offer, not dearer, holds too is left out.
    """
    patterns = []
    useful = useful_offers(offers)
    for i in useful:
        offer = offers[i]
        covered = max(
            (
                offers[j].length
                for j in useful
                if offers[j].limit is None
                and offers[j].length < offer.length
                and offers[j].price <= offer.price
            ),
            default=0,
        )
        patterns += [Pattern(p, i) for p in fillings(types, offer.length, covered) if any(p)]
    return patterns
