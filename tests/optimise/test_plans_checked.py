"""No command tells a cut plan that isn't what was asked for: it is carried out first."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from small_rooms import small_catalog, small_room

from steepwright.cutting.records import BarPlan, SheetPlan
from steepwright.optimise import exact, search


def moved(plan: SheetPlan) -> SheetPlan:
    """The first sheet's first part lies a millimetre off."""
    first, *others = plan.layouts
    part, *parts = first.parts
    off = replace(part, x_mm=part.x_mm + 1)
    return replace(plan, layouts=(replace(first, parts=(off, *parts)), *others))


def short(plan: BarPlan) -> BarPlan:
    """A piece is left out."""
    first, *others = plan.layouts
    return replace(plan, layouts=(replace(first, pieces=first.pieces[1:]), *others))


@pytest.mark.parametrize(
    ("solver", "spoilt", "told"),
    [("cut_sheets", moved, "is not a block that the cuts leave"), ("cut_bars", short, "are cut")],
)
def test_a_wrong_plan_is_never_told(
    solver: str, spoilt: Any, told: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    right = getattr(exact, solver)
    monkeypatch.setattr(exact, solver, lambda *asked: spoilt(right(*asked)))
    with pytest.raises(AssertionError, match=told):
        search(small_room(5), small_catalog(5), changes=False)
