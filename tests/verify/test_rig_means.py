"""What the checker knows of slabs, ledgers and joists, by hand and against a frame solver."""

from __future__ import annotations

import math
import sys
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from steepwright.catalog import read_catalog
from steepwright.units import INCH_MM, POUND_N, PSI_MPA
from steepwright.verify.hooked import Hooked
from steepwright.verify.joist_screws import joist_screw
from steepwright.verify.joists import Joists
from steepwright.verify.ledgers import Ledger
from steepwright.verify.mounts import Hanging
from steepwright.verify.slabs import Slab
from steepwright.verify.springs import PER_BAY, spread_over

sys.path.insert(0, str(Path(__file__).parents[1] / "structure"))

G = 9.80665  # m/s2, CGPM 1901
DESIGN = 0.9 / 1.3  # EN 1995-1-1 Tables 2.3, 3.1: short-term, solid timber and connections
LEVER = 1.05
C24 = {
    "fm_k_mpa": 24.0, "fv_k_mpa": 4.0, "fc90_k_mpa": 2.5, "e0_mean_mpa": 11000.0,
    "e0_05_mpa": 7400.0, "rho_k_kg_m3": 350.0, "rho_mean_kg_m3": 420.0, "name": "C24",
}  # fmt: skip
"""EN 338."""
C14 = C24 | {"fm_k_mpa": 14.0, "rho_k_kg_m3": 290.0, "name": "C14"}
MOUNT = {"drop_mm": 100}
WHOLE = Hooked(*(np.ones(1) for _ in Hooked.__slots__))


def given(**more: Any) -> dict[str, Any]:
    factors = dict(read_catalog().materials.factors.values)
    return {
        "factors": factors, "timber_classes": {"C24": C24, "C14": C14}, "graded": ["C14", "C24"],
        "mounts": [MOUNT],
    } | more  # fmt: skip


def weightless(climbers_n: float) -> Any:
    """Return loads of climbers alone on a board that weighs nothing."""
    one = np.ones(1, dtype=np.int64)
    walls = SimpleNamespace(studs=4 * one, rows=one, board_mm=2500.0 * one, bay_mm=400.0 * one)
    known = SimpleNamespace(
        factors={"self_weight_continuity": 1.25}, climber={"dynamic_factor": 2.0}
    )
    made = SimpleNamespace(walls=walls, known=known, all_n=climbers_n, area=0.0)
    made.bar = lambda name: np.zeros(1) if name == "n_mm" else np.full(1, 60.0)
    return made


def hanging(mounts: int = 3) -> Hanging:
    zero = np.zeros(1, dtype=np.int64)
    return Hanging(zero, zero, np.full(1, LEVER), mounts, np.full(1, 1250.0))


@pytest.mark.parametrize(
    ("joists", "spring", "ei"),
    [
        ([0.0, 500.0, 1000.0, 1500.0], 300.0, 1.6e11),
        ([0.0, 400.0, 800.0], 2000.0, 5e10),
        ([250.0, 950.0, 1650.0, 2350.0], 120.0, 7e11),
    ],
)
def test_a_frame_solver_spreads_the_load_alike(
    joists: list[float], spring: float, ei: float
) -> None:
    """PyNiteFEA, the load at every place in turn."""
    from test_spreading import POINTS_PER_BAY, solved

    assert PER_BAY == POINTS_PER_BAY
    spread = spread_over(joists, spring, ei)
    assert spread == pytest.approx(solved(joists, spring, ei), rel=1e-3)


def test_limits_by_hand() -> None:
    """Two joists: a lever. Rigid timber on three: 1/3 + 1/2 at an end. Stiff joists: all on one.

    Over three stiff joists a load midway between two of them bends the timber by 13/64 P l and
    sags 23 P l^3 / (1536 EI), by slope and deflection; nowhere is it more than 0.2074 P l.
    """
    two = spread_over([0.0, 600.0], 100.0, 1e11)
    sag = 600.0**3 / (48 * 1e11) + 1 / 200.0
    assert two == pytest.approx((1.0, 150.0, max(sag, 1 / 100.0)), rel=1e-9)
    assert spread_over([0.0, 600.0, 1200.0], 1.0, 1e15).share == pytest.approx(5 / 6, rel=1e-4)
    stiff = spread_over([0.0, 600.0, 1200.0], 1e12, 1e9)
    assert 13 / 64 <= stiff.arm_mm / 600.0 <= 0.2075
    assert stiff.soft_mm_n == pytest.approx(23 / 1536 * 600.0**3 / 1e9, rel=2e-3)


