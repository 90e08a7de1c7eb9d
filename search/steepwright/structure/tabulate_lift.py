"""What the lifting gear on offer may carry, worked out once per catalogue and room.

The wall's bill takes the cheapest type of each part; the checks take the weakest on offer, so
that any choice holds.
"""

from __future__ import annotations

from collections.abc import Callable

from steepwright.catalog.types import Catalog, Factors, Hardware
from steepwright.room.types import Room
from steepwright.structure.hoist import (
    mechanical_advantage,
    parked_shares,
    redirect_force_n,
    working_load_n,
)
from steepwright.structure.tables import Hoist
from steepwright.units import weight_n


def hoist_table(catalog: Catalog, room: Room) -> Hoist:
    """Return the working loads [N] and ratios [-] of the lifting gear."""
    factors = catalog.materials.factors
    knot, fail = factors["knot_efficiency"], factors["rope_lost_design_factor"]

    def weakest(kind: str, load: Callable[[Hardware], float]) -> float:
        return min((load(h) for h in catalog.hardware if h.kind == kind), default=0.0)

    def gear(design: float, knots: float = 1.0) -> Callable[[Hardware], float]:
        return lambda h: _least(h.rated_n, h.breaking_n, design, knots)

    turned = gear(factors["block_design_factor"])
    efficiency = sheave_efficiency(catalog)
    parts = int(factors["hoist_parts"])
    lines = int(factors["hoist_lines"])
    share = parked_shares(tuple(map(float, range(lines))), (lines - 1) / 2.0)
    return Hoist(
        line_n=weakest("rope", gear(factors["rope_design_factor"], knot)),
        line_lost_n=weakest("rope", lambda h: working_load_n(h.breaking_n or 0.0, fail, knot)),
        block_n=min(
            weakest("pulley", turned), weakest("strap", gear(factors["sling_design_factor"]))
        ),
        brake_n=weakest("brake", turned),
        latch_n=weakest("latch", turned),
        holds=_sold(catalog, "rope", "brake") + _sold(catalog, "latch") * factors["hoist_latches"],
        share=share.whole,
        share_lost=share.one_failed,
        turn=redirect_force_n(1.0, 0.0),
        parts=parts,
        gain=mechanical_advantage(parts, efficiency) * efficiency,
        hand_n=hand_limit_n(factors, room.access.carriers),
    )


def sheave_efficiency(catalog: Catalog) -> float:
    """Return the poorest efficiency among the pulleys on offer [-]."""
    assumed = catalog.materials.factors["sheave_efficiency_plain"]
    pulleys = [h.efficiency or assumed for h in catalog.hardware if h.kind == "pulley"]
    return min(pulleys, default=assumed)


def hand_limit_n(factors: Factors, people: int) -> float:
    """Return the pull that starts a load by hand, L23, for people who pull together [N].

    Two count two thirds of the sum of both, three and more half of the sum of three.
    """
    team = (1.0, factors["carry_team2_factor"], factors["carry_team3_factor"])
    count = max(1, min(people, len(team)))
    return weight_n(factors["hand_pull_start_kg"]) * count * team[count - 1]


def _least(rated: float | None, breaking: float | None, design: float, knots: float) -> float:
    loads = [] if rated is None else [rated]
    if breaking is not None:
        loads.append(working_load_n(breaking, design, knots))
    return min(loads, default=0.0)


def _sold(catalog: Catalog, *kinds: str) -> bool:
    return all(any(h.kind == kind for h in catalog.hardware) for kind in kinds)
