"""Rows of the search told apart by numbers, also where the grid is finer than 64 bits can count."""

from __future__ import annotations

import numpy as np
import pytest

from steepwright.optimise.branch import alike_structure
from steepwright.optimise.entries import Entries

# The shipped example has 10 places, 6 mounts, 3112 sheetings, 20 sections, 9 fixings; its grid at
# 1 mm is 1626 x 251 lengths by 1201 widths. That is more combinations than 2**63.
FINEST = (10, 6, 3112, 20, 2, 1626, 251, 1, 9, 1201, 1201)
COARSE = (2, 2, 3, 2, 2, 4, 3, 1, 2, 3, 3)


@pytest.mark.parametrize("most", [FINEST, COARSE])
def test_rows_are_alike_when_all_that_bears_on_their_structure_is(most: tuple[int, ...]) -> None:
    r = np.random.default_rng(3)
    few = np.array(most) - 1 - r.integers(0, 2, (400, len(most)))
    rows = np.maximum(np.vstack([few, np.array(most) - 1]), 0)
    entries = Entries(*rows.T)
    first, inverse = alike_structure(entries)
    bears = np.delete(rows, [4, 7], axis=1)  # neither delivery nor cost does
    every, at, which = np.unique(bears, axis=0, return_index=True, return_inverse=True)
    assert len(first) == len(every)
    assert first.tolist() == _in_order(bears, at).tolist()
    assert (bears[first][inverse] == bears).all()
    assert len({*zip(inverse.tolist(), which.ravel().tolist(), strict=True)}) == len(every)


def _in_order(bears: np.ndarray, at: np.ndarray) -> np.ndarray:
    """The rows by place, mount, sheeting, section, lengths, widths, and the fixing last."""
    columns = bears[at][:, [0, 1, 2, 3, 4, 5, 7, 8, 6]]
    return at[np.lexsort(columns.T[::-1])]
