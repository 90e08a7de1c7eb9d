"""A lip hung level from a slanting beam."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from steepwright.geometry.levelling import levelling
from steepwright.room.types import Beam


def slanting(left, right):
    return Beam("slanting", 3000, (left, right), 100, 200, 4000, None, None)


def test_drops_and_turns_by_hand():
    """24 mm over 4 m is 6 mm in each metre; a pitch of 1.5 mm makes 4 turns of it."""
    mounts = levelling(slanting(2424, 2400), 4000.0, (1000.0, 2000.0, 4000.0), 1.5)
    assert mounts == ((1000.0, 18.0, 12.0), (2000.0, 12.0, 8.0), (4000.0, 0.0, 0.0))


def test_mount_without_thread_has_no_turns():
    assert levelling(slanting(2400, 2408), 4000.0, [2000.0], 0.0) == ((2000.0, 4.0, None),)


@given(
    st.integers(2000, 2600),
    st.integers(2000, 2600),
    st.lists(st.floats(0.0, 4000.0), min_size=1, max_size=6),
)
def test_all_pivots_end_at_one_height(left, right, places):
    """With a mount's own drop of 40 mm every pivot hangs 40 mm below the beam's lower end."""
    for mount in levelling(slanting(left, right), 4000.0, places, 1.5):
        underside = left * (1 - mount.y_mm / 4000) + right * mount.y_mm / 4000
        assert mount.drop_mm >= -1e-9
        assert underside - mount.drop_mm - 40 == pytest.approx(min(left, right) - 40, abs=1e-9)
