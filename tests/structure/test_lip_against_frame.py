"""Lip rail and mounts against an independent frame solver (PyNite, a general-purpose library).

The rail is a continuous beam on mounts that give 1 mm under 5 or 20 kN, loaded by half the weight
of every stud and of the sheet, and by one climber at any stud, or between studs. The checks' plain
formulas must never ask less than this, and not absurdly more. (Mounts that don't give at all would
lever a very short last bay up to a quarter more; screws in wood under a beam that bends do give.)
"""

import math

import numpy as np
import pytest
from Pynite import FEModel3D

from steepwright.geometry.layout import largest_bay_mm, stud_centres
from steepwright.geometry.mounts import lost_load, lost_weight, mount_centres, over_mm, tip_load
from steepwright.structure import checks

PATTERNS = [
    ((2400,), 4, 2),
    ((2400,), 5, 3),
    ((2400,), 5, 4),
    ((2400,), 7, 4),
    ((1250, 550), 2, 3),
    ((1250, 1250, 300), 2, 4),
]
STUD_MM, DEPTH_MM, BOARD_MM = 45, 145, 2600.0
G = 9.80665  # m/s2, CGPM 1901


def continuous_beam(mounts, loads, width_mm, spring):
    """Reactions at the mounts [N] and largest bending moment [Nmm] of the rail."""
    model = FEModel3D()
    model.add_material("wood", 11000.0, 690.0, 0.3, 1e-9)
    model.add_section("rail", 6525.0, 1e7, 1.14e7, 1e7)
    places = sorted({*mounts, 0.0, float(width_mm)})
    for i, x in enumerate(places):
        model.add_node(f"n{i}", x, 0.0, 0.0)
    model.add_member("rail", "n0", f"n{len(places) - 1}", "wood", "rail")
    held = [f"n{places.index(x)}" for x in mounts]
    for i, name in enumerate(held):
        model.def_support(name, i == 0, False, True, i == 0, False, False)
        model.def_support_spring(name, "DY", spring)
    for x, force in loads:
        model.add_member_pt_load("rail", "Fy", -force, x)
    model.analyze_linear()
    reactions = [model.nodes[name].RxnFY["Combo 1"] for name in held]
    member = model.members["rail"]
    moment = max(abs(member.max_moment("Mz")), abs(member.min_moment("Mz")))
    return reactions, moment


def stud_weights_n(studs, width_mm):
    """Weight of the lip at each stud [N].

    Sheet 17.6 mm of 680 kg/m3 and 8 kg/m2 of holds, bars 45 x 145 of 420 kg/m3.
    """
    area = (17.6 * 680e-9 + 8e-6) * G
    bar = STUD_MM * DEPTH_MM * 420e-9 * G
    edges = np.array([0.0, *(np.array(studs[1:]) + np.array(studs[:-1])) / 2, float(width_mm)])
    return np.diff(edges) * (area * BOARD_MM / 2 + bar) + bar * (BOARD_MM - 2 * STUD_MM) / 2


def worst_n(springs, mounts, loads, climber, width):
    """Largest load of a mount [N] by the weight and one climber, of some stiffnesses."""
    own, places = loads
    found = []
    for spring in springs:
        reactions, _ = continuous_beam(mounts, own, width, spring)
        climbs = [continuous_beam(mounts, [(x, climber)], width, spring)[0] for x in places]
        found.append(max(reactions) + max(map(max, climbs)))
    return max(found)


@pytest.mark.parametrize("spring", [5_000.0, 20_000.0])
@pytest.mark.parametrize(("columns", "bays", "mount_count"), PATTERNS)
def test_mounts_and_rail_ask_no_less_than_a_continuous_beam(
    columns, bays, mount_count, spring, tables, make_batch
):
    width = sum(columns)
    studs = stud_centres(columns, bays, STUD_MM)
    over = over_mm(tables.factors, STUD_MM)
    mounts = mount_centres(studs, mount_count, over)
    bay = largest_bay_mm(columns, bays, STUD_MM)
    found = {
        check.name: check
        for check in checks(
            tables,
            make_batch(
                columns=len(columns),
                stud_count=len(studs),
                mount_count=mount_count,
                bay_mm=bay,
                width_mm=float(width),
                board_mm=BOARD_MM,
                mount=0,
                angle_rad=math.radians(90.0),
                tip_load=max(tip_load(mounts, over)),
            ),
        )
    }
    own = stud_weights_n(studs, width)
    reactions, moment = continuous_beam(mounts, list(zip(studs, own, strict=True)), width, spring)
    climber = 80 * G * 2
    middles = (np.array(studs[1:]) + np.array(studs[:-1])) / 2
    climbs = [continuous_beam(mounts, [(x, climber)], width, spring) for x in [*studs, *middles]]
    hang = max(reactions) + max(max(r) for r, _ in climbs)
    bend = 1.35 * moment + 1.5 * max(m for _, m in climbs)
    working = found["mount working load"].demand
    rail = found["lip rail bending"].demand
    # A short last gap is levered less by mounts that give; what is asked covers those that don't.
    stiff = worst_n((200_000.0,), mounts, ([*zip(studs, own, strict=True)], studs), climber, width)
    assert hang <= working * (1 + 1e-6) <= 1.25 * max(hang, stiff)
    assert bend <= rail * (1 + 1e-6) <= 2.2 * bend


@pytest.mark.parametrize(
    ("columns", "bays", "mount_count"),
    [*(p for p in PATTERNS if p[2] > 2), ((2400,), 3, 3), ((2400,), 6, 4)],
)
def test_with_any_mount_lost_no_other_bears_more_than_is_told(
    columns, bays, mount_count, tables, make_batch
):
    """The rail goes through over the mounts that are left, which push as well as they pull.

    Beside a lost outer one no mount that doesn't give bears more either, where gaps are even.
    """
    width = sum(columns)
    studs = stud_centres(columns, bays, STUD_MM)
    over = over_mm(tables.factors, STUD_MM)
    mounts = mount_centres(studs, mount_count, over)
    wall = make_batch(
        columns=len(columns),
        stud_count=len(studs),
        mount_count=mount_count,
        bay_mm=largest_bay_mm(columns, bays, STUD_MM),
        width_mm=float(width),
        board_mm=BOARD_MM,
        mount=0,
        tip_load=max(tip_load(mounts, over)),
        lost_load=max(*tip_load(mounts, over), *lost_load(mounts, over)),
        lost_weight=max(lost_weight(mounts, width / 2)),
    )
    told = next(c for c in checks(tables, wall) if c.name == "one mount lost").demand
    loads = [*zip(studs, stud_weights_n(studs, width), strict=True)], studs
    left = [mounts[:gone] + mounts[gone + 1 :] for gone in range(mount_count)]
    give = [worst_n((5_000.0, 20_000.0), some, loads, 80 * G * 2, width) for some in left]
    stiff = [worst_n((200_000.0,), some, loads, 80 * G * 2, width) for some in (left[0], left[-1])]
    assert max(give) <= told * (1 + 1e-6) <= 1.25 * max(give + stiff)
    if len(columns) == 1:
        assert max(stiff) <= told * (1 + 1e-6)
