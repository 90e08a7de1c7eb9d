"""What the checker knows of beams and frames against published values and other libraries."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import linprog

from steepwright.verify.hooked import UNDER_MM, beyond_mm, hooked, with_mount
from steepwright.verify.timbers import buckling, splits_n, tilting, twisting_mm3


@pytest.mark.parametrize(
    ("slim", "share"), [(1.0, 0.208), (1.5, 0.231), (2.0, 0.246), (3.0, 0.267), (10.0, 0.312)]
)
def test_rectangles_twist_as_in_the_handbook(slim: float, share: float) -> None:
    """Timoshenko and Goodier, Theory of Elasticity, the table of rectangular bars: k2 a^2 b."""
    assert twisting_mm3(100.0, slim * 100.0) == pytest.approx(share * 100**3 * slim, rel=3e-3)
    assert twisting_mm3(slim * 100.0, 100.0) == twisting_mm3(100.0, slim * 100.0)


def test_members_are_weakened_by_the_equations_of_the_code() -> None:
    """By hand, C24 (EN 338): fc0 21, fm 24, E0.05 7400 MPa; the terms of 6.3.2, 6.3.3 and (8.4).

    A post of 100 over 3 m: lambda = 103.9, rel 1.762, k 2.199, kc 0.285. A beam 60 x 240 over
    6 m: critical 14.43 MPa, rel 1.290, 0.593. 14 x 100 sqrt(100 / (1 - 100/200)) = 19.8 kN.
    """
    c24 = {"fc0_k_mpa": 21.0, "fm_k_mpa": 24.0, "e0_05_mpa": 7400.0}
    assert buckling(c24, 3000.0, 100.0) == pytest.approx(0.285, abs=6e-4)
    assert buckling(c24, 400.0, 100.0) == 1.0
    assert tilting(c24, 60.0, 240.0, 6000.0) == pytest.approx(0.593, abs=6e-4)
    assert splits_n(100.0, 200.0, 100.0) == pytest.approx(19799, abs=1)


def moment(section: float, at: float, span: float) -> float:
    """Return the moment at a section of a simple beam by a unit load elsewhere."""
    near, far = sorted((section, at))
    return near * (span - far) / span


def sag(at: float, span: float) -> float:
    """Return the largest deflection by a unit load, EI = 1, from the moment line by Mohr."""
    x = np.linspace(0.0, span, 8001)
    bent = np.where(x <= at, x * (span - at), at * (span - x)) / span
    step = x[1]
    turned = np.concatenate([[0.0], np.cumsum((bent[1:] + bent[:-1]) / 2 * step)])
    moved = np.concatenate([[0.0], np.cumsum((turned[1:] + turned[:-1]) / 2 * step)])
    return float((x / span * moved[-1] - moved).max())


def test_mounts_do_the_worst_that_any_way_to_share_the_weight_does() -> None:
    """Of all shares that hold the board the worst by a linear program, section by section.

    Where a mount is right under the middle it may bear all, a trifle more than these have.
    """
    r = np.random.default_rng(4)
    for _ in range(25):
        span = float(r.uniform(2000, 5000))
        at = np.sort(r.uniform(0.02, 0.98, r.integers(2, 5))) * span
        middle = float(r.uniform(at[0] + 5, at[-1] - 5))
        if np.abs(at - middle).min() <= UNDER_MM:
            continue
        effects = hooked(at[None, :], np.array([middle]), span)[:, 0]
        worst = 0.0
        for section in at:
            arms = [-moment(section, place, span) for place in at]
            shared = linprog(arms, A_eq=[np.ones(len(at)), at], b_eq=[1.0, middle])
            worst = max(worst, -shared.fun)
        sags = [sag(place, span) / sag(span / 2, span) for place in at]
        most = linprog([-s for s in sags], A_eq=[np.ones(len(at)), at], b_eq=[1.0, middle])
        ends = max(max(place, span - place) for place in at) / span
        singles = max(moment(place, place, span) for place in at)
        told = singles, worst, ends, max(middle, span - middle) / span, max(sags), -most.fun, 1.0
        assert effects[:7].tolist() == pytest.approx(told, rel=2e-6)


def test_a_mount_under_the_middle_bears_the_whole_weight() -> None:
    """By hand: three mounts on 4 m, one of them under the middle: P l / 4, and a half each."""
    effects = hooked(np.array([[1000.0, 2000.0, 3000.0]]), np.array([2000.0]), 4000.0)[:, 0]
    assert effects[:7].tolist() == pytest.approx([1000.0, 1000.0, 0.75, 0.5, 1.0, 1.0, 1.0])
    # The first one lost, a load there levers on the middle one as on a seesaw: 2000 / 1000.
    assert effects[7:].tolist() == pytest.approx([2.0, 1.0, 2000.0])


def test_a_load_beyond_an_outer_mount_levers_on_it() -> None:
    """By hand: 1 at the stud, 100 mm outside its mount, the other one 1800 mm off: 1900 / 1800.

    Bent by that at 1100 of 4000 mm; a support bears 3/4 of a load at the stud, 1000 mm from one.
    """
    studs = np.array([[1000.0, 3000.0]])
    for at in (studs, studs[:, ::-1]):
        arm, _, end, *_, outer, lost, lost_weight, lost_arm = hooked(
            at, np.array([2000.0]), 4000.0, 100.0
        )[:, 0]
        assert outer == pytest.approx(1900 / 1800)
        assert arm == pytest.approx(1900 / 1800 * 1100 * 2900 / 4000)
        assert end == pytest.approx(0.75)
        # With one of two lost the other one and the board's foot bear a rigid board.
        assert (lost, lost_weight, lost_arm) == (outer, 1.0, arm)


def test_what_hangs_at_a_lost_corner_levers_on_the_next_mount() -> None:
    """By hand: studs at 500, 2500 and 3500 of 4000 mm, outer mounts 100 mm further in.

    The first lost, a load at its stud is 2000 mm beyond the middle one, which is 900 mm from the
    last: 2900 / 900. The board's middle, 2000, is 500 mm beyond it: 1400 / 900.
    """
    studs = np.array([[500.0, 2500.0, 3500.0]])
    for at, middle in ((studs, 2000.0), (4000 - studs, 2000.0), (studs[:, ::-1], 2000.0)):
        told = hooked(at, np.array([middle]), 4000.0, 100.0)[:, 0]
        assert told[7:9].tolist() == pytest.approx([2900 / 900, 1400 / 900])
        assert told[9] == pytest.approx(2900 / 900 * 2500 * 1500 / 4000)


def test_of_four_mounts_the_second_gap_helps() -> None:
    """By the three-moment equation: M1 = F a, M2 = M1 g / (2 (g + h)) the other way over the next.

    Mounts 1000 mm apart that don't give: a load 1000 mm beyond three of them brings the first
    1 + 1 + 1/4. What is told may be as much as M2 = M1 g / (2 g + 1.5 h) has it: 2/7.
    """
    at = np.array([[500.0, 1500.0, 2500.0, 3500.0]])
    lost, weight = hooked(at, np.array([2000.0]), 4000.0)[7:9, 0]
    assert 2.25 <= lost == pytest.approx(2 + 2 / 7)
    assert weight == 1.0


def test_the_first_bolt_is_where_the_table_wants_it() -> None:
    """EN 1995-1-1 Table 8.4, from memory: a3,t max(7 d, 80 mm), a1 4 d; NDS 4 D; washers 3 d."""
    en = {"lip_bolt_mm": 10, "lip_bolts": 2, "lip_bolt_apart_d": 4, "lip_bolt_end_d": 7}
    assert beyond_mm(en | {"lip_bolt_end_mm": 80}, 45) == 80 + 20 - 22.5
    assert beyond_mm(en | {"lip_bolt_end_mm": 80}, 80) == 80 + 15 + 20 - 40
    assert beyond_mm(en | {"lip_bolt_end_d": 4, "lip_bolt_end_mm": 0}, 38) == 38 + 15 + 20 - 19


@pytest.mark.parametrize(
    ("studs", "mounts", "held"), [(5, 2, [0, 4]), (6, 3, [0, 2, 5]), (8, 3, [0, 4, 7])]
)
def test_mounts_are_spread_from_edge_to_edge(studs: int, mounts: int, held: list[int]) -> None:
    """By hand; half-way between two studs the one with an even number is taken."""
    assert with_mount(studs, mounts) == held
    assert math.isclose(held[-1], studs - 1)
