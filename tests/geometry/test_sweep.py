"""The exact sweep against stepping: turn the rectangle in many small steps and look.

The stepping is written from scratch with points and segments. Between two steps no point of
the rectangle moves further than its radius times the step, which bounds the difference.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from steepwright.geometry.sweep import (
    Box,
    first_touch_rad,
    still_distance_mm,
    swept_bounds,
    swept_distance_mm,
)

STEPS = 600


def box_of(values) -> Box:
    return Box(*(np.array([float(value)]) for value in values))


def corners(values):
    u0, u1, v0, v1 = values
    return np.array([(u0, v0), (u1, v0), (u1, v1), (u0, v1)], dtype=float)


def turned(points, angle):
    cosine, sine = np.cos(angle), np.sin(angle)
    return points @ np.array([[cosine, sine], [-sine, cosine]])


def point_distance(points, values):
    """Distance of points to a rectangle with upright sides, by its nearest point."""
    low, high = np.array(values[0::2], dtype=float), np.array(values[1::2], dtype=float)
    return np.linalg.norm(points - np.clip(points, low, high), axis=-1)


def crosses(a, b, c, d):
    """Whether segments ab and cd cross, by the signs of four triangles."""

    def side(p, q, r):
        ahead = (q[..., 0] - p[..., 0]) * (r[..., 1] - p[..., 1])
        return np.sign(ahead - (q[..., 1] - p[..., 1]) * (r[..., 0] - p[..., 0]))

    return (side(a, b, c) != side(a, b, d)) & (side(c, d, a) != side(c, d, b))


def stepped_distances(board, solid, angles):
    """Distance at every angle: corners of each to the other, 0 where sides cross."""
    shape, still = corners(board), corners(solid)
    moved = np.stack([turned(shape, angle) for angle in angles])
    back = np.stack([turned(still, -angle) for angle in angles])
    least = np.minimum(point_distance(moved, solid).min(1), point_distance(back, board).min(1))
    for i in range(4):
        for j in range(4):
            ends = (moved[:, i], moved[:, i - 1], still[j], still[j - 1])
            least[crosses(*ends)] = 0.0
    return least


def span(low, high, least, most):
    return st.tuples(st.integers(low, high), st.integers(least, most)).map(
        lambda t: (t[0], t[0] + t[1])
    )


BOARD = st.tuples(st.integers(0, 120), st.integers(20, 200), st.integers(1000, 3500)).map(
    lambda t: (-t[0], t[1], -t[2], 90)
)
SOLID = st.tuples(span(-3000, 4000, 1, 1500), span(-2500, 800, 1, 1200)).map(
    lambda t: (*t[0], *t[1])
)


@settings(max_examples=60, deadline=None)
@given(BOARD, SOLID, st.floats(0.0, 1.3), st.floats(0.02, 0.8))
def test_sweep_agrees_with_stepping(board, solid, start, turn):
    end = min(start + turn, np.pi / 2)
    angles = np.linspace(start, end, STEPS)
    stepped = stepped_distances(board, solid, angles)
    reach = np.linalg.norm(corners(board), axis=1).max() * (angles[1] - angles[0])
    arrays = (box_of(board), np.array([start]), np.array([end]), box_of(solid))

    exact = float(swept_distance_mm(*arrays)[0])
    assert exact <= stepped.min() + 1e-6
    assert exact >= stepped.min() - reach / 2 - 1e-6

    bounds = swept_bounds(*arrays[:3])
    places = np.concatenate([turned(corners(board), angle) for angle in angles])
    for ours, theirs in (
        ((bounds.u0, bounds.v0), places.min(0)),
        ((bounds.u1, bounds.v1), places.max(0)),
    ):
        np.testing.assert_allclose(np.ravel(ours), theirs, atol=reach / 2)
    assert bounds.gap(arrays[3])[0] <= exact + 1e-9

    first = start + float(first_touch_rad(*arrays)[0])
    met = stepped == 0.0
    assert not met[angles < first - 1e-9].any()
    assert np.isfinite(first) or not met.any()
    if np.isfinite(first):
        assert exact == 0.0
        assert stepped[np.abs(angles - first).argmin()] <= reach / 2 + 1e-6


def test_cross_without_corners_inside_meets():
    """Two bars that cross have no corner inside each other."""
    bar, beam = box_of((-5, 5, -100, 100)), box_of((-80, 80, -4, 4))
    still = np.zeros(1)
    assert swept_distance_mm(bar, still, still, beam)[0] == 0.0
    assert first_touch_rad(bar, still, still + 1.0, beam)[0] == 0.0


@given(st.floats(0.0, 1.5), st.integers(50, 2000), st.integers(1, 900))
def test_thin_board_and_point_is_plane_trigonometry(start, length, radius):
    """A line of length L from the pivot, a point at radius r on its way: known in closed form."""
    assume(abs(length - radius) > 1e-3)
    angle = start + 0.05
    line = box_of((0, 0, -length, 0))
    point = radius * np.sin(angle), -radius * np.cos(angle)
    dot = box_of((point[0], point[0], point[1], point[1]))
    touch = float(first_touch_rad(line, np.array([start]), np.array([start + 0.1]), dot)[0])
    distance = float(swept_distance_mm(line, np.array([start]), np.array([start + 0.1]), dot)[0])
    if radius < length:
        assert abs(touch - 0.05) < 1e-6
        assert distance < 1e-6
    else:
        assert np.isinf(touch)
        assert abs(distance - (radius - length)) < 1e-6


@given(
    st.tuples(*[st.integers(-900, 900)] * 2), st.tuples(*[st.integers(1, 900)] * 2),
    st.floats(-3.1, 3.1), st.floats(0.0, np.pi / 2),
)  # fmt: skip
def test_swept_bounds_are_no_larger_than_what_is_swept(least, size, start, turn):
    board = (least[0], least[0] + size[0], least[1], least[1] + size[1])
    found = swept_bounds(box_of(board), np.array([start]), np.array([start + turn]))
    seen = np.concatenate(
        [turned(corners(board), a) for a in np.linspace(start, start + turn, 400)]
    )
    # Between two steps a corner rises by no more than its radius times half a step, squared, / 2.
    slack = 2546 * (turn / 399 / 2) ** 2 / 2 + 1e-6
    bounds = (seen[:, 0].min(), seen[:, 0].max(), seen[:, 1].min(), seen[:, 1].max())
    for name, value in zip(("u0", "u1", "v0", "v1"), bounds, strict=True):
        assert abs(float(getattr(found, name)[0]) - value) <= slack, name


def test_a_board_at_rest_is_as_far_off_as_after_no_turn_at_all() -> None:
    """The sweep of no length is the same question asked of other code."""
    rng = np.random.default_rng(7)

    def boxes(size: float) -> Box:
        u, v = rng.uniform(-3000, 1000, (2, 2000))
        return Box(u, u + rng.uniform(1, size, 2000), v, v + rng.uniform(1, 3000, 2000))

    board, solid, angle = boxes(300), boxes(3000), rng.uniform(0, 1.5, 2000)
    still = still_distance_mm(board, angle, solid)
    assert (still == 0).any()
    assert (still > 0).any()
    assert still == pytest.approx(swept_distance_mm(board, angle, angle, solid), abs=1e-9)


def test_the_distance_of_a_point_to_a_box_by_hand() -> None:
    box = Box(*(np.array([side]) for side in (0.0, 10.0, 0.0, 20.0)))
    for u, v, mm in ((5, 5, 0), (15, 5, 5), (5, -3, 3), (13, 24, 5), (-6, 28, 10), (10, 20, 0)):
        found = box.distance(np.array([float(u)]), np.array([float(v)]))
        assert found == pytest.approx([mm]), (u, v)
        assert box.square(np.array([float(u)]), np.array([float(v)])) == pytest.approx([mm * mm])
