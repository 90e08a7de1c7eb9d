"""NSGA-II with the exact search's wall time, on the same grid: what of the front does it find?

Optuna's NSGA-II is told of cost, angle and fall space, and of what is violated by how much; it is
given the same pricing and checks and as many seconds as the exact search took, both in one
process. Compared are the share of the front's walls that it finds, the whole degrees at which its
cheapest wall costs too much, and the area between front and stair's corner (hypervolume of cost
and angle). The exact search has 1, 0 and 1 by its proof.
"""

from __future__ import annotations

import math

import pytest
from results import record
from runs import ROOM, Alone, search_alone
from small_rooms import small_catalog, small_room

from steepwright.catalog import Catalog, read_catalog
from steepwright.errors import InfeasibleError
from steepwright.optimise.front import Front, Score
from steepwright.optimise.sampled import Effort, sample
from steepwright.room import read_room
from steepwright.room.types import Room


def sampled_front(room: Room, catalog: Catalog, seconds: float) -> tuple[list[Score], int]:
    effort = Effort(trials=10**9, seconds=seconds, step_mm=room.wall.step_mm, own_places=False)
    try:
        document = sample(room, catalog, effort=effort).document
    except InfeasibleError:
        return [], 0
    front: Front[None] = Front()
    for d in document["designs"]:
        score = Score(d["cost_cents"], round(d["angle_deg"] * 1000), d["fall_space_mm"])
        front.offer(score, None)
    return list(front.members), document["counts"]["tried"]


def cheapest(scores: list[Score], degree: int) -> float:
    return min((s.cost_cents for s in scores if s.angle_mdeg >= 1000 * degree), default=math.inf)


def hypervolume(scores: list[Score], corner: tuple[int, int]) -> float:
    """Area that the stair of cost and angle dominates, up to a cost and down to an angle."""
    area, steepest = 0.0, corner[1]
    for score in sorted(scores, key=lambda s: (s.cost_cents, -s.angle_mdeg)):
        if score.angle_mdeg > steepest and score.cost_cents < corner[0]:
            area += (corner[0] - score.cost_cents) * (score.angle_mdeg - steepest)
            steepest = score.angle_mdeg
    return area


def compare(name: str, room: Room, catalog: Catalog, alone: Alone) -> None:
    exact, seconds = alone.front, alone.seconds
    sampled, tried = sampled_front(room, catalog, seconds)
    degrees = range(math.ceil(room.wall.angle_deg[0]), max(s.angle_mdeg for s in exact) // 1000 + 1)
    wrong = sum(cheapest(sampled, d) != cheapest(exact, d) for d in degrees)
    corner = round(1.1 * max(s.cost_cents for s in exact)), round(1000 * room.wall.angle_deg[0]) - 1
    figures = {
        "front": len(exact),
        "seconds": round(seconds, 1),
        "sampled_walls": tried,
        "recall": round(len(set(sampled) & set(exact)) / len(exact), 4),
        "targets": len(degrees),
        "wrong_targets": wrong,
        "hypervolume_ratio": round(hypervolume(sampled, corner) / hypervolume(exact, corner), 4),
    }
    print(f"\nNSGA-II on {name}: {figures}; exact: recall 1, wrong targets 0, hypervolume 1")
    record(f"nsga2 {name}", figures)
    assert not any(s.at_least(e) and s != e for s in sampled for e in exact)


@pytest.mark.bench
def test_nsga2_on_a_small_room() -> None:
    room, catalog = small_room(1), small_catalog(1)
    compare("small room", room, catalog, search_alone(room, catalog))


@pytest.mark.bench
def test_nsga2_on_the_example(alone: Alone) -> None:
    compare("example", read_room(ROOM), read_catalog(), alone)
