"""Bolts: tensile areas of ISO 898-1 and embedment across the grain (8.31 to 8.33).

Tensile areas from ISO 898-1 Table 4, recalled: M10 58.0, M12 84.3 mm2 [M].
"""

import pytest

from steepwright.catalog import read_catalog
from steepwright.catalog.families import lip_bolts
from steepwright.structure.tabulate_lip import bolt_core_mm2, bolt_washer_n


@pytest.mark.parametrize(("diameter", "area"), [(10, 58.0), (12, 84.3)])
def test_tensile_area_is_safe_and_near_the_standard(diameter, area):
    # The pitch is taken as 0.15 d for all sizes: exact for M10, a little less for M12's 1.75 mm.
    assert area * 0.985 <= bolt_core_mm2(diameter) <= area * 1.002


def test_washer_of_an_m10_bolt_on_c24():
    # 3 fc,90,k on a ring of 30 and 11 mm: 3 x 2.5 x 611.8 mm2 = 4589 N.
    catalog = read_catalog()
    factors, c24 = catalog.materials.factors, catalog.materials.timber_classes["C24"]
    assert bolt_washer_n(factors, c24) == pytest.approx(4589, abs=1)


def test_shipped_bolts_pass_every_rail_on_offer():
    catalog = read_catalog()
    for bar in catalog.timber:
        packs = lip_bolts(catalog, bar.width_mm)
        assert packs
        assert all(bolt.length_mm >= bar.width_mm + 25 for bolt in packs)
