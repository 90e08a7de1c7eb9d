"""What ties leave on a stud: against beam formulas, and never less than the grillage says."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from elastic.grillage import Grillage, PointLoad, TieBack, respond
from steepwright.structure.grillage_share import stud_share
from steepwright.structure.tie_share import (
    held_part,
    most_of_load,
    part_of_weight,
    softness,
    tied_part,
)


def one(held, place=0.5):
    return tuple(float(part[0]) for part in tied_part(np.array([held]), np.array([place])))


@pytest.mark.parametrize("place", [0.4, 0.43, 0.5, 0.6])
def test_without_a_tie_all_is_left_and_a_softer_one_never_leaves_less(place):
    assert one(0.0, place) == pytest.approx((1.0, 1.0))
    moment, deflection = tied_part(np.linspace(0.0, 1.0, 1000), np.full(1000, place))
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


@pytest.mark.parametrize("place", [0.25, 0.4, 0.47, 0.5, 0.58])
def test_a_firm_support_takes_what_stops_a_simple_beam_from_sagging_there(place):
    """AWC Design Aid 6 [M]: deflections of a simple beam, all over L^3/EI.

    A load P at b from the nearer end sags most by P b (L^2 - b^2)^(3/2) / (9 sqrt(3) EI L), under
    itself by P a^2 b^2 / (3 EI L); by an even load w it is w x (L^3 - 2 L x^2 + x^3) / (24 EI).
    What a support at b takes of a load anywhere is by Maxwell the sag there of a load at b.
    """
    b = min(place, 1 - place)
    under = (place * (1 - place)) ** 2 / 3
    most = b * (1 - b * b) ** 1.5 / (9 * 3**0.5) / under
    even = place * (1 - 2 * place**2 + place**3) / 24 / under
    assert float(most_of_load(np.array(place))) == pytest.approx(most)
    assert float(part_of_weight(np.array(place))) == pytest.approx(even)
    assert float(softness(np.array(place))) == pytest.approx(48 * under)


def test_a_place_of_its_own_leaves_the_same_from_either_end_and_joins_the_table_of_the_middle():
    for held in (0.1, 0.6, 0.95, 1.0):
        assert one(held, 0.42) == pytest.approx(one(held, 0.58))
        assert one(held, 0.5 + 1e-9) == pytest.approx(one(held), rel=2e-4)  # straight between steps


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
    place=st.sampled_from([0.5, 0.5, 0.4, 0.45, 0.56]),
)
def test_no_tied_stud_of_a_grillage_bears_more(pattern, span, bay, ei, across, ratio, place):
    """The lesser of what ties and what neighbours leave is no less than both together leave.

    The grillage, whose ties pull only, is held against PyNiteFEA in tests/oracles.
    """
    columns, studs = pattern
    bays = (studs - 1) // columns
    seams = tuple(range(bays, studs - 1, bays))
    places = np.meshgrid(
        np.linspace(0, studs - 1, 4 * (studs - 1) + 1), np.linspace(0.05, 0.95, 19)
    )
    across_bays, part = (place.ravel() for place in places)
    row = np.ones(len(part))
    soft = float(softness(np.array(place)))
    ties = TieBack(span * place * row, np.full((len(part), studs), ratio * 48 * ei / span**3))
    stiff = np.full((len(part), studs), ei)
    grillage = Grillage(span * row, bay * row, stiff, across * row, seams, ties=(ties,))
    found = respond(grillage, PointLoad(across_bays, part * span))

    alone = stud_share(*(np.array([v]) for v in (columns, studs, bay, span, ei, across)))
    moment, deflection = one(ratio * soft / (1 + ratio * soft), place)
    reaction, lift = float(alone.reaction[0]), float(alone.lift[0])
    most = min(float(alone.moment[0]), moment * reaction)
    assert found.moment_nmm.max() <= most * span / 4 * (1 + 1e-6)
    most = min(float(alone.deflection[0]), max(deflection * reaction, lift))
    assert found.deflection_mm.max() <= most * span**3 / (48 * ei) * (1 + 1e-6)
    assert found.tie_n.max() <= reaction * float(most_of_load(np.array(place))) * (1 + 1e-9)
