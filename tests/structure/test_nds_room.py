"""Rooms that are checked by the NDS: rules, words and refusals of its own."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from steepwright.errors import InputError
from steepwright.room.with_catalog import check_with_catalog
from steepwright.structure import Batch, assumptions, checks
from steepwright.structure.nds_words import CLAUSES, PHRASES
from steepwright.structure.rule import FIND_OUT
from steepwright.structure.tables import Tables
from steepwright.structure.wall import RULES
from steepwright.units import INCH_MM, POUND_N, PSI_MPA


def test_a_stud_by_hand(nds_tables: Tables, make_batch) -> None:
    """NDS 3.3, 3.7, 3.9 in pounds and inches; SPF No.2, dressed 45 x 145 mm: a nominal 8 in."""
    batch: Batch = make_batch(timber=1, rows=2, seam_mm=1300.0)
    stud = {check.name: check for check in checks(nds_tables, batch)}
    b, h, span = 45 / INCH_MM, 145 / INCH_MM, 2600 / INCH_MM
    star = 875 * 1.2
    edge = 1.2 * 510e3 * b**2 / (2.06 * span * h)
    half = (1 + edge / star) / 1.9
    allowed = star * (half - math.sqrt(half**2 - edge / star / 0.95)) * b * h**2 / 6
    parked = stud["stud, parked"]
    assert parked.capacity / POUND_N / INCH_MM == pytest.approx(0.9 * allowed, rel=1e-9)
    assert stud["stud shear"].capacity / POUND_N == pytest.approx(135 * b * h / 1.5, rel=1e-9)
    climber = 80 * 9.80665 * 2 / POUND_N
    line = parked.demand * 8 / 2600**2
    axial = climber + line * 2600 / POUND_N
    stress, euler = axial / (b * h), 0.822 * 510e3 / (span / h) ** 2
    a = (1 + euler / 1150) / 1.6
    crushed = stress / (1150 * (a - math.sqrt(a * a - euler / 1150 / 0.8)))
    bend = climber * math.sin(math.radians(40)) * span / 4 + (
        parked.demand * math.sin(math.radians(40)) / POUND_N / INCH_MM
    )
    own = crushed**2 + bend / allowed / (1 - stress / euler)
    pulled = bend / allowed + stress / (450 * 1.2)
    # At the seam nobody helps, but a load beside the stud may be levered on it a little.
    assert 1.0 <= stud["stud bending"].use / max(own, pulled) < 1.03
    assert nds_tables.timber.fm_d_mpa[1] / PSI_MPA == pytest.approx(star)


def test_a_mount_by_hand(nds_tables: Tables) -> None:
    """W = 1800 G^1.5 D^0.75 of a lag screw (12.2-1), DF-L, and the least of W and steel / 2."""
    each = 1800 * 0.5**1.5 * (10 / INCH_MM) ** 0.75 * POUND_N / INCH_MM * 80
    steel = 400 * math.pi * 7.0**2 / 4 / 2.0
    mounts = nds_tables.mounts
    assert mounts.axial_n[0, 0] == pytest.approx(min(each, steel))
    assert mounts.axial_n[1, 0] == pytest.approx(4 * min(each, steel))


def test_no_check_speaks_of_the_other_code(nds_tables: Tables, make_batch) -> None:
    for check in checks(nds_tables, make_batch(rows=2, seam_mm=1300.0, columns=2)):
        said = check.clause + check.assumption
        assert not any(word in said for word in ("kcr", "(8.28)", "kc,90", "nef", "{")), said
        if "EN 1995" in check.clause:
            assert check.clause.endswith(("as allowable stress", "(A1)", "Table 8.4", "Table 8.2"))
    texts = " ".join(assumptions(nds_tables))
    assert "allowable stress" in texts
    assert "partial factors 1" not in texts


def test_every_word_is_that_of_a_check() -> None:
    names = {rule.name for rule in RULES}
    assert set(CLAUSES) <= names
    told = " ".join([*(rule.assumption for rule in RULES), *FIND_OUT.values()])
    assert [old for old, _ in PHRASES if old not in told] == []


def test_loads_have_no_partial_factors(nds_tables: Tables, make_batch) -> None:
    one = {check.name: check for check in checks(nds_tables, make_batch())}
    weight = one["mount pull-out"].demand - 80 * 9.80665 * 2 * float(nds_tables.mounts.lever[1, 0])
    parked = one["mount, parked"].demand
    assert weight == pytest.approx(parked)
    assert np.isclose(one["mount, parked"].capacity / one["mount pull-out"].capacity, 0.9)


def test_timber_of_other_rules_is_refused(catalog, american, nds_room, make_room) -> None:
    check_with_catalog(nds_room, american)
    with pytest.raises(InputError, match="sells no lumber of which NDS"):
        check_with_catalog(nds_room, catalog)
    with pytest.raises(InputError, match="no reference design values of this grade"):
        check_with_catalog(replace(make_room(), code="NDS"), american)
    for kind in ("frame", "ledger"):
        other = tuple(replace(beam, kind=kind) for beam in nds_room.beams)
        with pytest.raises(InputError, match="checked by EN 1995 only"):
            check_with_catalog(replace(nds_room, beams=other), american)
