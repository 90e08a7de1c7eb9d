"""What the checker knows of rooms whose measures may be off: by points tried, and by hand."""

from __future__ import annotations

from typing import Any

import numpy as np

from steepwright.verify.angles import Posed, leaning_rad, pivot_of
from steepwright.verify.doubtful import Hangs, fits_in_doubt
from steepwright.verify.floors import stands
from steepwright.verify.framed import fits_framed
from steepwright.verify.turning import Box, comes_near

Doc = dict[str, Any]


def nearest_mm(rect: tuple[float, ...], turn: tuple[float, float], box: tuple[float, ...]) -> float:
    """Return the least distance of many points of a rectangle to a box, over many angles."""
    s = np.linspace(0.0, 1.0, 121)
    (u, u_to, v, v_to), one = rect, np.ones_like(s)
    along, up = u + (u_to - u) * s, v + (v_to - v) * s
    x = np.concatenate([along, along, u * one, u_to * one])
    y = np.concatenate([v * one, v_to * one, up, up])
    t = np.linspace(*turn, 300)[:, None]
    p, z = x * np.cos(t) - y * np.sin(t), x * np.sin(t) + y * np.cos(t)
    out = [np.maximum(np.maximum(box[0] - p, p - box[1]), 0.0)]
    out += [np.maximum(np.maximum(box[2] - z, z - box[3]), 0.0)]
    return float(np.hypot(*out).min())


def test_boards_come_as_near_as_points_of_them_do() -> None:
    """At rest and turning: nearer than the nearest point tried and a trifle, no nearer."""
    r, near = np.random.default_rng(2), 0
    for n in range(200):
        u, v, start = r.uniform(-3, 1), r.uniform(-3, 1), r.uniform(0, 1.5)
        rect = (u, u + r.uniform(0.2, 3), v, v + r.uniform(0.2, 3))
        x, y = r.uniform(-6, 6), r.uniform(-6, 6)
        turn = (start, start + (r.uniform(0, 1.5) if n % 2 else 0.0))
        box = (x, x + r.uniform(0.1, 4), y, y + r.uniform(0.1, 4))
        inside = _box(rect), *(np.array([angle]) for angle in turn), _box(box)
        least = nearest_mm(rect, turn, box)
        assert comes_near(*inside, least + 0.03)[0]
        if least > 0.06:
            assert not comes_near(*inside, least - 0.03)[0]
            near += 1
    assert 60 < near < 180


def _box(sides: tuple[float, ...]) -> Box:
    return Box(*(np.array([side]) for side in sides))


MOUNT = {"drop_mm": 150, "setback_mm": 60, "behind_sheet_mm": 0, "adjust_mm": 0}
FACTORS = {"mount_level_tolerance_mm": 3.0}


def room(tolerance_mm: int, **wall: Any) -> Doc:
    """Return an empty room with a beam in it that nothing is in the way of."""
    told = {
        "angle_deg": [20.0, 60.0], "align": "left", "fold_up": False, "min_fall_space_mm": 0,
        "side_passage_mm": 0, "tolerance_mm": tolerance_mm,
    }  # fmt: skip
    beam = {"x_mm": 3000, "underside_mm": [2450, 2450], "width_mm": 100, "name": "beam"}
    sides = {"length_mm": 6000, "width_mm": 4000, "ceiling_mm": 2700}
    return sides | {"beams": [beam], "solids": [], "wall": told | wall}


def fits(there: Doc, factors: Doc = FACTORS) -> bool:
    """Tell whether a board of 2.6 m, 1.2 m wide, fits below the beam."""
    beam = there["beams"][0]
    pivot = pivot_of(beam, MOUNT, 18)
    board, kicker = np.array([2600.0]), np.array([200.0])
    posed = Posed(leaning_rad(board, kicker, pivot), board, kicker)
    hangs = Hangs(beam, MOUNT, pivot, "+x", 1200)
    return bool(fits_in_doubt(there, factors, hangs, posed, np.array([118.0]))[0])