SPREADER = {
    "joists_mm": list(range(250, 3000, 500)), "joist_mm": [80, 240], "apart_mm": 500,
    "span_mm": 6000, "grade": "C24", "load_n_per_m": 400.0, "screw_mm": [10, 220],
    "lining_mm": 15, "held": True,
}  # fmt: skip
TIMBER = {
    "x_mm": 3000, "width_mm": 100, "depth_mm": 120, "span_mm": 500, "grade": "C24",
    "kind": "spreader", "existing_load_n_per_m": 0.0, "underside_mm": [2500, 2500],
}  # fmt: skip


def test_one_joist_by_hand() -> None:
    """EN 1995-1-1 6.1.5 to 6.1.7; held it doesn't tilt, 6.3.3(5): kcrit and kh are 1."""
    room = {"length_mm": 6000, "code": "EN 1995"}
    of = given()
    joists = Joists(of, room, TIMBER | {"spreader": SPREADER})
    own = 1.35 * 0.1 * 0.12 * 0.5 * 420.0 * G
    part = of["factors"]["beam_permanent_share"]
    dead = 0.08 * 0.24 * 420.0 * G + part * 400.0
    there = (1.35 * dead + 1.5 * (1 - part) * 400.0) / 1000.0
    uses = joists.uses(weightless(1500.0), WHOLE, hanging())
    load = joists.spread.share * 1.5 * 1500.0 * LEVER + own
    bent = there * 6000.0**2 / 8 + load * 1500.0
    strength = DESIGN * 24.0 * 80.0 * 240.0**2 / 6
    assert uses["joist bending"][0] == pytest.approx(bent / strength, rel=1e-9)
    end = there * 3000.0 + load / 2
    sheared = end * 1.5 / (80.0 * 240.0) / (DESIGN * 4.0 * 0.67)
    assert uses["joist shear"][0] == pytest.approx(sheared, rel=1e-9)
    # 80 mm of bearing, 30 mm of it once more, 6.1.5(1).
    borne = end / (110.0 * 80.0) / (DESIGN * 2.5)
    assert uses["joist bearing"][0] == pytest.approx(borne, rel=1e-9)
    assert joists.screw.room == pytest.approx(1.0)  # 8 d in a joist of 80 mm
    pulled = load / joists.screw.along_n
    level = joists.spread.share * 0.75 * 1500.0 * LEVER / joists.screw.across_n
    assert uses["spreader's screw"][0] == pytest.approx(math.hypot(pulled, level), rel=1e-9)


def test_coach_screws_by_hand() -> None:
    """EN 1995-1-1 (8.38), 8.5.2, (8.6) f: 10 x 220 through 120 mm of timber and 15 of lining."""
    factors = given()["factors"]
    screw = joist_screw(factors, "EN 1995", TIMBER | {"spreader": SPREADER}, (C24, C24))
    thread = 0.52 * 10**-0.5 * 85**-0.1 * 350**0.8 * 10 * 85
    washer = 3 * 2.5 * math.pi / 4 * (30.0**2 - 11.0**2)
    assert screw.along_n == pytest.approx(DESIGN * min(thread, washer), rel=1e-9)
    d = 1.1 * 7.0
    per_mm = 0.082 * (1 - 0.01 * d) * 350 / (1.35 + 0.015 * d) * d
    yields = 0.3 * 400.0 * d**2.6
    bent = per_mm * (math.sqrt(15.0**2 + 2 * yields / per_mm) - 15.0)
    assert screw.across_n == pytest.approx(DESIGN * bent, rel=1e-9)
    plain = joist_screw(
        factors, "EN 1995", TIMBER | {"spreader": SPREADER | {"lining_mm": 0}}, (C24, C24)
    )
    assert plain.across_n == pytest.approx(DESIGN * 1.15 * math.sqrt(2 * yields * per_mm))
    short = TIMBER | {"spreader": SPREADER | {"screw_mm": [10, 130]}}
    assert joist_screw(factors, "EN 1995", short, (C24, C24))[:2] == (0.0, 0.0)


