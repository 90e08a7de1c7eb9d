"""What a stopped search did not get to, by the file's list, and which degrees that leaves open."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.choices import Choices
from steepwright.verify.packs import UNAVAILABLE_CENTS

IntArray = npt.NDArray[np.int64]


def listed(
    open_boxes: Iterable[tuple[int, ...]], size: int, choices: Choices
) -> npt.NDArray[np.bool_]:
    """Tell which choices on boxes of a size lie in boxes (size, beam, row, column) left open."""
    mask = np.zeros(len(choices), dtype=np.bool_)
    for cells, beam, row, column in open_boxes:
        if cells == size:
            mask |= (choices.beam == beam) & (choices.row == row) & (choices.column == column)
    return mask


def unsettled(
    degrees: list[tuple[int, dict[str, Any] | None]], angle_mdeg: IntArray, cents: IntArray
) -> set[int]:
    """Return the degrees at which something left open may cost less than the cheapest found.

    Parameters
    ----------
    angle_mdeg, cents
        Of each choice left open the largest angle that fits in its box [1/1000 degree], and a
        bound of its cost [cents].
    """
    found = set()
    for degree, cheapest in degrees:
        known = UNAVAILABLE_CENTS if cheapest is None else int(cheapest["cost_cents"])
        if bool(((angle_mdeg >= 1000 * degree) & (cents < known)).any()):
            found.add(degree)
    return found
