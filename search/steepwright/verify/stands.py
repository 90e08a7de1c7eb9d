"""What a freestanding frame asks for, and the least it can cost, by this checker's own means."""

from __future__ import annotations

import math
from collections import Counter
from functools import cache, lru_cache
from typing import Any

import numpy as np

from steepwright.verify.area import bar_stock
from steepwright.verify.bars import fillings
from steepwright.verify.narrow import gets_in
from steepwright.verify.packs import UNAVAILABLE_CENTS, pack_costs

Document = dict[str, Any]
Section = tuple[int, int]

ROW_D = 5.0
"""Distance of bolts in a row along the grain over their diameter, EN 1995-1-1 Table 8.4."""

END_D = 7.0
"""Distance of a bolt from a loaded end over its diameter, EN 1995-1-1 Table 8.4."""


def is_bought(beam: Document) -> bool:
    """Tell whether a frame below a beam, or a beam on ledgers, has to be bought."""
    rig = beam.get("stand") or beam.get("ledger") or beam.get("spreader")
    return rig is not None and not rig.get("owned", False)


def stand_pieces(factors: Document, beam: Document) -> dict[Section, Counter[int]]:
    """Return the lengths [mm] of each section, its shorter side first."""
    under = beam.get("spreader")
    if under:
        start, end = spreader_ends(factors, under)
        return {_section((beam["width_mm"], beam["depth_mm"])): Counter({end - start: 1})}
    if beam.get("ledger"):
        return _ledger_pieces(factors, beam)
    stand, d = beam["stand"], factors["frame_bolt_mm"]
    across, along = stand["post_mm"]
    post, brace = _section(stand["post_mm"]), _section(stand["brace_mm"])
    head = _section((beam["width_mm"], beam["depth_mm"]))
    ends = 2 * END_D * d + ROW_D * d * (factors["frame_bolts_per_joint"] - 1)
    out = stand["foot_mm"] - factors["frame_toe_mm"]
    pieces: dict[Section, Counter[int]] = {}
    for section, length, count in (
        (head, beam["span_mm"] + across, 1),
        (post, min(beam["underside_mm"]) - along, 2),
        (post, 2 * stand["foot_mm"], 2),
        (brace, math.ceil(math.hypot(out, stand["brace_up_mm"]) + ends), 4),
        (brace, math.ceil(math.sqrt(2.0) * factors["frame_knee_mm"] + ends), 2),
        (brace, math.ceil(factors["frame_cheek_mm"] + END_D * d + beam["depth_mm"] / 2), 4),
        (brace, math.ceil(3 * END_D * d + along / 2), 4),
    ):
        pieces.setdefault(section, Counter())[length] += count
    return pieces


def spreader_ends(factors: Document, under: Document) -> tuple[int, int]:
    """Return where a timber under joists begins and ends across the room [mm].

    Past the last screw's middle by its end distance: EN 1995-1-1 Tables 8.4, 8.6, or NDS 12.5.1.
    """
    screw = under["screw_mm"][0] + factors["spreader_screw_over_mm"]
    least = factors["spreader_end_d"] * screw, factors["spreader_end_mm"], under["joist_mm"][0] / 2
    past = math.ceil(max(least) - 1e-9)
    return min(under["joists_mm"]) - past, max(under["joists_mm"]) + past


def _ledger_pieces(factors: Document, beam: Document) -> dict[Section, Counter[int]]:
    ledger = beam["ledger"]
    row = (ledger["fixings"] - 1) * ledger["apart_mm"] + 2 * int(factors["ledger_end_mm"])
    pieces: dict[Section, Counter[int]] = {}
    across = _section((beam["width_mm"], beam["depth_mm"]))
    for section, length, count in (
        (across, beam["span_mm"], 1),
        (_section(ledger["section_mm"]), row, 2),
    ):
        pieces.setdefault(section, Counter())[length] += count
    return pieces


def _section(sides: Any) -> Section:
    return min(sides), max(sides)