def test_lag_screws_by_hand() -> None:
    """NDS 12.2-1, 3.10.4, 12.3.1, in inches and pounds: 7/16 x 10 through 5 1/2 in of SPF."""
    dfl = {"rho_k_kg_m3": 500.0, "fc90_k_mpa": 625 * PSI_MPA}
    spf = {"rho_k_kg_m3": 420.0, "fc90_k_mpa": 425 * PSI_MPA}
    factors = dict(read_catalog().materials.factors.in_code("NDS").values)
    under = SPREADER | {"joist_mm": [38, 235], "screw_mm": [11, 254], "lining_mm": 0}
    timber = TIMBER | {"width_mm": 89, "depth_mm": 140, "spreader": under}
    lasts = factors["kmod_solid_short"] / factors["gamma_m_connection"]
    d, inside = 7 / 16, 10 - 140 / INCH_MM - 0.7 * 7 / 16
    thread = 1800 * 0.5**1.5 * d**0.75 * inside
    hole = d + 1 / INCH_MM
    washer = 425 * (3 * d + 0.375) / (3 * d) * math.pi / 4 * ((3 * d) ** 2 - hole**2)
    steel = 400 / PSI_MPA * math.pi / 4 * (0.69 * d) ** 2 / factors["gamma_m2_steel"]
    screw = joist_screw(factors, "NDS", timber, (spf, dfl))
    pull = min(lasts * thread, lasts * washer, steel)
    assert screw.along_n / POUND_N == pytest.approx(pull, rel=1e-6)
    # Across a lining of 1/2 in it yields below it: Fe = 11200 G along the joist, Rd 3.6.
    root, gap = 0.69 * d, 13 / INCH_MM
    per_inch = 11200 * 0.5 * root
    moment = 0.75 * 400 / PSI_MPA * root**3 / 6
    force = per_inch * (math.sqrt(gap**2 + 2 * moment / per_inch) - gap) / 3.6
    lined = joist_screw(
        factors, "NDS", timber | {"spreader": under | {"lining_mm": 13}}, (spf, dfl)
    )
    assert lined.across_n / POUND_N == pytest.approx(lasts * force, rel=1e-6)
    assert screw.across_n > 1.5 * lined.across_n


STUDS = {
    "section_mm": [60, 160], "wall": "studs", "fixings": 4, "apart_mm": 400, "stud_mm": 60,
    "screws": 2, "rated_n": None,
}  # fmt: skip
ACROSS = {
    "width_mm": 100, "depth_mm": 200, "span_mm": 3000, "grade": "C24", "kind": "ledger",
    "existing_load_n_per_m": 0.0, "underside_mm": [2400, 2400],
}  # fmt: skip
FRAME_SCREW = {
    "diameter_mm": 8.0, "root_mm": 5.2, "length_mm": 160.0, "thread_mm": 80.0, "head_mm": 15.0,
    "tensile_mpa": 600.0,
}  # fmt: skip


def lying(ledger: dict[str, Any], share: float) -> dict[str, float]:
    """Return the uses by climbers of 1500 N, so much of them on the ledger that is looked at."""
    beam, room = ACROSS | {"ledger": ledger}, {"code": "EN 1995"}
    hooks = Hooked(*(np.full(1, share) for _ in Hooked.__slots__))
    one = Ledger(given(ledger_screws={"60": FRAME_SCREW}), room, beam)
    uses = one.uses(weightless(1500.0), hooks, hanging())
    return {name: float(use[0]) for name, use in uses.items()}


