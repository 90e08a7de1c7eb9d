"""North American rules against printed tables and worked examples.

Sources: NDS Table 12.2A as reprinted in a public permit file (lfportal.everettwa.gov 1831805);
AWC connection examples E2.1a and E2.3; Residential Structural Design Guide, example 5.6; size
factors of NDS Table 4A. Emin, CP's formula and c = 0.8 were recalled; the example confirms them.
"""

import pytest

from steepwright.structure.nds import (
    INCH_MM,
    POUND_N,
    PSI_MPA,
    SHORT_LOAD_FACTORS,
    column_factor,
    euler_stress_mpa,
    lag_withdrawal_n_per_mm,
    nail_withdrawal_n_per_mm,
    size_factor,
)

INCHES = (1 / 4, 5 / 16, 3 / 8, 7 / 16, 1 / 2, 5 / 8, 3 / 4)


@pytest.mark.parametrize(
    ("gravity", "pounds"),
    [
        (0.42, (173, 205, 235, 264, 291, 344, 395)),
        (0.50, (225, 266, 305, 342, 378, 447, 513)),
    ],
)
def test_lag_screw_withdrawal_table_12_2a(gravity, pounds):
    for inch, value in zip(INCHES, pounds, strict=True):
        force = lag_withdrawal_n_per_mm(gravity, inch * INCH_MM) * INCH_MM / POUND_N
        assert force == pytest.approx(value, abs=0.6)


def test_lag_screw_example_e2_3():
    thread_mm = 2.1875 * INCH_MM
    force = lag_withdrawal_n_per_mm(0.55, 0.5 * INCH_MM) * thread_mm
    # 437 lb/in is printed rounded: 955 lb.
    assert force / POUND_N == pytest.approx(955, abs=1.5)
    assert force == pytest.approx(4247.9, rel=0.0015)


def test_nail_example_e2_1a():
    assert nail_withdrawal_n_per_mm(0.42, 0.131 * INCH_MM) * 1000 == pytest.approx(
        3619.3, rel=0.001
    )


def test_column_example_5_6():
    fc_star = 1150.0 * 1.0 * 1.15 * PSI_MPA
    euler = euler_stress_mpa(510e3 * PSI_MPA, 7.3 * 12.0 / 3.5)
    factor = column_factor(fc_star, euler)
    use = 4800.0 * POUND_N / (3.5 * INCH_MM) ** 2 / (factor * fc_star)
    assert fc_star / PSI_MPA == pytest.approx(1322.5)
    assert euler / PSI_MPA == pytest.approx(669.2, abs=0.05)
    assert factor == pytest.approx(0.4378, abs=5e-5)
    assert use == pytest.approx(0.6767, abs=5e-5)


def test_size_and_duration_factors_of_the_tables():
    assert [size_factor(d) for d in (4, 5, 6, 8, 10, 12, 14)] == [1.5, 1.4, 1.3, 1.2, 1.1, 1.0, 0.9]
    assert SHORT_LOAD_FACTORS["permanent"] == 0.9
    assert SHORT_LOAD_FACTORS["impact"] == 2.0
