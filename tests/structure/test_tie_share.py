"""What ties leave on a stud: against beam formulas, and never less than the grillage says."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steepwright.structure.grillage import Grillage, PointLoad, TieBack, respond
from steepwright.structure.grillage_share import stud_share
from steepwright.structure.tie_share import held_part, tied_part


def one(held):
    return tuple(float(part[0]) for part in tied_part(np.array([held])))


def test_without_a_tie_all_is_left_and_a_softer_one_never_leaves_less():
    assert one(0.0) == pytest.approx((1.0, 1.0))
    moment, deflection = tied_part(np.linspace(0.0, 1.0, 1000))
    assert (np.diff(moment) <= 0).all()
    assert (np.diff(deflection) <= 0).all()


def test_a_firm_tie_makes_a_beam_of_two_spans():
    """Two equal spans, one load at a: the three-moment equation.

    With b = l - a the moment at the load is P a b (4 l^2 - a (l + a)) / (4 l^3), at a = l/2
    13/64 P l, and the deflection nearly 0.015 P l^3/EI (AWC Design Aid 6, two equal spans with a
    load at the middle of one [M]).
    """
    a = np.linspace(0.01, 0.99, 9801)
    sagging = a * (1 - a) * (4 - a * (1 + a)) / 4
    assert sagging[4900] == pytest.approx(13 / 64)
    middle = a * (1 - a) * (1 + a) / 4  # moment over the middle support, P l
    # Under the load: simple span less what the middle moment lifts there.
    sag = (a * (1 - a)) ** 2 / 3 - middle * a * (1 - a**2) / 6
    assert sag[4900] == pytest.approx(0.015, rel=0.01)
    moment, deflection = one(1.0)
    assert moment == pytest.approx(sagging.max() / 2 * 4, rel=1e-3)
    assert deflection == pytest.approx(sag.max() / 8 * 48, rel=1e-3)


def test_a_soft_tie_takes_its_part_of_a_load_at_its_place():
    """Two springs side by side: the stud's 48 EI / L^3 and the tie's."""
    stud, tie = 120.0, 30.0
    held = float(held_part(np.array([tie]), np.array([1.0 / stud]))[0])
    assert held == pytest.approx(tie / (tie + stud))
    assert one(held)[1] == pytest.approx(1.0 - held, rel=1e-6)


@settings(max_examples=60, deadline=None)
@given(
    pattern=st.sampled_from([(1, 3), (1, 4), (1, 6), (2, 5), (2, 7), (3, 7)]),
    span=st.floats(1800, 3600),
    bay=st.floats(200, 700),
    ei=st.floats(10.0, 11.3).map(lambda power: 10.0**power),
    across=st.floats(5.5, 7.3).map(lambda power: 10.0**power),
    ratio=st.floats(-1.5, 2.5).map(lambda power: 10.0**power),
)
def test_no_tied_stud_of_a_grillage_bears_more(pattern, span, bay, ei, across, ratio):
    """The lesser of what ties and what neighbours leave is no less than both together leave.

    The grillage, whose ties pull only, is held against PyNiteFEA in tests/oracles.
    """
    columns, studs = pattern
    bays = (studs - 1) // columns
    seams = tuple(range(bays, studs - 1, bays))
    places = np.meshgrid(np.linspace(0, studs - 1, 4 * (studs - 1) + 1), np.linspace(0.05, 0.5, 10))
    across_bays, part = (place.ravel() for place in places)
    row = np.ones(len(part))
    ties = TieBack(span / 2 * row, np.full((len(part), studs), ratio * 48 * ei / span**3))
    stiff = np.full((len(part), studs), ei)
    grillage = Grillage(span * row, bay * row, stiff, across * row, seams, ties=(ties,))
    found = respond(grillage, PointLoad(across_bays, part * span))

    alone = stud_share(*(np.array([v]) for v in (columns, studs, bay, span, ei, across)))
    moment, deflection = one(ratio / (1 + ratio))
    reaction, lift = float(alone.reaction[0]), float(alone.lift[0])
    most = min(float(alone.moment[0]), moment * reaction)
    assert found.moment_nmm.max() <= most * span / 4 * (1 + 1e-6)
    most = min(float(alone.deflection[0]), max(deflection * reaction, lift))
    assert found.deflection_mm.max() <= most * span**3 / (48 * ei) * (1 + 1e-6)
    assert found.tie_n.max() <= reaction * (1 + 1e-9)