OWN_N = 1.35 * 0.1 * 0.2 * 420.0 * G * 1.5
"""What the beam of 3 m puts on a ledger."""


def test_anchors_bear_what_levers_give_them() -> None:
    """By hand: 80 mm of ledger below its beam, 300 of beam and mount, a row of 1200."""
    climb = 1500.0 * LEVER * 0.8
    down, level = OWN_N + climb, climb / 2
    upright = down / 2 + level * (100.0 + 100.0 + 80.0) / 1200.0
    force = math.hypot(math.hypot(upright, level / 2), down / 2 * 30.0 / 80.0)
    masonry = STUDS | {"wall": "masonry", "rated_n": 4000.0}
    told = lying(masonry, 0.8)
    assert told["ledger anchor working load"] == pytest.approx(force / 4000.0, rel=1e-9)
    assert (told["ledger screws"], told["ledger screws' room"]) == (0.0, 0.0)
    assert lying(masonry | {"rated_n": None}, 0.8)["ledger anchor working load"] == 1.0


def test_a_ledger_and_its_screws_by_hand() -> None:
    """EN 1995-1-1 6.1.5 to 6.1.7, (8.6) f, (8.34), (8.38), (8.41), Table 8.4; studs of C14."""
    climb = 1500.0 * LEVER * 0.8
    down, level = OWN_N + 1.5 * climb, 0.75 * climb
    told = lying(STUDS, 0.8)
    assert told["ledger anchor working load"] == 0.0
    bent = down * 400.0 / 4 / (DESIGN * 24.0 * 60.0 * 160.0**2 / 6)
    assert told["ledger bending"] == pytest.approx(bent, rel=1e-9)
    sheared = down / (DESIGN * 4.0 * 0.67 * 60.0 * 160.0 / 1.5)
    assert told["ledger shear"] == pytest.approx(sheared, rel=1e-9)
    assert told["ledger bearing"] == pytest.approx(down / (DESIGN * 2.5 * 60.0 * 100.0), rel=1e-9)
    d = 1.1 * 5.2
    ledger, stud = (0.082 * rho * d**-0.3 for rho in (350.0, 290.0))
    b, yields = stud / ledger, 0.3 * 600.0 * d**2.6
    lateral = 1.15 * math.sqrt(2 * b / (1 + b)) * math.sqrt(2 * yields * ledger * d)
    lateral *= DESIGN * 2**0.9 * (5 / 13) ** 0.25
    thread = 0.52 * 8**-0.5 * 80**-0.1 * 290.0**0.8 * 8 * 80
    pull = DESIGN * min(thread, 10.0 * 15.0**2) * 2**0.9
    upright = down / 2 + level * 280.0 / 1200.0
    both = math.hypot(math.hypot(upright, level / 2) / lateral, down / 2 * 60.0 / 160.0 / pull)
    assert told["ledger screws"] == pytest.approx(both, rel=1e-9)
    assert told["ledger screws' room"] == 0.8  # 3 d to both sides of a stud of 60 mm
    assert lying(STUDS | {"section_mm": [160, 60]}, 0.8)["ledger screws"] > 1.0


def test_one_anchor_of_a_slab_by_hand() -> None:
    """F = sqrt((m g f)^2 + (0.5 m g f)^2) times the lever; a slab of 140 mm for one of 120."""
    slab = {"depth_mm": 140, "anchor_rated_n": 3000.0, "anchor_least_mm": 120}
    uses = Slab(given(), slab).uses(weightless(1500.0), WHOLE, hanging())
    force = math.hypot(1500.0, 750.0) * LEVER
    assert uses["anchor working load"][0] == pytest.approx(force / 3000.0, rel=1e-9)
    assert uses["slab thickness"][0] == pytest.approx(120 / 140)
    unknown = slab | {"anchor_rated_n": None, "anchor_least_mm": None}
    told = Slab(given(), unknown).uses(weightless(1500.0), WHOLE, hanging())
    assert [use[0] for use in told.values()] == [1.0, 1.0]
