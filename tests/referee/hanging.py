"""Where mounts hang along the lip rail and the beam, and what a load beyond one levers on it."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any, NamedTuple

from plans import studs_mm
from shop import Shop

Doc = dict[str, Any]


class Hung(NamedTuple):
    """Where mounts hang along the beam, from a support [mm], and what climbers do there.

    `heavy` is the load on each mount over that at its stud, `reach` the share of the nearer
    support of a load at an outer stud. `lost` is `heavy` with any other mount lost, `lost_weight`
    the most that a mount then bears of the lip's weight, if that is more than 1.
    """

    at: list[float]
    heavy: list[float]
    reach: float
    lost: list[float]
    lost_weight: float


def hung_of(shop: Shop, design: Doc) -> tuple[list[float], list[float], list[float]]:
    """Return the studs with a mount, the mounts' own places [mm], and how heavy each gets.

    An outer mount's bolts begin 80 mm or 7 d from the rail's end (EN 1995-1-1 Table 8.4, from
    memory; NDS 4 D), or beside the stud, 4 d apart. The rail goes through over the mounts.
    """
    d, thick = shop.factors["lip_bolt_mm"], design["stud_mm"][0]
    table = 4 * d if shop.code == "NDS" else max(7 * d, 80.0)
    inside = math.ceil(max(table, thick + 1.5 * d)) + 4 * d / 2
    centres, count = studs_mm(design), design["mount_count"]
    studs = [centres[round(i * (len(centres) - 1) / (count - 1))] for i in range(count)]
    places = [inside, *studs[1:-1], design["width_mm"] - inside]
    heavy = [1.0] * count
    for end, way in ((0, 1), (-1, -1)):
        heavy[end] = hung_over(places[::way], inside - thick / 2)
    return studs, places, heavy


def hung_over(places: list[float], beyond: float) -> float:
    """Return the load on the first of some mounts by 1 so far beyond it, on a rail over all.

    Three moments: 2 M1 (g + h) + M2 h = M0 g, and the next ones leave M2 = -M1 / 2 at most.
    """
    first, *rest = (abs(b - a) for a, b in pairwise(places))
    return 1 + beyond / first + (beyond / (2 * first + 1.5 * rest[0]) if rest else 0.0)


def beside_lost(
    design: Doc, studs: list[float], places: list[float], heavy: list[float]
) -> tuple[list[float], float]:
    """Return how heavy mounts get when one is lost, and the most of the lip's weight on one.

    Climbers stand at the stud of a lost outer mount, and the weight hangs at the wall's middle:
    both may be beyond what is left. One mount of two bears a board with its foot alone.
    """
    heavy, weight = list(heavy), 1.0
    if len(places) > 2:
        for way in (1, -1):
            left, next_one = places[::way][1:], 1 if way == 1 else -2
            reach = abs(left[0] - studs[::way][0])
            heavy[next_one] = max(heavy[next_one], hung_over(left, reach))
            middle = way * (left[0] - design["width_mm"] / 2)
            weight = max(weight, hung_over(left, max(middle, 0.0)))
    return heavy, weight
