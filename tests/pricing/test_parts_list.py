"""The parts list against pieces counted on a drawing of one wall.

Five studs under two columns and two rows of sheets, 2400 x 1200 mm, a kicker of 300 mm. That a
seam's both edges get a row of screws, and that every end of a stud, upright or piece of blocking
is a joint, is common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steepwright.geometry.holds import HoldGrid, hold_positions
from steepwright.pricing.hardware import UNAVAILABLE_CENTS, Counts, HardwareRules, quantities

RULES = HardwareRules(
    screws_per_joint=2, hinge_spacing_mm=500, hold_margin_mm=75, hold_spacing_mm=200,
    rope_lengths=7, pulleys=6, latches=2, straps=2, bolts_per_mount=2, fold_up=True,
)  # fmt: skip


def count(rules: HardwareRules = RULES, **changed: int) -> dict[str, int]:
    sizes = {
        "studs": 5, "columns": 2, "rows": 2, "mounts": 3, "board_mm": 2400, "kicker_mm": 300,
        "width_mm": 1200, "screw_mm": 150, "tie": 0,
    } | changed  # fmt: skip
    counts = Counts(**{name: np.array([size], dtype=np.int64) for name, size in sizes.items()})
    return {group: int(number[0]) for group, number in quantities(rules, counts).items()}


def test_sheet_screws() -> None:
    up = 6 * 17  # 5 studs, one of them under both edges of the seam; 2400 / 150 + 1 in each row
    across = 4 * 9  # two edges of two rows; 1200 / 150 + 1
    kicker = 6 * 3 + 2 * 9
    assert count()["sheet screw"] == up + across + kicker
    assert count(kicker_mm=0)["sheet screw"] == up + across
    assert count(screw_mm=151)["sheet screw"] == 6 * 16 + 4 * 8 + 6 * 2 + 2 * 8


def test_frame_screws() -> None:
    studs, blocking, uprights, floor = 5 * 2, 4 * 2, 5 * 2, 5
    assert count()["frame screw"] == 2 * (studs + blocking + uprights + floor)
    assert count(rows=1)["frame screw"] == 2 * (studs + uprights + floor)
    assert count(rows=3, kicker_mm=0)["frame screw"] == 2 * (studs + 2 * blocking + floor)


def test_a_foot_without_hinges_is_screwed_to_its_kicker() -> None:
    """Beside each of five studs, as many as hold its upright to the floor."""
    stays = replace(RULES, fold_up=False)
    assert count(stays)["frame screw"] == count()["frame screw"] + 2 * 5
    assert count(stays, kicker_mm=0)["frame screw"] == count(kicker_mm=0)["frame screw"]


def test_holds() -> None:
    # 75 mm from each edge: 2250 / 200 leaves 12 rows, 1050 / 200 six columns.
    assert count()["tnut"] == 12 * 6
    assert count(width_mm=100)["tnut"] == 12


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.integers(300, 1250), min_size=1, max_size=3).map(tuple),
    st.lists(st.integers(400, 1500), min_size=1, max_size=2).map(tuple),
    st.integers(1, 4),
    st.sampled_from([38, 45, 60]),
)
def test_every_hold_that_is_drawn_gets_its_insert(
    columns: tuple[int, ...], rows: tuple[int, ...], bays: int, stud: int
) -> None:
    studs = tuple(np.linspace(stud / 2, sum(columns) - stud / 2, bays + 1).tolist())
    drawn, _ = hold_positions(columns, rows, studs, stud, HoldGrid(200, 15, 75))
    board, width = sum(rows), sum(columns)
    assert len(drawn) <= count(width_mm=width, board_mm=board)["tnut"]


def test_what_folds() -> None:
    found = count()
    # A hinge at both ends and no gap over 500 mm; the rope in whole metres, 7 x 2.4 = 16.8 m.
    assert (found["hinge"], found["rope"]) == (4, 17)
    assert count(width_mm=1000)["hinge"] == 3
    assert (found["pulley"], found["brake"], found["latch"], found["strap"]) == (6, 1, 2, 2)
    assert count(kicker_mm=0)["hinge"] == 0
    stays = count(replace(RULES, fold_up=False))
    assert all(stays[name] == 0 for name in ("hinge", "rope", "pulley", "brake", "latch", "strap"))
    assert stays["sheet screw"] == found["sheet screw"]


def test_mounts_and_their_bolts() -> None:
    assert (count()["mount"], count()["lip bolt"]) == (3, 6)


@pytest.mark.parametrize("bill_cents", [10**9])
def test_what_is_not_on_offer_costs_more_than_any_bill(bill_cents: int) -> None:
    assert bill_cents < UNAVAILABLE_CENTS
    assert np.int64(UNAVAILABLE_CENTS) * 10**6 < np.iinfo(np.int64).max
