"""Carrying by two and three people.

Sources: HSE L23 para. 120 and INDG143 (25 kg at the best height; two people two thirds of the
sum, three a half), as read in hosted copies; sheet masses from a birch plywood maker's
datasheet, 1220 x 2440 mm: 15 mm 30.8 kg, 18 mm 36.7 kg.
"""

from __future__ import annotations

import csv

import pytest

from steepwright.catalog.types import Factors
from steepwright.geometry.access import carry_limit_kg, people_needed
from steepwright.resources import catalogs_dir
from steepwright.room.types import Access


@pytest.fixture(scope="module")
def shipped() -> Factors:
    path = catalogs_dir() / "materials" / "factors.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    return Factors({r["key"]: float(r["value"]) for r in rows}, {r["key"]: "" for r in rows})


@pytest.mark.parametrize(("carriers", "limit_kg"), [(1, 25.0), (2, 33.3), (3, 37.5), (5, 37.5)])
def test_hse_l23_team_of_two_lifts_two_thirds_and_of_three_a_half(shipped, carriers, limit_kg):
    assert carry_limit_kg(Access(carriers=carriers), shipped) == pytest.approx(limit_kg, abs=0.06)


@pytest.mark.parametrize(("mass_kg", "people"), [(24.9, 1), (30.8, 2), (36.7, 3), (37.6, None)])
def test_hse_l23_full_birch_sheets(shipped, mass_kg, people):
    assert people_needed(mass_kg, Access(), shipped) == people


def test_hse_l23_sum_takes_what_the_builder_says_one_carries_when_less(shipped):
    assert carry_limit_kg(Access(max_carry_kg=15.0), shipped) == pytest.approx(20.0, abs=0.02)
    assert carry_limit_kg(Access(max_carry_kg=60.0), shipped) == carry_limit_kg(Access(), shipped)
