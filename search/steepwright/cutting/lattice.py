"""Counts packed into one integer each, and the sub-multisets of a list of counts.

A code is a row of bit fields, one per type, each one bit wider than its count needs; that spare
guard bit stays 0. Codes then add and subtract like vectors, a sub-multiset's code is never
larger than the code of what contains it, and `a` lies inside `m` exactly when subtracting it
from `m` with all guards set borrows none: ``(m | guards) - a & guards == guards``.
"""

from __future__ import annotations

from functools import lru_cache

MEMO_STATES = 1024
"""Lattices up to this size keep the splits of every state: the search revisits them."""


class Packing:
    """The code of sub-multisets that take at most `counts[i]` of type i."""

    __slots__ = ("_fields", "_shifts", "_type_of", "counts", "full", "guards", "units")

    def __init__(self, counts: tuple[int, ...]) -> None:
        shifts, guards, shift = [], 0, 0
        self._type_of: list[int] = []
        for number, count in enumerate(counts):
            shifts.append(shift)
            shift += count.bit_length() + 1
            self._type_of += [number] * (shift - len(self._type_of))
            guards |= 1 << (shift - 1)
        self.counts = counts
        self._shifts = tuple(shifts)
        self._fields = tuple((1 << count.bit_length()) - 1 for count in counts)
        self.guards = guards
        self.units = tuple(1 << s for s in shifts)
        self.full = self.code(counts)

    def code(self, digits: tuple[int, ...]) -> int:
        """Return the code of counts, one per type and none above its most."""
        return sum(d * u for d, u in zip(digits, self.units, strict=True))

    def digits(self, code: int) -> tuple[int, ...]:
        """Return the counts that a code stands for."""
        return tuple(
            code >> shift & field for shift, field in zip(self._shifts, self._fields, strict=True)
        )

    def lowest(self, code: int) -> int:
        """Return the first type of which a code, not the empty one, has some."""
        return self._type_of[(code & -code).bit_length() - 1]


class Lattice(Packing):
    """All sub-multisets of `counts`, in an order in which parts come before wholes.

    `wholes` lists the codes of two parts or more, each with the codes of one part less.
    """

    __slots__ = ("_memo", "states", "wholes")

    def __init__(self, counts: tuple[int, ...]) -> None:
        super().__init__(counts)
        self.states = tuple(sorted(self.inside(self.full)))
        singles = {0, *self.units}
        self.wholes = tuple((c, self.one_fewer(c)) for c in self.states if c not in singles)
        self._memo: dict[int, tuple[tuple[int, int], ...]] = {}

    def inside(self, code: int) -> list[int]:
        """Return the codes of all sub-multisets of `code`, the empty one and itself included."""
        codes = [0]
        for digit, unit in zip(self.digits(code), self.units, strict=True):
            codes = [c + step for step in range(0, (digit + 1) * unit, unit) for c in codes]
        return codes

    def splits(self, code: int) -> tuple[tuple[int, int], ...]:
        """Return every way to divide `code` into two non-empty parts, each pair once."""
        found = self._memo.get(code)
        if found is None:
            found = tuple(
                (part, code - part) for part in sorted(self.inside(code)) if 0 < part <= code - part
            )
            if len(self.states) <= MEMO_STATES:
                self._memo[code] = found
        return found

    def one_fewer(self, code: int) -> tuple[int, ...]:
        """Return the codes with one part less, for every type that `code` has."""
        return tuple(
            code - unit for digit, unit in zip(self.digits(code), self.units, strict=True) if digit
        )


@lru_cache(maxsize=64)
def lattice(counts: tuple[int, ...]) -> Lattice:
    """Return the lattice of `counts`; kept, because a search meets few different counts."""
    return Lattice(counts)
