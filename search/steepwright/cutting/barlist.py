"""A list of lengths as the bar search sees it: long and short pieces, and ways to use a bar.

Long pieces are placed one by one. Short ones, of which a frame has many, are poured at first and
really fitted at the end. All lengths are inflated by the kerf.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

SHORT_SHARE = 4
"""Pieces of which this many fit the longest bar are short."""

Counts = tuple[int, ...]
"""Numbers of pieces, one per type."""


class BarType(NamedTuple):
    """Equal pieces: length inflated by the kerf [mm] and how many are needed."""

    length: int
    needed: int


class BarOffer(NamedTuple):
    """A stock length inflated by the kerf [mm], its price [cents] and how many there are."""

    length: int
    price: int
    limit: int | None


class Use(NamedTuple):
    """A way to use a bar: long pieces by type, room left for short ones [mm], price, offer."""

    pieces: Counts
    room: int
    price: int
    offer: int


@dataclass(frozen=True, slots=True)
class BarList:
    """Types longest first, the offers, and the ways to use a bar, longer pieces first.

    `room` of a use is the largest sum of short pieces that fits beside the long ones.
    """

    long: tuple[BarType, ...]
    short: tuple[BarType, ...]
    offers: tuple[BarOffer, ...]
    uses: tuple[Use, ...]

    @property
    def capped(self) -> tuple[int, ...]:
        """The offers with a limit."""
        return tuple(i for i, o in enumerate(self.offers) if o.limit is not None)

    @property
    def short_mm(self) -> int:
        """All short pieces together [mm]."""
        return sum(t.length * t.needed for t in self.short)


def bar_list(types: tuple[BarType, ...], offers: tuple[BarOffer, ...]) -> BarList:
    """Return the list with its uses.

    A use is needless, and left out, when an unlimited offer holds the same long pieces with as
    much room for short ones at no higher price: what fits the one then fits the other.
    """
    reach = max((o.length for o in offers), default=0)
    long = tuple(t for t in types if t.length * SHORT_SHARE > reach)
    short = types[len(long) :]
    sums = _short_sums(short)
    by_pieces: dict[Counts, list[Use]] = {}
    for index, offer in enumerate(offers):
        for pieces, left in _fillings(long, offer.length):
            room = (sums & (2 << left) - 1).bit_length() - 1
            if room or any(pieces):
                by_pieces.setdefault(pieces, []).append(Use(pieces, room, offer.price, index))
    uses: list[Use] = []
    for _, group in sorted(by_pieces.items(), reverse=True):
        uses += _needed_uses(group, offers)
    return BarList(long, short, offers, tuple(uses))


def _needed_uses(group: list[Use], offers: tuple[BarOffer, ...]) -> Iterator[Use]:
    group.sort(key=lambda u: (u.price, -u.room, offers[u.offer].limit is not None, u.offer))
    most = -1
    for use in group:
        if use.room > most:
            yield use
            if offers[use.offer].limit is None:
                most = use.room


@lru_cache(maxsize=64)
def _short_sums(short: tuple[BarType, ...]) -> int:
    """Return the sums that short pieces can make, as the bits of one integer."""
    sums = 1
    for length, needed in short:
        step = 1
        while needed > 0:
            taken = min(step, needed)
            sums |= sums << taken * length
            needed -= taken
            step *= 2
    return sums


def _fillings(types: tuple[BarType, ...], room: int) -> list[tuple[Counts, int]]:
    """Return every choice of pieces for a bar, with the length that is left."""
    found: list[tuple[Counts, int]] = [((), room)]
    for length, needed in types:
        found = [
            ((*pieces, number), left - number * length)
            for pieces, left in found
            for number in range(min(needed, left // length) + 1)
        ]
    return found


def maximal(types: tuple[BarType, ...], left: Counts, room: int) -> list[tuple[int, Counts]]:
    """Return (length, counts) of every choice of pieces to which none still left can be added.

    Parameters
    ----------
    types
        The types of pieces.
    left
        How many of each are still there.
    room
        The length to be filled [mm].
    """
    found: list[tuple[Counts, int, int]] = [((), 0, room + 1)]
    for (length, _), most in zip(types, left, strict=True):
        grown = []
        for counts, used, shortest in found:
            free = (room - used) // length
            for number in range(min(most, free) + 1):
                # The shortest type of which one more is there must not fit in the end.
                open_ = length if number < most and length < shortest else shortest
                grown.append(((*counts, number), used + number * length, open_))
        found = grown
    return [(used, counts) for counts, used, shortest in found if room - used < shortest]
