"""The sharing table: never below the full solution, and steady in the directions of search."""

import numpy as np
import pytest

from elastic.composite import Joint, Rib, effective
from elastic.grillage import Grillage, PointLoad, respond
from steepwright.structure.grillage_share import _table, _worst, stud_share
from steepwright.structure.grillage_transverse import rib_loads, transverse_stiffness

PATTERNS = [(1, 2), (1, 3), (1, 5), (2, 5), (2, 7), (3, 7), (1, 8)]


def table(columns, studs, bay, span, ei, across):
    rows = np.broadcast_arrays(columns, studs, bay, span, ei, across)
    return stud_share(*(np.asarray(r) for r in rows))


@pytest.mark.parametrize(("columns", "studs"), PATTERNS)
@pytest.mark.parametrize(("bay", "span", "across"), [(610, 2400, 3.4e6), (305, 3600, 9e6)])
def test_the_table_is_the_full_solution_at_its_worst_load(columns, studs, bay, span, across):
    bays = (studs - 1) // columns
    places = np.linspace(0, (studs - 1) / 2, 6 * (studs - 1) + 1)
    along = np.linspace(0.2, 0.5, 7) * span
    at = np.array([(a, u) for a in places for u in along])
    ones = np.ones(len(at))
    grid = Grillage(
        span * ones,
        bay * ones,
        np.full((len(at), studs), 5e10),
        across * ones,
        tuple(range(bays, studs - 1, bays)),
    )
    full = respond(grid, PointLoad(at[:, 0], at[:, 1]))
    share = table([columns], studs, bay, span, 5e10, across)
    moment = full.moment_nmm.max() / (span / 4)
    sag = full.deflection_mm.max() / (span**3 / (48 * 5e10))
    assert share.moment[0] == pytest.approx(moment, rel=2e-3)
    assert share.moment[0] > moment * (1 - 1e-3)
    assert share.deflection[0] == pytest.approx(sag, rel=2e-3)
    assert share.reaction[0] >= full.lip_n.max()


@pytest.mark.parametrize(("columns", "studs"), PATTERNS)
def test_moment_and_deflection_never_fall_when_span_or_bay_grows(columns, studs):
    spans, bays = np.linspace(300, 6000, 400), np.linspace(100, 1300, 400)
    joint = Joint(1871.0, 100.0)
    for ei, across in [(5e9, 1e7), (6e10, 3.4e6), (3e11, 5e5)]:
        by_span = table([columns], studs, 400.0, spans, ei, across)
        assert np.all(np.diff(by_span.moment * spans) >= -1e-9)
        assert np.all(np.diff(by_span.deflection * spans**3) >= -1e-6)
        by_bay = table([columns], studs, bays, 2400.0, ei, across)
        assert np.all(np.diff(by_bay.moment) >= -1e-12)
        assert np.all(np.diff(by_bay.deflection) >= -1e-12)
    # With Annex B's stiffness, which grows with the span and with the sheet's width.
    ei = effective(Rib(9000.0, 400.0, 17.6, 11000.0, 45.0, 95.0), joint, spans).ei_nmm2
    by_span = table([columns], studs, 400.0, spans, ei, 3.4e6)
    assert np.all(np.diff(by_span.moment * spans) >= -1e-9)
    assert np.all(np.diff(by_span.deflection * spans**3 / ei) >= 0)
    ei = effective(Rib(9000.0, bays, 17.6, 11000.0, 45.0, 95.0), joint, 2400.0).ei_nmm2
    assert np.all(np.diff(table([columns], studs, bays, 2400.0, ei, 3.4e6).moment) >= -1e-12)


@pytest.mark.parametrize(("columns", "studs"), PATTERNS)
def test_the_steady_table_lies_close_to_the_real_curve(columns, studs):
    table, bays = _table(columns, studs), (studs - 1) // columns
    seams = tuple(range(bays, studs - 1, bays))
    loads = rib_loads(studs, seams, np.linspace(0, studs - 1, 12 * (studs - 1) + 1))
    z = np.exp(table.log_z[1:])
    real = _worst(z, transverse_stiffness(studs, seams), loads)
    for steady, exact in zip((table.log_moment, table.log_deflection), real, strict=True):
        loose = np.exp(steady[1:]) / exact - 1
        assert loose.min() >= -1e-12
        assert loose.max() < 0.02


def test_no_sheet_no_sharing_and_two_studs_share_nothing():
    assert table([1], 5, 400.0, 2400.0, 6e10, 0.0).moment[0] == pytest.approx(1.0, abs=0.006)
    assert table([1], 2, 400.0, 2400.0, 6e10, 1e9).moment[0] == pytest.approx(1.0)


def test_impossible_stud_patterns_are_refused():
    with pytest.raises(ValueError, match="equal bays"):
        table([2], 4, 400.0, 2400.0, 6e10, 1e6)


@pytest.mark.parametrize("edge_ratio", [0.55, 0.8])
def test_the_smallest_stiffness_for_all_studs_is_the_cautious_choice(edge_ratio):
    # Outer studs have half the sheet; the table knows one stiffness only.
    studs, ei = 5, np.array([edge_ratio, 1, 1, 1, edge_ratio]) * 6e10
    at = np.array([(a, u) for a in np.linspace(0, 2, 17) for u in (700.0, 1000.0, 1200.0)])
    ones = np.ones(len(at))
    grid = Grillage(2400 * ones, 400 * ones, np.tile(ei, (len(at), 1)), 3.4e6 * ones)
    full = respond(grid, PointLoad(at[:, 0], at[:, 1]))
    share = table([1], studs, 400.0, 2400.0, edge_ratio * 6e10, 3.4e6)
    assert full.moment_nmm.max() <= share.moment[0] * 600
    assert full.deflection_mm.max() <= share.deflection[0] * 2400**3 / (48 * edge_ratio * 6e10)
