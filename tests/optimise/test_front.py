"""The archive against the definition of dominance."""

from __future__ import annotations

import random

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from steepwright.optimise.front import NO_COST, Front, Score

SCORES = st.lists(
    st.builds(Score, st.integers(0, 6), st.integers(0, 6), st.integers(0, 4)), max_size=25
)


@given(SCORES)
def test_keeps_exactly_what_nothing_beats(scores: list[Score]) -> None:
    front: Front[int] = Front()
    for number, score in enumerate(scores):
        front.offer(score, number)
    unbeaten = {s for s in scores if not any(other != s and other.at_least(s) for other in scores)}
    assert set(front.members) == unbeaten


@given(SCORES, st.integers(0, 7), st.integers(0, 5))
def test_least_cost_is_looked_up_right(scores: list[Score], angle: int, fall: int) -> None:
    front: Front[int] = Front()
    for number, score in enumerate(scores):
        front.offer(score, number)
    expected = min(
        (s.cost_cents for s in scores if s.angle_mdeg >= angle and s.fall_mm >= fall),
        default=NO_COST,
    )
    assert int(front.least_cost_cents(np.array([angle]), np.array([fall]))[0]) == expected


RANKED = st.lists(
    st.tuples(
        st.builds(Score, st.integers(0, 3), st.integers(0, 3), st.integers(0, 2)),
        st.integers(0, 5),
    ),
    max_size=25,
)


@given(RANKED, st.randoms(use_true_random=False))
def test_a_ranked_front_does_not_depend_on_the_order(
    offered: list[tuple[Score, int]], draw: random.Random
) -> None:
    fronts = []
    for _ in range(2):
        front: Front[int] = Front(lambda number: number)
        for score, number in offered:
            front.offer(score, number)
        fronts.append(front.sorted())
        draw.shuffle(offered)
    assert fronts[0] == fronts[1]
    for score, number in fronts[0]:
        assert number == min(n for s, n in offered if s == score)
    assert Front.of(fronts[0], lambda number: number).sorted() == fronts[0]


@given(RANKED, st.integers(0, 4), st.integers(0, 4), st.integers(0, 3))
def test_what_is_worth_a_look_is_what_is_not_beaten(
    offered: list[tuple[Score, int]], cost: int, angle: int, fall: int
) -> None:
    front: Front[int] = Front(lambda number: number)
    for score, number in offered:
        front.offer(score, number)
    wall = Score(cost, angle, fall)
    beaten = any(kept.at_least(wall) and kept != wall for kept in front.members)
    limit = front.worth_below_cents(np.array([angle]), np.array([fall]))
    assert (cost < int(limit[0])) == (not beaten)


def test_of_equal_scores_the_first_is_kept() -> None:
    front: Front[str] = Front()
    assert front.offer(Score(1, 2, 3), "first")
    assert not front.offer(Score(1, 2, 3), "second")
    assert front.sorted() == [(Score(1, 2, 3), "first")]
