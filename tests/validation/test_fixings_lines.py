"""Design factors of ropes and slings as shipped, against the figures that standards state.

Sources: EN 1492-1 (7 for textile slings) and EN 818 (4 for chain fittings, recalled); Cordage
Institute figures as quoted by rope sellers (12 to 15 for life lines, knots cost 35 to 50 %).
"""

import pytest

from steepwright.catalog import read_materials
from steepwright.structure.hoist import working_load_n

FACTORS = read_materials().factors


def test_working_loads_of_slings_and_chain_fittings():
    assert working_load_n(70_000.0, FACTORS["sling_design_factor"]) == pytest.approx(10_000.0)
    assert working_load_n(20_000.0, FACTORS["block_design_factor"]) == pytest.approx(5_000.0)


def test_rope_over_people():
    assert 12 <= FACTORS["rope_design_factor"] <= 15
    assert 0.5 <= FACTORS["knot_efficiency"] <= 0.65
    # A type A rope breaks at 22 kN and more.
    assert working_load_n(22_000.0, 12.0, 0.5) == pytest.approx(916.7, abs=0.05)
