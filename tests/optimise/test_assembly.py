"""The order of hanging against every possible order of small boards, tried out one by one."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from steepwright.optimise.assembly import KINDS, Part, best_order
from steepwright.structure.raising import Body

G = 9.80665
LENGTH = 2500.0


def part(kind: str, kg: float, up: float) -> Part:
    return Part(kind, kind, Body(kg, up, 600.0))


RAILS = (part("rail", 3.0, 30.0), part("rail", 3.0, 2470.0), part("stud", 5.0, 1250.0))


def lift_n(kind: str, kg: float) -> float:
    return kg * G * (1.0 if kind == "seam blocking" else 0.5)


def tried(others: tuple[Part, ...]) -> tuple[float, int]:
    """Return the least heaviest lift, and the most parts raised with it, over all subsets."""
    best: list[tuple[float, int]] = []
    for count in range(len(others) + 1):
        for chosen in itertools.combinations(range(len(others)), count):
            on = [others[i] for i in chosen]
            off = [others[i] for i in range(len(others)) if i not in chosen]
            most = max((KINDS.index(p.kind) for p in on), default=-1)
            if any(KINDS.index(p.kind) < most for p in off):
                continue
            moment = sum(p.body.mass_kg * p.body.up_mm for p in (*RAILS, *on))
            lifts = [moment * G / LENGTH, *(lift_n(p.kind, p.body.mass_kg) for p in off)]
            best.append((max(lifts), -count))
    least = min(value for value, _ in best)
    return least, -min(count for value, count in best if value <= least + 1e-9)


@settings(max_examples=150, deadline=None)
@given(
    st.lists(
        st.tuples(st.sampled_from(KINDS), st.integers(1, 45), st.integers(1, 24)),
        max_size=8,
    )
)
@example([("stud", 5, 5), ("stud", 13, 2)])
def test_no_other_order_has_a_smaller_heaviest_lift_or_fewer_jobs_overhead(rows):
    others = tuple(part(kind, float(kg), 100.0 * up) for kind, kg, up in rows)
    order = best_order(RAILS, others, LENGTH)
    least, count = tried(others)
    assert order.heaviest_n == pytest.approx(least)
    raised = sum(n for _, n in order.steps[0].parts) - len(RAILS)
    assert raised == count
    assert max(s.force_n for s in order.steps if s.where != "lower edge") <= least + 1e-6


def test_a_bare_frame_goes_up_first_when_the_sheets_are_heavy():
    sheets = tuple(part("board sheet", 20.0, up) for up in (600.0, 1900.0))
    studs = (part("stud", 5.0, 1250.0),)
    order = best_order(RAILS, studs + sheets, LENGTH)
    first, _, *adds = order.steps
    assert dict(first.parts) == {"rail": 2, "stud": 2}
    assert [step.parts for step in adds] == [(("board sheet", 2),)]
    # (3 x 30 + 3 x 2470 + 5 x 1250 + 5 x 1250) / 2500 = 8 kg at the lip; a sheet's half is 10 kg.
    assert first.force_n == pytest.approx(8.0 * G)
    assert order.heaviest_n == pytest.approx(10.0 * G)
    # Whole: 8 + 20 x (600 + 1900) / 2500 = 28 kg.
    assert order.whole_n == pytest.approx(28.0 * G)
    assert adds[-1].hung.mass_kg == pytest.approx(56.0)