def stuck_pieces(given: Document, room: Document, beam: Document) -> list[tuple[int, Section]]:
    """Return length [mm] and section of what has to be bought and doesn't get in, longest first."""
    if not is_bought(beam):
        return []
    made = stand_pieces(given["factors"], beam)
    rows = [(length, section) for section, lengths in made.items() for length in lengths]
    sides = np.array(
        [(length, max(section), min(section)) for length, section in rows], dtype=float
    )
    long, wide, thick = sides.T
    passed = gets_in(room["access"], (long, wide, thick))
    stuck = (row for row, fits in zip(rows, passed.tolist(), strict=True) if not fits)
    return sorted(stuck, reverse=True)


def stand_stock(given: Document, room: Document, beam: Document, delivered: int) -> Any:
    """Return a function from a section to the bars [rows] that a frame may be cut from."""
    vehicle = room["yard"]["vehicle_max_mm"]

    def of(section: Section) -> list[Document]:
        same = [
            group
            for group in given["sections"]
            if _section((group["width_mm"], group["depth_mm"])) == section
            and beam["grade"] in (None, group["strength_class"])
        ]
        rows = [row for group in same for row in bar_stock(group, vehicle, delivered)]
        return [row for row in rows if row["limit"] is None]

    return of


def bolts_needed(given: Document, beam: Document) -> Counter[int]:
    """Return how many bolts of each length on sale a frame takes; what nobody sells is left out."""
    factors, stand = given["factors"], beam.get("stand")
    if stand is None:
        return Counter()
    across, along = stand["post_mm"]
    thin, over = min(stand["brace_mm"]), int(factors["frame_bolt_over_mm"])
    deep, row = max(along, beam["width_mm"]), int(factors["frame_bolts_per_joint"])
    needed: Counter[int] = Counter()
    for least, count in (
        (thin + across + over, 8 * row),
        (thin + deep + over, 4 * row),
        (2 * thin + deep + over, 4),
        (2 * thin + across + over, 4),
    ):
        fit = [length for length, *_ in given["stand_bolts"] if length >= least]
        if fit:
            needed[min(fit)] += count
    return needed


def bolt_packs(given: Document, length_mm: int) -> list[list[Any]]:
    """Return the packs [sku, pieces, price] of the frame's bolts of one length."""
    return [pack for length, *pack in given["stand_bolts"] if length == length_mm]


def stand_cents(given: Document, room: Document, beam: Document, delivered: int) -> int:
    """Return the least cost of a frame [cents], `UNAVAILABLE_CENTS` when it can't be had."""
    if not is_bought(beam):
        return 0
    if stuck_pieces(given, room, beam):
        return UNAVAILABLE_CENTS
    kerf, stock_of = room["yard"]["kerf_mm"], stand_stock(given, room, beam, delivered)
    total = 0
    for section, pieces in stand_pieces(given["factors"], beam).items():
        cents = _least_bars_cents(pieces, stock_of(section), kerf)
        if cents >= UNAVAILABLE_CENTS:
            return UNAVAILABLE_CENTS
        total += cents
    for length, count in bolts_needed(given, beam).items():
        total += int(pack_costs(bolt_packs(given, length), count)[count])
    return total


def _least_bars_cents(pieces: Counter[int], stock: list[Document], kerf: int) -> int:
    """Return the least price of bars for some lengths [mm]."""
    lengths = tuple(sorted((mm + kerf for mm in pieces), reverse=True))
    bars = tuple((row["length_mm"] + kerf, row["price_cents"]) for row in stock)
    return _least_price(lengths, tuple(pieces[mm - kerf] for mm in lengths), bars)


@lru_cache(maxsize=1024)
def _least_price(
    lengths: tuple[int, ...], counts: tuple[int, ...], bars: tuple[tuple[int, int], ...]
) -> int:
    """Try every filling of every bar with the longest piece left, for all that may be left."""

    @cache
    def least(left: tuple[int, ...]) -> int:
        if not any(left):
            return 0
        longest = next(mm for mm, n in zip(lengths, left, strict=True) if n)
        best = UNAVAILABLE_CENTS
        for room, price in bars:
            for taken in fillings(lengths, left, room) if room >= longest else ():
                rest = tuple(a - b for a, b in zip(left, taken, strict=True))
                best = min(best, price + least(rest))
        return best

    return least(counts)
