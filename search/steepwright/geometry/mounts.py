"""Where the mounts sit along the lip rail, where their bolts go, and what that levers.

A mount at an inner stud has its bolts on both sides of the stud. At an outer stud, flush with the
rail's end, all of them stand on the inner side, as far from the rail's end as bolts must be.
"""

from __future__ import annotations

import math
from itertools import pairwise

from steepwright.catalog.types import Factors

LEAST_GAP_MM = 1.0
"""Between mounts' middles, where they would overlap: a load that nothing holds comes of it."""


def beside_mm(factors: Factors, stud_mm: float) -> float:
    """Return how far a bolt is from the middle of the stud beside it [mm].

    Its washer, of three diameters, touches the stud.
    """
    return stud_mm / 2.0 + 1.5 * factors["lip_bolt_mm"]


def bolts_long_mm(factors: Factors) -> float:
    """Return the distance of the first from the last of a mount's bolts in one row [mm].

    EN 1995-1-1 Table 8.4, a1 square to the grain.
    """
    between = factors["lip_bolts"] - 1.0
    return between * factors["lip_bolt_apart_d"] * factors["lip_bolt_mm"]


def outer_bolt_mm(factors: Factors, stud_mm: float) -> int:
    """Return how far an outer mount's first bolt is from the lip rail's end [mm].

    EN 1995-1-1 Table 8.4, a3,t, or NDS Table 12.5.1A; never so near that its washer is on the
    outer stud.
    """
    asked = max(factors["lip_bolt_end_d"] * factors["lip_bolt_mm"], factors["lip_bolt_end_mm"])
    clear = stud_mm / 2.0 + beside_mm(factors, stud_mm)
    return math.ceil(max(asked, clear) - 1e-9)


def over_mm(factors: Factors, stud_mm: float) -> float:
    """Return how far an outer stud's middle lies beyond that of its mount [mm]."""
    middle = outer_bolt_mm(factors, stud_mm) + bolts_long_mm(factors) / 2.0
    return middle - stud_mm / 2.0


def mount_centres(centres_mm: tuple[float, ...], mounts: int, over_mm: float) -> tuple[float, ...]:
    """Return where the mounts sit [mm]: at studs, spread evenly, the outer ones further in."""
    last = len(centres_mm) - 1
    at = [centres_mm[round(i * last / (mounts - 1))] for i in range(mounts)]
    return (at[0] + over_mm, *at[1:-1], at[-1] - over_mm)


def bolt_places(
    factors: Factors, centres_mm: tuple[float, ...], mounts: int
) -> tuple[tuple[float, ...], ...]:
    """Return where along the rail each mount's bolts go [mm], from the wall's left edge."""
    stud = 2.0 * centres_mm[0]
    number, long = round(factors["lip_bolts"]), bolts_long_mm(factors)
    inside = mount_centres(centres_mm, mounts, over_mm(factors, stud))
    half = [long / 2.0, *[beside_mm(factors, stud)] * (mounts - 2), long / 2.0]
    steps = [2.0 * i / (number - 1) - 1.0 for i in range(number)]
    return tuple(
        tuple(at + step * far for step in steps) for at, far in zip(inside, half, strict=True)
    )


def tip_load(places_mm: tuple[float, ...], over_mm: float) -> tuple[float, float]:
    """Return the loads on the first and the last mount by one at the outer stud beyond it [-].

    The rail is a beam that goes through over mounts that don't give. A load F at e beyond the
    first, M0 = F e there, brings it F + (M0 + M1) / g, with M1 the moment over the second the other
    way round. By the three-moment equation 2 M1 (g + h) = M0 g + M2 h, and M2 <= M1 / 2, so
    M1 <= M0 g / (2 g + 1.5 h); g and h are the first two gaps. Both parts fall with either gap.
    """
    gaps = _gaps_mm(places_mm)
    return levered(gaps, over_mm), levered(gaps[::-1], over_mm)


def lost_load(places_mm: tuple[float, ...], over_mm: float) -> tuple[float, float]:
    """Return the loads on the mounts beside a lost outer one by one at the outer stud [-].

    The first mount lost comes first. The rail then hangs over the next one by a gap more, and the
    mounts that are left bear it as `tip_load` has it. Where a single one is left nothing levers: it
    and the board's foot bear a rigid board, and the load comes to it whole.
    """
    gaps = _gaps_mm(places_mm)
    if len(gaps) < 2:
        return 1.0, 1.0
    return levered(gaps[1:], over_mm + gaps[0]), levered(gaps[-2::-1], over_mm + gaps[-1])


def lost_weight(places_mm: tuple[float, ...], middle_mm: float) -> tuple[float, float]:
    """Return the loads on the same mounts by the lip's whole weight, over this, 1 at least [-].

    The board's middle, `middle_mm`, may lie beyond what is left, as with three mounts on an even
    number of studs: the next mount then bears more than all of the weight, a seesaw.
    """
    gaps = _gaps_mm(places_mm)
    if len(gaps) < 2:
        return 1.0, 1.0
    first, last = places_mm[1] - middle_mm, middle_mm - places_mm[-2]
    return levered(gaps[1:], max(first, 0.0)), levered(gaps[-2::-1], max(last, 0.0))


def levered(gaps_mm: list[float], over_mm: float) -> float:
    """Return the load on a mount by one at `over_mm` beyond it; `gaps_mm` go inwards from it."""
    return 1.0 + sum(lever_parts(gaps_mm, over_mm))


def lever_parts(gaps_mm: list[float], over_mm: float) -> tuple[float, float]:
    """Return what the next mount, and the one behind that, add to such a load over it [-]."""
    first, *rest = gaps_mm
    return over_mm / first, over_mm / (2.0 * first + 1.5 * rest[0]) if rest else 0.0


def _gaps_mm(places_mm: tuple[float, ...]) -> list[float]:
    return [max(right - left, LEAST_GAP_MM) for left, right in pairwise(places_mm)]