def test_the_way_past_the_wall_may_be_narrower() -> None:
    """By hand: 4000 less 1200 is 2800; the room may be 10 narrower."""
    assert fits(room(10, side_passage_mm=2790))
    assert not fits(room(10, side_passage_mm=2791))
    # In the middle it is 5 nearer to either side then.
    assert fits(room(10, side_passage_mm=1395, align="centre"))
    assert not fits(room(10, side_passage_mm=1396, align="centre"))


def test_the_lip_may_come_to_hang_where_its_beam_is_higher() -> None:
    """By hand: 10 out of level over 4000 is 3 at 1200; 10 / 3990 more for each mm on two sides."""
    tilted = room(10)
    tilted["beams"][0]["underside_mm"] = [2450, 2460]
    more = 2 * 10 * 10 / 3990
    assert fits(tilted, {"mount_level_tolerance_mm": 3.0 + more + 1e-3})
    assert not fits(tilted, {"mount_level_tolerance_mm": 3.0 + more - 1e-3})


def test_the_angle_is_asked_for_at_both_ends() -> None:
    """The board leans less below a higher pivot and more below a lower one."""
    pivot = pivot_of(room(0)["beams"][0], MOUNT, 18)
    board, kicker = np.array([2600.0]), np.array([200.0])
    leans = float(np.degrees(leaning_rad(board, kicker, pivot))[0])
    assert fits(room(10, angle_deg=[leans - 1.0, leans + 1.0]))
    assert not fits(room(10, angle_deg=[leans - 0.01, leans + 1.0]))
    assert not fits(room(10, angle_deg=[leans - 1.0, leans + 0.01]))


def furnished(r: np.random.Generator) -> Doc:
    """Return a room with a second beam, a low ceiling and a cupboard somewhere."""
    there = room(10, fold_up=bool(r.random() < 0.5), min_fall_space_mm=900, side_passage_mm=900)
    under = int(r.integers(2000, 2450))
    other = {"x_mm": int(r.integers(400, 2700)), "underside_mm": [under, under]}
    there["beams"].append(other | {"width_mm": 100, "name": "other"})
    there["ceiling_mm"] = int(r.integers(2460, 2700))
    x, y, z = (int(r.integers(*ends)) for ends in ((0, 5400), (0, 2500), (0, 1900)))
    cupboard = {"x_mm": [x, x + 500], "y_mm": [y, y + 900], "z_mm": [z, z + 800]}
    there["solids"].append(cupboard)
    return there


def measured_otherwise(there: Doc, r: np.random.Generator) -> Doc:
    """Return the room with every measure elsewhere by as much as it may be."""
    e = there["wall"]["tolerance_mm"]

    def off(mm: float) -> float:
        return mm + float(r.choice([-e, 0, e]))

    beams = []
    for beam in there["beams"]:
        higher = off(0)
        ends = [z + higher for z in beam["underside_mm"]]
        beams.append(beam | {"x_mm": off(beam["x_mm"]), "underside_mm": ends})
    solids = [{name: [off(v) for v in solid[name]] for name in solid} for solid in there["solids"]]
    sides = {name: off(there[name]) for name in ("length_mm", "width_mm", "ceiling_mm")}
    return there | sides | {"beams": beams, "solids": solids}


def fits_exactly(there: Doc) -> bool:
    """Tell the same of a room whose measures are right, by what the checker has for these."""
    pivot = pivot_of(there["beams"][0], MOUNT, 18)
    board, kicker = np.array([2600.0]), np.array([200.0])
    posed = Posed(leaning_rad(board, kicker, pivot), board, kicker)
    stood = stands(there, "+x", pivot, posed, 1200)
    return bool((stood & fits_framed(there, "+x", pivot, posed, np.array([118.0]), 1200))[0])


def test_what_fits_in_doubt_fits_however_the_measures_turn_out() -> None:
    r, told, may = np.random.default_rng(5), 0, 0
    for _ in range(120):
        there = furnished(r)
        may += fits_exactly(there)
        if fits(there):
            told += 1
            assert all(fits_exactly(measured_otherwise(there, r)) for _ in range(25))
    assert 15 < told < may < 110
