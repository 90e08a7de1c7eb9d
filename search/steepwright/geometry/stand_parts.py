"""What is bought to hang from, piece by piece: a freestanding frame, or a beam on two ledgers."""

from __future__ import annotations

import math
from dataclasses import dataclass

from steepwright.catalog.types import Factors
from steepwright.geometry.access import passes_mask
from steepwright.room.spreader_ends import spreader_ends_mm
from steepwright.room.types import Access, Beam, Ledger, Room, Solid, Stand


@dataclass(frozen=True, slots=True)
class StandPart:
    """`count` equal pieces of one section [mm], the shorter side first."""

    name: str
    section_mm: tuple[int, int]
    length_mm: int
    count: int


@dataclass(frozen=True, slots=True)
class StandBolts:
    """`count` bolts that must be at least so long to pass timber, washers and a nut [mm].

    `joint` tells in words where they go.
    """

    least_mm: int
    count: int
    joint: str


def bought_parts(factors: Factors, beam: Beam) -> tuple[StandPart, ...]:
    """Return the timber to buy for what a wall hangs from.

    A frame, a beam on two ledgers, or a timber as far past the screws in its outermost joists as
    these ask.
    """
    if beam.stand is not None and not beam.stand.owned:
        return stand_parts(factors, beam, beam.stand)
    if beam.ledger is not None and not beam.ledger.owned:
        return ledger_parts(factors, beam, beam.ledger)
    if beam.spreader is not None and not beam.spreader.owned:
        start, end = spreader_ends_mm(factors, beam.spreader)
        return (StandPart("spreader", _sides((beam.width_mm, beam.depth_mm)), end - start, 1),)
    return ()


def left_outside(factors: Factors, access: Access, beam: Beam) -> tuple[StandPart, ...]:
    """Return the timber to buy that doesn't get in by the way told, sawn to its length."""
    return tuple(
        part
        for part in bought_parts(factors, beam)
        if not passes_mask(access, float(part.length_mm), *part.section_mm[::-1])
    )


def ledger_parts(factors: Factors, beam: Beam, ledger: Ledger) -> tuple[StandPart, ...]:
    """Return a beam from wall to wall and the two ledgers it lies on, longer than their fixings."""
    row = (ledger.fixings - 1) * ledger.apart_mm + 2 * int(factors["ledger_end_mm"])
    return (
        StandPart("ledger beam", _sides((beam.width_mm, beam.depth_mm)), beam.span_mm, 1),
        StandPart("ledger", _sides(ledger.section_mm), row, 2),
    )


def brace_reach_mm(factors: Factors, stand: Stand) -> float:
    """Return how far along the foot, from its post's middle line, a brace is joined [mm]."""
    return stand.foot_mm - factors["frame_toe_mm"]


def stand_parts(factors: Factors, beam: Beam, stand: Stand) -> tuple[StandPart, ...]:
    """Return the timber of one frame.

    The head beam lies on the posts and these on their feet, which lie as deep as the posts are
    along the room. Braces run 7 d past the last bolt of a row with 5 d between them, and so do the
    cheeks, which clasp a post and what it meets with one bolt in each, 7 d from the post's end
    (EN 1995-1-1 Table 8.4).
    """
    post, brace = _sides(stand.post_mm), _sides(stand.brace_mm)
    head = _sides((beam.width_mm, beam.depth_mm))
    across, along = stand.post_mm
    d, knee = factors["frame_bolt_mm"], factors["frame_knee_mm"]
    up = factors["frame_cheek_mm"] + 7.0 * d
    row = 2.0 * 7.0 * d + (factors["frame_bolts_per_joint"] - 1.0) * 5.0 * d
    long_brace = math.hypot(brace_reach_mm(factors, stand), stand.brace_up_mm)
    return (
        StandPart("frame head beam", head, beam.span_mm + across, 1),
        StandPart("frame post", post, min(beam.underside_mm) - along, 2),
        StandPart("frame foot", post, 2 * stand.foot_mm, 2),
        StandPart("frame brace", brace, math.ceil(long_brace + row), 4),
        StandPart("frame knee brace", brace, math.ceil(math.sqrt(2.0) * knee + row), 2),
        StandPart("frame head cheek", brace, math.ceil(up + beam.depth_mm / 2.0), 4),
        StandPart("frame foot cheek", brace, math.ceil(21.0 * d + along / 2.0), 4),
    )


def stand_bolts(factors: Factors, beam: Beam, stand: Stand) -> tuple[StandBolts, ...]:
    """Return the bolts of one frame: braces along it and across, cheeks at the head and the feet.

    A brace lies flat on its post, foot or head beam; two cheeks clasp theirs, packed flush.
    """
    across, along = stand.post_mm
    thin, row = min(stand.brace_mm), int(factors["frame_bolts_per_joint"])
    over, deep = int(factors["frame_bolt_over_mm"]), max(along, beam.width_mm)
    return (
        StandBolts(thin + across + over, 8 * row, "both ends of the braces"),
        StandBolts(thin + deep + over, 4 * row, "both ends of the knee braces"),
        StandBolts(2 * thin + deep + over, 4, "the cheeks at the head beam"),
        StandBolts(2 * thin + across + over, 4, "the cheeks at the feet"),
    )


def stand_solids(room: Room, beam: Beam) -> tuple[Solid, ...]:
    """Return both sides of the frame below a head beam, posts and feet together, as solids."""
    stand = beam.stand
    if stand is None:
        return ()
    along = beam.x_mm - stand.foot_mm, beam.x_mm + stand.foot_mm
    half, top = stand.post_mm[0] // 2, min(beam.underside_mm)
    middles = ((room.width_mm + way * beam.span_mm) // 2 for way in (-1, 1))
    return tuple(Solid("side of the frame", along, (y - half, y + half), (0, top)) for y in middles)


def _sides(section_mm: tuple[int, int]) -> tuple[int, int]:
    return min(section_mm), max(section_mm)
