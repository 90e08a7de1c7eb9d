"""The stress under a load that passes a seam, against the equation solved by finite differences.

N'' = a^2 (N - M) with N = 0 at both ends of a stretch of sheet, M the moment of a simple beam
under one load (the help is told as a part of full help, as in standards.md 3e).
"""

import numpy as np
import pytest
from scipy.linalg import solve_banded

from elastic.seams import _PLACES, _passing_stress

STEPS = 1600


def help_under_load(alpha: float, stretch: float, span: float, at: float) -> tuple[float, float]:
    """Return the moment and the help, as a moment, under a unit load [mm]."""
    x = np.linspace(0.0, stretch, STEPS + 1)
    moment = np.where(x <= at, (span - at) * x, at * (span - x)) / span
    h2 = (stretch / STEPS) ** 2
    inner = moment[1:-1]
    bands = np.zeros((3, len(inner)))
    bands[0, 1:] = bands[2, :-1] = 1.0
    bands[1] = -2.0 - alpha**2 * h2
    help_ = solve_banded((1, 1), bands, -(alpha**2) * h2 * inner)
    place = round(at / stretch * STEPS)
    return float(moment[place]), float(help_[place - 1])


@pytest.mark.parametrize("line", [(1.0, 0.0), (0.0, 1.0), (1.0, -0.4), (0.2, 0.7)])
@pytest.mark.parametrize(
    ("alpha", "stretch", "span"),
    [
        (0.002, 1200.0, 2400.0),
        (0.01, 700.0, 2600.0),
        (0.0005, 2000.0, 2600.0),
        (0.004, 2400.0, 2500.0),
    ],
)
def test_worst_place_of_a_passing_load(line, alpha, stretch, span):
    stresses = []
    for place in range(1, _PLACES):
        moment, helped = help_under_load(alpha, stretch, span, stretch * place / _PLACES)
        stresses.append(line[0] * moment + line[1] * helped)
    found = _passing_stress(line, *(np.array([v]) for v in (alpha, stretch, span)))
    assert found[0] == pytest.approx(4 / span * max(0.0, *stresses), rel=2e-3)
