"""A few rules of North American practice (NDS, allowable stress) to compare with.

Inputs and results in the package's units; the rules themselves are written in inches and pounds.
No wall is checked by them: they give a second opinion on mounts and columns.
"""

from __future__ import annotations

import numpy as np

from steepwright.structure.timber import Values, require_positive

POUND_N = 4.4482216152605
INCH_MM = 25.4
PSI_MPA = POUND_N / INCH_MM**2

SHORT_LOAD_FACTORS = {
    "permanent": 0.9,
    "ten years": 1.0,
    "two months": 1.15,
    "seven days": 1.25,
    "ten minutes": 1.6,
    "impact": 2.0,
}
"""Load duration factor CD, NDS Table 2.3.2."""

END_GRAIN = 0.75
"""Factor on a lag screw's withdrawal from end grain."""

_DEEP_BENDING = ((4.0, 1.5), (5.0, 1.4), (6.0, 1.3), (8.0, 1.2), (10.0, 1.1), (12.0, 1.0))


def size_factor(nominal_depth_in: float) -> float:
    """Return CF on Fb of dimension lumber 2 to 4 in thick, by nominal depth [in], Table 4A."""
    for depth, factor in _DEEP_BENDING:
        if nominal_depth_in <= depth:
            return factor
    return 0.9


def lag_withdrawal_n_per_mm(gravity: Values, diameter_mm: Values) -> Values:
    """Return W = 1800 G^1.5 D^0.75 of a lag screw in side grain, per mm of thread [N/mm].

    `gravity` is the specific gravity G; the thread's length counts without the tip.
    """
    require_positive(gravity=gravity, diameter_mm=diameter_mm)
    inches = np.asarray(diameter_mm, dtype=np.float64) / INCH_MM
    pounds_per_inch = 1800.0 * np.asarray(gravity, dtype=np.float64) ** 1.5 * inches**0.75
    return np.asarray(pounds_per_inch * POUND_N / INCH_MM)


def nail_withdrawal_n_per_mm(gravity: Values, diameter_mm: Values) -> Values:
    """Return W = 1380 G^2.5 D of a smooth nail in side grain, per mm of penetration [N/mm]."""
    require_positive(gravity=gravity, diameter_mm=diameter_mm)
    inches = np.asarray(diameter_mm, dtype=np.float64) / INCH_MM
    pounds_per_inch = 1380.0 * np.asarray(gravity, dtype=np.float64) ** 2.5 * inches
    return np.asarray(pounds_per_inch * POUND_N / INCH_MM)


def euler_stress_mpa(e_min_mpa: Values, slenderness: Values) -> Values:
    """Return FcE = 0.822 E'min / (le / d)^2 [MPa]."""
    require_positive(e_min_mpa=e_min_mpa, slenderness=slenderness)
    return 0.822 * e_min_mpa / np.asarray(slenderness, dtype=np.float64) ** 2


def column_factor(fc_star_mpa: Values, euler_mpa: Values, c: float = 0.8) -> Values:
    """Return the column stability factor CP; c is 0.8 for sawn lumber."""
    require_positive(fc_star_mpa=fc_star_mpa, euler_mpa=euler_mpa)
    ratio = np.asarray(euler_mpa, dtype=np.float64) / fc_star_mpa
    half = (1.0 + ratio) / (2.0 * c)
    return np.asarray(half - np.sqrt(half**2 - ratio / c))
