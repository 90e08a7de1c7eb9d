"""What a wall hangs from has to get in as well: frames, beams on ledgers, timbers under joists.

What `access.max_piece_mm` and `access.windows` say is plain: a piece no larger than the one that is
known to pass gets in, and through a window whatever is no longer than the room behind it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from small_rooms import framed_catalog, framed_room, ledger_room, spreader_room

from steepwright.errors import InfeasibleError
from steepwright.geometry.stand_parts import bought_parts
from steepwright.optimise import search
from steepwright.optimise.rigs_told import beam_stuck
from steepwright.optimise.space import build_space
from steepwright.pricing.market import build_market
from steepwright.pricing.stands import stand_plan
from steepwright.room.types import Access, Room, Window

ROOMS = {
    "framed": (framed_room, 5),
    "ledger": (ledger_room, 1),
    "spreader": (spreader_room, 5),
}
WIDEST_MM = 300
"""More than any side of these timbers."""


def room_of(kind: str, access: Access) -> Room:
    of, seed = ROOMS[kind]
    room = of(seed)
    return replace(room, access=access, yard=replace(room.yard, vehicle_max_mm=None))


def longest_mm(kind: str) -> int:
    room = room_of(kind, Access())
    factors = framed_catalog(ROOMS[kind][1]).materials.factors
    return max(part.length_mm for part in bought_parts(factors, room.beams[-1]))


def passing(kind: str, over_mm: int) -> Access:
    return Access(max_piece_mm=(longest_mm(kind) + over_mm, WIDEST_MM))


def window(kind: str, over_mm: int) -> Access:
    behind = Window("window", WIDEST_MM, WIDEST_MM, longest_mm(kind) + over_mm)
    return replace(passing(kind, -500), windows=(behind,))


def is_had(kind: str, access: Access) -> bool:
    room, catalog = room_of(kind, access), framed_catalog(ROOMS[kind][1])
    market = build_market(room, catalog)
    plan, stuck = (
        stand_plan(market, room.beams[-1], delivered=False),
        beam_stuck(build_space(market), len(room.beams) - 1),
    )
    assert (plan is None) == bool(stuck)
    return plan is not None


@pytest.mark.parametrize("kind", ROOMS)
@pytest.mark.parametrize("way", [passing, window])
def test_the_longest_timber_decides_to_the_millimetre(
    kind: str, way: Callable[[str, int], Access]
) -> None:
    assert is_had(kind, Access())
    assert is_had(kind, way(kind, 0))
    assert not is_had(kind, way(kind, -1))


def test_what_is_there_already_need_not_get_in() -> None:
    room = room_of("framed", passing("framed", -1))
    stand = room.beams[-1].stand
    assert stand is not None
    there = replace(room.beams[-1], stand=replace(stand, owned=True))
    market = build_market(room, framed_catalog(5))
    plan = stand_plan(market, there, delivered=False)
    assert plan is not None
    assert plan.cents == 0


@pytest.mark.parametrize("kind", ROOMS)
def test_where_nothing_else_is_there_to_hang_from_the_timber_is_told(kind: str) -> None:
    with pytest.raises(InfeasibleError) as told:
        search(room_of(kind, passing(kind, -1)), framed_catalog(ROOMS[kind][1]))
    assert f"{longest_mm(kind)} mm long, doesn't get in" in str(told.value)
    assert f"at most {longest_mm(kind) - 1} mm do" in str(told.value)


def test_a_wall_hangs_elsewhere_then_and_it_is_told() -> None:
    """The frame's feet are too long for the way in; the beam in sight is there already."""
    room, catalog = framed_room(8), framed_catalog(8)
    assert "frame 2" in {d["beam"] for d in search(room, catalog).document["designs"]}
    stuck = replace(room, access=replace(room.access, max_piece_mm=(2999, 1300)))
    document = search(stuck, catalog).document
    assert {design["beam"] for design in document["designs"]} == {"only"}
    (told,) = (text for text in document["assumptions"] if "is left out" in text)
    assert "“frame”" in told
    assert "3000 mm long" in told
    assert "at most 2999 mm do" in told


def test_where_no_wall_hangs_elsewhere_either_both_are_told() -> None:
    room, catalog = framed_room(8), framed_catalog(8)
    wall = replace(room.wall, min_fall_space_mm=9000)
    access = replace(room.access, max_piece_mm=(2999, 1300))
    with pytest.raises(InfeasibleError) as told:
        search(replace(room, wall=wall, access=access), catalog)
    assert "wall.min_fall_space_mm binds" in str(told.value)
    assert "“frame” is left out: its foot" in str(told.value)
