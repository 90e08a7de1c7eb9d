"""Whether short pieces fit the rooms that a plan leaves for them: exact, by exhaustion."""

from __future__ import annotations

from steepwright.cutting.barlist import BarType, Counts, maximal


def pack(short: tuple[BarType, ...], rooms: tuple[int, ...]) -> list[Counts] | None:
    """Return how many pieces of each type go into each room, None when they don't all fit.

    The rooms are filled one after another, the narrowest first, each with pieces to which none
    that is still there can be added (a room may always be filled up: it only helps the rest).
    """
    order = sorted(range(len(rooms)), key=lambda i: rooms[i])
    behind = [0]
    for i in reversed(order):
        behind.append(behind[-1] + rooms[i])
    behind.reverse()
    failed: set[tuple[int, Counts]] = set()

    def place(position: int, left: Counts) -> list[Counts] | None:
        if not any(left):
            return [left] * (len(order) - position)
        need = sum(n * t.length for n, t in zip(left, short, strict=True))
        if need > behind[position] or (position, left) in failed:
            return None
        ways = sorted(maximal(short, left, rooms[order[position]]), reverse=True)
        for _, taken in ways:
            rest = place(position + 1, tuple(a - b for a, b in zip(left, taken, strict=True)))
            if rest is not None:
                return [taken, *rest]
        failed.add((position, left))
        return None

    placed = place(0, tuple(t.needed for t in short))
    if placed is None:
        return None
    return [taken for _, taken in sorted(zip(order, placed, strict=True))]
