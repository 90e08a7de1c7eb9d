"""Where the lifting lines go: a few rooms by hand, and the eye that never moves inward."""

import dataclasses

import numpy as np
import pytest

from steepwright.geometry import NO_BEAM, LiftRules, lift_points
from steepwright.room.types import Access, Beam, Climber, Room, WallRange, Yard

RULES = LiftRules(margin_mm=50, beside_mm=40, least_share=0.55)


def room(*places_mm):
    beams = tuple(Beam(str(x), x, (2400, 2400), 140, 200, 4000, "C24", 0.0) for x in places_mm)
    wall = WallRange((30.0, 45.0), (0, 400), (1200, 1200))
    return Room("r", 6000, 4000, 2600, beams, (), Access(), Climber(), wall, Yard())


def test_the_farthest_beam_over_the_board_carries_the_blocks():
    # The climber falls to +x, so the foot swings up on the side of smaller x.
    eye, above = lift_points(room(4000, 2800, 1500), 0, "+x", [2600.0], RULES)
    assert (eye[0], above[0]) == (2500, 2)
    # One millimetre too short for a block beside the third beam, 110 mm before its middle: the
    # second lies before 0.55 of the board, so nothing is left but the ceiling.
    eye, above = lift_points(room(4000, 2800, 1500), 0, "+x", [2439.0], RULES)
    assert (eye[0], above[0]) == (2389, NO_BEAM)
    eye, above = lift_points(room(4000, 2800, 1500), 0, "+x", [2000.0], RULES)
    assert (eye[0], above[0]) == (1200, 1)


def test_a_block_beside_a_beam_hangs_over_the_foot_rail():
    eye, above = lift_points(room(4000, 1500), 0, "+x", [2450.0], RULES)
    assert (eye[0], above[0]) == (2400, 1)


def test_beams_on_the_climbers_side_are_no_help():
    eye, above = lift_points(room(4000, 2000), 0, "-x", [2500.0], RULES)
    assert (eye[0], above[0]) == (2450, NO_BEAM)
    eye, above = lift_points(room(2000, 4000), 0, "-x", [2500.0], RULES)
    assert (eye[0], above[0]) == (2000, 1)


@pytest.mark.parametrize("seed", range(5))
def test_the_eye_never_moves_inward_as_the_board_grows(seed):
    draw = np.random.default_rng(seed)
    places = [5000, *(int(x) for x in draw.integers(500, 4900, 4))]
    beams = room(*places).beams
    other = dataclasses.replace(room(*places), beams=beams)
    eye, _ = lift_points(other, 0, "+x", np.arange(1200.0, 4200.0, 5.0), RULES)
    assert (np.diff(eye) >= 0).all()


def test_a_block_hangs_only_straight_under_a_hidden_joist():
    seen = room(4000, 1500)
    hidden = tuple(dataclasses.replace(beam, kind="joist") for beam in seen.beams)
    reach = [2450.0, 2549.0, 2550.0]
    eye, above = lift_points(dataclasses.replace(seen, beams=hidden), 0, "+x", reach, RULES)
    assert above.tolist() == [NO_BEAM, NO_BEAM, 1]
    assert eye.tolist() == [2400, 2499, 2500]
