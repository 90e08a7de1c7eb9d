"""Where mounts and their bolts go along the lip rail, and what a load beyond an outer one levers.

Table values: EN 1995-1-1 Table 8.4 (a3,t: max(7 d, 80 mm); a1 square to the grain: 4 d) and NDS
Tables 12.5.1A and 12.5.1B (4 D), both from memory. Reactions: by statics, and of a beam that goes
through by a general-purpose frame solver (PyNite).
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from Pynite import FEModel3D

from steepwright.catalog import read_materials
from steepwright.geometry.mounts import (
    bolt_places,
    lost_load,
    lost_weight,
    mount_centres,
    outer_bolt_mm,
    over_mm,
    tip_load,
)

FACTORS = read_materials().factors
NDS = FACTORS.in_code("NDS")
M10 = 10


def test_an_outer_bolt_is_80_mm_from_the_end_or_beside_a_thick_stud() -> None:
    assert outer_bolt_mm(FACTORS, 45) == max(7 * M10, 80)
    # A washer of 30 mm lies clear of a stud of 80 mm: 80 + 15.
    assert outer_bolt_mm(FACTORS, 80) == 95
    assert over_mm(FACTORS, 45) == 80 + 20 - 22.5


def test_by_the_nds_four_diameters_do_and_the_stud_decides() -> None:
    assert outer_bolt_mm(NDS, 20) == 4 * M10
    assert outer_bolt_mm(NDS, 38) == 38 + 15


@pytest.mark.parametrize("stud", [38, 45, 60, 80])
@pytest.mark.parametrize("mounts", [2, 3, 4])
@pytest.mark.parametrize("factors", [FACTORS, NDS])
def test_no_bolt_is_too_near_to_another_a_stud_or_the_end(factors, stud, mounts) -> None:
    width = 1500.0
    studs = tuple(stud / 2 + i * (width - stud) / 6 for i in range(7))
    bolts = bolt_places(factors, studs, mounts)
    assert [len(each) for each in bolts] == [2] * mounts
    flat = [at for each in bolts for at in each]
    assert all(right - left >= 4 * M10 for left, right in pairwise(flat))
    least = 4 * M10 if factors is NDS else max(7 * M10, 80)
    assert least <= flat[0] == pytest.approx(width - flat[-1])
    assert all(abs(at - middle) >= stud / 2 + 1.5 * M10 - 1e-6 for at in flat for middle in studs)
    middles = mount_centres(studs, mounts, over_mm(factors, stud))
    assert [sum(each) / 2 for each in bolts] == pytest.approx(list(middles))
    assert set(middles[1:-1]) <= set(studs)


def test_a_seesaw_by_hand() -> None:
    """1000 N at 100 mm beyond one of two mounts 500 mm apart: 1000 x 600 / 500 = 1200 N."""
    assert tip_load((100.0, 600.0), 100.0) == (1.2, 1.2)


def reaction(places: tuple[float, ...], over: float) -> float:
    """Reaction of the first support by a unit load `over` before it; none gives."""
    model = FEModel3D()
    model.add_material("wood", 11000.0, 690.0, 0.3, 1e-9)
    model.add_section("rail", 6525.0, 1e7, 1.14e7, 1e7)
    at = [places[0] - over, *places]
    for i, x in enumerate(at):
        model.add_node(f"n{i}", x, 0.0, 0.0)
        if i:
            model.def_support(f"n{i}", i == 1, True, True, i == 1, False, False)
    for i in range(len(places)):
        model.add_member(f"m{i}", f"n{i}", f"n{i + 1}", "wood", "rail")
    model.add_node_load("n0", "FY", -1.0)
    model.analyze_linear()
    return float(model.nodes["n1"].RxnFY["Combo 1"])


@pytest.mark.parametrize(
    "gaps", [(400,), (900,), (600, 600), (200, 900), (900, 200), (400, 400, 400), (300, 150, 900)]
)
def test_no_beam_that_goes_through_brings_an_outer_mount_more(gaps) -> None:
    places = (100.0, *(100.0 + sum(gaps[: i + 1]) for i in range(len(gaps))))
    own = reaction(places, 77.5)
    told = tip_load(places, 77.5)[0]
    assert own * (1 - 1e-9) <= told <= own * 1.03
    mirrored = tuple(2000.0 - at for at in reversed(places))
    assert tip_load(mirrored, 77.5)[1] == pytest.approx(told)


def test_mounts_that_meet_hold_nothing() -> None:
    assert max(tip_load((150.0, 140.0), 77.5)) > 50


def test_a_lost_corner_by_hand() -> None:
    """Studs 1000 mm apart with a mount on each, the outer ones 100 mm further in: a seesaw.

    A load at the first stud, its mount lost, is 1000 mm beyond the middle one, which is 900 mm from
    the last: 1900 / 900. The lip's middle is over the middle mount, which bears all of it.
    """
    places = (100.0, 1000.0, 1900.0)
    assert lost_load(places, 100.0) == pytest.approx((1900 / 900, 1900 / 900))
    assert lost_weight(places, 1000.0) == (1.0, 1.0)


def test_an_uneven_lost_corner_by_hand() -> None:
    """Four studs 1000 mm apart, mounts on the first, the third and the last.

    The first lost: 2000 mm beyond, 900 between the two that are left; the weight's middle 500
    beyond. The last lost: 1000 mm beyond, 1900 between, and the weight hangs between.
    """
    places = (100.0, 2000.0, 2900.0)
    assert lost_load(places, 100.0) == pytest.approx((2900 / 900, 2900 / 1900))
    assert lost_weight(places, 1500.0) == pytest.approx((1400 / 900, 1.0))
    mirrored = (100.0, 1000.0, 2900.0)
    assert lost_load(mirrored, 100.0) == pytest.approx((2900 / 1900, 2900 / 900))
    assert lost_weight(mirrored, 1500.0) == pytest.approx((1.0, 1400 / 900))


def test_two_mounts_leave_nothing_to_lever_on() -> None:
    assert lost_load((100.0, 900.0), 100.0) == lost_weight((100.0, 900.0), 600.0) == (1.0, 1.0)


@pytest.mark.parametrize(
    "gaps", [(500, 400), (900, 400), (400, 600, 600), (800, 400, 700), (900, 200, 900, 600)]
)
def test_no_rail_with_a_lost_mount_brings_the_next_one_more(gaps) -> None:
    places = (100.0, *(100.0 + sum(gaps[: i + 1]) for i in range(len(gaps))))
    own = reaction(places[1:], gaps[0] + 77.5)
    told = lost_load(places, 77.5)[0]
    assert own * (1 - 1e-9) <= told <= own * 1.06
    mirrored = tuple(3000.0 - at for at in reversed(places))
    assert lost_load(mirrored, 77.5)[1] == pytest.approx(told)
